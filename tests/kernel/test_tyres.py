"""Rollout and rim fit over many sizes: what is not known never passes, and what is refused stays refused on a wider rim."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find

WIDTH = st.floats(20, 65)
INNER = st.floats(13, 40)
BEAD = st.sampled_from([406, 559, 584, 622, 630])
YES_NO = st.sampled_from([None, True, False])


def run(id: str, **inputs: Any) -> dict[str, Any]:
    return find(id).run(inputs)


@given(BEAD, WIDTH)
def test_a_tyre_given_back_as_height_rolls_as_far(bead: float, width: float) -> None:
    by_width = run("rollout", bead_seat=bead, tyre_width=width)["outputs"]
    height = (by_width["circumference"] / math.pi - bead) / 2
    assert run("rollout", bead_seat=bead, tyre_height=height)["outputs"]["diameter"] == pytest.approx(by_width["diameter"])
    assert height >= width - 1e-9


@given(WIDTH, st.floats(0.5, 10))
def test_a_millimetre_of_height_is_two_pi_of_road(height: float, more: float) -> None:
    short = run("rollout", tyre_height=height)["outputs"]["circumference"]
    long = run("rollout", tyre_height=height + more)["outputs"]["circumference"]
    assert long - short == pytest.approx(2 * math.pi * more)


@given(WIDTH, INNER, st.booleans(), YES_NO)
def test_without_the_rims_range_nothing_passes(tyre: float, inner: float, hookless: bool, approved: bool | None) -> None:
    answer = run("rim-fit", tyre_width=tyre, rim_inner_width=inner, hookless=hookless, tyre_hookless=approved)
    assert answer["outputs"]["rim_ok"] is not True
    levels = {f["level"] for f in answer["findings"]}
    assert ("stop" in levels) == (answer["outputs"]["rim_ok"] is False)
    assert levels & {"stop", "care"}


@given(WIDTH, INNER, st.floats(0.1, 10), YES_NO)
def test_hookless_refused_stays_refused_on_a_wider_rim(tyre: float, inner: float, more: float, approved: bool | None) -> None:
    marked = {"rim_tyre_min": 20, "rim_tyre_max": 65, "hookless": True, "tyre_hookless": approved, "tyre_width": tyre}
    here = run("rim-fit", rim_inner_width=inner, **marked)["outputs"]["rim_ok"]
    wider = run("rim-fit", rim_inner_width=inner + more, **marked)["outputs"]["rim_ok"]
    if here is False:
        assert wider is False
    if wider:
        assert here
        assert approved
        assert tyre >= inner + 5


@given(st.floats(28, 90), st.floats(20, 70), st.floats(1.6, 10))
def test_clearance_is_the_margin_on_both_sides(gap: float, tyre: float, margin: float) -> None:
    answer = run("rim-fit", tyre_width=32, rim_inner_width=21, frame_gap=gap, tyre_measured=tyre, margin=margin)
    free = gap - tyre
    if abs(free - 2 * margin) > 1e-6:
        assert answer["outputs"]["clearance_ok"] is (free > 2 * margin)
    assert answer["outputs"]["gap_left"] * 2 == pytest.approx(free)


def test_the_usual_inner_width_lies_in_the_range_a_tyre_maker_quotes() -> None:
    """38-622 goes on 17 to 27 mm inside: seen on a tyre maker's page, quoting the trade's norm."""
    assert 17 < run("rim-fit", tyre_width=38, rim_inner_width=21)["outputs"]["inner_width_usual"] < 27


def test_a_tyre_no_wider_than_the_rim_is_inside_never_goes_on_it() -> None:
    """Whatever range was typed: it is a slip."""
    for tyre in (25.0, 40.0):
        answer = run("rim-fit", tyre_width=tyre, rim_inner_width=40, hookless=False, rim_tyre_min=20, rim_tyre_max=60)
        assert answer["outputs"]["rim_ok"] is False
        assert "stop" in [f["level"] for f in answer["findings"]]
