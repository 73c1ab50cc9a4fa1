"""Tyre pressure: never told above what tyre and rim may carry, and softer for lighter riders and wider tyres."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.working import shown

UNITS = UnitRegistry()
MASS = st.floats(40, 160)
WIDTH = st.floats(20, 60)
LIMIT = st.floats(2, 10)


def run(calculation: str, **inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find(calculation).run(inputs)
    return answer


@given(MASS, WIDTH, WIDTH, LIMIT, LIMIT, st.booleans())
def test_a_pressure_above_the_lowest_limit_is_a_stop(
    mass: float, front: float, rear: float, tyre: float, rim: float, hookless: bool
) -> None:
    answer = run(
        "tyre-pressure", system_mass=mass, tyre_front=front, tyre_rear=rear, max_tyre=tyre, max_rim=rim, hookless=hookless
    )
    out = answer["outputs"]
    lowest = min(tyre, rim, 5.0 if hookless else 20.0)
    stops = {f["field"] for f in answer["findings"] if f["level"] == "stop"}
    for end in ("front", "rear"):
        assert out[end + "_cap"] == lowest
        assert ("tyre_" + end in stops) == (out[end] > lowest)


@given(MASS, st.floats(38, 52), WIDTH)
def test_the_fit_in_its_own_units(mass: float, share: float, width: float) -> None:
    """The same sum with pint's pounds and psi."""
    out = run("tyre-pressure", system_mass=mass, front_share=share, tyre_front=width, tyre_rear=width)["outputs"]
    for end, part in (("front", share), ("rear", 100 - share)):
        pounds = UNITS.Quantity(mass * part / 100, "kg").to("lb").magnitude
        psi = max(0.0, 153.6 * pounds / width**1.5785 - 7.1685)
        assert out[end] == pytest.approx(UNITS.Quantity(psi, "psi").to("bar").magnitude, rel=1e-9)


@given(MASS, WIDTH, st.floats(0.5, 10))
def test_a_wider_tyre_and_a_lighter_rider_want_less(mass: float, width: float, more: float) -> None:
    here = run("tyre-pressure", system_mass=mass, tyre_front=width, tyre_rear=width)["outputs"]
    wider = run("tyre-pressure", system_mass=mass, tyre_front=width + more, tyre_rear=width)["outputs"]
    lighter = run("tyre-pressure", system_mass=mass - more, tyre_front=width, tyre_rear=width)["outputs"]
    assert wider["front"] <= here["front"]
    assert lighter["rear"] <= here["rear"]


@given(st.floats(0.5, 20), st.floats(22, 60), st.floats(1, 7), LIMIT)
def test_the_pressure_told_by_drop_is_never_above_the_limit(sunk: float, height: float, bar: float, limit: float) -> None:
    answer = run(
        "tyre-drop",
        height_unloaded=340,
        height_loaded=340 - sunk,
        tyre_height=height,
        pressure=bar,
        max_tyre=limit,
        hookless=True,
    )
    out = answer["outputs"]
    assert out["pressure_new"] <= min(limit, 5.0)
    wanted = bar * (sunk / height) / 0.15
    if wanted < min(limit, 5.0):
        assert out["pressure_new"] == pytest.approx(wanted)
    if max(wanted, bar) > min(limit, 5.0) + 1e-6:
        assert any(f["level"] == "stop" for f in answer["findings"])


def test_without_limits_it_says_that_none_was_checked() -> None:
    answer = run("tyre-pressure", system_mass=80, tyre_front=30, tyre_rear=30)
    assert {f["field"] for f in answer["findings"] if f["level"] == "care"} == {"max_tyre", "max_rim"}


@pytest.mark.parametrize("over", [5.01, 5.3])
def test_a_hookless_rim_is_refused_above_five_bar(over: float) -> None:
    """5 bar = 72.52 psi: a tyre maker's page."""
    answer = run(
        "tyre-drop",
        height_unloaded=340,
        height_loaded=335.5,
        tyre_height=30,
        pressure=over,
        hookless=True,
        max_tyre=7,
        max_rim=7,
    )
    assert ("stop", "pressure") in {(f["level"], f["field"]) for f in answer["findings"]}
    assert answer["outputs"]["pressure_new"] <= 5
    assert UNITS.Quantity(5, "bar").to("psi").magnitude == pytest.approx(72.52, abs=0.005)


def drop(**changed: Any) -> dict[str, Any]:
    return run("tyre-drop", height_unloaded=342, height_loaded=337.2, tyre_height=32, pressure=4.8, **changed)


def test_above_the_limit_no_drop_is_right() -> None:
    assert [f["level"] for f in drop(max_tyre=5, max_rim=5)["findings"]] == ["fine"]
    assert [f["level"] for f in drop(max_tyre=4.5, max_rim=5)["findings"]] == ["stop"]


def test_a_wheel_that_does_not_sink_was_not_measured() -> None:
    with pytest.raises(InputError, match="height_loaded"):
        run("tyre-drop", height_unloaded=342, height_loaded=342, tyre_height=32, pressure=5)


def test_a_limit_is_never_told_higher_than_it_is() -> None:
    """65 and 72 psi are 4.482 and 4.964 bar (6894.757 Pa a psi): to one decimal 4.4 and 4.9, not 4.5 and 5.0."""
    for psi, told in ((65, "4.4"), (72, "4.9")):
        limit = psi * 0.06894757
        answer = run("tyre-pressure", system_mass=130, tyre_front=20, tyre_rear=20, max_tyre=limit, max_rim=9)
        assert f"above the limit of {told} bar" in answer["findings"][0]["text"]
        (cap,) = [q for q in find("tyre-pressure").outputs if q.name == "front_cap"]
        assert shown(answer["outputs"]["front_cap"], cap.digits, cap.rounds) == told
