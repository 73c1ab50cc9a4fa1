"""Steering geometry and changed angles against plane geometry done elsewhere."""

import math
from typing import Any

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point
from shapely.affinity import rotate

from pinchbolt.kernel.catalogue import find

STEERING = find("steering-geometry").example
CHANGE = find("angle-change").example


def steering(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("steering-geometry").run({**STEERING, **changed})
    return answer


def change(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("angle-change").run({**CHANGE, **changed})
    return answer


@given(st.floats(62, 76), st.floats(0, 65), st.floats(300, 380))
def test_trail_is_where_the_steering_axis_meets_the_floor(head: float, offset: float, radius: float) -> None:
    h = math.radians(head)
    # The axle is at (0, R); the axis runs up and back, offset behind the axle.
    on_axis = np.array([-offset * math.sin(h), radius - offset * math.cos(h)])
    up = np.array([-math.cos(h), math.sin(h)])
    axis = LineString([on_axis - 2000 * up, on_axis + 2000 * up])
    floor = LineString([(-3000, 0), (3000, 0)])
    met = axis.intersection(floor)
    out = steering(head_angle=head, fork_offset=offset, wheel_radius=radius)["outputs"]
    assert out["trail"] == pytest.approx(met.x, abs=1e-6)
    assert out["mechanical_trail"] == pytest.approx(math.copysign(axis.distance(Point(0, 0)), met.x), abs=1e-6)


def test_the_benchmark_bicycle_exactly() -> None:
    # Meijaard, Papadopoulos, Ruina & Schwab, Proc. R. Soc. A 463 (2007) 1955-1982, Table 1: c 0.08 m, tilt π/10, R 0.35 m.
    tilt = sympy.pi / 10
    offset = sympy.Rational(35, 100) * sympy.sin(tilt) - sympy.Rational(8, 100) * sympy.cos(tilt)
    out = steering(head_angle=72, fork_offset=float(offset * 1000), wheel_radius=350)["outputs"]
    assert out["trail"] == pytest.approx(80, abs=1e-9)
    assert out["mechanical_trail"] == pytest.approx(float(80 * sympy.cos(tilt)), abs=1e-9)


@given(st.floats(62, 76), st.floats(0, 60))
def test_more_offset_is_less_trail_and_a_slacker_head_more(head: float, offset: float) -> None:
    here = steering(head_angle=head, fork_offset=offset)["outputs"]["trail"]
    assert steering(head_angle=head, fork_offset=offset + 1)["outputs"]["trail"] < here
    assert steering(head_angle=head - 1, fork_offset=offset)["outputs"]["trail"] > here


def test_toe_clearance_is_questioned_below_89_mm_and_not_at_it() -> None:
    # 16 CFR 1512.17(d): 89 mm (3½ in) between pedal and front tyre where feet are not held.
    fields = {"wheel_radius": 340, "crank_length": 170, "toe_overhang": 80}
    assert steering(front_centre=599, **fields)["findings"] == []
    assert [f["field"] for f in steering(front_centre=598.9, **fields)["findings"]] == ["front_centre"]


@pytest.mark.parametrize("missing", ["front_centre", "crank_length", "toe_overhang"])
def test_a_toe_gap_is_not_made_up(missing: str) -> None:
    assert steering(**{missing: None})["outputs"]["toe_gap"] is None


RISES = st.floats(-40, 40)


@given(RISES, RISES, st.floats(400, 550), st.floats(500, 700))
def test_the_bar_turns_about_the_bottom_bracket(front: float, rear: float, bar_x: float, bar_y: float) -> None:
    out = change(front_rise=front, rear_rise=rear, bar_x=bar_x, bar_y=bar_y)["outputs"]
    turned = rotate(Point(bar_x, bar_y), out["tilt"], origin=(0, 0))
    assert (out["bar_x_new"], out["bar_y_new"]) == pytest.approx((turned.x, turned.y), abs=1e-9)
    assert math.hypot(out["bar_x_new"], out["bar_y_new"]) == pytest.approx(math.hypot(bar_x, bar_y))


@given(RISES, RISES)
def test_the_axles_end_up_as_much_higher_as_was_said(front: float, rear: float) -> None:
    out = change(front_rise=front, rear_rise=rear)["outputs"]
    wheelbase, drop, stay = CHANGE["wheelbase"], CHANGE["bb_drop"], CHANGE["chainstay"]
    back = math.sqrt(stay**2 - drop**2)  # type: ignore[operator]
    rear_axle, front_axle = Point(-back, drop), Point(wheelbase - back, drop)  # type: ignore[operator]
    for axle, rise in ((rear_axle, rear), (front_axle, front)):
        after = rotate(axle, out["tilt"], origin=(0, 0))
        assert out["bb_height_change"] + after.y - axle.y == pytest.approx(rise, abs=1e-9)


@given(RISES, RISES)
def test_nose_up_is_slacker_and_undone_by_the_other_way_round(front: float, rear: float) -> None:
    there = change(front_rise=front, rear_rise=rear)["outputs"]
    back = change(
        front_rise=-front,
        rear_rise=-rear,
        head_angle=there["head_angle_new"],
        seat_angle=there["seat_angle_new"],
        bar_x=there["bar_x_new"],
        bar_y=there["bar_y_new"],
    )["outputs"]
    assert (there["head_angle_new"] < CHANGE["head_angle"]) == (there["tilt"] > 0) or abs(there["tilt"]) < 1e-9
    assert back["head_angle_new"] == pytest.approx(CHANGE["head_angle"])
    assert back["bar_x_new"] == pytest.approx(CHANGE["bar_x"])
    assert back["bar_y_new"] == pytest.approx(CHANGE["bar_y"])


def test_big_changes_are_questioned() -> None:
    fields = [f["field"] for f in change(front_rise=40, rear_rise=-20)["findings"]]
    assert "front_rise" in fields
    assert "rear_rise" in [f["field"] for f in change(front_rise=-30, rear_rise=-10)["findings"]]
