"""Vectors of cartridges and pumps."""

from math import pi
from typing import Any

from tests.kernel.vectors import Vector

BEAD = 622.0


def width_of(litres: float) -> float:
    """The width of a tyre on a 622 mm rim whose torus holds `litres`: the cubic π²(D + w)w²/4 = V, by halving."""
    low, high = 1.0, 200.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if pi**2 * (BEAD + middle) * middle**2 / 4 < litres * 1e6 else (low, middle)
    return low


SIXTEEN: dict[str, Any] = {"tyre_width": width_of(1.5), "bead_seat": BEAD, "temperature": 20, "cartridge": 16}

VECTORS = [
    Vector(
        "inflate",
        SIXTEEN,
        "derived: 16 g CO2 in 1.5 l at 20 °C by van der Waals, a and b of the CRC Handbook (read in two reprints): 575.47 kPa",
        {"volume": 1.5, "pressure_after": 5.7547, "strokes": None},
        rel=2e-5,
        absolute=0,
        findings=(("care", "cartridge"), ("care", "limit")),
    ),
    Vector(
        "inflate",
        SIXTEEN,
        "CoolProp 8.0.0, reference equation of state (Span & Wagner 1996): 572.61 kPa; van der Waals within 1 %",
        {"pressure_after": 5.7261},
        rel=0.01,
        absolute=0,
    ),
    Vector(
        "inflate",
        {**SIXTEEN, "pressure_start": 0.5, "limit": 5.0},
        "derived: Dalton, the air inside counts as well; a hookless rim's 5 bar are passed",
        {"pressure_after": 6.2547},
        rel=2e-5,
        absolute=0,
        findings=(("stop", "cartridge"),),
    ),
    Vector(
        "inflate",
        {"tyre_width": 28, "bead_seat": BEAD, "stroke_volume": 50, "pressure_target": 5.0, "limit": 7.0},
        "derived: Pappus, 2π² × 325 × 14² mm³, and Boyle with 1.01325 bar outside",
        {"volume": 1.2574, "strokes": 5 * 1257.4 / (1.01325 * 50), "pressure_after": None},
        rel=5e-5,
        absolute=0,
        findings=(("fine", "stroke_volume"),),
    ),
    Vector(
        "inflate",
        {"tyre_width": 28, "stroke_volume": 50, "pressure_target": 5.01, "limit": 5.0},
        "a tyre maker's page quoting the trade's norm: 5.00 bar and no more on a hookless rim",
        findings=(("stop", "pressure_target"),),
    ),
    Vector(
        "inflate",
        {"tyre_width": 28, "stroke_volume": 50, "pressure_start": 6, "pressure_target": 6.5, "limit": 5.0},
        "derived: above the limit before the first stroke",
        findings=(("stop", "pressure_start"), ("stop", "pressure_target")),
    ),
    Vector("inflate", {"tyre_width": 28}, "derived: nothing to fill it with", refused=("cartridge",)),
    Vector(
        "inflate",
        {"tyre_width": 28, "stroke_volume": 50},
        "derived: a pump without an aim",
        refused=("pressure_target",),
    ),
    Vector(
        "inflate",
        {"tyre_width": 28, "stroke_volume": 50, "pressure_start": 3, "pressure_target": 3},
        "derived: nothing to pump",
        refused=("pressure_target",),
    ),
    Vector(
        "inflate",
        {"tyre_width": 20, "cartridge": 45},
        "derived: 45 g in two thirds of a litre would be some 40 bar, no longer a tyre",
        refused=("cartridge",),
    ),
]
