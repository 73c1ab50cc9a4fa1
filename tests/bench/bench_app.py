"""How fast the app is on a slow phone with no server: the whole browser slowed four-fold, the server dead.

The baseline is an empty page through the same service worker at the same slowness in the same run: what the browser itself
takes before any of ours has begun. The kernel's own figures are ratios to CPython doing the same on this machine, unslowed.
"""

import json
import statistics
import tempfile
import time
from pathlib import Path
from typing import Any, NamedTuple

from playwright.sync_api import Browser, Page, sync_playwright
from rich.console import Console
from rich.table import Table

from pinchbolt.kernel.calls import call
from pinchbolt.kernel.catalogue import all_calculations, find
from tests.bench.slow_phone import SLOWER, group_of, plain_calculations, put_first, slowed
from tests.web.phone import ARGUMENTS, CHROMIUM, SIZE, Phone, context, tell
from tests.web.workshop import ROOT, ServedWorkshop

ROUNDS = 5
PATIENT = 60_000
BIKE = "bike/00000000-0000-4000-8000-00000000b1ce"


class Figure(NamedTuple):
    what: str
    ours: float
    """Milliseconds, the median of the rounds."""
    spread: float
    base: float
    baseline: str


# Of each thing that is waited for: when the first frame with it was drawn, in milliseconds since the page was asked for.
DRAWN = {
    "page": "body",
    "result": "#results .figure",
    "engine": "#results[data-from=engine] .figure",
    "bikes": ".bike-line .mark",
}
WATCH = f"""(() => {{
  const wanted = {json.dumps(DRAWN)};
  globalThis.drawn = {{}};
  const look = () => {{
    for (const [name, what] of Object.entries(wanted)) {{
      if (!document.querySelector(what)) continue;
      delete wanted[name];
      requestAnimationFrame(() => setTimeout(() => {{ drawn[name] = performance.now(); }}));
    }}
  }};
  new MutationObserver(look).observe(document, {{ childList: true, subtree: true, attributes: true }});
}})()"""


def opening(page: Page, url: str, what: str) -> float:
    """Milliseconds within the page from asking for it to the first frame with `what`, see DRAWN."""
    page.goto("about:blank")
    page.goto(url, wait_until="commit")
    until = time.monotonic() + PATIENT / 1000
    while time.monotonic() < until:
        drawn = tell(page, f"drawn.{what} ?? null")
        if drawn is not None:
            return drawn
        page.wait_for_timeout(100)
    raise AssertionError(f"{url}: {what} was not drawn within {PATIENT} ms")


def rounds(measure: Any) -> tuple[float, float]:
    taken = [measure() for _ in range(ROUNDS)]
    return statistics.median(taken), statistics.pstdev(taken)


def cold_start(served: ServedWorkshop, browser: Browser, page: Page) -> list[Figure]:
    """From a closed app to the first computed result, and to the list of bikes, with the server dead."""
    page.goto(f"{served.url}/pair#{served.code}")
    page.get_by_label("This phone is called").fill("a slow phone")
    page.get_by_role("button", name="Pair", exact=True).click()
    page.get_by_text("Slate").first.wait_for(timeout=PATIENT)
    tell(page, "navigator.serviceWorker.ready.then(() => null)")
    page.get_by_text("all sent").wait_for(timeout=PATIENT)
    page.goto(served.url + "/bench/torque-adaptor")
    page.get_by_role("button", name="Example").click()
    page.locator("#results .figure").first.wait_for()
    # The sheet is left with its answer kept, as one leaves it.
    page.wait_for_timeout(1500)
    served.kill()
    sheet = served.url + "/bench/torque-adaptor"
    with slowed(browser):
        empty, _ = rounds(lambda: opening(page, served.url + "/manifest.webmanifest", "page"))
        first, spread = rounds(lambda: opening(page, sheet, "result"))
        engine, engine_spread = rounds(lambda: opening(page, sheet, "engine"))
        bikes, bikes_spread = rounds(lambda: opening(page, served.url + "/", "bikes"))
    said = "an empty page through the same service worker"
    return [
        Figure("cold, offline: the kept result of the sheet left last", first, spread, empty, said),
        Figure("cold, offline: the engine's own result", engine, engine_spread, empty, said),
        Figure("cold, offline: the list of 24 bikes", bikes, bikes_spread, empty, said),
    ]


def history(entries: int) -> list[dict[str, Any]]:
    """A long season of one bike: what it is set to, ridden and measured."""
    kinds: list[tuple[str, dict[str, Any]]] = [
        ("adjust", {"setting": "saddle_height", "to": 710, "unit": "mm"}),
        ("measure", {"what": "chain_elongation", "value": 0.2, "unit": "%"}),
        ("ride", {"km": 42, "hours": 2}),
        ("note", {"text": "Dry, dusty, all quiet."}),
    ]
    kept: list[dict[str, Any]] = []
    for i in range(entries):
        kind, body = kinds[i % len(kinds)]
        entry = {"id": f"e{i:07d}", "subject": BIKE, "kind": kind, "noted_at": "2026-05-03T09:15:00.000Z", "stamp": f"{i:013d}"}
        entry |= {"device": "d", "n": i + 1, "prev": "", "seen": i, "by": "p", "body": body}
        kept.append({"seq": i + 1, "entry": entry})
    return kept


