"""Vectors of tyres, rims, air and spokes."""

from typing import Any

from tests.kernel.vectors import Vector

ISO_2533 = [
    # m geopotential, bar
    (0, 1.01325),
    (500, 0.954608),
    (1000, 0.898746),
    (1500, 0.845560),
    (2000, 0.794952),
    (2500, 0.746825),
    (3000, 0.701085),
]

STILL: dict[str, Any] = {"temp_from": 20, "temp_to": 20}

PRESSURE_CHANGE = [
    *[
        Vector(
            "pressure-change",
            {"pressure": 3, **STILL, "altitude_to": height},
            f"ISO 2533:1975 at {height} m geopotential: 1000 and 2000 m from memory, the rest derived from its formula",
            {
                "atmosphere_from": 1.01325,
                "atmosphere_to": pressure,
                "pressure_new": 3 + 1.01325 - pressure,
                "pressure_to_set": 3 - 1.01325 + pressure,
            },
            rel=0,
            absolute=6e-7,
        )
        for height, pressure in ISO_2533
    ],
    *[
        Vector(
            "pressure-change",
            {"pressure": here, "temp_from": 20, "temp_to": celsius, "limit": 8},
            "derived: Gay-Lussac on absolute pressure with 1.01325 bar outside",
            {"pressure_new": there},
            rel=0,
            absolute=5e-5,
        )
        for here, celsius, there in [(7.0, 0, 6.4533), (7.0, 40, 7.5467), (5.0, 35, 5.3077), (2.0, -10, 1.6916)]
    ],
    Vector(
        "pressure-change",
        {"pressure": 5.0, "temp_from": 20, "temp_to": 35, "limit": 5.0},
        "derived: 5.0 bar at 20 °C is 5.31 bar at 35 °C, above what a hookless rim may carry (5 bar, a tyre maker's page)",
        {"pressure_new": 5.3077},
        absolute=5e-5,
        findings=(("stop", "limit"),),
    ),
    Vector(
        "pressure-change",
        {"pressure": 4.9, "temp_from": 30, "temp_to": 5, "limit": 5.0},
        "derived: what would have to be set in the warm is above the limit, though neither reading is",
        {"pressure_to_set": 5.4315},
        absolute=5e-5,
        findings=(("stop", "limit"),),
    ),
    Vector(
        "pressure-change",
        {"pressure": 1.1, "temp_from": 35, "temp_to": -15},
        "derived: next to nothing is left, and no limit was given",
        {"pressure_new": 0.7571},
        absolute=5e-5,
        findings=(("care", "pressure"), ("care", "limit")),
    ),
    Vector(
        "pressure-change",
        {"pressure": -0.1, "temp_from": -300, "temp_to": 20},
        "derived: no gauge pressure below nothing, no temperature below the absolute zero",
        refused=("pressure", "temp_from"),
    ),
]

VECTORS = [*PRESSURE_CHANGE]
