"""The state machine can fail: each of these mistakes, put into the server's store or the app's queue, is found by it."""

import sqlite3
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.errors import FlakyFailure
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]
from playwright.sync_api import Page

from pinchbolt.store import appending, chain, committer, granting
from tests.sync.app_machine import machine_of_apps
from tests.sync.app_phones import page_of_phones, the_apps_store
from tests.sync.machine import SyncMachine
from tests.web.conftest import CHROMIUM

# Found long before; a mistake that needs more is one the ordinary run would hardly find.
MOST_SCHEDULES = 150


def is_found(machine: type[SyncMachine]) -> bool:
    """Whether any schedule ends with something lost, doubled or unlike. Nothing is made smaller: it is meant to fail."""
    quick = settings(
        max_examples=MOST_SCHEDULES,
        stateful_step_count=25,
        deadline=None,
        database=None,
        phases=(Phase.generate,),
        report_multiple_bugs=False,
        suppress_health_check=list(HealthCheck),
    )
    try:
        run_state_machine_as_test(machine, settings=quick)  # pyright: ignore[reportUnknownVariableType]
    except AssertionError:
        return True
    except FlakyFailure as failure:
        # Found, though not the same way when tried again: the app's ids are random.
        return failure.subgroup(AssertionError) is not None
    return False


def an_entry_is_dropped(patch: pytest.MonkeyPatch) -> None:
    """Answered as stored, and not stored."""
    store = appending.Appending._store

    def forgetful(self: Any, arrival: Any, e: Any) -> Any:
        return appending.Placed(e.id, e.n, "stored", 1) if e.kind == "fault" else store(self, arrival, e)

    patch.setattr(appending.Appending, "_continue", lambda self, push: None)
    patch.setattr(appending.Appending, "_store", forgetful)


def it_is_answered_before_the_commit(patch: pytest.MonkeyPatch) -> None:
    """The commit is put off to the next push."""

    def early(self: Any, jobs: list[Any]) -> list[Any]:
        conn: sqlite3.Connection = self._conn
        if conn.in_transaction:
            conn.execute("COMMIT")
        conn.execute("BEGIN IMMEDIATE")
        return [self._apply(job) for job in jobs]

    patch.setattr(committer.Committer, "_transact", early)


def a_receipt_passes_a_gap(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(chain, "reached", lambda top, first_gap: top)
    patch.setattr(chain, "missing", lambda gaps: [])


def a_new_grant_brings_no_past(patch: pytest.MonkeyPatch) -> None:
    def late(self: Any, audience: str, subject: str) -> None:
        self._conn.execute("INSERT OR IGNORE INTO grants (audience, subject, at) VALUES (?, ?, 0)", (audience, subject))

    patch.setattr(granting.Granting, "_grant", late)


SERVER = (an_entry_is_dropped, it_is_answered_before_the_commit, a_receipt_passes_a_gap, a_new_grant_brings_no_past)


@pytest.mark.parametrize("mistake", SERVER, ids=lambda mistake: mistake.__name__)
def test_a_mistake_in_the_servers_store_is_found(mistake: Callable[[pytest.MonkeyPatch], None]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        mistake(patch)
        assert is_found(SyncMachine)


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    with page_of_phones(CHROMIUM) as opened:
        yield opened


APP = {
    "the queue forgets whatever was answered": (
        "const waits = row.n > receipt.n || missing.has(row.n);",
        "const waits = false;",
    ),
    "a number the server misses is not sent again": ("row.n > receipt.n || missing.has(row.n)", "row.n > receipt.n"),
    "the cursor runs ahead": ("pulledTo(page.next, stamp", "pulledTo(page.next + 1, stamp"),
    "a stranger's answer is believed": ("if (!ours) throw stranger();", ""),
    "after a restore nothing is offered again": ("if (row.device === device) row.waiting = row.n;", ""),
    "the clock does not hear the others": ("later(pulled.stamp, pen.stamp)", "pen.stamp"),
}


@pytest.mark.parametrize("mistake", APP.values(), ids=APP.keys())
def test_a_mistake_in_the_apps_queue_is_found(page: Page, mistake: tuple[str, str]) -> None:
    right = the_apps_store()
    assert right.count(mistake[0]) == 1, f"there is not exactly one {mistake[0]}"
    page.add_script_tag(content=right.replace(*mistake))
    assert is_found(machine_of_apps(page))
