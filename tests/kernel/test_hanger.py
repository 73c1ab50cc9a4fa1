"""The hanger: planes laid through four points."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find

GAUGE: dict[str, Any] = {"gap_12": 20, "gap_3": 20, "gap_6": 20, "gap_9": 20, "radius": 290}
GAPS = st.floats(5, 55)


def run(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("hanger-alignment").run({**GAUGE, **changed})
    return answer


@given(GAPS, GAPS, GAPS, GAPS, st.floats(240, 340))
def test_the_angles_are_those_of_the_best_plane(top: float, front: float, bottom: float, rear: float, radius: float) -> None:
    out = run(gap_12=top, gap_3=front, gap_6=bottom, gap_9=rear, radius=radius)["outputs"]
    places = np.array([[0, radius, 1], [radius, 0, 1], [0, -radius, 1], [-radius, 0, 1]])
    gaps = np.array([top, front, bottom, rear])
    plane = np.linalg.lstsq(places, gaps, rcond=None)[0]
    assert math.tan(math.radians(out["toe"])) == pytest.approx(plane[0], abs=1e-9)
    assert math.tan(math.radians(out["camber"])) == pytest.approx(plane[1], abs=1e-9)
    assert math.tan(math.radians(out["tilt"])) == pytest.approx(math.hypot(plane[0], plane[1]), abs=1e-9)
    # What the plane leaves over is the same at all four points, half the misfit.
    assert np.abs(places @ plane - gaps) == pytest.approx(np.full(4, out["misfit"] / 2), abs=1e-8)


@given(GAPS, GAPS, GAPS, GAPS, st.floats(0, 20))
def test_moving_the_whole_gauge_out_changes_nothing(top: float, front: float, bottom: float, rear: float, out: float) -> None:
    here = run(gap_12=top, gap_3=front, gap_6=bottom, gap_9=rear)["outputs"]
    there = run(gap_12=top + out, gap_3=front + out, gap_6=bottom + out, gap_9=rear + out)["outputs"]
    assert there == {name: pytest.approx(value, abs=1e-9) for name, value in here.items()}


@pytest.mark.parametrize(("gap", "hour"), [("gap_3", "3"), ("gap_9", "9"), ("gap_12", "12"), ("gap_6", "6")])
def test_it_says_where_to_press(gap: str, hour: str) -> None:
    opposite = {"gap_3": "gap_9", "gap_9": "gap_3", "gap_12": "gap_6", "gap_6": "gap_12"}[gap]
    (finding,) = run(**{gap: 23, opposite: 17})["findings"]
    assert finding["level"] == "care"
    assert f"at {hour} o'clock press towards the wheel" in finding["text"]


def test_the_tolerance_itself_is_straight() -> None:
    assert [f["level"] for f in run(gap_3=22, gap_9=18)["findings"]] == ["fine"]
    assert [f["level"] for f in run(gap_3=22.1, gap_9=18)["findings"]] == ["care"]


def test_a_wheel_out_of_true_is_never_called_straight() -> None:
    found = run(gap_12=21.1, gap_6=21.1, tolerance=4)["findings"]
    assert [(f["level"], f["field"]) for f in found] == [("care", "gap_12")]
    assert [f["level"] for f in run(gap_12=21, gap_6=21, tolerance=4)["findings"]] == ["fine"]


def test_nobody_bends_by_figures_that_do_not_fit_together() -> None:
    found = run(gap_12=26, gap_3=22)["findings"]
    assert [f["field"] for f in found] == ["gap_12", "tolerance"]
    assert "press" not in str(found)
    assert "measure again before bending" in found[1]["text"]
