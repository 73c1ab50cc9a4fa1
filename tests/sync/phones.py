"""Phones as docs/record.md describes them, in Python: the queue, receipts, the cursor and the epoch; and a workshop to talk to.

Written from the format's page and not from the app, so that the two can disagree. What goes over the wire is the real thing:
the server's own bytes out, the batch's own bytes in.
"""

import json
import shutil
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any, Protocol

import msgspec

from pinchbolt.access import rules
from pinchbolt.kernel.record import fold
from pinchbolt.store.sqlite.restoring import restore
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer, batch

# The fates of a request whose answer is heard as it was given.
HEARD = ("good", "twice")


@dataclass(frozen=True)
class Hand:
    """A person with a phone."""

    person: str
    name: str
    role: str
    device: str


class House:
    """A workshop over real files that can be killed, backed up and restored."""

    def __init__(self, folder: Path, hands: Iterable[Hand]) -> None:
        self.folder = folder
        self.lives = 0
        self.backups = 0
        self.hands = list(hands)
        # Devices that an owner shut out; nothing is taken from them and nothing given to them.
        self.shut_out: set[str] = set()
        self.workshop = Workshop(self._data())
        for hand in self.hands:
            self.workshop.add_person(hand.person, hand.name, hand.role)
            self.workshop.add_device(hand.device, hand.name + "'s phone", hand.person)

    def _data(self) -> Path:
        return self.folder / f"life-{self.lives}"

    def push(self, hand: Hand, body: bytes) -> bytes:
        device = self.workshop.people.device(hand.device)
        assert device is not None
        return msgspec.json.encode(self.workshop.submit(device, body).result(timeout=30))

    def pull(self, hand: Hand, after: int, limit: int) -> bytes:
        return self.workshop.log.pull_text(after, limit, rules.sight(hand.role, hand.person))

    def kill(self) -> None:
        """Go on with the files as they lie at this moment, write-ahead log and all: nothing was closed or tidied for it."""
        before = self._data()
        self.lives += 1
        shutil.copytree(before, self._data())
        self.workshop.close()
        shutil.rmtree(before)
        self.workshop = Workshop(self._data())

    def backup(self) -> Path:
        self.backups += 1
        file = self.folder / f"backup-{self.backups}.sqlite3"
        self.workshop.log.backup(file)
        return file

    def restore(self, backup: Path) -> None:
        self.workshop.close()
        restore(backup, self._data() / DATABASE)
        self.workshop = Workshop(self._data())

    def close(self) -> None:
        self.workshop.close()

    def held(self) -> dict[str, bytes]:
        """Every entry by its id; an id that is there twice is an error."""
        everything = list(self.workshop.log.everything())
        found = {json.loads(h.raw)["id"]: h.raw for h in everything}
        assert len(found) == len(everything)
        return found

    def state(self, subject: str) -> dict[str, Any]:
        entries = [{"seq": h.seq, "entry": json.loads(h.raw)} for h in self.workshop.log.of(subject)]
        return fold(subject, entries)


class Side(Protocol):
    """What a schedule does with a phone, and what is asked of it at the end."""

    hand: Hand
    skew: timedelta
    # Every entry this phone ever wrote.
    own: dict[int, bytes]
    # What the server told this phone it has stored.
    receipted: set[int]

    @property
    def refused(self) -> dict[int, Any]: ...
    @property
    def log(self) -> dict[str, tuple[int | None, bytes]]: ...
    def write(self, subject: str, kind: str, body: dict[str, Any], now: datetime) -> object: ...
    def sends(self, house: House, most: int, fate: str) -> bytes | None: ...
    def some_arrive(self, house: House, picked: list[int]) -> None: ...
    def fetches(self, house: House, limit: int, fate: str) -> None: ...
    def reopens(self) -> None: ...
    def heals(self, house: House) -> None: ...
    def queue(self) -> list[int]: ...
    def refused_ids(self) -> set[str]: ...
    def state(self, subject: str, without: set[str]) -> dict[str, Any]: ...


