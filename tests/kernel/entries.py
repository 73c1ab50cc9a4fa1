"""Entries for fold tests: devices that write, a server that orders, devices that pull or do not."""

from dataclasses import dataclass, field
from typing import Any

BIKE = "bike/00000000-0000-4000-8000-00000000b1ce"


@dataclass
class World:
    """Devices write into it; `pull` lets one see what the server has so far."""

    log: list[dict[str, Any]] = field(default_factory=list[dict[str, Any]])
    seen: dict[str, int] = field(default_factory=dict[str, int])
    clock: int = 0

    def write(self, device: str, kind: str, body: dict[str, Any], by: str = "somebody") -> str:
        """One entry by `device`, sent at once; its id."""
        self.clock += 1
        id = f"entry-{len(self.log):05d}"
        entry = {
            "id": id,
            "subject": BIKE,
            "kind": kind,
            "noted_at": f"2026-05-01T00:{self.clock // 60:02d}:{self.clock % 60:02d}.000Z",
            "stamp": f"{self.clock:013d}-0000-{device:>08}",
            "device": device,
            "n": self.clock,
            "prev": "",
            "seen": self.seen.get(device, 0),
            "by": by,
            "body": body,
        }
        self.log.append({"seq": len(self.log) + 1, "entry": entry})
        return id

    def pull(self, *devices: str) -> None:
        for device in devices:
            self.seen[device] = len(self.log)
