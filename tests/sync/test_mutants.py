"""The state machine can fail: each of these mistakes, put into the server's store, is found by it."""

# It reaches into what it breaks.
# pyright: reportPrivateUsage=false, reportUnknownLambdaType=false, reportUnknownArgumentType=false

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]

from pinchbolt.store import appending, granting
from tests.sync.machine import SyncMachine

# Found long before; a mistake that needs more is one the ordinary run would hardly find.
MOST_SCHEDULES = 25


def is_found(machine: type[SyncMachine]) -> bool:
    """Whether any schedule ends with something lost, doubled or unlike. Nothing is made smaller: it is meant to fail."""
    quick = settings(
        max_examples=MOST_SCHEDULES,
        stateful_step_count=25,
        deadline=None,
        # The same schedules each time: how soon it is found is not left to luck.
        derandomize=True,
        database=None,
        phases=(Phase.generate,),
        report_multiple_bugs=False,
        suppress_health_check=(HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much),
    )
    try:
        run_state_machine_as_test(machine, settings=quick)  # pyright: ignore[reportUnknownVariableType]
    except AssertionError:
        return True
    return False


def an_entry_is_dropped(patch: pytest.MonkeyPatch) -> None:
    """Answered as stored, and not stored."""
    store = appending.Appending._store

    def forgetful(self: Any, arrival: Any, e: Any) -> Any:
        return appending.Placed(e.id, e.n, "stored", 1) if e.kind == "fault" else store(self, arrival, e)

    patch.setattr(appending.Appending, "_continue", lambda self, push: None)
    patch.setattr(appending.Appending, "_store", forgetful)


def a_new_grant_brings_no_past(patch: pytest.MonkeyPatch) -> None:
    grant = granting.Granting._grant

    def late(self: Any, audience: str, subject: str) -> None:
        self._at = 0
        grant(self, audience, subject)

    patch.setattr(granting.Granting, "_grant", late)


class Quiet(SyncMachine):
    """The same machine on days without faults: writing, granting, sending and fetching come up often enough to meet soon."""

    a_clock_jumps: Any = None
    the_signal_comes_or_goes: Any = None
    entries_come_out_of_order: Any = None
    a_late_request_arrives: Any = None
    the_app_is_closed_and_opened: Any = None
    a_phone_is_shut_out_or_let_in: Any = None
    the_server_is_killed: Any = None
    a_backup_is_made: Any = None
    the_backup_is_restored: Any = None


SERVER = (an_entry_is_dropped, a_new_grant_brings_no_past)


@pytest.mark.parametrize("mistake", SERVER, ids=lambda mistake: mistake.__name__)
def test_a_mistake_in_the_servers_store_is_found(mistake: Callable[[pytest.MonkeyPatch], None]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        mistake(patch)
        assert is_found(Quiet)


def test_the_same_schedules_find_nothing_without_a_mistake() -> None:
    assert not is_found(Quiet)
