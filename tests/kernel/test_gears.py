"""Gears against fractions, and the climb against a root finder."""

import itertools
import math
from fractions import Fraction
from typing import Any

import pytest
from ambiance import Atmosphere
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from scipy.optimize import brentq

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError

CLIMB = find("climb-gear").example

RINGS = st.lists(st.integers(20, 58), min_size=1, max_size=3)
COGS = st.lists(st.integers(9, 52), min_size=1, max_size=13)


def table(**inputs: Any) -> dict[str, Any]:
    outputs: dict[str, Any] = find("gear-table").run({"rollout": 2105, **inputs})["outputs"]  # type: ignore[assignment]
    return outputs


def climb(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("climb-gear").run({**CLIMB, **changed})
    return answer


@given(RINGS, COGS)
def test_every_pair_is_there_once_by_rising_ratio(rings: list[int], cogs: list[int]) -> None:
    gears = table(rings=rings, cogs=cogs)["gears"]
    pairs = {(g["ring"], g["cog"]) for g in gears}
    assert pairs == set(itertools.product(rings, cogs))
    assert len(gears) == len(pairs)
    exact = [Fraction(g["ring"], g["cog"]) for g in gears]
    assert exact == sorted(exact)


@given(RINGS, COGS)
def test_steps_range_and_doubles_agree_with_fractions(rings: list[int], cogs: list[int]) -> None:
    out = table(rings=rings, cogs=cogs)
    exact = [Fraction(g["ring"], g["cog"]) for g in out["gears"]]
    steps = [float((b / a - 1) * 100) for a, b in itertools.pairwise(exact)]
    assert out["gears"][0]["step"] is None
    assert [g["step"] for g in out["gears"][1:]] == pytest.approx(steps, abs=1e-9)
    assert out["jump_max"] == pytest.approx(max(steps, default=0), abs=1e-9)
    assert out["range"] == pytest.approx(float(exact[-1] / exact[0] * 100))
    doubles = sum(b / a <= Fraction(102, 100) for a, b in itertools.combinations(exact, 2))
    assert len(out["duplicates"]) == doubles


def test_speed_is_development_by_cadence_in_any_units() -> None:
    u: Any = UnitRegistry()
    (gear,) = table(rings=[50], cogs=[17], cadence=95)["gears"]
    development = 50 / 17 * 2105 * u.mm
    assert gear["development"] == pytest.approx(development.to("m").magnitude)
    assert gear["speed"] == pytest.approx((development * 95 / u.minute).to("km/hour").magnitude)


def test_a_tooth_twice_in_the_list_is_one_gear_and_half_a_tooth_is_none() -> None:
    assert len(table(rings=[50, 50], cogs=[11, 11, 12])["gears"]) == 2
    with pytest.raises(InputError) as caught:
        table(rings=[50], cogs=[11, 12.5])
    assert [p["field"] for p in caught.value.problems] == ["cogs[1]"]


def test_a_single_gear_has_no_steps() -> None:
    out = table(rings=[44], cogs=[16])
    assert (out["range"], out["jump_max"], out["duplicates"]) == (100.0, 0.0, [])


@given(
    st.floats(40, 120), st.floats(0, 25), st.floats(80, 450), st.floats(0.002, 0.02), st.floats(0.2, 0.7), st.floats(0.85, 1.35)
)
def test_the_speed_uses_the_power_up(
    rider: float, gradient: float, power: float, rolling: float, drag_area: float, air_density: float
) -> None:
    changed = {
        "rider": rider,
        "gradient": gradient,
        "power": power,
        "rolling": rolling,
        "drag_area": drag_area,
        "air_density": air_density,
    }
    mass, slope = rider + 9, math.atan(gradient / 100)

    def left(v: float) -> float:
        weight = mass * 9.80665 * (math.sin(slope) + rolling * math.cos(slope))
        return v * weight + 0.5 * air_density * drag_area * v**3 - power * 0.975

    assert climb(**changed)["outputs"]["speed"] / 3.6 == pytest.approx(brentq(left, 1e-6, 60, xtol=1e-13), rel=1e-9)


@given(st.floats(3, 25), st.floats(80, 450))
def test_steeper_is_slower_and_stronger_is_faster(gradient: float, power: float) -> None:
    here = climb(gradient=gradient, power=power)["outputs"]["speed"]
    assert climb(gradient=gradient + 1, power=power)["outputs"]["speed"] < here
    assert climb(gradient=gradient, power=power + 10)["outputs"]["speed"] > here


@given(st.floats(3, 25), st.floats(80, 450), st.integers(20, 50), st.integers(45, 90))
def test_the_cog_wanted_is_the_smallest_that_will_do(gradient: float, power: float, ring: int, cadence: int) -> None:
    bike = {"gradient": gradient, "power": power, "ring_min": ring, "cadence_min": cadence}
    cog = climb(**bike)["outputs"]["cog_wanted"]
    if 9 <= cog <= 80:
        assert climb(**bike, cog_max=cog)["outputs"]["cadence"] >= cadence - 1e-6
        assert [f["level"] for f in climb(**bike, cog_max=cog)["findings"] if "rpm" in f["text"]] == ["fine"]
    if 10 <= cog <= 80:
        assert climb(**bike, cog_max=cog - 1)["outputs"]["cadence"] < cadence


def test_the_air_taken_when_none_is_given_is_that_of_the_standard_atmosphere() -> None:
    # ISO 2533 by the ambiance library; the help's figure for 2000 m is geopotential, 2e-4 from the geometric one.
    (air,) = [field for field in find("climb-gear").inputs if field.name == "air_density"]
    assert air.default == pytest.approx(float(Atmosphere(0).density[0]), rel=1e-4)
    assert "1.006 at 2000 m" in air.help
    assert float(Atmosphere(2000).density[0]) == pytest.approx(1.006, abs=1e-3)


def test_at_the_ratio_wanted_the_cadence_is_the_least_one() -> None:
    out = climb()["outputs"]
    per_minute = out["speed"] / 3.6 * 60 / (out["ratio_wanted"] * CLIMB["rollout"] / 1000)  # type: ignore[operator]
    assert per_minute == pytest.approx(CLIMB["cadence_min"])


def test_no_cog_is_asked_for_that_nobody_makes() -> None:
    answer = climb(rider=135, gradient=20, power=100, cadence_min=90)
    assert answer["outputs"]["cog_wanted"] > 80
    assert "No cog brings 90 rpm" in answer["findings"][-1]["text"]
