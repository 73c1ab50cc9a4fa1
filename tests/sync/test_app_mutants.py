"""The schedules in the browser can fail: mistakes put into the app's own queue are found by them.

Here those that come out within a few schedules; `make soak` looks for all of them.
"""

import pytest
from playwright.sync_api import Browser

from tests.sync.app_mistakes import MISTAKES, NO_MISTAKE, Mistake, is_found

# Found long before; the same schedules each time, so that how soon is not left to luck.
MOST_SCHEDULES = 12
QUICK = {
    "a_refused_entry_is_forgotten",
    "a_phone_shut_out_drops_what_it_has_not_sent",
    "of_a_page_only_the_first_entry_is_kept",
}


@pytest.mark.parametrize("mistake", [one for one in MISTAKES if one.name in QUICK], ids=lambda mistake: mistake.name)
def test_a_mistake_in_the_apps_own_queue_is_found(browser: Browser, mistake: Mistake) -> None:
    assert is_found(browser, mistake, MOST_SCHEDULES, same_each_time=True)


def test_the_same_schedules_find_nothing_without_a_mistake(browser: Browser) -> None:
    assert not is_found(browser, NO_MISTAKE, MOST_SCHEDULES, same_each_time=True)
