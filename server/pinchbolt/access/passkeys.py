"""An owner's passkeys (W3C Web Authentication, level 3): the secret is in the owner's hand, and nothing here is one.

The library checks challenge, origin, signature and that the person was verified; here stands which keys there are and whose.
"""

import json
import time
from typing import Any

import webauthn
from webauthn.helpers import base64url_to_bytes, bytes_to_base64url
from webauthn.helpers.exceptions import WebAuthnException
from webauthn.helpers.structs import (
    AuthenticatorSelectionCriteria,
    PublicKeyCredentialDescriptor,
    ResidentKeyRequirement,
    UserVerificationRequirement,
)

from pinchbolt.access.people import Person
from pinchbolt.kernel.errors import refuse
from pinchbolt.store.database import Database
from pinchbolt.store.pool import Pool

# A ceremony is over in a minute or two.
CHALLENGE_SECONDS = 5 * 60
MOST_KEYS = 10


class Passkeys:
    """Safe to use from any thread. `host` and `origin` are the address the browser sees, which a passkey is bound to."""

    def __init__(self, database: Database) -> None:
        self._pool = Pool(database)

    def close(self) -> None:
        self._pool.close()

    def begin_adding(self, owner: Person, host: str) -> dict[str, Any]:
        """What the browser needs to make a passkey for this owner. Raises InputError."""
        if owner.role != "owner":
            raise refuse("person", owner.id, "an owner; the others are let in by a code")
        with self._pool.reading() as conn:
            held = [one for (one,) in conn.execute("SELECT credential FROM passkeys WHERE person = ?", (owner.id,))]
        if len(held) >= MOST_KEYS:
            raise refuse("passkey", f"{len(held)} already", f"at most {MOST_KEYS}")
        options = webauthn.generate_registration_options(
            rp_id=host,
            rp_name="Pinchbolt",
            user_name=owner.name,
            user_id=owner.id.encode(),
            authenticator_selection=AuthenticatorSelectionCriteria(
                resident_key=ResidentKeyRequirement.REQUIRED, user_verification=UserVerificationRequirement.REQUIRED
            ),
            exclude_credentials=[PublicKeyCredentialDescriptor(base64url_to_bytes(one)) for one in held],
        )
        self._remember(options.challenge)
        return json.loads(webauthn.options_to_json(options))

    def add(self, owner: Person, credential: dict[str, Any], host: str, origin: str) -> None:
        """Keep the passkey the browser made. Raises InputError."""
        try:
            made = webauthn.verify_registration_response(
                credential=credential,
                expected_challenge=self._used_up(credential),
                expected_rp_id=host,
                expected_origin=origin,
                require_user_verification=True,
            )
        except (WebAuthnException, ValueError, TypeError, KeyError):
            raise refuse("credential", "something else", "a passkey just made for this workshop") from None
        with self._pool.alone() as conn:
            conn.execute(
                "INSERT INTO passkeys (credential, person, key, uses, added_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
                (
                    bytes_to_base64url(made.credential_id),
                    owner.id,
                    bytes_to_base64url(made.credential_public_key),
                    made.sign_count,
                    int(time.time()),
                ),
            )

    def begin_login(self, host: str) -> dict[str, Any]:
        """What the browser needs to ask for a passkey; which ones there are is not said."""
        options = webauthn.generate_authentication_options(rp_id=host, user_verification=UserVerificationRequirement.REQUIRED)
        self._remember(options.challenge)
        return json.loads(webauthn.options_to_json(options))

    def owner_of(self, credential: dict[str, Any], host: str, origin: str) -> str | None:
        """The id of the owner whose passkey signed this; None when it is nobody's, or not sound."""
        with self._pool.reading() as conn:
            row = conn.execute(
                "SELECT k.person, k.key, k.uses FROM passkeys k JOIN people p ON p.id = k.person"
                " WHERE k.credential = ? AND p.role = 'owner' AND p.forgotten_at IS NULL",
                (str(credential.get("id")),),
            ).fetchone()
        if row is None:
            return None
        person, key, uses = row
        try:
            shown = webauthn.verify_authentication_response(
                credential=credential,
                expected_challenge=self._used_up(credential),
                expected_rp_id=host,
                expected_origin=origin,
                credential_public_key=base64url_to_bytes(key),
                credential_current_sign_count=uses,
                require_user_verification=True,
            )
        except (WebAuthnException, ValueError, TypeError, KeyError):
            return None
        with self._pool.alone() as conn:
            conn.execute("UPDATE passkeys SET uses = ? WHERE credential = ?", (shown.new_sign_count, str(credential["id"])))
        return str(person)

    def _remember(self, challenge: bytes) -> None:
        now = int(time.time())
        with self._pool.alone() as conn:
            conn.execute("DELETE FROM challenges WHERE expires_at < ?", (now,))
            conn.execute(
                "INSERT INTO challenges (challenge, expires_at) VALUES (?, ?)",
                (bytes_to_base64url(challenge), now + CHALLENGE_SECONDS),
            )

    def _used_up(self, credential: dict[str, Any]) -> bytes:
        """The challenge this says it answers (the library checks that), good once; ValueError when none of ours is open."""
        told = json.loads(base64url_to_bytes(str(credential["response"]["clientDataJSON"])))
        challenge = str(told["challenge"])
        with self._pool.alone() as conn:
            done = conn.execute(
                "DELETE FROM challenges WHERE challenge = ? AND expires_at >= ?", (challenge, int(time.time()))
            ).rowcount
        if done != 1:
            raise ValueError("no such challenge is open")
        return base64url_to_bytes(challenge)
