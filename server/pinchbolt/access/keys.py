"""Making devices' keys known, and finding which of them signed."""

import threading
from pathlib import Path

from pinchbolt.entries.signing import Head, Jwk, check_key, is_signed, thumbprint
from pinchbolt.store.keys import Key, Signed, heads, keys
from pinchbolt.store.sqlite import connect, received_now


class Keys:
    """The keys, in the database file of the log. Safe to use from any thread."""

    def __init__(self, file: Path) -> None:
        self._conn = connect(file)
        self._lock = threading.Lock()

    def close(self) -> None:
        with self._lock:
            self._conn.close()

    def enrol(self, device: str, jwk: Jwk) -> str:
        """Make a device's key known; returns its name. A device that lost its key makes a new one. Raises InputError."""
        check_key(jwk)
        kid = thumbprint(jwk)
        with self._lock:
            self._conn.execute(
                "INSERT OR IGNORE INTO keys (device, kid, x, y, enrolled_at, after_n)"
                " VALUES (?, ?, ?, ?, ?, coalesce((SELECT top FROM chains WHERE device = ?), 0))",
                (device, kid, jwk.x, jwk.y, received_now(), device),
            )
        return kid

    def signer(self, device: str, head: Head) -> str | None:
        """Which of the device's keys signed this head."""
        with self._lock:
            known = keys(self._conn, device)
        return next((key.kid for key in known if is_signed(key.jwk, device, head)), None)

    def everything(self) -> tuple[list[Key], list[Signed]]:
        """All keys and all signed heads."""
        with self._lock:
            return keys(self._conn), heads(self._conn)
