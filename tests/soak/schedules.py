"""The state machine of sync, run for a share of the schedules in a process of its own.

`python -m tests.soak.schedules COUNT SECONDS [app]` prints its figures as JSON. With `app` some of the phones are the app's own
queue in a browser.
"""

import json
import sys
import time

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]
from playwright.sync_api import sync_playwright

from tests.sync.machine import TALLY, SyncMachine
from tests.web.phone import ARGUMENTS, CHROMIUM

# After each run of so many it is looked at the clock.
SHARE = 100


def run(machine: type[SyncMachine], count: int, seconds: float) -> None:
    """Schedules until there are so many or the time is over."""
    until = time.monotonic() + seconds
    while TALLY.figures["schedules"] < count and time.monotonic() < until:
        run_state_machine_as_test(  # pyright: ignore[reportUnknownVariableType]
            machine,
            settings=settings(
                max_examples=min(SHARE, count - TALLY.figures["schedules"]),
                stateful_step_count=30,
                deadline=None,
                database=None,
                phases=(Phase.generate, Phase.shrink),
                suppress_health_check=list(HealthCheck),
            ),
        )


def main(count: int, seconds: float, app: bool) -> None:
    if app:
        from tests.sync.app_machine import machine_of_apps  # noqa: PLC0415 - a browser is needed for it
        from tests.sync.app_phones import page_of_phones  # noqa: PLC0415

        with sync_playwright() as started:
            browser = started.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            with page_of_phones(browser) as page:
                run(machine_of_apps(page), count, seconds)
            browser.close()
    else:
        run(SyncMachine, count, seconds)
    print(json.dumps(TALLY.figures))


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]), "app" in sys.argv[3:])
