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

from playwright.sync_api import Browser

SLOWER = 4
TURN = 0.002
"""Seconds it runs at a stretch."""

TURNS = f"""
import os, signal, sys, time
group = int(sys.argv[1])
os.setpriority(os.PRIO_PROCESS, 0, -10) if os.geteuid() == 0 else None
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


@contextmanager
def slowed(browser: Browser) -> Iterator[None]:
    """Within it the browser and whatever it starts is `SLOWER` times slower."""
    group = group_of(browser)
    turns = subprocess.Popen([sys.executable, "-c", TURNS, str(group)])
    try:
        yield
    finally:
        turns.kill()
        turns.wait()
        with suppress(ProcessLookupError):
            os.killpg(group, signal.SIGCONT)
