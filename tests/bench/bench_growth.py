"""Whether the cost of a day's work grows with the log: the same questions to a server with ten thousand entries of a hundred
bikes and to one with a million entries of ten thousand bikes, in turns. Every bike has a hundred entries in both.

    python -m tests.bench.bench_growth [entries]
"""

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import ExitStack
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from rich.console import Console
from rich.table import Table

from pinchbolt.access.people import Device, Person
from pinchbolt.store.log import Pushed
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.bench.bench_live import most_memory
from tests.bench.bench_log import BOLT, Phone, cost, paired
from tests.server import running
from tests.server.hands import JUNO

SMALL = 10_000
LARGE = 1_000_000
A_BIKE = 100
BATCH = 500
ROUNDS = 40
PENS = "0badcafe-41cb-4d8c-9d10-3a3f6f1f5a11"


def bike(number: int) -> str:
    return f"bike/{number:08x}-c83f-4177-aaf6-4b4938d4f0cd"


def fill(data: Path, entries: int) -> float:
    """The bikes in turn, so that one bike's entries lie far apart; entries a second."""
    device = Device(PENS, "the past", Person(JUNO, "Juno", "owner"))
    pen, clock = Writer(PENS, JUNO), datetime(2024, 1, 1, tzinfo=UTC)
    began = time.perf_counter()
    with Workshop(data) as workshop:
        before: Future[Pushed] | None = None
        for at in range(0, entries, BATCH):
            texts = [
                pen.write(bike(n % (entries // A_BIKE)), "torque", BOLT, clock + timedelta(seconds=20 * n))
                for n in range(at, at + BATCH)
            ]
            taking = workshop.take(device, texts)
            if before is not None:
                before.result()
            before = taking
        assert before is not None
        before.result()
        assert workshop.log.top() == entries
    return entries / (time.perf_counter() - began)


class Place:
    """A server with a filled log, and one phone."""

    def __init__(self, data: Path, entries: int, stack: ExitStack) -> None:
        ((device, token),) = paired(data, 1).items()
        self.filled = fill(data, entries)
        self.running = stack.enter_context(running.server(data))
        self.phone = Phone(self.running.url, device, token)
        self._bikes: Iterator[int] = count(7)
        self._many = entries // A_BIKE

    def quiet_pull(self) -> None:
        page = self.phone.pull(self.phone.top())
        assert page.startswith(b'{"entries":[]'), page

    def push(self) -> None:
        number = next(self._bikes) % self._many
        self.phone.push(batch(self.phone.pen.device, self.phone.write(20, bike(number))))

    def open_bike(self) -> None:
        """One that was not opened before, so that it is folded."""
        told = self.phone.ask("GET", "/api/bikes/" + bike(next(self._bikes) * 13 % self._many)[5:])
        assert b"stem_face_plate" in told


def main(large: int = LARGE) -> None:
    asked: list[tuple[str, Callable[[Place], None]]] = [
        ("a quiet phone's pull", Place.quiet_pull),
        ("a push of 20 entries", Place.push),
        ("a bike opened for the first time", Place.open_bike),
    ]
    table = Table(
        f"{ROUNDS} times each", f"{SMALL:,}", f"{large:,}", "ratio", "processor", "", "ratio", box=None, pad_edge=False
    )
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        places = [Place(Path(folder) / str(many), many, stack) for many in (SMALL, large)]
        for what, ask in asked:
            for place in places:
                ask(place)
            taken = [[cost(p.running.process.pid, 1, lambda p=p, ask=ask: ask(p)) for p in places] for _ in range(ROUNDS)]
            walls, used = (
                [statistics.median(1000 * c[i] for c in costs) for costs in zip(*taken, strict=True)] for i in (1, 2)
            )
            shown = [f"{value:.2f} ms" for value in walls] + [f"{walls[1] / walls[0]:.2f}"]
            shown += [f"{value:.2f} ms" for value in used] + [f"{used[1] / used[0]:.2f}"]
            table.add_row(what, *shown)
        memory = [most_memory(place.running.process.pid) for place in places]
        size = sum(file.stat().st_size for file in (Path(folder) / str(large)).glob("pinchbolt.sqlite3*")) / 2**20
    Console(width=130).print(
        table,
        f"filled at {places[1].filled:,.0f} entries a second; the file has {size:,.0f} MB; "
        f"the most memory the servers held: {memory[0]:.0f} and {memory[1]:.0f} MB",
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else LARGE)
