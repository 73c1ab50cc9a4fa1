"""Spokes against coordinates in space, an error library, statics and the vibrating string."""

import math
from typing import Any

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError

COUNTS = st.sampled_from([16, 20, 24, 28, 32, 36])


def run(calculation: str, **inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find(calculation).run(inputs)
    return answer


@given(
    st.floats(300, 620), st.floats(28, 75), st.floats(14, 42), COUNTS, st.integers(0, 4), st.floats(2.2, 3), st.floats(-4, 4)
)
def test_the_length_is_the_distance_of_two_points(
    erd: float, circle: float, flange: float, count: int, crosses: int, hole: float, off: float
) -> None:
    out = run(
        "spoke-length",
        erd=erd,
        pitch_circle=circle,
        flange_offset=flange,
        spokes=count,
        crosses=crosses,
        hole=hole,
        rim_offset=off,
    )["outputs"]
    # Laced by counting holes: each crossing turns the hub's hole by one more of its side.
    holes_apart = 2 * math.pi / (count / 2)
    turned = crosses * holes_apart
    flange_hole = np.array([circle / 2, 0.0, flange])
    rim_hole = np.array([erd / 2 * math.cos(turned), erd / 2 * math.sin(turned), off])
    spoke = rim_hole - flange_hole
    assert out["length"] == pytest.approx(float(np.linalg.norm(spoke)) - hole / 2, rel=1e-12)
    assert math.sin(math.radians(out["bracing_angle"])) == pytest.approx(float(-spoke[2] / np.linalg.norm(spoke)), abs=1e-12)


def test_how_far_measuring_errors_carry() -> None:
    """R ±0.5, r ±0.1, w ±0.3 give ±0.5 mm on the length: uncertainties, beside the kernel's own ±."""
    rim, hub, w = ufloat(300, 0.5), ufloat(22.5, 0.1), ufloat(35, 0.3)
    length = umath.sqrt(rim**2 + hub**2 + w**2 - 2 * rim * hub * math.cos(math.radians(67.5))) - 1.3
    answer = run(
        "spoke-length",
        erd={"value": 600, "plus_minus": 1.0},
        pitch_circle={"value": 45, "plus_minus": 0.2},
        flange_offset={"value": 35, "plus_minus": 0.3},
        spokes=32,
        crosses=3,
        hole=2.6,
    )
    assert length.std_dev == pytest.approx(0.5, abs=0.05)
    assert answer["uncertainty"]["length"]["likely"] == pytest.approx(length.std_dev, rel=0.01)


def test_crossing_to_the_tangent_is_the_longest_that_makes_sense() -> None:
    assert any(
        f["field"] == "crosses"
        for f in run("spoke-length", erd=600, pitch_circle=45, flange_offset=35, spokes=24, crosses=4)["findings"]
    )
    with pytest.raises(InputError):
        run("spoke-length", erd=600, pitch_circle=45, flange_offset=35, spokes=16, crosses=5)


@given(st.floats(200, 700), st.floats(120, 300), st.floats(1.4, 2.3))
def test_the_string_gives_its_tone_back(tone: float, length: float, diameter: float) -> None:
    out = run("spoke-tension", tone=tone, free_length=length, diameter=diameter)["outputs"]
    linear = 7850 * math.pi * (diameter / 2000) ** 2
    assert math.sqrt(out["tension"] / linear) / (2 * length / 1000) == pytest.approx(tone)
    assert out["stress"] == pytest.approx(out["tension"] / (math.pi * diameter**2 / 4))


@given(st.floats(150, 200), st.floats(0, 1e-6), st.sampled_from([0, 4]))
def test_a_flange_as_large_as_the_rim_is_refused_and_never_breaks_the_sums(size: float, less: float, crosses: int) -> None:
    with pytest.raises(InputError) as caught:
        run("spoke-length", erd=size, pitch_circle=size - less, flange_offset=0, spokes=16, crosses=crosses)
    assert [p["field"] for p in caught.value.problems] == ["pitch_circle"]


def test_the_string_law_solved_for_the_tension() -> None:
    """By sympy from f = √(T/μ)/2L; 1.8 mm steel is 0.019976 kg/m and 2.0 mm 0.024662 kg/m."""
    f, t, mu, length = sympy.symbols("f T mu L", positive=True)
    (solved,) = sympy.solve(sympy.Eq(f, sympy.sqrt(t / mu) / (2 * length)), t)
    for diameter, linear in [(1.8, 0.019976), (2.0, 0.024662)]:
        wanted = float(solved.subs({f: 400, mu: linear, length: 0.26}))
        out = run("spoke-tension", tone=400, free_length=260, diameter=diameter)["outputs"]
        assert out["tension"] == pytest.approx(wanted, rel=3e-5)


@given(st.floats(15, 40), st.floats(15, 40), st.floats(200, 300), st.floats(200, 300), st.floats(700, 1200))
def test_tensions_in_the_expected_ratio_do_not_pull_the_rim_aside(
    left: float, right: float, long_left: float, long_right: float, pull: float
) -> None:
    """Statics: the forces along the axle, spoke by spoke, cancel."""
    geometry = {"offset_left": left, "offset_right": right, "length_left": long_left, "length_right": long_right}
    first = run("tension-balance", tensions_left=[pull] * 12, tensions_right=[pull] * 12, **geometry)["outputs"]
    here = pull * first["ratio_expected"]
    sideways = 12 * here * left / long_left - 12 * pull * right / long_right
    assert sideways == pytest.approx(0, abs=1e-6)
    if 300 <= here <= 1500:
        answer = run("tension-balance", tensions_left=[here] * 12, tensions_right=[pull] * 12, **geometry)
        assert [f["level"] for f in answer["findings"]] == ["fine"]


@given(st.lists(st.floats(300, 1500), min_size=2, max_size=18))
def test_every_spoke_far_off_the_mean_is_named_and_no_other(tensions: list[float]) -> None:
    answer = run(
        "tension-balance",
        tensions_left=tensions,
        tensions_right=[900] * len(tensions),
        offset_left=30,
        offset_right=30,
        length_left=290,
        length_right=290,
    )
    mean = float(np.mean(tensions))
    named = {f["field"] for f in answer["findings"] if "[" in f["field"]}
    clear = [abs(abs(t / mean - 1) - 0.2) > 1e-9 for t in tensions]
    for i, tension in enumerate(tensions):
        if clear[i]:
            assert (f"tensions_left[{i}]" in named) == (abs(tension / mean - 1) > 0.2)
    assert answer["outputs"]["spread_left"] == pytest.approx(
        100 * float(np.max(np.abs(np.array(tensions) / mean - 1))), abs=1e-9
    )


def test_twice_the_tension_is_a_hundred_per_cent_more_on_either_side() -> None:
    geometry = {"offset_left": 30, "offset_right": 30, "length_left": 290, "length_right": 290}
    for left, right, side in ((1000, 500, "left"), (500, 1000, "right")):
        answer = run("tension-balance", tensions_left=[left] * 12, tensions_right=[right] * 12, **geometry)
        assert f"The {side} side is 100 % tighter" in answer["findings"][0]["text"]
