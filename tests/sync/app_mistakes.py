"""Mistakes to be put into the app's own queue, and the schedules in the browser that must find each of them."""

from datetime import timedelta
from typing import NamedTuple

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, rule, run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]
from playwright.sync_api import Browser, Page

from tests.sync.app_machine import machine_of_apps
from tests.sync.app_phones import page_of_phones, the_apps_store
from tests.sync.machine import BIKES, SyncMachine

# The owner's phone is the app, the mechanic's the model; both see everything.
ACTING = st.sampled_from((0, 1))
GOOD = ("good",)
WRITING = ("somebody_writes", "a_phone_sends")
SHARING = (*WRITING, "a_phone_fetches")


class Mistake(NamedTuple):
    """What is put in the place of what, in the store as it is built, not made small.

    `rules` and `fates` are what can happen: enough to bring it out, and not so much that it takes long to.
    """

    name: str
    changes: tuple[tuple[str, str], ...]
    rules: tuple[str, ...]
    fates: tuple[str, ...]


MISTAKES = (
    Mistake(
        "a_refused_entry_is_forgotten",
        (('await tx.objectStore("refused").put(refused)', "void 0"),),
        WRITING,
        GOOD,
    ),
    Mistake(
        "a_batch_is_acknowledged_before_it_is_stored",
        (
            (
                'told = await ask("/api/sync/push"',
                'for (const { waiting, ...row } of rows) await db.put("entries", row);\ntold = await ask("/api/sync/push"',
            ),
        ),
        WRITING,
        ("good", "reply lost"),
    ),
    Mistake(
        "a_receipt_is_believed_of_entries_whose_answer_was_lost",
        (("row.waiting !== void 0 && row.seq === null && !answered.has(row.n) ||", ""),),
        WRITING,
        ("good", "reply lost"),
    ),
    Mistake(
        "what_the_server_lost_is_not_offered_again",
        (("if (waits && row.waiting === void 0)", "if (false)"), ("row.waiting = row.n;", "")),
        (*WRITING, "a_backup_is_made", "the_backup_is_restored"),
        GOOD,
    ),
    Mistake(
        "an_entry_does_not_sort_after_what_was_seen",
        (("later(pulled.stamp, pen.stamp)", "pen.stamp"),),
        SHARING,
        GOOD,
    ),
    Mistake(
        "a_phone_shut_out_drops_what_it_has_not_sent",
        (("if (row.waiting !== void 0 || refused.has(row.id) || row.id === link)", "if (row.id === link)"),),
        (*WRITING, "a_phone_is_shut_out_or_let_in"),
        GOOD,
    ),
    Mistake(
        "of_a_page_only_the_first_entry_is_kept",
        (("inHandfuls(page.rows)", "inHandfuls(page.rows.slice(0, 1))"),),
        SHARING,
        GOOD,
    ),
)


NO_MISTAKE = Mistake(
    "none",
    (),
    (*SHARING, "a_phone_is_shut_out_or_let_in", "a_backup_is_made", "the_backup_is_restored"),
    ("good", "reply lost", "closed"),
)


def on_days(page: Page, mistake: Mistake) -> type[SyncMachine]:
    """The machine with two who act, on days when only this can happen."""
    whole = machine_of_apps(page)
    fates = st.sampled_from(mistake.fates)
    kinds = st.lists(st.sampled_from(("note", "poison")), min_size=1, max_size=3)

    class Days(whole):
        @initialize()
        def open(self) -> None:
            super().open()
            # Somebody's clock is always wrong.
            self.phones[1].skew = timedelta(days=16)

        @rule(who=ACTING, bike=st.sampled_from(BIKES), kinds=kinds)
        def somebody_writes(self, who: int, bike: str, kinds: list[str]) -> None:
            super().somebody_writes(who, bike, kinds)

        @rule(who=ACTING, most=st.integers(1, 6), fate=fates)
        def a_phone_sends(self, who: int, most: int, fate: str) -> None:
            super().a_phone_sends(who, most, fate)

        @rule(who=ACTING, limit=st.integers(1, 9), fate=fates)
        def a_phone_fetches(self, who: int, limit: int, fate: str) -> None:
            super().a_phone_fetches(who, limit, fate)

        @rule(who=ACTING)
        def a_phone_is_shut_out_or_let_in(self, who: int) -> None:
            super().a_phone_is_shut_out_or_let_in(who)

    for name in dir(SyncMachine):
        if hasattr(getattr(SyncMachine, name), "hypothesis_stateful_rule") and name not in mistake.rules:
            setattr(Days, name, None)
    return Days


def is_found(browser: Browser, mistake: Mistake, most: int, *, same_each_time: bool) -> bool:
    """Whether one of so many schedules ends with something lost, doubled or unlike. Nothing is made smaller then."""
    script = the_apps_store()
    for right, wrong in mistake.changes:
        assert script.count(right) == 1, f"the store no longer says: {right}"
        script = script.replace(right, wrong)
    quick = settings(
        max_examples=most,
        stateful_step_count=25,
        deadline=None,
        derandomize=same_each_time,
        database=None,
        phases=(Phase.generate,),
        report_multiple_bugs=False,
        suppress_health_check=list(HealthCheck),
    )
    with page_of_phones(browser, script) as page:
        try:
            run_state_machine_as_test(on_days(page, mistake), settings=quick)  # pyright: ignore[reportUnknownVariableType]
        except AssertionError:
            return True
    return False
