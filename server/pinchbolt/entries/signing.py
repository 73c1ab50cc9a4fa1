"""A device's signature under the head of its chain: ECDSA over P-256 with SHA-256, as browsers make it (Web Cryptography API).

What is signed is one small text that names device, n and hash. Since every entry names the hash of the one before it, a
signed head vouches for the whole chain below it.
"""

import base64
import hashlib
from typing import Annotated, Literal

import msgspec
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from msgspec import Meta, Struct

from pinchbolt.entries.fields import Hash, Place
from pinchbolt.kernel.errors import refuse

# 32 and 64 bytes in base64url without padding (RFC 4648, 5).
Coordinate = Annotated[str, Meta(pattern=r"^[A-Za-z0-9_-]{43}\Z")]
Signature = Annotated[str, Meta(pattern=r"^[A-Za-z0-9_-]{86}\Z")]


class Jwk(Struct, frozen=True):
    """A public key (RFC 7517; RFC 7518, 6.2). What else a browser writes into it is passed over."""

    kty: Literal["EC"]
    crv: Literal["P-256"]
    x: Coordinate
    y: Coordinate


class Head(Struct, forbid_unknown_fields=True, frozen=True):
    """The head of a chain, signed: as it comes with a push."""

    n: Place
    hash: Hash
    signature: Signature


def thumbprint(jwk: Jwk) -> str:
    """The key's name (RFC 7638): SHA-256 of its required fields in order."""
    required = msgspec.json.encode({"crv": jwk.crv, "kty": jwk.kty, "x": jwk.x, "y": jwk.y})
    return base64.urlsafe_b64encode(hashlib.sha256(required).digest()).rstrip(b"=").decode()


def statement(device: str, n: int, hash: str) -> bytes:
    """What is signed."""
    return f"pinchbolt head\n{device}\n{n}\n{hash}\n".encode()


def check_key(jwk: Jwk) -> None:
    """Raises InputError when it is no point of the curve."""
    try:
        _public(jwk)
    except ValueError:
        raise refuse("key", "a key", "a point of the curve P-256") from None


def is_signed(jwk: Jwk, device: str, head: Head) -> bool:
    """Whether this key signed this head of this device."""
    raw = _bytes(head.signature)
    der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
    try:
        _public(jwk).verify(der, statement(device, head.n, head.hash), ec.ECDSA(SHA256()))
    except (InvalidSignature, ValueError):
        return False
    return True


def _public(jwk: Jwk) -> ec.EllipticCurvePublicKey:
    x, y = (int.from_bytes(_bytes(c), "big") for c in (jwk.x, jwk.y))
    return ec.EllipticCurvePublicNumbers(x, y, ec.SECP256R1()).public_key()


def _bytes(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))
