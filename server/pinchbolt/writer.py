"""A device that writes entries, as docs/record.md defines them: for the demo, for tests, for any client in Python."""

import hashlib
import json
from datetime import UTC, datetime
from typing import Any

NO_PREV = "0" * 64


def uuid7(ms: int, entropy: bytes) -> str:
    """A UUIDv7 (RFC 9562, 5.7) of `ms` milliseconds since 1970 and at least 10 bytes of `entropy`."""
    raw = bytearray(ms.to_bytes(6, "big") + entropy[:10])
    raw[6] = 0x70 | (raw[6] & 0x0F)
    raw[8] = 0x80 | (raw[8] & 0x3F)
    text = raw.hex()
    return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"


class Writer:
    """One device's pen: keeps its counter, its chain and its hybrid logical clock."""

    def __init__(self, device: str, by: str) -> None:
        self.device = device
        self.by = by
        self.n = 0
        self.prev = NO_PREV
        self.seen = 0
        self._ms = 0
        self._count = 0

    def pulled(self, seq: int, stamp: str) -> None:
        """The device has pulled up to `seq`; `stamp` is the highest stamp among what came."""
        self.seen = max(self.seen, seq)
        self._ms, self._count = max((self._ms, self._count), (int(stamp[:13]), int(stamp[14:18], 16)))

    def write(self, subject: str, kind: str, body: dict[str, Any], now: datetime) -> bytes:
        """The next entry's bytes; the device's clock says `now`."""
        clock = int(now.timestamp() * 1000)
        if clock > self._ms:
            self._ms, self._count = clock, 0
        else:
            self._count += 1
            if self._count > 0xFFFF:
                self._ms, self._count = self._ms + 1, 0
        self.n += 1
        entry = {
            "id": uuid7(clock, hashlib.sha256(f"{self.device}/{self.n}/{self.prev}".encode()).digest()),
            "subject": subject,
            "kind": kind,
            "noted_at": now.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
            "stamp": f"{self._ms:013d}-{self._count:04x}-{self.device[:8]}",
            "device": self.device,
            "n": self.n,
            "prev": self.prev,
            "seen": self.seen,
            "by": self.by,
            "body": body,
        }
        text = json.dumps(entry, ensure_ascii=False, separators=(",", ":")).encode()
        self.prev = hashlib.sha256(text).hexdigest()
        return text


def batch(device: str, entries: list[bytes]) -> bytes:
    """The body of a push: the entries' bytes as they stand, joined."""
    return b'{"device":"' + device.encode() + b'","entries":[' + b",".join(entries) + b"]}"
