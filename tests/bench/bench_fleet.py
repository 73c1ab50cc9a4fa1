"""How long a busy bike and a large fleet take to open on a slow phone: the whole browser slowed four-fold, the server dead.

The entries are put into the phone's own database as a pull would leave them; then the app folds, keeps and opens. The baseline
is the same opening with nothing kept of any fold, in the same run.
"""

import json
import statistics
import tempfile
import time
import uuid
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright
from rich.console import Console
from rich.table import Table

from tests.bench.bench_app import PATIENT, ROUNDS, Figure
from tests.bench.slow_phone import SLOWER, slowed
from tests.web.phone import ARGUMENTS, CHROMIUM, context, tell
from tests.web.workshop import ROOT, ServedWorkshop

BUSY = "bike/00000000-0000-7000-8000-00000000b1ce"
BUSY_ENTRIES = 5000
BIKES = 500
ENTRIES_EACH = 24
BATCH = 2000
SETTLED = 2500 * SLOWER
"""Milliseconds after which the slowed app runs and its start is over: that is measured on its own, in bench_app."""

KINDS: list[tuple[str, dict[str, Any]]] = [
    ("adjust", {"setting": "saddle_height", "to": 710, "unit": "mm"}),
    ("measure", {"what": "chain_elongation", "value": 0.2, "unit": "%"}),
    ("ride", {"km": 42, "hours": 2}),
    ("note", {"text": "Dry, dusty, all quiet."}),
]


def numbered(number: int) -> str:
    return f"bike/{uuid.UUID(int=(7 << 76) | (2 << 62) | number)}"


def rows(subject: str, count: int, name: str, seq: int) -> Iterator[dict[str, Any]]:
    """Entries of one bike as the phone keeps them."""
    device = "00000000-0000-7000-8000-0000000000de"
    for i in range(count):
        kind, body = ("describe", {"name": name, "use": "gravel"}) if i == 0 else KINDS[i % len(KINDS)]
        month = 1 + i * 11 // count
        stamp = f"{1_750_000_000_000 + i * 3_600_000:013d}-0000-{device[:8]}"
        entry = {
            "id": str(uuid.uuid4()),
            "subject": subject,
            "kind": kind,
            "noted_at": f"2026-{month:02d}-03T09:15:00.000Z",
        }
        entry |= {"stamp": stamp, "device": device, "n": i + 1, "prev": "0" * 64, "seen": 0, "by": device, "body": body}
        row = {k: entry[k] for k in ("id", "subject", "stamp", "device", "n")}
        yield row | {"text": json.dumps(entry), "seq": seq + i, "received_at": None}


def in_database(page: Page, stores: list[str], work: str) -> None:
    """Do `work`, statements over the transaction `tx`, in the app's own database, and wait until it is saved."""
    script = (
        "new Promise((done, fail) => { const o = indexedDB.open('pinchbolt'); o.onsuccess = () => { const db = o.result;"
        f"const tx = db.transaction({json.dumps(stores)}, 'readwrite'); {work}"
        "tx.oncomplete = () => { db.close(); done(null); }; tx.onabort = () => fail(tx.error); }; })"
    )
    tell(page, script)


def put(page: Page, batch: list[dict[str, Any]]) -> None:
    lines = [
        {"subject": s, "revision": 1, "lineRevision": 0, "made": "", "line": None} for s in {row["subject"] for row in batch}
    ]
    work = (
        f"for (const row of {json.dumps(batch)}) tx.objectStore('entries').put(row);"
        f"for (const line of {json.dumps(lines)}) tx.objectStore('lines').put(line);"
    )
    in_database(page, ["entries", "lines"], work)


def forget(page: Page) -> None:
    """Throw away everything kept of the folds."""
    in_database(page, ["folds"], "tx.objectStore('folds').clear();")


def drop_state(page: Page) -> None:
    """Leave the snapshot and take the state away, as an entry that came in while the app was closed does."""
    work = (
        f"const store = tx.objectStore('folds'); const q = store.get('{BUSY}');"
        "q.onsuccess = () => store.put({ ...q.result, state: null });"
    )
    in_database(page, ["folds"], work)


def unread(page: Page) -> int:
    """How many bikes of the list are still to be folded."""
    script = (
        "new Promise((done) => { const o = indexedDB.open('pinchbolt'); o.onsuccess = () => { const db = o.result;"
        "const q = db.transaction('lines').objectStore('lines').getAll(); q.onsuccess = () => { db.close();"
        "done(q.result.filter((row) => row.lineRevision !== row.revision).length); }; }; })"
    )
    return tell(page, script)


