"""Nothing is lost by the app's own queue either: its TypeScript in a real browser, under the machine's schedules."""

import os
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]
from playwright.sync_api import Browser

from tests.server.hands import FERN
from tests.sync.app_machine import machine_of_apps
from tests.sync.app_phones import AppPhone, page_of_phones
from tests.sync.machine import HANDS
from tests.sync.phones import House, workday


def test_the_apps_own_queue_loses_nothing(browser: Browser) -> None:
    with page_of_phones(browser) as page:
        run_state_machine_as_test(  # pyright: ignore[reportUnknownVariableType]
            machine_of_apps(page),
            settings=settings(
                max_examples=int(os.environ.get("APP_SCHEDULES", "25")),
                stateful_step_count=25,
                deadline=None,
                suppress_health_check=list(HealthCheck),
            ),
        )


def test_a_refusal_lost_with_its_reply_is_heard_though_the_next_receipt_covers_it(browser: Browser, tmp_path: Path) -> None:
    """The state machine found this one: a smaller batch brought a receipt for entries whose refusal nobody had heard."""
    with page_of_phones(browser) as page:
        house = House(tmp_path, HANDS)
        phone = AppPhone(HANDS[0], page, "juno")
        for _ in range(2):
            phone.write(FERN, "note", {"text": "Cables come on Thursday."}, workday())
        phone.write(FERN, "weigh", {"mass": "light"}, workday())
        phone.sends(house, 3, "reply lost")
        phone.sends(house, 1, "good")
        assert phone.queue() == []
        assert list(phone.refused) == [3]
        house.close()
