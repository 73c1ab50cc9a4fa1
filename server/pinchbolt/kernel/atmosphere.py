"""The standard atmosphere: what the air weighs on a gauge at the start and on the pass."""

SEA_LEVEL = 1.01325
"""bar, ISO 2533:1975."""

WARMTH = 288.15
"""K at sea level, ISO 2533:1975."""

LAPSE = 0.0065
"""K/m below 11 000 m, ISO 2533:1975."""

EXPONENT = 9.80665 / (287.05287 * LAPSE)
"""g/(R·lapse), 5.25588: ISO 2533:1975."""

FREEZING = 273.15
"""K at 0 °C."""


def air_pressure(height: float) -> float:
    """Pressure of the standard atmosphere, bar absolute, at `height` m, from below the sea to 11 000 m.

    `height` is geopotential, as the standard's tables are read; with a map's height the pressure comes out
    0.02 % low at 3 000 m, far less than the weather moves it. p = p0·(1 − L·h/T0)^(g/(R·L)), ISO 2533:1975.

    >>> round(air_pressure(1000) * 100000)
    89875
    """
    return SEA_LEVEL * (1 - LAPSE * height / WARMTH) ** EXPONENT