def tapped(page: Page, what: str, ready: str) -> float:
    """Milliseconds within the page from a tap on `what` to the frame in which `ready` is drawn."""
    script = (
        "new Promise((done) => { const began = performance.now();"
        f"document.querySelector({json.dumps(what)}).click();"
        f"const look = () => requestAnimationFrame(document.querySelector({json.dumps(ready)})"
        " ? () => done(performance.now() - began) : look); look(); })"
    )
    return tell(page, script)


def fill(page: Page) -> None:
    batch = list(rows(BUSY, BUSY_ENTRIES, "Busy", 1))
    seq = BUSY_ENTRIES + 1
    for number in range(1, BIKES):
        subject = numbered(number)
        batch += rows(subject, ENTRIES_EACH, f"Bike {number:03d}", seq)
        seq += ENTRIES_EACH
        if len(batch) >= BATCH:
            put(page, batch)
            batch = []
    put(page, batch)


def to_bike(page: Page, url: str, subject: str = BUSY, name: str = "Busy") -> float:
    """From a tap on the bike's line, for the first time since the app was opened, to how it stands."""
    line = f"a[href='/{subject}']"
    page.goto(url + "/")
    page.get_by_role("searchbox").fill(name)
    page.locator(line).wait_for(timeout=PATIENT)
    page.wait_for_timeout(SETTLED)
    return tapped(page, line, ".stands .mark")


def to_list(page: Page, url: str) -> float:
    """From a tap on Bikes, for the first time since the app was opened, to the first bike with its mark."""
    page.goto(url + "/bench")
    page.get_by_role("searchbox").wait_for(timeout=PATIENT)
    page.wait_for_timeout(SETTLED)
    return tapped(page, ".places a[href='/']", ".bike-line .mark")


def median(taken: list[float]) -> tuple[float, float]:
    return statistics.median(taken), statistics.pstdev(taken)


def measure(folder: Path) -> list[Figure]:
    with sync_playwright() as started, ExitStack() as until_the_end:
        browser = started.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        served = ServedWorkshop(folder / "fleet", ROOT / "server" / "pinchbolt" / "web", "serve").start()
        made = context(browser, workers=True)
        page = made.new_page()
        page.goto(f"{served.url}/pair#{served.code}")
        page.get_by_label("This phone is called").fill("a slow phone")
        page.get_by_role("button", name="Pair", exact=True).click()
        tell(page, "navigator.serviceWorker.ready.then(() => null)")
        page.get_by_text("all sent").wait_for(timeout=PATIENT)
        served.kill()
        fill(page)
        page.goto(served.url + "/")
        began = time.perf_counter()
        while unread(page) > 0:
            page.wait_for_timeout(500)
        first = (time.perf_counter() - began) * 1000
        until_the_end.enter_context(slowed(browser))
        listed, listed_spread = median([to_list(page, served.url) for _ in range(ROUNDS)])
        whole: list[float] = []
        for _ in range(3):
            forget(page)
            whole.append(to_bike(page, served.url))
        page.wait_for_timeout(4000 * SLOWER)
        small = statistics.median([to_bike(page, served.url, numbered(1), "Bike 001") for _ in range(ROUNDS + 1)][1:])
        kept, kept_spread = median([to_bike(page, served.url) for _ in range(ROUNDS)])
        resumed: list[float] = []
        for _ in range(ROUNDS):
            page.locator("#say").fill("saddle to 711 mm height")
            page.keyboard.press("Enter")
            page.get_by_role("status").filter(has_text="711").wait_for(timeout=PATIENT)
            drop_state(page)
            resumed.append(to_bike(page, served.url))
        snap, snap_spread = median(resumed)
        base = statistics.median(whole)
        browser.close()
    said = "all its entries folded"
    return [
        Figure(
            f"a bike with {BUSY_ENTRIES} entries, its state kept",
            kept,
            kept_spread,
            small,
            f"a bike with {ENTRIES_EACH} entries, its state kept",
        ),
        Figure("the same from its snapshot and the entries since", snap, snap_spread, base, said),
        Figure(
            f"the first reading of {BIKES} bikes after they came over, not slowed", first, 0, base, "one bike of 5000 folded"
        ),
        Figure(f"the list of {BIKES} bikes", listed, listed_spread, base, "one bike of 5000 folded"),
    ]


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        figures = measure(Path(folder))
    table = Table(f"browser slowed {SLOWER}-fold", "ms", "±", "baseline ms", "ratio", "baseline", box=None, pad_edge=False)
    for f in figures:
        table.add_row(f.what, f"{f.ours:,.1f}", f"{f.spread:,.1f}", f"{f.base:,.1f}", f"{f.ours / f.base:,.3f}", f.baseline)
    Console(width=150).print(table)


if __name__ == "__main__":
    main()
