"""Saddle transfer: the leg keeps its length, the clamp is where the rails are."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find

EXAMPLE = find("saddle-transfer").example

BIKES = st.fixed_dictionaries(
    {
        "saddle_height": st.floats(600, 850),
        "saddle_setback": st.floats(100, 250),
        "seat_angle": st.floats(70, 78),
        "post_offset": st.floats(0, 35),
        "rail_to_top": st.floats(35, 65),
        "crank_new": st.floats(160, 180),
        "pedal_stack_new": st.floats(0, 30),
    }
)


def run(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("saddle-transfer").run({**EXAMPLE, **changed})
    return answer


@given(BIKES)
def test_from_saddle_to_sole_at_the_bottom_of_the_stroke_nothing_changes(bike: dict[str, float]) -> None:
    out = run(**bike)["outputs"]
    old = bike["saddle_height"] + EXAMPLE["crank_old"] - EXAMPLE["pedal_stack_old"]  # type: ignore[operator]
    new = out["saddle_height_new"] + bike["crank_new"] - bike["pedal_stack_new"]
    assert new == pytest.approx(old)


@given(BIKES)
def test_the_rails_pass_through_the_clamp(bike: dict[str, float]) -> None:
    out = run(**bike)["outputs"]
    seat = math.radians(bike["seat_angle"])
    line, square = np.array([-math.cos(seat), math.sin(seat)]), np.array([-math.sin(seat), -math.cos(seat)])
    clamp = line * (EXAMPLE["seat_tube"] + out["post_exposed"]) + square * bike["post_offset"]
    mid_rail = np.array([out["saddle_x"], out["saddle_y"] - bike["rail_to_top"]])
    assert mid_rail - clamp == pytest.approx(np.array([out["rail_shift"], 0.0]), abs=1e-9)


@given(BIKES)
def test_there_and_back_is_where_it_was(bike: dict[str, float]) -> None:
    there = run(**bike)["outputs"]["saddle_height_new"]
    back = run(
        **{
            **bike,
            "saddle_height": there,
            "crank_old": bike["crank_new"],
            "crank_new": EXAMPLE["crank_old"],
            "pedal_stack_old": bike["pedal_stack_new"],
            "pedal_stack_new": EXAMPLE["pedal_stack_old"],
        }
    )["outputs"]["saddle_height_new"]
    assert back == pytest.approx(bike["saddle_height"])


def test_measuring_to_the_nose_changes_nothing_but_the_figure() -> None:
    middle = run()["outputs"]
    nose = run(saddle_setback=EXAMPLE["saddle_setback"] - 135, reference_ahead=135)["outputs"]  # type: ignore[operator]
    assert nose["rail_shift"] == pytest.approx(middle["rail_shift"])


def test_more_setback_slides_the_saddle_back_as_far() -> None:
    assert run(saddle_setback=200)["outputs"]["rail_shift"] == pytest.approx(run()["outputs"]["rail_shift"] - 5)


def test_the_least_insertion_itself_is_enough_and_a_tenth_less_is_not() -> None:
    inserted = run(post_length=300)["outputs"]["post_inserted"]
    assert run(post_length=300, min_insertion=inserted)["findings"] == []
    (stop,) = run(post_length=300, min_insertion=inserted + 0.1)["findings"]
    assert (stop["level"], stop["field"]) == ("stop", "post_length")
    assert "0.1 mm or more" in stop["text"]


def test_a_saddle_that_has_to_go_too_far_says_which_way() -> None:
    (forward,) = run(rail_range=10)["findings"]
    assert forward["level"] == "stop"
    assert "forward" in forward["text"]
    assert "less offset" in forward["text"]
    (back,) = run(saddle_setback=250)["findings"]
    assert "more offset" in back["text"]


def test_a_frame_taller_than_the_rider_is_said() -> None:
    found = run(seat_tube=720, post_length=200)["findings"]
    assert ("stop", "seat_tube") in [(f["level"], f["field"]) for f in found]
