"""An owner's passphrase, for letting a new machine in when no paired one is at hand. Optional: none is set unless asked for."""

import secrets
import time
from base64 import b64encode

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from pinchbolt.kernel.errors import refuse
from pinchbolt.store.database import Database
from pinchbolt.store.pool import Pool

LEAST = 15
MOST = 200


def nobodys(hasher: PasswordHasher) -> str:
    """A hash as this hasher makes them, of no passphrase: as much work to hold one against, and none to make."""
    made, salt = (b64encode(secrets.token_bytes(many)).rstrip(b"=").decode() for many in (hasher.hash_len, hasher.salt_len))
    return f"$argon2id$v=19$m={hasher.memory_cost},t={hasher.time_cost},p={hasher.parallelism}${salt}${made}"


class Passphrases:
    """Kept as argon2id hashes (RFC 9106, the library's own parameters). Safe to use from any thread."""

    def __init__(self, database: Database) -> None:
        self._pool = Pool(database)
        self._hasher = PasswordHasher()
        # Held against when there is none, so that the time taken does not tell who has one.
        self._nobody = nobodys(self._hasher)

    def close(self) -> None:
        self._pool.close()

    def set(self, person: str, passphrase: str) -> None:
        """Set or replace it. Raises InputError."""
        with self._pool.reading() as conn:
            row = conn.execute("SELECT role FROM people WHERE id = ?", (person,)).fetchone()
        if row is None or row[0] != "owner":
            raise refuse("person", person, "an owner; the others are let in by a code")
        if not LEAST <= len(passphrase) <= MOST:
            raise refuse("passphrase", f"{len(passphrase)} characters", f"{LEAST} to {MOST} characters")
        hashed = self._hasher.hash(passphrase)
        with self._pool.alone() as conn:
            conn.execute(
                "INSERT INTO passphrases (person, hash, set_at) VALUES (?, ?, ?)"
                " ON CONFLICT (person) DO UPDATE SET hash = excluded.hash, set_at = excluded.set_at",
                (person, hashed, int(time.time())),
            )

    def clear(self, person: str) -> bool:
        """Take it away; False when there was none."""
        with self._pool.alone() as conn:
            return conn.execute("DELETE FROM passphrases WHERE person = ?", (person,)).rowcount > 0

    def owner_of(self, name: str, passphrase: str) -> str | None:
        """The id of the owner of this name whose passphrase it is. Takes as long for an unknown name as for a known one."""
        with self._pool.reading() as conn:
            held = conn.execute(
                "SELECT p.id, h.hash FROM people p JOIN passphrases h ON h.person = p.id WHERE p.name = ? AND p.role = 'owner'"
                " ORDER BY p.id LIMIT 4",
                (name,),
            ).fetchall()
        found: str | None = None
        for person, hashed in held or [("", self._nobody)]:
            if self._fits(hashed, passphrase) and person:
                found = person
        return found

    def _fits(self, hashed: str, passphrase: str) -> bool:
        try:
            return self._hasher.verify(hashed, passphrase)
        except (VerificationError, InvalidHashError):
            return False
