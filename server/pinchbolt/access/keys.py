"""Making devices' keys known, and finding which of them signed."""

from pinchbolt.entries.signing import Head, Jwk, check_key, is_signed, thumbprint
from pinchbolt.store.database import Database
from pinchbolt.store.entry_log import received_now
from pinchbolt.store.keys import Key, Signed, heads, keys
from pinchbolt.store.pool import Pool


class Keys:
    """The keys, in the database of the log. Safe to use from any thread."""

    def __init__(self, database: Database) -> None:
        self._pool = Pool(database)

    def close(self) -> None:
        self._pool.close()

    def enrol(self, device: str, jwk: Jwk) -> str:
        """Make a device's key known; returns its name. A device that lost its key makes a new one. Raises InputError."""
        check_key(jwk)
        kid = thumbprint(jwk)
        with self._pool.alone() as conn:
            conn.execute(
                "INSERT INTO keys (device, kid, x, y, enrolled_at, after_n)"
                " VALUES (?, ?, ?, ?, ?, coalesce((SELECT top FROM chains WHERE device = ?), 0)) ON CONFLICT DO NOTHING",
                (device, kid, jwk.x, jwk.y, received_now(), device),
            )
        return kid

    def signer(self, device: str, head: Head) -> str | None:
        """Which of the device's keys signed this head."""
        with self._pool.reading() as conn:
            known = keys(conn, device)
        return next((key.kid for key in known if is_signed(key.jwk, device, head)), None)

    def everything(self) -> tuple[list[Key], list[Signed]]:
        """All keys and all signed heads."""
        with self._pool.reading() as conn:
            return keys(conn), heads(conn)
