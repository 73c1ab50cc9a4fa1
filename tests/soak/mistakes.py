"""Each mistake put into the app's own queue, one after the other: the schedules in the browser must find it.

`python -m tests.soak.mistakes` prints as JSON how many were put in and how many were found.
"""

import json
import sys

from playwright.sync_api import sync_playwright

from tests.sync.app_mistakes import MISTAKES, NO_MISTAKE, is_found
from tests.web.phone import ARGUMENTS, CHROMIUM

# It ends with the first that finds it: most are found within ten, the rarest after fifty or so.
MOST_SCHEDULES = 1000


def main() -> dict[str, int]:
    found = 0
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        assert not is_found(browser, NO_MISTAKE, 25, same_each_time=False), "the schedules find something without a mistake"
        for mistake in MISTAKES:
            if is_found(browser, mistake, MOST_SCHEDULES, same_each_time=False):
                found += 1
            else:
                print(f"{mistake.name}: not found in {MOST_SCHEDULES} schedules", file=sys.stderr)
        browser.close()
    return {"put in": len(MISTAKES), "found": found}


if __name__ == "__main__":
    print(json.dumps(main()))
