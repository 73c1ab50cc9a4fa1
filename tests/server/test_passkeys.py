"""Passkeys on the server: what was signed is good once, and elsewhere for nothing. A software key in the tests' hand."""

import hashlib
import json
from typing import Any

import cbor2
import pytest
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from webauthn.helpers import bytes_to_base64url

from pinchbolt.access.people import Person
from pinchbolt.kernel.errors import InputError
from pinchbolt.workshop import Workshop
from tests.server import hands

HOST = "bench.example.org"
ORIGIN = "https://bench.example.org"
JUNO = Person(hands.JUNO, "Juno", "owner")
ID = b"a passkey of juno"
VERIFIED = 0x05  # user present, user verified (Web Authentication level 3, 6.1)
ATTESTED = 0x40


class SoftKey:
    """An authenticator as Web Authentication level 3 has it (6.1, 6.5.2, 8.7), its key in memory."""

    def __init__(self) -> None:
        self.key = ec.generate_private_key(ec.SECP256R1())
        self.uses = 0

    def _client(self, kind: str, challenge: str, origin: str) -> bytes:
        return json.dumps({"type": kind, "challenge": challenge, "origin": origin}).encode()

    def _data(self, flags: int, more: bytes = b"", host: str = HOST) -> bytes:
        self.uses += 1
        return hashlib.sha256(host.encode()).digest() + bytes([flags]) + self.uses.to_bytes(4, "big") + more

    def make(self, options: dict[str, Any], origin: str = ORIGIN) -> dict[str, Any]:
        point = self.key.public_key().public_numbers()
        cose = cbor2.dumps({1: 2, 3: -7, -1: 1, -2: point.x.to_bytes(32, "big"), -3: point.y.to_bytes(32, "big")})
        attested = bytes(16) + len(ID).to_bytes(2, "big") + ID + cose
        told = {"fmt": "none", "attStmt": {}, "authData": self._data(VERIFIED | ATTESTED, attested)}
        client = self._client("webauthn.create", options["challenge"], origin)
        return _credential(clientDataJSON=client, attestationObject=cbor2.dumps(told))

    def show(self, options: dict[str, Any], origin: str = ORIGIN, flags: int = VERIFIED) -> dict[str, Any]:
        client, data = self._client("webauthn.get", options["challenge"], origin), self._data(flags)
        signature = self.key.sign(data + hashlib.sha256(client).digest(), ec.ECDSA(hashes.SHA256()))
        return _credential(clientDataJSON=client, authenticatorData=data, signature=signature)


def _credential(**response: bytes) -> dict[str, Any]:
    id = bytes_to_base64url(ID)
    coded = {name: bytes_to_base64url(value) for name, value in response.items()}
    return {"id": id, "rawId": id, "type": "public-key", "response": coded}


@pytest.fixture
def soft(workshop: Workshop) -> SoftKey:
    key = SoftKey()
    workshop.passkeys.add(JUNO, key.make(workshop.passkeys.begin_adding(JUNO, HOST)), HOST, ORIGIN)
    return key


def test_an_owner_is_known_by_their_passkey_and_each_showing_is_good_once(workshop: Workshop, soft: SoftKey):
    shown = soft.show(workshop.passkeys.begin_login(HOST))
    assert workshop.passkeys.owner_of(shown, HOST, ORIGIN) == hands.JUNO
    assert workshop.passkeys.owner_of(shown, HOST, ORIGIN) is None, "replayed"


def test_what_is_not_sound_lets_nobody_in(workshop: Workshop, soft: SoftKey):
    keys = workshop.passkeys

    def begun() -> dict[str, Any]:
        return keys.begin_login(HOST)

    assert keys.owner_of(soft.show(begun(), origin="https://elsewhere.example.org"), HOST, ORIGIN) is None
    assert keys.owner_of(soft.show(begun(), flags=0x01), HOST, ORIGIN) is None, "present, not verified"
    assert keys.owner_of(soft.show({"challenge": bytes_to_base64url(b"made up by the asker")}), HOST, ORIGIN) is None
    assert keys.owner_of(SoftKey().show(begun()), HOST, ORIGIN) is None, "signed by another key"
    soft.uses = 0
    assert keys.owner_of(soft.show(begun()), HOST, ORIGIN) is None, "a copy whose counter lags behind"
    for nonsense in ({}, {"id": bytes_to_base64url(ID)}, {"id": bytes_to_base64url(ID), "response": {"clientDataJSON": "e30"}}):
        assert keys.owner_of(nonsense, HOST, ORIGIN) is None


def test_passkeys_are_for_owners_and_go_with_them(workshop: Workshop, soft: SoftKey):
    with pytest.raises(InputError, match="owner"):
        workshop.passkeys.begin_adding(Person(hands.BAS, "Bas", "mechanic"), HOST)
    workshop.people.add_person("Juno", "mechanic", hands.JUNO)
    assert workshop.passkeys.owner_of(soft.show(workshop.passkeys.begin_login(HOST)), HOST, ORIGIN) is None
