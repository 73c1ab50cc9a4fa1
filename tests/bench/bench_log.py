"""How fast the log takes and gives entries, against plain SQLite doing the same work on the same disk in the same run.

Plain SQLite here: one table with the same bytes and nothing else, synchronous=FULL, the same number of entries in a
transaction, inside this process. The server: a real process, asked over HTTP with kept connections, that checks every entry,
keeps its chain and four indexes, and answers each entry. A ratio of 1 means that all of that is free. Single entries of 8
phones at once stand against the least a service can do (`plain_service`), over HTTP like ours.

Three lines say what is left for the rest: the same batches taken by that least service; received by it and dropped; and the
same rows with their columns and indexes written by SQLite alone. None of them reads an entry.

Ours and the baseline take turns in every round, so that a busy machine is busy for both. What each takes of the processor
is told beside the rates: it says more when others share the machine.

    python -m tests.bench.bench_log [rounds]
"""

import http.client
import json
import os
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import count
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

from rich.console import Console
from rich.table import Table

from pinchbolt.access.people import Device, Person
from pinchbolt.entries import Author, read_entries
from pinchbolt.store.database import EntryRow
from pinchbolt.store.sqlite.database import SqliteDatabase
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.bench import plain_service
from tests.server import running
from tests.server.hands import FERN, JUNO

BATCH = 100
BATCHES = 48
SINGLES = 800
PHONES = 8
PAGE = 1000
ROUNDS = 5
BOLT = {"joint": "stem_face_plate", "applied": 5.2, "low": 4, "high": 6, "accuracy": 4, "tool": "click wrench 2-14"}


class Cost(NamedTuple):
    """What `many` entries took: seconds, and seconds of the processor in the process that keeps them."""

    many: int
    seconds: float
    processor: float


class Round(NamedTuple):
    """One round of one measurement, ours and its baseline one after the other."""

    what: str
    ours: Cost
    base: Cost
    baseline: str


class Phone:
    """One device with a kept connection."""

    def __init__(self, url: str, device: str, token: str) -> None:
        self.pen = Writer(device, JUNO)
        self.headers = {"Pinchbolt-Protocol": "1", "Cookie": "pinchbolt=" + token}
        self.clock = datetime(2026, 5, 3, tzinfo=UTC)
        self.line = http.client.HTTPConnection(urlsplit(url).netloc)

    def write(self, many: int, subject: str = FERN) -> list[bytes]:
        """A mechanic's afternoon of bolts."""
        written: list[bytes] = []
        for _ in range(many):
            self.clock += timedelta(seconds=20)
            written.append(self.pen.write(subject, "torque", BOLT, self.clock))
        return written

    def batches(self, many: int, entries: int) -> list[bytes]:
        return [batch(self.pen.device, self.write(entries)) for _ in range(many)]

    def push(self, body: bytes) -> None:
        told = self.ask("POST", "/api/sync/push", body)
        assert b'"refused"' not in told, told

    def pull(self, after: int, coding: str = "identity") -> bytes:
        return self.ask("GET", f"/api/sync/pull?after={after}&limit={PAGE}", coding=coding)

    def top(self) -> int:
        return json.loads(self.ask("GET", "/api/sync/pull?limit=1"))["top"]

    def ask(self, method: str, path: str, body: bytes | None = None, coding: str = "identity") -> bytes:
        self.line.request(method, path, body, {**self.headers, "Accept-Encoding": coding})
        answer = self.line.getresponse()
        told = answer.read()
        assert answer.status == 200, told
        return told


def processor(process: int) -> float:
    """Seconds of the processor a process has taken so far, all its threads together (Linux: clock_getcpuclockid)."""
    return time.clock_gettime((~process << 3) | 2)


def cost(process: int, many: int, work: Callable[[], object]) -> Cost:
    """What `work` takes, and what of the processor in `process`."""
    used, began = processor(process), time.perf_counter()
    work()
    return Cost(many, time.perf_counter() - began, processor(process) - used)


def raw_writes(file: Path, groups: list[list[bytes]]) -> Cost:
    """Entries into plain SQLite, one transaction a group."""
    conn = sqlite3.connect(file, isolation_level=None)
    conn.execute("PRAGMA journal_mode = WAL")
    conn.execute("PRAGMA synchronous = FULL")
    conn.execute("CREATE TABLE IF NOT EXISTS raw (seq INTEGER PRIMARY KEY, bytes BLOB NOT NULL)")

    def write() -> None:
        for group in groups:
            conn.execute("BEGIN IMMEDIATE")
            conn.executemany("INSERT INTO raw (bytes) VALUES (?)", [(one,) for one in group])
            conn.execute("COMMIT")

    took = cost(os.getpid(), sum(map(len, groups)), write)
    conn.close()
    return took


