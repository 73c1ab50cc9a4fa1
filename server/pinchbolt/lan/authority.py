"""A workshop's own certificate authority and the server's certificate, as files in a folder of the data.

The authority may speak for addresses and names of private networks only (name constraints, RFC 5280 4.2.1.10): a phone that
trusts it is not made to trust it about anything on the internet, even if its key is stolen.
"""

import os
from collections.abc import Sequence
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path
from typing import NamedTuple

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from pinchbolt.lan.addresses import Address

FOLDER = "lan"
AUTHORITY_DAYS = 3650
# Phones refuse server certificates that are good for longer than 825 days, even of an authority somebody added; browsers
# settled on 398 for the public ones. From memory.
SERVER_DAYS = 397
RENEW_DAYS = 30
# A clock a little behind must not take a new certificate for one of the future.
SLACK = timedelta(hours=24)

NETWORKS = (
    "10.0.0.0/8",
    "172.16.0.0/12",
    "192.168.0.0/16",
    "169.254.0.0/16",
    "127.0.0.0/8",
    "fc00::/7",
    "fe80::/10",
    "::1/128",
)
DOMAINS = ("local", "lan", "home.arpa", "internal", "localhost")


class Files(NamedTuple):
    """Where everything lies. `authority_key` is never served and never leaves the machine."""

    authority: Path
    authority_key: Path
    certificate: Path
    key: Path


class Authority:
    """The authority in `folder`, made on first use. `clock` says what time it is."""

    def __init__(self, folder: Path, host: str, workshop: str = "Workshop") -> None:
        self._folder = folder
        self.files = Files(*(folder / name for name in ("authority.crt", "authority.key", "server.crt", "server.key")))
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder.chmod(0o700)
        if not (self.files.authority.exists() and self.files.authority_key.exists()):
            self._make_authority(host, workshop, datetime.now(UTC))
        self.certificate = x509.load_pem_x509_certificate(self.files.authority.read_bytes())

    @property
    def der(self) -> bytes:
        """The authority's certificate as phones take it (application/x-x509-ca-cert)."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the authority's certificate, in pairs, as phones show it."""
        return ":".join(f"{byte:02X}" for byte in self.certificate.fingerprint(hashes.SHA256()))

    def speaks_for(self, name: str) -> bool:
        """Whether a certificate of this authority may carry this DNS name."""
        return any(name == domain or name.endswith("." + domain) for domain in self._permitted_names())

    def renew(self, names: Sequence[str], addresses: Sequence[Address], now: datetime | None = None) -> bool:
        """Make the server's certificate when there is none, it ends soon, or lacks one of these. True when it is new."""
        at = now or datetime.now(UTC)
        spoken = [name for name in names if self.speaks_for(name)]
        private = [a for a in addresses if any(a in ip_network(n) for n in NETWORKS if ip_network(n).version == a.version)]
        if not self._due(spoken, private, at):
            return False
        self._make_server(spoken, private, at)
        return True

    def _permitted_names(self) -> list[str]:
        constraints = self.certificate.extensions.get_extension_for_class(x509.NameConstraints).value
        return [n.value for n in constraints.permitted_subtrees or [] if isinstance(n, x509.DNSName)]

    def _due(self, names: Sequence[str], addresses: Sequence[Address], at: datetime) -> bool:
        if not (self.files.certificate.exists() and self.files.key.exists()):
            return True
        held = x509.load_pem_x509_certificate(self.files.certificate.read_bytes())
        if held.not_valid_after_utc - at < timedelta(days=RENEW_DAYS) or held.issuer != self.certificate.subject:
            return True
        carried = held.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
        return not (
            set(names) <= set(carried.get_values_for_type(x509.DNSName))
            and set(addresses) <= set(carried.get_values_for_type(x509.IPAddress))
        )

    def _make_authority(self, host: str, workshop: str, at: datetime) -> None:
        key = ec.generate_private_key(ec.SECP256R1())
        name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Pinchbolt at {workshop}"[:64])])
        permitted = [x509.DNSName(d) for d in (*DOMAINS, *([host] if host else []))]
        permitted_networks = [x509.IPAddress(ip_network(n)) for n in NETWORKS]
        certificate = (
            _builder(name, name, key.public_key(), at, AUTHORITY_DAYS)
            .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
            .add_extension(_usage(signs=True), critical=True)
            .add_extension(x509.NameConstraints([*permitted, *permitted_networks], None), critical=True)
            .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
            .sign(key, hashes.SHA256())
        )
        _write(self.files.authority_key, _pem(key))
        _write(self.files.authority, certificate.public_bytes(serialization.Encoding.PEM))

    def _make_server(self, names: Sequence[str], addresses: Sequence[Address], at: datetime) -> None:
        signer = serialization.load_pem_private_key(self.files.authority_key.read_bytes(), password=None)
        if not isinstance(signer, ec.EllipticCurvePrivateKey):
            raise TypeError(f"{self.files.authority_key} is not the key that was made here")
        key = ec.generate_private_key(ec.SECP256R1())
        carried = [
            *(x509.DNSName(n) for n in dict.fromkeys([*names, "localhost"])),
            *(x509.IPAddress(a) for a in dict.fromkeys([*addresses, ip_address("127.0.0.1"), ip_address("::1")])),
        ]
        subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Pinchbolt")])
        days = min(SERVER_DAYS, (self.certificate.not_valid_after_utc - at).days)
        certificate = (
            _builder(subject, self.certificate.subject, key.public_key(), at, days)
            .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
            .add_extension(_usage(signs=False), critical=True)
            .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
            .add_extension(x509.SubjectAlternativeName(carried), critical=False)
            .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False)
            .sign(signer, hashes.SHA256())
        )
        _write(self.files.key, _pem(key))
        _write(self.files.certificate, certificate.public_bytes(serialization.Encoding.PEM))


def _builder(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, at: datetime, days: int
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(at - SLACK)
        .not_valid_after(at - SLACK + timedelta(days=days))
    )


def _usage(signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs,
        crl_sign=signs,
        encipher_only=False,
        decipher_only=False,
    )


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())


def _write(file: Path, content: bytes) -> None:
    """Write beside and put in place, readable by the owner alone from the first byte on."""
    beside = file.with_suffix(file.suffix + ".new")
    with suppress(FileNotFoundError):
        beside.unlink()
    with os.fdopen(os.open(beside, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    beside.replace(file)
