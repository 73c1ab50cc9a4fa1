"""Tokens and pairing codes: made here, kept only as their hashes."""

import secrets
from hashlib import sha256

# No I, L, O, U: a code can be read aloud and typed with a glove on.
_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_ALIKE = str.maketrans({"I": "1", "L": "1", "O": "0"})
CODE_LENGTH = 12


def new_token() -> str:
    """A device's token, 256 bits."""
    return secrets.token_urlsafe(32)


def new_code() -> str:
    """A pairing code of 60 bits, good once and for a short time."""
    return "".join(secrets.choice(_LETTERS) for _ in range(CODE_LENGTH))


def read_code(typed: str) -> str:
    """A code as somebody typed it: case, dashes, blanks and look-alike letters are forgiven.

    >>> read_code("8j2k-o1pm qrst")
    '8J2K01PMQRST'
    """
    return typed.upper().replace("-", "").replace(" ", "").translate(_ALIKE)


def hashed(secret: str) -> str:
    """What is kept of a secret. It is long and random, so a plain hash is enough, and looking one up leaks nothing of it."""
    return sha256(secret.encode()).hexdigest()
