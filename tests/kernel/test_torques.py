"""The torque card: what is marked on the parts wins over the usual range, and the strictest mark over the others."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.joints import JOINTS
from pinchbolt.kernel.torques import MARKED, torque_cards

STEM = {"part": "s", "slot": "stem", "name": "stem A", "markings": {"face_plate_limit": 5, "steerer_clamp_limit": 5}}
BAR = {"part": "b", "slot": "bar", "name": "bar A", "markings": {"stem_clamp_limit": 4.5}}


def card(joint: str, *parts: dict[str, Any], joints: dict[str, Any] | None = None) -> dict[str, Any]:
    return next(c for c in torque_cards({"parts": list(parts), "joints": joints or {}}) if c["joint"] == joint)


def test_without_a_mark_the_usual_range_is_shown_as_usual() -> None:
    # HANDBOOK of the trade, section joints: stem face plate 4 to 6 N·m, common practice.
    found = card("stem face plate", {"part": "s", "slot": "stem", "name": "stem A"})
    assert (found["low"], found["high"], found["usual"]) == (4, 6, True)


def test_of_two_parts_that_meet_the_lower_limit_counts() -> None:
    found = card("stem face plate", STEM, BAR)
    assert (found["high"], found["usual"], found["low_usual"]) == (4.5, False, True)
    assert [m["part"] for m in found["marks"]] == ["stem A", "bar A"]


def test_a_limit_below_the_usual_least_leaves_a_range_below_it() -> None:
    found = card("seatpost clamp", {"part": "p", "slot": "seatpost", "name": "post", "markings": {"clamp_limit": 4}})
    assert found["high"] == 4
    assert found["low"] == pytest.approx(3.2)


def test_any_part_can_carry_the_figures_of_a_joint_by_its_name() -> None:
    marked = {"left pedal limit": 38, "left pedal min": 34}
    found = card("left pedal", {"part": "c", "slot": "crank", "name": "crank", "markings": marked})
    assert (found["low"], found["high"], found["low_usual"]) == (34, 38, False)


def test_marks_that_contradict_each_other_are_told() -> None:
    found = card("stem face plate", STEM, {"part": "b", "slot": "bar", "name": "bar", "markings": {"stem face plate min": 5.5}})
    assert found["clash"]


def test_the_preload_has_no_figure_and_two_bolts_go_round_twice() -> None:
    assert card("headset preload")["by_feel"]
    assert card("stem to steerer")["sequence"] == [1, 2, 1, 2]
    assert card("rotor bolts, front")["sequence"] == [1, 4, 2, 5, 3, 6]


def test_a_rotor_is_held_by_its_bolts_or_by_its_lockring_not_both() -> None:
    rotor = {"part": "r", "slot": "rotor-front", "name": "rotor", "interfaces": [{"kind": "rotor", "mount": "six-bolt 44 mm"}]}
    assert card("rotor bolts, front", rotor)["on_bike"]
    assert not card("rotor lockring, front", rotor)["on_bike"]
    bare = {"part": "r", "slot": "rotor-front", "name": "rotor"}
    assert card("rotor bolts, front", bare)["on_bike"]
    assert not card("rotor bolts, front", bare, joints={"rotor lockring, front": {"applied": 40}})["on_bike"]


def test_every_marking_speaks_of_a_joint_there_is() -> None:
    assert set(MARKED) <= {j["joint"] for j in JOINTS}


@given(st.lists(st.floats(0.5, 60), max_size=5))
def test_no_range_ever_passes_a_marked_limit(limits: list[float]) -> None:
    parts = [
        {"part": str(i), "slot": "cages", "name": str(i), "markings": {"steerer plug limit": v}} for i, v in enumerate(limits)
    ]
    found = card("steerer plug", *parts)
    assert all(found["high"] <= v for v in limits)
    assert found["low"] <= found["high"]
