"""The joints of a bike, their usual torques and how they are tightened.

All figures here are common practice, shown as *usual*: the figure marked on the part wins.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def _joint(
    joint: str,
    low: "float | None",
    high: "float | None",
    condition: str,
    *,
    bolts: int = 1,
    order: str = "",
    slot: str = "",
    caution: str = "",
) -> "Body":
    """`low`, `high` N·m; `condition` of thread or clamp; `order` for several bolts; `slot` of the part that bears the mark."""
    return {
        "joint": joint,
        "low": low,
        "high": high,
        "condition": condition,
        "bolts": bolts,
        "order": order,
        "slot": slot,
        "caution": caution,
        "source": "common practice",
    }


# What the items of the first-ride re-torque begin with: one for each joint on the bike's record.
JOINT_ITEM = "joint-"

_CARBON = "On carbon: paste only where the maker allows it, never above the marked torque."
_SEE_PART = "The range differs widely: go by the part."

JOINTS: "list[Body]" = [
    _joint("stem face plate", 4, 6, "carbon paste on carbon", bolts=4, order="crosswise", slot="stem", caution=_CARBON),
    _joint("stem to steerer", 5, 6, "dry or paste", bolts=2, order="alternately", slot="stem", caution=_CARBON),
    _joint("steerer plug", 6, 8, "dry", slot="headset"),
    _joint("headset preload", None, None, "by feel: no play, no bind", slot="headset"),
    _joint("seatpost clamp", 5, 7, "paste on carbon", slot="seatpost", caution=_CARBON),
    _joint("saddle clamp", 8, 14, "grease on thread", bolts=2, order="alternately", slot="seatpost", caution=_SEE_PART),
    _joint("crank pinch bolts", 12, 14, "grease", bolts=2, order="alternately", slot="crank"),
    _joint("bottom-bracket cups", 25, 50, "grease or the compound named", slot="bottom-bracket", caution=_SEE_PART),
    _joint("cassette lockring", 40, 40, "grease", slot="cassette"),
    _joint("rotor lockring, front", 40, 40, "grease", slot="rotor-front"),
    _joint("rotor lockring, rear", 40, 40, "grease", slot="rotor-rear"),
    _joint("rotor bolts, front", 4, 6, "threadlock", bolts=6, order="crosswise", slot="rotor-front"),
    _joint("rotor bolts, rear", 4, 6, "threadlock", bolts=6, order="crosswise", slot="rotor-rear"),
    _joint("front caliper", 6, 8, "then safety clip or pin", bolts=2, order="alternately", slot="brake-front"),
    _joint("rear caliper", 6, 8, "then safety clip or pin", bolts=2, order="alternately", slot="brake-rear"),
    _joint("lever clamp, left", 5, 8, "dry", slot="shifters", caution=_CARBON),
    _joint("lever clamp, right", 5, 8, "dry", slot="shifters", caution=_CARBON),
    _joint("mech hanger", 8, 10, "dry", slot="rear-mech"),
    _joint("front-mech clamp", 5, 7, "dry", slot="front-mech", caution=_CARBON),
    _joint("front axle", 10, 15, "light grease", slot="axles", caution=_SEE_PART),
    _joint("rear axle", 10, 15, "light grease", slot="axles", caution=_SEE_PART),
    _joint("left pedal", 35, 40, "grease; left-hand thread", slot="pedals"),
    _joint("right pedal", 35, 40, "grease", slot="pedals"),
    _joint("bottle cage", 2, 3, "grease", bolts=2, order="alternately", slot="cages"),
]


def bolt_order(bolts: int) -> list[int]:
    """The order to tighten `bolts` standing in a ring, numbered from 1: each next one far from those done.

    >>> bolt_order(4)
    [1, 3, 2, 4]
    >>> bolt_order(6)
    [1, 4, 2, 5, 3, 6]
    """
    half = bolts // 2
    order: list[int] = []
    for i in range(half):
        order.append(i + 1)
        order.append(i + 1 + half)
    if bolts % 2:
        order.append(bolts)
    return order
