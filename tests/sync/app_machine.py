"""The same schedules with the app's own queue in the place of some of the models."""

from playwright.sync_api import Page

from tests.server import hands
from tests.sync.app_phones import AppPhone
from tests.sync.machine import SyncMachine
from tests.sync.phones import Hand, Side

# One who sees everything, and one whose sight comes and goes with grants. More would prove no more and take longer.
APPS = (hands.JUNO, hands.IMRE)


def machine_of_apps(page: Page) -> type[SyncMachine]:
    """The state machine in which the owner's and a rider's phone are opened in this page; the others are models as before."""

    class AppMachine(SyncMachine):
        opened = 0

        def phone(self, hand: Hand) -> Side:
            if hand.person not in APPS:
                return super().phone(hand)
            AppMachine.opened += 1
            return AppPhone(hand, page, f"phone-{AppMachine.opened}")

        def teardown(self) -> None:
            super().teardown()
            page.evaluate("phones.forget()")

    return AppMachine