def raw_reads(file: Path) -> Cost:
    """All entries out of plain SQLite, in pages."""
    conn = sqlite3.connect(file)
    (many,) = conn.execute("SELECT count(*) FROM raw").fetchone()

    def read() -> None:
        after = 0
        while rows := conn.execute("SELECT seq, bytes FROM raw WHERE seq > ? ORDER BY seq LIMIT ?", (after, PAGE)).fetchall():
            after = rows[-1][0]

    took = cost(os.getpid(), many, read)
    conn.close()
    return took


def pull_all(phone: Phone, top: int, after: int = 0, coding: str = "identity") -> None:
    """Pull the log up to `top`. Nothing is read: that is the phone's work, and plain SQLite's reader does none either."""
    for at in range(after, top, PAGE):
        phone.pull(at, coding)


def posted(url: str, bodies: list[bytes], path: str = "/push") -> None:
    """Bodies one after the other to the plain service."""
    line = http.client.HTTPConnection(urlsplit(url).netloc)
    for body in bodies:
        line.request("POST", path, body)
        assert line.getresponse().read().startswith(b'{"seq"')
    line.close()


def together(work: Sequence[Callable[[], None]]) -> None:
    """All of it, begun at once."""
    with ThreadPoolExecutor(len(work)) as pool:
        for done in [pool.submit(one) for one in work]:
            done.result()


def each(phone: Phone, bodies: list[bytes]) -> Callable[[], None]:
    def work() -> None:
        for body in bodies:
            phone.push(body)

    return work


def paired(data: Path, many: int) -> dict[str, str]:
    """A new workshop with `many` devices of one owner: their tokens."""
    tokens: dict[str, str] = {}
    with Workshop(data) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        for i in range(many):
            device = f"{i:08x}-41cb-4d8c-9d10-3a3f6f1f5a11"
            tokens[device] = workshop.people.pair(workshop.people.invite(JUNO), device, f"Phone {i}")[1]
    return tokens


