"""The stopping check: the sums of a steady stop, and a verdict that is never stronger than the figures."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from scipy.integrate import solve_ivp

from pinchbolt.kernel.catalogue import find

UNITS = UnitRegistry()
SPEED = st.floats(12, 35)
DISTANCE = st.floats(2, 40)


def stop(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("stopping-check").run({"mass": 100, **inputs})
    return answer


@given(SPEED, DISTANCE)
def test_the_deceleration_in_other_units(speed: float, distance: float) -> None:
    v, s = UNITS.Quantity(speed, "km/h"), UNITS.Quantity(distance, "m")
    assert stop(speed=speed, distance=distance)["outputs"]["deceleration"] == pytest.approx(
        (v**2 / (2 * s)).to("m/s^2").magnitude
    )


@pytest.mark.parametrize(("speed", "distance"), [(25, 6.5), (32, 9.0), (16, 3.1)])
def test_braking_so_hard_takes_that_far(speed: float, distance: float) -> None:
    """The stop driven through by an integrator."""
    a = stop(speed=speed, distance=distance)["outputs"]["deceleration"]

    def halted(_: float, state: Any) -> float:
        return float(state[1])

    halted.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(lambda _, state: [state[1], -a], (0, 60), [0, speed / 3.6], events=halted, rtol=1e-10, atol=1e-12)
    assert run.y[0][-1] == pytest.approx(distance, rel=1e-6)


@given(SPEED, DISTANCE, st.booleans(), st.sampled_from(["both", "rear"]), st.sampled_from(["racing", "city-or-mountain"]))
def test_the_verdict_follows_the_distance_brought_to_the_reference_speed(
    speed: float, distance: float, wet: bool, brakes: str, rule: str
) -> None:
    answer = stop(speed=speed, distance=distance, wet=wet, brakes=brakes, rule=rule)
    out = answer["outputs"]
    # The same deceleration from the reference speed.
    reference_speed = 16 if wet else 25
    assert out["distance_at_reference"] == pytest.approx((reference_speed / 3.6) ** 2 / (2 * out["deceleration"]))
    levels = {f["level"] for f in answer["findings"] if f["field"] == "distance"}
    assert (out["verdict"] == "beyond") == (out["distance_at_reference"] > out["reference"] + 1e-9)
    assert ("stop" in levels) == (out["verdict"] == "beyond")
    # A pass from far below the reference speed is none.
    assert out["verdict"] != "within" or speed >= 0.8 * reference_speed
    assert (out["verdict"] == "within") or all(f["level"] != "fine" for f in answer["findings"])


def test_nothing_compared_never_passes() -> None:
    answer = stop(speed=24, distance=1, rule="us-hand-brakes", brakes="rear")
    assert answer["outputs"]["verdict"] == "not-known"
    assert all(f["level"] != "fine" for f in answer["findings"])
