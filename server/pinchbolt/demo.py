"""The invented scenario: the valley workshop's season, written into the log through the same push a phone uses.

The scenario is `demo_data/*.jsonl`: one line an entry to be, with the day counted back from today, the device that writes it
and the entry's subject, kind and body. A line may be `unseen`: its device had no signal and had not pulled what others wrote
since its last line. `name` lets a later line refer to the entry as `"@name"`; `"@day N"` is the date N days from today.
"""

import json
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from importlib import resources
from pathlib import Path
from typing import Any, Protocol

from pinchbolt.writer import Writer, batch


class Workshop(Protocol):
    """What loading needs of a workshop."""

    def add_person(self, id: str, name: str, role: str) -> None: ...

    def add_device(self, id: str, name: str, person: str) -> None: ...

    def push(self, device: str, body: bytes) -> dict[str, Any]: ...


@dataclass
class Hand:
    """One device of the scenario: its pen, and what it has written and not yet sent."""

    writer: Writer
    waiting: list[bytes] = field(default_factory=list[bytes])


def folder() -> Path:
    """Where the scenario lies: inside the installed package, or in the repository."""
    packed = Path(str(resources.files("pinchbolt"))) / "demo_data"
    return packed if packed.is_dir() else Path(__file__).parents[2] / "demo_data"


def lines(data: Path) -> list[dict[str, Any]]:
    """All lines of the scenario in the order of their days and times."""
    found: list[dict[str, Any]] = []
    for path in sorted(data.glob("*.jsonl")):
        found += [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line]
    return sorted(found, key=lambda line: (line["day"], line["time"]))


def load(workshop: Workshop, today: datetime | None = None) -> int:
    """Write the whole season into `workshop` and return how many entries it took.

    Raises RuntimeError when the workshop refuses one: the scenario must always be good.
    """
    data = folder()
    told = json.loads((data / "people.json").read_text(encoding="utf-8"))
    for person in told["people"]:
        workshop.add_person(person["id"], person["name"], person["role"])
    hands: dict[str, Hand] = {}
    for device in told["devices"]:
        workshop.add_device(device["id"], device["name"], device["person"])
        hands[device["key"]] = Hand(Writer(device["id"], device["person"]))
    midnight = (today or datetime.now(UTC)).replace(hour=0, minute=0, second=0, microsecond=0)
    log = _Log(workshop)
    names: dict[str, str] = {}
    for line in lines(data):
        hand = hands[line["device"]]
        if not line.get("unseen"):
            for other in hands.values():
                log.send(other)
            hand.writer.pulled(log.seq, log.stamp)
        hour, minute = line["time"].split(":")
        now = midnight + timedelta(days=line["day"], hours=int(hour), minutes=int(minute))
        body = _resolve(line["body"], names, midnight)
        text = hand.writer.write(line["subject"], line["kind"], body, now)
        if "name" in line:
            names[line["name"]] = json.loads(text)["id"]
        hand.waiting.append(text)
    for hand in hands.values():
        log.send(hand)
    return log.count


class _Log:
    """Pushes, and remembers how far the server's order has come."""

    def __init__(self, workshop: Workshop) -> None:
        self.workshop = workshop
        self.seq = 0
        self.stamp = "0" * 13 + "-0000-00000000"
        self.count = 0

    def send(self, hand: Hand) -> None:
        if not hand.waiting:
            return
        answer = self.workshop.push(hand.writer.device, batch(hand.writer.device, hand.waiting))
        for text, one in zip(hand.waiting, answer["answers"], strict=True):
            if one["outcome"] != "stored":
                raise RuntimeError(f"the scenario was not taken: {one} for {text.decode()}")
            self.seq = max(self.seq, one["seq"])
            self.stamp = max(self.stamp, json.loads(text)["stamp"])
            self.count += 1
        hand.waiting.clear()


def _resolve(value: Any, names: dict[str, str], midnight: datetime) -> Any:
    """`value` with "@name" and "@day N" put in."""
    if isinstance(value, str) and value.startswith("@"):
        if value.startswith("@day "):
            return (midnight + timedelta(days=int(value[5:]))).date().isoformat()
        return names[value[1:]]
    if isinstance(value, dict):
        return {k: _resolve(v, names, midnight) for k, v in value.items()}  # pyright: ignore[reportUnknownVariableType]
    if isinstance(value, list):
        return [_resolve(v, names, midnight) for v in value]  # pyright: ignore[reportUnknownVariableType]
    return value
