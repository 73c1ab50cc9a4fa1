"""How fast the log takes and gives entries, against plain SQLite doing the same work on the same disk in the same run.

Plain SQLite here: one table with the same bytes and nothing else, synchronous=FULL, the same number of entries in a
transaction, inside this process. The server: a real process, asked over HTTP with kept connections, that checks every entry,
keeps its chain and four indexes, and answers each entry. A ratio of 1 means that all of that is free.

    make bench
"""

import http.client
import json
import sqlite3
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

from rich.console import Console
from rich.table import Table

from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import FERN, JUNO

BATCH = 100
BATCHES = 100
SINGLES = 1500
PHONES = 4
PAGE = 1000


class Rate(NamedTuple):
    what: str
    ours: float
    raw: float


class Phone:
    """One device with a kept connection."""

    def __init__(self, url: str, device: str, token: str) -> None:
        self.pen = Writer(device, JUNO)
        self.headers = {"Pinchbolt-Protocol": "1", "Cookie": "pinchbolt=" + token}
        self.clock = datetime(2026, 5, 3, tzinfo=UTC)
        self.line = http.client.HTTPConnection(urlsplit(url).netloc)

    def write(self, many: int) -> list[bytes]:
        """A mechanic's afternoon of bolts."""
        told = {"joint": "stem_face_plate", "applied": 5.2, "low": 4, "high": 6, "accuracy": 4, "tool": "click wrench 2-14"}
        written: list[bytes] = []
        for _ in range(many):
            self.clock += timedelta(seconds=20)
            written.append(self.pen.write(FERN, "torque", told, self.clock))
        return written

    def push(self, body: bytes) -> None:
        self.line.request("POST", "/api/sync/push", body, self.headers)
        answer = self.line.getresponse()
        told = answer.read()
        assert answer.status == 200, told
        assert b'"refused"' not in told, told

    def pull(self, after: int) -> bytes:
        self.line.request("GET", f"/api/sync/pull?after={after}&limit={PAGE}", headers=self.headers)
        answer = self.line.getresponse()
        told = answer.read()
        assert answer.status == 200, told
        return told


def raw_writes(folder: Path, groups: list[list[bytes]]) -> float:
    """Entries a second into plain SQLite, one transaction a group."""
    conn = sqlite3.connect(folder / "raw.sqlite3", isolation_level=None)
    conn.execute("PRAGMA journal_mode = WAL")
    conn.execute("PRAGMA synchronous = FULL")
    conn.execute("CREATE TABLE IF NOT EXISTS raw (seq INTEGER PRIMARY KEY, bytes BLOB NOT NULL)")
    began = time.perf_counter()
    for group in groups:
        conn.execute("BEGIN IMMEDIATE")
        conn.executemany("INSERT INTO raw (bytes) VALUES (?)", [(one,) for one in group])
        conn.execute("COMMIT")
    spent = time.perf_counter() - began
    conn.close()
    return sum(map(len, groups)) / spent


def raw_reads(folder: Path) -> float:
    """Entries a second out of plain SQLite, in pages."""
    conn = sqlite3.connect(folder / "raw.sqlite3")
    began = time.perf_counter()
    after = many = 0
    while rows := conn.execute("SELECT seq, bytes FROM raw WHERE seq > ? ORDER BY seq LIMIT ?", (after, PAGE)).fetchall():
        after = rows[-1][0]
        many += len(rows)
    spent = time.perf_counter() - began
    conn.close()
    return many / spent


def all_at_once(shares: list[tuple[Phone, list[bytes]]]) -> float:
    """Seconds until every phone, all at work at once, has pushed its bodies."""

    def work(phone: Phone, bodies: list[bytes]) -> None:
        for body in bodies:
            phone.push(body)

    with ThreadPoolExecutor(len(shares)) as pool:
        began = time.perf_counter()
        for done in [pool.submit(work, phone, bodies) for phone, bodies in shares]:
            done.result()
        return time.perf_counter() - began


