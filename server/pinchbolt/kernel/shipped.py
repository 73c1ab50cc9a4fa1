"""The checks shipped with the program. A version, once released, is never edited: a change is a new version."""

from .check_items import definition
from .shipped_after_fall import AFTER_FALL
from .shipped_hand_over import HAND_OVER
from .shipped_pre_event import PRE_EVENT
from .shipped_self_check import SELF_CHECK

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Its items are made from the joints on the bike's own record, see checks.prepare.
FIRST_RIDE = definition(
    "first-ride",
    1,
    "First-ride re-torque",
    "Every joint on this bike's record once more, after the first ride, 100 km, a fall or transport (common practice).",
    "part",
    "mechanic",
    [],
)

SHIPPED: "list[Body]" = [PRE_EVENT, SELF_CHECK, FIRST_RIDE, AFTER_FALL, HAND_OVER]


def find_check(check: str, version: object) -> "Body | None":
    """The shipped definition `check` of `version`, or None."""
    for one in SHIPPED:
        if one["check"] == check and one["version"] == version:
            return one
    return None
