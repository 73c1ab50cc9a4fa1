"""Check an exported record without Pinchbolt: `python verify_record.py EXPORT.jsonl`.

Needs Python 3.11 and the library `cryptography`, and reads one file made by `pinchbolt export --proof`. What it checks, and
what that does and does not show, is said in verify.md. Exit code 0: nothing wrong; 1: something is, and it was named.
"""

import base64
import hashlib
import json
import sys
from typing import Any

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256

Chain = dict[int, tuple[str, str]]


def value_text(line: str, name: str) -> str:
    """The exact text of the field `name`, the last one of its line."""
    return line[line.index(f'"{name}":') + len(name) + 3 : line.rindex("}")]


def decoded(text: str) -> bytes:
    """base64url without padding (RFC 4648, 5)."""
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def public_key(jwk: dict[str, str]) -> ec.EllipticCurvePublicKey:
    """RFC 7518, 6.2.1."""
    x, y = (int.from_bytes(decoded(jwk[c]), "big") for c in ("x", "y"))
    return ec.EllipticCurvePublicNumbers(x, y, ec.SECP256R1()).public_key()


def thumbprint(jwk: dict[str, str]) -> str:
    """RFC 7638."""
    required = json.dumps({n: jwk[n] for n in ("crv", "kty", "x", "y")}, separators=(",", ":")).encode()
    return base64.urlsafe_b64encode(hashlib.sha256(required).digest()).rstrip(b"=").decode()


def is_signed(jwk: dict[str, str], head: dict[str, Any]) -> bool:
    raw = decoded(head["signature"])
    der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
    said = f"pinchbolt head\n{head['device']}\n{head['n']}\n{head['hash']}\n".encode()
    try:
        public_key(jwk).verify(der, said, ec.ECDSA(SHA256()))
    except (InvalidSignature, ValueError):
        return False
    return True


def chain_faults(device: str, chain: Chain) -> list[str]:
    """Each entry must name the hash of the one before it, from n 1 on without a gap."""
    faults: list[str] = []
    prev = "0" * 64
    for at, n in enumerate(sorted(chain), start=1):
        digest, named = chain[n]
        if n != at:
            return [*faults, f"device {device}: n {at} is not in the file"]
        if named != prev:
            faults.append(f"device {device}, n {n}: it names {named[:12]}… as the one before it, which is {prev[:12]}…")
        prev = digest
    return faults


def main(path: str) -> int:
    chains: dict[str, Chain] = {}
    keys: dict[tuple[str, str], dict[str, Any]] = {}
    heads: list[dict[str, Any]] = []
    faults: list[str] = []
    with open(path, encoding="utf-8", newline="\n") as file:
        for line in file:
            told = json.loads(line)
            if "key" in told:
                keys[told["key"]["device"], told["key"]["kid"]] = told["key"]
            elif "head" in told:
                heads.append(told["head"])
            else:
                name = "entry" if "entry" in told else "refused"
                entry = told[name]
                digest = hashlib.sha256(value_text(line, name).encode()).hexdigest()
                chain = chains.setdefault(entry["device"], {})
                if entry["n"] in chain:
                    faults.append(f"device {entry['device']}, n {entry['n']}: twice in the file")
                chain[entry["n"]] = (digest, entry["prev"])
    for device, chain in sorted(chains.items()):
        faults += chain_faults(device, chain)
    for kid, key in keys.items():
        if thumbprint(key["jwk"]) != kid[1]:
            faults.append(f"device {kid[0]}: a key is not the one of its name {kid[1]}")
    signed: dict[str, int] = {}
    for head in heads:
        device, n = head["device"], head["n"]
        key = keys.get((device, head["kid"]))
        if key is None or not is_signed(key["jwk"], head):
            faults.append(f"device {device}, head at n {n}: not signed by a key of this device")
        elif chains.get(device, {}).get(n, ("", ""))[0] != head["hash"]:
            faults.append(f"device {device}, head at n {n}: the device signed another entry than the file holds")
        else:
            signed[device] = max(signed.get(device, 0), n)
    for device, chain in sorted(chains.items()):
        first = min((key["after_n"] for (of, _), key in keys.items() if of == device), default=None)
        older = "no key" if first is None else f"up to n {first} from before its key" if first else "all since its key"
        print(f"device {device}: {len(chain)} entries, signed up to n {signed.get(device, 0)} ({older})")
    for fault in faults:
        print(fault)
    print(f"{len(faults)} found wrong" if faults else "nothing found wrong")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
