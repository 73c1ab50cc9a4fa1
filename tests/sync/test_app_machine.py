"""Nothing is lost by the app's own queue either: its TypeScript in a real browser, under the machine's schedules."""

import os

from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]

from tests.sync.app_machine import machine_of_apps
from tests.sync.app_phones import page_of_phones, the_apps_store
from tests.web.conftest import CHROMIUM


def test_the_apps_own_queue_loses_nothing() -> None:
    with page_of_phones(CHROMIUM) as page:
        page.add_script_tag(content=the_apps_store())
        run_state_machine_as_test(  # pyright: ignore[reportUnknownVariableType]
            machine_of_apps(page),
            settings=settings(
                max_examples=int(os.environ.get("APP_SCHEDULES", "25")),
                stateful_step_count=25,
                deadline=None,
                suppress_health_check=list(HealthCheck),
            ),
        )