def measure(folder: Path) -> list[Rate]:
    data = folder / "workshop"
    tokens: dict[str, str] = {}
    with Workshop(data) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        for i in range(PHONES + 2):
            device = f"{i:08x}-41cb-4d8c-9d10-3a3f6f1f5a11"
            tokens[device] = workshop.people.pair(workshop.people.invite(JUNO), device, f"Phone {i}")[1]
    rates: list[Rate] = []
    with running.server(data) as served:
        phones = [Phone(served.url, device, token) for device, token in tokens.items()]
        one, single, crowd = phones[0], phones[1], phones[2:]

        groups = [one.write(BATCH) for _ in range(BATCHES)]
        bodies = [batch(one.pen.device, group) for group in groups]
        ours = BATCH * BATCHES / all_at_once([(one, bodies)])
        raw = raw_writes(folder, groups)
        rates.append(Rate(f"push, batches of {BATCH}, one phone", ours, raw))

        shares = [(p, [batch(p.pen.device, p.write(BATCH)) for _ in range(BATCHES // PHONES)]) for p in crowd]
        rates.append(Rate(f"push, batches of {BATCH}, {PHONES} phones at once", BATCH * BATCHES / all_at_once(shares), raw))

        singles = [batch(single.pen.device, [text]) for text in single.write(SINGLES)]
        ours = SINGLES / all_at_once([(single, singles)])
        raw_single = raw_writes(folder, [[body] for body in singles])
        rates.append(Rate("push, single entries, one phone", ours, raw_single))

        shares = [(p, [batch(p.pen.device, [text]) for text in p.write(SINGLES // PHONES)]) for p in crowd]
        rates.append(Rate(f"push, single entries, {PHONES} phones at once", SINGLES / all_at_once(shares), raw_single))

        raw_read = raw_reads(folder)
        began = time.perf_counter()
        after, more, pulled = 0, True, 0
        while more:
            # Only the end is read: parsing is the phone's work, and plain SQLite's reader does none either.
            page = one.pull(after)
            end = json.loads(b"{" + page[page.rindex(b'"next"') :])
            pulled += page.count(b'"received_at"')
            after, more = end["next"], end["more"]
        rates.append(Rate(f"pull, pages of {PAGE}", pulled / (time.perf_counter() - began), raw_read))

        began = time.perf_counter()
        for body in bodies:
            one.push(body)
        rates.append(Rate(f"replay, batches of {BATCH} known already", BATCH * BATCHES / (time.perf_counter() - began), raw))

    with Workshop(folder / "bare") as bare:
        bare.add_person(JUNO, "Juno", "owner")
        device = bare.people.add_device(single.pen.device, "Bench tablet", JUNO)
        pen = Writer(device.id, JUNO)
        single.pen = pen
        bare_groups = [single.write(BATCH) for _ in range(BATCHES)]
        began = time.perf_counter()
        for group in bare_groups:
            bare.take(device, group).result()
        rates.append(Rate("the same push without HTTP", BATCH * BATCHES / (time.perf_counter() - began), raw))
        began = time.perf_counter()
        bare.state(FERN)
        rates.append(Rate("fold of one bike from nothing", BATCH * BATCHES / (time.perf_counter() - began), raw_read))
    return rates


def main() -> None:
    with tempfile.TemporaryDirectory(dir=sys.argv[1] if len(sys.argv) > 1 else None) as folder:
        rates = measure(Path(folder))
    table = Table("entries a second", "Pinchbolt", "plain SQLite", "ratio", box=None, pad_edge=False)
    for column in table.columns[1:]:
        column.justify = "right"
    for rate in rates:
        table.add_row(rate.what, f"{rate.ours:,.0f}", f"{rate.raw:,.0f}", f"{rate.ours / rate.raw:.2f}")
    Console().print(table)


if __name__ == "__main__":
    main()