def a_round(phones: list[Phone], ours: int, plain: plain_service.Served, folder: Path) -> list[Round]:
    """One round over HTTP to our process `ours`. The first phone is alone, the others come together."""
    one, crowd = phones[0], phones[1:]
    file = folder / "raw.sqlite3"
    sqlite = "plain SQLite"
    many = BATCH * BATCHES
    before = one.top()

    groups = [one.write(BATCH) for _ in range(BATCHES)]
    push = each(one, [batch(one.pen.device, group) for group in groups])
    rounds = [Round(f"push, batches of {BATCH}, one phone", cost(ours, many, push), raw_writes(file, groups), sqlite)]
    bodies = [batch(one.pen.device, group) for group in groups]
    took = cost(plain.process, many, partial(posted, plain.url, bodies))
    rounds.append(Round("the same, taken by the plain service", took, raw_writes(file, groups), sqlite))
    took = cost(plain.process, many, partial(posted, plain.url, bodies, "/drop"))
    rounds.append(Round("the same, received and dropped by it", took, raw_writes(file, groups), sqlite))
    rounds.append(Round("replay of the same", cost(ours, many, push), raw_writes(file, groups), sqlite + "'s push"))
    shares = [each(p, p.batches(BATCHES // PHONES, BATCH)) for p in crowd]
    took = cost(ours, many, lambda: together(shares))
    rounds.append(Round(f"push, batches of {BATCH}, {PHONES} phones", took, raw_writes(file, groups), sqlite))

    lone = one.batches(SINGLES // PHONES, 1)
    took = cost(ours, len(lone), each(one, lone))
    rounds.append(Round("single entries, one phone", took, raw_writes(file, [[body] for body in lone]), sqlite))
    singles = [p.batches(SINGLES // PHONES, 1) for p in crowd]
    took = cost(ours, SINGLES, lambda: together([each(p, mine) for p, mine in zip(crowd, singles, strict=True)]))
    base = cost(plain.process, SINGLES, lambda: together([partial(posted, plain.url, mine) for mine in singles]))
    rounds.append(Round(f"single entries, {PHONES} phones", took, base, "plain service"))

    top = one.top()
    took = cost(ours, top, lambda: pull_all(one, top))
    rounds.append(Round(f"pull, pages of {PAGE}", took, raw_reads(file), sqlite))
    # Whole pages, so that none of them was packed for the round before.
    new = -(-before // PAGE) * PAGE
    took = cost(ours, top - new, lambda: pull_all(one, top, new, "gzip"))
    rounds.append(Round("the same as a browser asks for it, packed", took, raw_reads(file), sqlite))
    took = cost(ours, top, lambda: pull_all(one, top, 0, "gzip"))
    rounds.append(Round("pages that another phone had", took, raw_reads(file), sqlite))
    return rounds


def rows_of(groups: list[list[bytes]], device: Device) -> list[list[EntryRow]]:
    """What the log would write of these groups."""
    author = Author(device.id, device.person.id, device.person.role)
    seqs = count(1)
    made: list[list[EntryRow]] = []
    for group in groups:
        rows: list[EntryRow] = []
        for arrival in read_entries(group, author):
            e = arrival.envelope
            assert e is not None
            rows.append((next(seqs), e.id, e.subject, e.device, e.n, e.kind, e.stamp, arrival.hash, e.noted_at, arrival.raw))
        made.append(rows)
    return made


def written_alone(file: Path, groups: list[list[EntryRow]]) -> Cost:
    """The log's own rows into its own tables, and nothing else: a transaction a group."""
    database = SqliteDatabase(file)
    database.migrate()
    conn = database.connect()

    def write() -> None:
        for rows in groups:
            with conn.alone():
                conn.append(rows)

    took = cost(os.getpid(), sum(map(len, groups)), write)
    conn.close()
    return took


def without_http(folder: Path, number: int) -> list[Round]:
    """The same push inside this process, and the fold of all of it."""
    device = Device(f"{number:08x}-52cb-4d8c-9d10-3a3f6f1f5a11", "a phone", Person(JUNO, "Juno", "owner"))
    phone = Phone("http://127.0.0.1", device.id, "")
    groups = [phone.write(BATCH) for _ in range(BATCHES)]
    file = folder / "bare.sqlite3"

    def push() -> None:
        for group in groups:
            bare.take(device, group).result()

    rows = rows_of(groups, device)
    with Workshop(folder / f"bare {number}") as bare:
        bare.add_person(JUNO, "Juno", "owner")
        pushed = cost(os.getpid(), BATCH * BATCHES, push)
        written = raw_writes(file, groups)
        alone = written_alone(folder / f"rows {number}.sqlite3", rows)
        folded = cost(os.getpid(), BATCH * BATCHES, lambda: bare.state(FERN))
    return [
        Round("push without HTTP", pushed, written, "plain SQLite"),
        Round("its rows alone, columns and indexes", alone, raw_writes(file, groups), "plain SQLite"),
        Round("fold of one bike from nothing", folded, raw_reads(file), "plain SQLite"),
    ]


def measure(folder: Path, rounds: int) -> list[Round]:
    taken: list[Round] = []
    tokens = paired(folder / "workshop", PHONES + 1)
    with running.server(folder / "workshop") as served, plain_service.served(folder / "service.sqlite3") as plain:
        phones = [Phone(served.url, device, token) for device, token in tokens.items()]
        for number in range(rounds):
            taken += a_round(phones, served.process.pid, plain, folder)
            taken += without_http(folder, number)
    return taken


def show(rounds: list[Round]) -> None:
    """Medians; of the ratio of rates also the least and the most, and the ratio of what it takes of the processor."""
    heads = ("entries/s", "baseline", "least", "ratio", "most", "processor µs", "baseline", "ratio", "against")
    table = Table("", *heads, box=None, pad_edge=False)
    for column in table.columns[1:-1]:
        column.justify = "right"
    for what in dict.fromkeys(one.what for one in rounds):
        mine = [one for one in rounds if one.what == what]
        rates = [[c.many / c.seconds for c in costs] for costs in zip(*((r.ours, r.base) for r in mine), strict=True)]
        used = [[c.processor / c.many * 1e6 for c in costs] for costs in zip(*((r.ours, r.base) for r in mine), strict=True)]
        ratios = [ours / base for ours, base in zip(*rates, strict=True)]
        shown = [f"{statistics.median(values):,.0f}" for values in rates]
        shown += [f"{value:.2f}" for value in (min(ratios), statistics.median(ratios), max(ratios))]
        shown += [f"{statistics.median(values):,.1f}" for values in used]
        shown.append(f"{statistics.median(used[1]) / statistics.median(used[0]):.2f}")
        table.add_row(what, *shown, mine[0].baseline)
    Console(width=140).print(table)


def main(rounds: int = ROUNDS) -> None:
    with tempfile.TemporaryDirectory() as folder:
        show(measure(Path(folder), rounds))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS)
