"""What the weather and a pass do to a tyre: against two atmospheres and a real gas."""

from typing import Any

import pytest
from ambiance import Atmosphere
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.atmosphere import air_pressure
from pinchbolt.kernel.catalogue import find

RADIUS = 6356766.0
"""m, the nominal radius of the earth that geopotential heights are told with (ISO 2533:1975)."""

PRESSURE = st.floats(1, 9)
CELSIUS = st.floats(-15, 50)
HEIGHT = st.floats(-100, 4000)


def change(**inputs: Any) -> dict[str, Any]:
    outputs: dict[str, Any] = find("pressure-change").run(inputs)["outputs"]  # type: ignore[assignment]
    return outputs


@given(st.floats(-500, 9000))
def test_the_air_outside_is_that_of_an_independent_atmosphere(height: float) -> None:
    """ambiance takes geometric heights: the geopotential one is turned back first."""
    geometric = RADIUS * height / (RADIUS - height)
    assert air_pressure(height) * 1e5 == pytest.approx(float(Atmosphere(geometric).pressure[0]), rel=1e-6)


@pytest.mark.parametrize(("height", "pascal"), [(1000, 89876.28), (2000, 79501.4), (3000, 70121.1)])
def test_a_maps_height_read_as_geopotential_is_two_parts_in_ten_thousand_off_at_most(height: float, pascal: float) -> None:
    """Geometric heights: ambiance 1.3.1 and fluids 1.3.1 agree on these."""
    assert air_pressure(height) * 1e5 == pytest.approx(pascal, rel=2e-4)
    assert air_pressure(height) * 1e5 < pascal


@given(PRESSURE, CELSIUS, CELSIUS, HEIGHT, HEIGHT)
def test_there_and_back_is_where_it_was(bar: float, warm: float, cold: float, low: float, high: float) -> None:
    there = change(pressure=bar, temp_from=warm, temp_to=cold, altitude_from=low, altitude_to=high)["pressure_new"]
    if there < 0:
        return
    back = change(pressure=there, temp_from=cold, temp_to=warm, altitude_from=high, altitude_to=low)
    assert back["pressure_new"] == pytest.approx(bar)


@given(PRESSURE, CELSIUS, CELSIUS, HEIGHT, HEIGHT)
def test_what_is_told_to_set_gives_the_same_there(bar: float, warm: float, cold: float, low: float, high: float) -> None:
    place = {"temp_from": warm, "temp_to": cold, "altitude_from": low, "altitude_to": high}
    told = change(pressure=bar, **place)["pressure_to_set"]
    if told >= 0:
        assert change(pressure=told, **place)["pressure_new"] == pytest.approx(bar)


@given(PRESSURE, CELSIUS, CELSIUS)
def test_air_in_a_tyre_is_near_enough_ideal(bar: float, warm: float, cold: float) -> None:
    """The reference equation of state of air at the same density; a gauge is hardly good to half a per cent."""
    there = change(pressure=bar, temp_from=warm, temp_to=cold)["pressure_new"]
    density = PropsSI("Dmolar", "P", (bar + 1.01325) * 1e5, "T", warm + 273.15, "Air")
    real = PropsSI("P", "Dmolar", density, "T", cold + 273.15, "Air") / 1e5 - 1.01325
    assert there == pytest.approx(real, abs=0.005 * (bar + 1.01325))