def many_stems() -> dict[str, Any]:
    """More stems, angles, covers and spacers than any workshop keeps."""
    lists = {"headset_covers": [5, 8, 10, 15, 20], "stem_lengths": list(range(70, 140, 5)), "stem_angles": [0, 6, 7, 8, 10, 17]}
    return find("position-transfer").example | lists | {"spacer_max": 40, "spacer_step": 5}


def in_the_kernel(phone: Phone, question: str, times: int) -> float:
    """Milliseconds of one question to the phone's engine, measured in the page, the way there and back included: the mean of
    so many, because a short one may fit between two of the browser's halts.
    """
    asked = f"for (let i = 0; i < {times}; i++) await door.kernel.{question};"
    return tell(
        phone.page,
        f"(async () => {{ const t = performance.now(); {asked} return (performance.now() - t) / {times}; }})()",
    )


def in_cpython(message: dict[str, Any]) -> float:
    text = json.dumps(message)
    began = time.perf_counter()
    call(text)
    return (time.perf_counter() - began) * 1000


def kernel(phone: Phone) -> list[Figure]:
    """The kernel on the slow phone against CPython on this machine."""
    season = history(5000)
    kept = [{"seq": k["seq"], "text": json.dumps(k["entry"])} for k in season]
    tell(phone.page, f"globalThis.season = {json.dumps(kept)}; null")
    asked: list[tuple[str, str, dict[str, Any]]] = [
        ("fold of a bike with 5 000 entries", f"fold('{BIKE}', season)", {"do": "fold", "subject": BIKE, "entries": season})
    ]
    wide = many_stems()
    asked.append(
        (
            "position-transfer over 6 930 combinations",
            f"run('position-transfer', {json.dumps(wide)})",
            {"do": "run", "calculation": "position-transfer", "inputs": wide},
        )
    )
    for calculation in all_calculations():
        question = f"run({json.dumps(calculation.id)}, {json.dumps(calculation.example)})"
        asked.append((calculation.id, question, {"do": "run", "calculation": calculation.id, "inputs": calculation.example}))
    figures: list[Figure] = []
    for what, question, message in asked:
        times = 1 if message["do"] == "fold" else 20
        ours, spread = rounds(lambda question=question, times=times: in_the_kernel(phone, question, times))
        base, _ = rounds(lambda message=message: in_cpython(message))
        figures.append(Figure(what, ours, spread, base, "CPython here, not slowed"))
    return figures


class Speed(NamedTuple):
    """Millions of plain calculations a second in the browser as it is, and slowed."""

    whole: float
    slowed: float


def measure(folder: Path) -> tuple[list[Figure], Speed]:
    with sync_playwright() as started:
        served = ServedWorkshop(folder / "shipped", ROOT / "server" / "pinchbolt" / "web", "demo").start()
        # With a profile on the disk: a private one keeps no compiled scripts, as every phone's browser does.
        made = started.chromium.launch_persistent_context(
            folder / "profile", executable_path=CHROMIUM, args=ARGUMENTS, viewport=SIZE, has_touch=True, is_mobile=True
        )
        assert made.browser is not None
        made.add_init_script(WATCH)
        figures = cold_start(served, made.browser, made.new_page())
        made.close()
        browser = started.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        door = ServedWorkshop(folder / "door", ROOT / "var" / "web-test", "serve").start()
        made = context(browser)
        phone = Phone(made.new_page(), door.url).open()
        put_first(group_of(browser))
        whole = plain_calculations(phone.page)
        with slowed(browser):
            speed = Speed(whole, plain_calculations(phone.page))
            figures += kernel(phone)
        door.stop()
        browser.close()
    return figures, speed


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        figures, speed = measure(Path(folder))
    heads = ("ms", "±", "a second", "baseline ms", "a second", "ratio")
    table = Table(f"browser slowed {SLOWER}-fold", *heads, "baseline", box=None, pad_edge=False)
    for column in table.columns[1:7]:
        column.justify = "right"
    for f in figures:
        ours = (f"{f.ours:,.1f}", f"{f.spread:,.1f}", f"{1000 / f.ours:,.1f}")
        table.add_row(f.what, *ours, f"{f.base:,.2f}", f"{1000 / f.base:,.0f}", f"{f.ours / f.base:,.1f}", f.baseline)
    console = Console(width=150)
    console.print(table)
    console.print(
        f"Plain calculations in script: {speed.slowed:,.0f} million a second slowed, {speed.whole:,.0f} not slowed;"
        f" truly {speed.whole / speed.slowed:.1f} times slower."
    )


if __name__ == "__main__":
    main()
