"""A slow phone out of a fast machine: the whole browser, all its processes and threads, runs a quarter of the time.

The browser's own slowing (Emulation.setCPUThrottlingRate) holds back a page's main thread only: workers, and so the kernel, run
at full speed under it. Here the browser's process group is stopped and let run in turns of some milliseconds.
"""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from playwright.sync_api import Browser, Page

from tests.web.phone import tell

SLOWER = 4
TURN = 0.008
"""Seconds it runs at a stretch: much shorter, and waking all its threads is most of what it does."""

TURNS = f"""
import os, signal, sys, time
group = int(sys.argv[1])
ran = stopped = 0.0
mark = time.perf_counter()
try:
    while os.getppid() == {os.getpid()}:
        time.sleep({TURN})
        os.killpg(group, signal.SIGSTOP)
        now = time.perf_counter(); ran += now - mark; mark = now
        # As long as makes the sum right, however late the machine wakes this process.
        time.sleep(max(0.0, ran * {SLOWER - 1} - stopped))
        os.killpg(group, signal.SIGCONT)
        now = time.perf_counter(); stopped += now - mark; mark = now
except ProcessLookupError:
    pass
"""


def group_of(browser: Browser) -> int:
    """The process group the browser's processes are in: Playwright gives it one of its own."""
    session = browser.new_browser_cdp_session()
    found = session.send("SystemInfo.getProcessInfo")["processInfo"]
    session.detach()
    group = os.getpgid(next(one["id"] for one in found if one["type"] == "browser"))
    assert group != os.getpgrp(), "the browser is in this program's own process group"
    return group


def put_first(process: int) -> None:
    """Let the session of `process` run before others, so that a busy machine counts less in what is measured.

    Linux shares its processors out among sessions, each with a niceness of its own. Where one may not (only root may), or on
    another system, nothing is done.
    """
    with suppress(OSError):
        Path(f"/proc/{process}/autogroup").write_text("-15", encoding="ascii")


@contextmanager
def slowed(browser: Browser) -> Iterator[None]:
    """Within it the browser and whatever it starts is `SLOWER` times slower."""
    group = group_of(browser)
    turns = subprocess.Popen([sys.executable, "-c", TURNS, str(group)], start_new_session=True)
    put_first(group)
    put_first(turns.pid)
    try:
        yield
    finally:
        turns.kill()
        turns.wait()
        with suppress(ProcessLookupError):
            os.killpg(group, signal.SIGCONT)


PLAIN = """(() => {
  const until = performance.now() + 1500;
  let done = 0, x = 1;
  const began = performance.now();
  while (performance.now() < until) {
    for (let i = 0; i < 20000; i++) x = (x * 1.000001 + i) % 1000;
    done += 20000;
  }
  return x < 0 ? 0 : done / (performance.now() - began) / 1000;
})()"""


def plain_calculations(page: Page) -> float:
    """Millions a second of one multiplication, one addition and one remainder in script: what figures of two machines
    are read against."""
    return tell(page, PLAIN)
