"""The workshop: the log, the people beside it, and the folds of its bikes. The one object the API and the commands use."""

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from pathlib import Path
from typing import Any

import msgspec

from pinchbolt.access import rules
from pinchbolt.access.keys import Keys
from pinchbolt.access.passkeys import Passkeys
from pinchbolt.access.passphrases import Passphrases
from pinchbolt.access.people import Device, People
from pinchbolt.entries import Arrival, Author, read_batch, read_entries
from pinchbolt.kernel.errors import refuse
from pinchbolt.kernel.record import fold, summary
from pinchbolt.photos.keeping import Photos
from pinchbolt.store import Broken, Log, Sight
from pinchbolt.store.entry_log import EntryLog
from pinchbolt.store.log import Pushed, SignedHead
from pinchbolt.store.opening import DATABASE, open_database, place_of

PHOTOS = "photos"
MOST_FOLDS = 4000

__all__ = ["DATABASE", "PHOTOS", "Workshop"]


class Workshop:
    """A workshop whose data live in the folder `data`, its record there too or in `place` (a file, or a server's URL).

    Close it when done; works as a context manager. `committed` is called in any thread when the log has grown.
    """

    def __init__(self, data: Path, committed: Callable[[], None] = lambda: None, place: str = "") -> None:
        data.mkdir(mode=0o700, parents=True, exist_ok=True)
        self.data = data
        self.database = open_database(place_of(data, place))
        self.log: Log = EntryLog(self.database, committed)
        self.people = People(self.database)
        self.passphrases = Passphrases(self.database)
        self.passkeys = Passkeys(self.database)
        self.keys = Keys(self.database)
        self.photos = Photos(data / PHOTOS)
        self._folds: dict[str, tuple[int, dict[str, Any]]] = {}
        self._gate = threading.Lock()

    def __enter__(self) -> "Workshop":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Write what waits, then shut."""
        self.log.close()
        self.people.close()
        self.passphrases.close()
        self.passkeys.close()
        self.keys.close()

    def add_person(self, id: str, name: str, role: str) -> None:
        self.people.add_person(name, role, id)

    def add_device(self, id: str, name: str, person: str) -> None:
        self.people.add_device(id, name, person)

    def push(self, device: str, body: bytes) -> dict[str, Any]:
        """Take a batch of this device, as `POST /api/sync/push` does, and wait for its answer. Raises InputError."""
        known = self.people.device(device)
        if known is None:
            raise refuse("device", device, "a device known here")
        return msgspec.to_builtins(self.submit(known, body).result())

    def submit(self, device: Device, body: bytes) -> "Future[Pushed]":
        """Take a batch of an authenticated device; the future is done when it is on the disk. Raises InputError."""
        batch = read_batch(body)
        if batch.device != device.id:
            raise refuse("device", batch.device, "the device that is signed in, " + device.id)
        head = SignedHead(batch.head, self.keys.signer(device.id, batch.head)) if batch.head else None
        return self.take(device, [bytes(raw) for raw in batch.entries], head)

    def take(self, device: Device, entries: list[bytes], head: SignedHead | None = None) -> "Future[Pushed]":
        """Take the exact bytes of entries that this device wrote, as far as its person may write them."""
        known = None if head else self.log.known(device.id, entries)
        if known is not None:
            done: Future[Pushed] = Future()
            done.set_result(known)
            return done
        role = device.person.role
        author = Author(device.id, device.person.id, role)
        arrivals = read_entries(entries, author)
        if role not in ("owner", "mechanic"):
            arrivals = [_allowed(role, arrival) for arrival in arrivals]
        return self.log.push(device.id, arrivals, device.sight(), head)

    def verify(self) -> Iterator[Broken]:
        """Walk the chains, the signed heads and the photos, and name what is wrong."""
        yield from self.log.verify()
        yield from self.photos.verify()

    def bikes(self, sight: Sight) -> list[dict[str, Any]]:
        """A summary line for each bike that may be seen, by name."""
        lines = [summary(self.state(subject)) for subject in self.log.subjects("bike/", sight)]
        return sorted(lines, key=lambda line: (str(line["name"] or ""), line["subject"]))

    def riders_of(self, event: str) -> set[str]:
        """The riders on an event's start list, and those whose bikes start there."""
        starters = self.state("event/" + event)["starters"]
        bikes = [self.state("bike/" + one["bike"]) for one in starters if one.get("bike")]
        named = [one.get("rider") for one in starters] + [bike["described"]["rider"] for bike in bikes]
        return {one for one in named if one}

    def state(self, subject: str) -> dict[str, Any]:
        """The fold of a subject, made anew only when something was added to it."""
        last = self.log.last(subject)
        with self._gate:
            kept = self._folds.get(subject)
        if kept is not None and kept[0] == last:
            return kept[1]
        held = self.log.of(subject)
        state = fold(subject, [{"seq": h.seq, "entry": msgspec.json.decode(h.raw)} for h in held])
        with self._gate:
            while len(self._folds) >= MOST_FOLDS:
                self._folds.pop(next(iter(self._folds)))
            self._folds[subject] = (held[-1].seq if held else 0, state)
        return state


def _allowed(role: str, arrival: Arrival) -> Arrival:
    if arrival.problems:
        return arrival
    problems = rules.not_written_by(role, arrival)
    return msgspec.structs.replace(arrival, problems=problems) if problems else arrival
