"""How long a first sync of 20 000 entries keeps a phone from hearing a touch: the longest time in which its page came to
nothing else, and how long the whole takes. The baseline is the same page at rest in the same run.
Not slowed: that takes many minutes.
"""

import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Browser, sync_playwright
from rich.console import Console
from rich.table import Table

from pinchbolt.access.people import Device, Person
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer
from tests.bench.bench_fleet import KINDS
from tests.bench.slow_phone import group_of, put_first
from tests.server.hands import JUNO
from tests.web.phone import ARGUMENTS, CHROMIUM, context, tell
from tests.web.workshop import ROOT, ServedWorkshop

BIKES = 250
EACH = 80
BATCH = 100

# A touch is heard when the page comes to the next of its tasks: how long each time between two of them was.
LISTEN = """(() => {
  globalThis.gaps = [];
  let before = performance.now();
  const next = () => {
    const now = performance.now();
    gaps.push(now - before);
    before = now;
    setTimeout(next, 0);
  };
  setTimeout(next, 0);
})()"""

COUNT = """new Promise((done) => { const o = indexedDB.open('pinchbolt'); o.onsuccess = () => { const db = o.result;
  const q = db.transaction('entries').objectStore('entries').count();
  q.onsuccess = () => { db.close(); done(q.result); }; }; })"""


class Heard(NamedTuple):
    """Milliseconds."""

    whole: float
    longest: float
    longest_at_rest: float
    over_fifty: int


def filled(data: Path) -> None:
    """A workshop with its fleet's long past in it."""
    device = "00000001-41cb-4d8c-9d10-3a3f6f1f5a11"
    with Workshop(data) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        workshop.people.pair(workshop.people.invite(JUNO), device, "the old phone")
        old = Device(device, "the old phone", Person(JUNO, "Juno", "owner"))
        pen = Writer(device, JUNO)
        clock = datetime(2026, 1, 3, tzinfo=UTC)
        entries: list[bytes] = []
        for i in range(BIKES * EACH):
            clock += timedelta(minutes=9)
            number = i % BIKES
            kind, body = ("describe", {"name": f"Bike {number:03d}", "use": "gravel"}) if i < BIKES else KINDS[i % len(KINDS)]
            entries.append(pen.write(f"bike/{number:08x}-c83f-4177-aaf6-4b4938d4f0cd", kind, body, clock))
            if len(entries) == BATCH:
                workshop.take(old, entries).result()
                entries = []


def first_sync(served: ServedWorkshop, browser: Browser) -> Heard:
    made = context(browser, workers=True)
    page = made.new_page()
    page.add_init_script(LISTEN)
    page.goto(f"{served.url}/pair#{served.code_for('Juno')}")
    page.get_by_label("This phone is called").fill("a new phone")
    page.wait_for_timeout(3000)
    tell(page, "void gaps.splice(0)")
    page.wait_for_timeout(5000)
    rest = max(tell(page, "gaps.splice(0)"))
    began = time.perf_counter()
    page.get_by_role("button", name="Pair", exact=True).click()
    while tell(page, COUNT) < BIKES * EACH:
        page.wait_for_timeout(500)
    whole = (time.perf_counter() - began) * 1000
    gaps = tell(page, "gaps.splice(0)")
    made.close()
    return Heard(whole, max(gaps), rest, sum(1 for gap in gaps if gap > 50))


def measure(folder: Path) -> Heard:
    filled(folder / "past")
    served = ServedWorkshop(folder / "past", ROOT / "server" / "pinchbolt" / "web", "serve").start()
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        put_first(group_of(browser))
        heard = first_sync(served, browser)
        browser.close()
    served.stop()
    return heard


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        h = measure(Path(folder))
    table = Table("whole, s", "longest without a touch, ms", "the same at rest", "ratio", "above 50 ms", box=None)
    longest = (f"{h.longest:,.0f}", f"{h.longest_at_rest:,.0f}", f"{h.longest / h.longest_at_rest:,.1f}")
    table.add_row(f"{h.whole / 1000:,.1f}", *longest, str(h.over_fifty))
    console = Console(width=150)
    console.print(f"A first sync of {BIKES * EACH} entries, {BIKES} bikes, not slowed")
    console.print(table)


if __name__ == "__main__":
    main()
