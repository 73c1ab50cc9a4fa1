"""200 phones that come back at once, each with a day's batches of what a bench really writes: does anybody get an error, how
long does the slowest wait. Over SQLite, and over PostgreSQL by one server process and by two.

    python -m tests.bench.bench_crowd
"""

import http.client
import statistics
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import urlsplit

from rich.console import Console
from rich.table import Table

from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import JUNO
from tests.server.postgres import cluster

PHONES = 200
BATCHES = 5
ENTRIES = 20

# What an afternoon leaves in a phone's queue.
KINDS: list[tuple[str, dict[str, Any]]] = [
    ("torque", {"joint": "stem_face_plate", "applied": 5.2, "low": 4, "high": 6, "accuracy": 4, "tool": "click wrench 2-14"}),
    ("adjust", {"setting": "saddle_height", "to": 711, "from": 710, "unit": "mm", "reason": "knee", "felt": "better"}),
    ("measure", {"what": "chain_elongation", "value": 0.31, "unit": "%", "method": "gauge"}),
    ("ride", {"km": 84.2, "hours": 3.1, "climb": 1240}),
    ("note", {"text": "Hanger straightened on the stand, shifting clean over the whole cassette; cables come on Thursday."}),
]


class Crowd(NamedTuple):
    what: str
    seconds: float
    waits: list[float]
    errors: int


def bodies(pen: Writer, number: int) -> list[bytes]:
    clock = datetime(2026, 5, 3, tzinfo=UTC) + timedelta(seconds=number)
    made: list[bytes] = []
    for _ in range(BATCHES):
        entries: list[bytes] = []
        for i in range(ENTRIES):
            clock += timedelta(seconds=40)
            kind, body = KINDS[i % len(KINDS)]
            entries.append(pen.write(f"bike/{number:08x}-c83f-4177-aaf6-4b4938d4f0cd", kind, body, clock))
        made.append(batch(pen.device, entries))
    return made


def come_back(url: str, token: str, made: list[bytes]) -> tuple[list[float], int]:
    """One phone: its batches one after the other, then a pull; seconds each push waited, and errors."""
    line = http.client.HTTPConnection(urlsplit(url).netloc, timeout=120)
    headers = {"Pinchbolt-Protocol": "1", "Cookie": "pinchbolt=" + token}
    waits: list[float] = []
    errors = 0
    for body in made:
        began = time.perf_counter()
        line.request("POST", "/api/sync/push", body, headers)
        answer = line.getresponse()
        told = answer.read()
        waits.append(time.perf_counter() - began)
        errors += answer.status != 200 or told.count(b'"stored"') != ENTRIES
    line.request("GET", "/api/sync/pull?limit=200", headers=headers)
    answer = line.getresponse()
    answer.read()
    line.close()
    return waits, errors + (answer.status != 200)


def crowd(what: str, folder: Path, processes: int, database: str = "") -> Crowd:
    tokens: dict[str, str] = {}
    with Workshop(folder, place=database) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        for i in range(PHONES):
            device = f"{i:08x}-41cb-4d8c-9d10-3a3f6f1f5a11"
            tokens[device] = workshop.people.pair(workshop.people.invite(JUNO), device, f"Phone {i}")[1]
    work = [(token, bodies(Writer(device, JUNO), i)) for i, (device, token) in enumerate(tokens.items())]
    options = ["--database", database] if database else []
    with ExitStack() as stack:
        urls = [stack.enter_context(running.server(folder, *options)).url for _ in range(processes)]
        pool = stack.enter_context(ThreadPoolExecutor(PHONES))
        began = time.perf_counter()
        going = [pool.submit(come_back, urls[i % processes], *one) for i, one in enumerate(work)]
        done = [one.result() for one in going]
        seconds = time.perf_counter() - began
    with Workshop(folder, place=database) as workshop:
        held = sum(1 for _ in workshop.log.everything())
        assert held == PHONES * BATCHES * ENTRIES, held
    return Crowd(what, seconds, [w for waits, _ in done for w in waits], sum(errors for _, errors in done))


def main() -> None:
    with tempfile.TemporaryDirectory() as folder, cluster() as postgres:
        crowds = [
            crowd("SQLite, one process", Path(folder) / "one", 1),
            crowd("PostgreSQL, one process", Path(folder) / "two", 1, postgres.database()),
            crowd("PostgreSQL, two processes", Path(folder) / "three", 2, postgres.database()),
        ]
    table = Table(f"{PHONES} phones at once", "entries/s", "p50 ms", "p99 ms", "errors", box=None, pad_edge=False)
    for one in crowds:
        rate = PHONES * BATCHES * ENTRIES / one.seconds
        p99 = statistics.quantiles(one.waits, n=100)[98]
        table.add_row(
            one.what, f"{rate:,.0f}", f"{1000 * statistics.median(one.waits):,.0f}", f"{1000 * p99:,.0f}", str(one.errors)
        )
    Console().print(table)


if __name__ == "__main__":
    main()