@dataclass
class Phone:
    """One device that follows the page."""

    hand: Hand
    # The pen counts from where the device's chain stands; the clock may be anything.
    pen: Writer = field(init=False)
    skew: timedelta = timedelta()
    own: dict[int, bytes] = field(default_factory=dict[int, bytes])
    waiting: set[int] = field(default_factory=set[int])
    refused: dict[int, list[dict[str, str]]] = field(default_factory=dict[int, list[dict[str, str]]])
    receipted: set[int] = field(default_factory=set[int])
    cursor: int = 0
    epoch: str = ""
    # id -> (seq or None, bytes)
    log: dict[str, tuple[int | None, bytes]] = field(default_factory=dict[str, tuple[int | None, bytes]])

    def __post_init__(self) -> None:
        self.pen = Writer(self.hand.device, self.hand.person)

    def write(self, subject: str, kind: str, body: dict[str, Any], now: datetime) -> dict[str, Any]:
        raw = self.pen.write(subject, kind, body, now + self.skew)
        entry: dict[str, Any] = json.loads(raw)
        # However wrong the clock: later than all its writer had seen.
        assert all(entry["stamp"] > json.loads(seen)["stamp"] for _, seen in self.log.values())
        self.own[entry["n"]] = raw
        self.waiting.add(entry["n"])
        self.log[entry["id"]] = (None, raw)
        return entry

    def sends(self, house: House, most: int, fate: str) -> bytes | None:
        """Send the first `most` of the queue; returns a request that the network holds back."""
        numbers = self.queue(most)
        body = self.body(numbers)
        if self.hand.device in house.shut_out:
            self.drop()
            return None
        if fate == "late":
            return body
        answer = house.push(self.hand, body)
        if fate == "twice":
            answer = house.push(self.hand, body)
        if fate == "closed":
            self.reopens()
        elif fate in HEARD:
            self.answered(numbers, answer)
        return None

    def some_arrive(self, house: House, picked: list[int]) -> None:
        """Part of the queue in any order: gaps open and close."""
        self.answered(picked, house.push(self.hand, self.body(picked)))

    def fetches(self, house: House, limit: int, fate: str) -> None:
        """Fetch one page."""
        if self.hand.device in house.shut_out:
            self.drop()
        elif fate == "closed":
            self.reopens()
        elif fate in HEARD:
            self.pulled(house.pull(self.hand, self.cursor, limit))

    def drop(self) -> None:
        """Shut out: what was fetched goes, what is not sent stays."""
        self.log = {id: one for id, one in self.log.items() if json.loads(one[1])["n"] in self.waiting and one[0] is None}
        self.cursor = self.pen.seen = 0

    def queue(self, most: int = 500) -> list[int]:
        return sorted(self.waiting)[:most]

    def body(self, numbers: Iterable[int]) -> bytes:
        return batch(self.hand.device, [self.own[n] for n in numbers])

    def reopens(self) -> None:
        """Opened anew: what was refused is offered once more, for what stood against it may be gone."""
        self.waiting |= set(self.refused)

    def answered(self, numbers: list[int], answer: bytes) -> None:
        """Take in the answer to a push of these numbers."""
        told = json.loads(answer)
        self._life(told["epoch"])
        receipt = told["receipt"]
        assert receipt["device"] == self.hand.device
        for n, one in zip(numbers, told["answers"], strict=True):
            entry = json.loads(self.own[n])
            if one["outcome"] == "refused":
                assert one["errors"], "a refusal names its reason"
                self.refused[n] = one["errors"]
            else:
                self.refused.pop(n, None)
                self.receipted.add(n)
                self.log[entry["id"]] = (one["seq"], self.own[n])
        if receipt["n"]:
            assert receipt["hash"] == sha256(self.own[receipt["n"]]).hexdigest()
        missing = set(receipt["missing"])
        # One whose own answer was lost may have been refused: it waits until it is told, though the receipt covers it.
        unheard = {n for n in self.waiting - set(numbers) if self._seq(n) is None}
        self.waiting = unheard | {n for n in self.own if n > receipt["n"] or n in missing}

    def _seq(self, n: int) -> int | None:
        """The place the server gave to an own entry, as far as this phone knows."""
        held = self.log.get(json.loads(self.own[n])["id"])
        return held[0] if held is not None else None

    def pulled(self, answer: bytes) -> bool:
        """Take in a page; whether there is more."""
        told = json.loads(answer)
        if self._life(told["epoch"]):
            return True
        for one in told["entries"]:
            entry = one["entry"]
            text = json.dumps(entry, ensure_ascii=False, separators=(",", ":")).encode()
            assert text in answer
            self.log[entry["id"]] = (one["seq"], text)
            self.pen.pulled(0, entry["stamp"])
        self.cursor = told["next"]
        self.pen.seen = self.cursor
        return told["more"]

    def _life(self, epoch: str) -> bool:
        """Whether the server began a new life: then all is fetched anew, and all that is its own offered again."""
        began = self.epoch not in ("", epoch)
        self.epoch = epoch
        if began:
            self.cursor = self.pen.seen = 0
            self.waiting = set(self.own)
            self.log = {id: (None, raw) for id, (_, raw) in self.log.items()}
        return began

    def heals(self, house: House) -> None:
        """Opened anew, with a network that works: send, fetch, and send what a new life brought back."""
        self.reopens()
        for _ in range(2):
            numbers = self.queue()
            self.answered(numbers, house.push(self.hand, self.body(numbers)))
            while self.pulled(house.pull(self.hand, self.cursor, 7)):
                pass

    def state(self, subject: str, without: set[str]) -> dict[str, Any]:
        """The fold of what this phone holds, leaving out what the server refused of it."""
        return fold(
            subject,
            [
                {"seq": seq, "entry": json.loads(raw)}
                for id, (seq, raw) in self.log.items()
                if id not in without and json.loads(raw)["subject"] == subject
            ],
        )

    def refused_ids(self) -> set[str]:
        return {json.loads(self.own[n])["id"] for n in self.refused}


def workday() -> datetime:
    """A fixed morning: schedules are the same each time they are run."""
    return datetime(2026, 5, 3, 9, 0, tzinfo=UTC)
