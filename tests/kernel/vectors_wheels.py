"""Vectors of tyres, rims, air and spokes."""

import math
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

PRESSURE = [
    Vector(
        "tyre-pressure",
        {"system_mass": 200 * 0.45359237, "front_share": 50, "tyre_front": 28, "tyre_rear": 32, "max_tyre": 8, "max_rim": 8},
        "psi = 153.6 × lbf / mm^1.5785 − 7.1685, fit to the 15 % drop chart from memory: 100 lbf, 28 and 32 mm",
        {
            "front": 0.0689475729 * (math.exp(math.log(15360) - 1.5785 * math.log(28)) - 7.1685),
            "rear": 0.0689475729 * (math.exp(math.log(15360) - 1.5785 * math.log(32)) - 7.1685),
            "front_cap": 8,
            "rear_cap": 8,
        },
    ),
    Vector(
        "tyre-pressure",
        {"system_mass": 110, "tyre_front": 28, "tyre_rear": 28, "max_tyre": 6.5, "max_rim": 6, "hookless": True},
        "ISO 5775-1 / ETRTO as a tyre maker quotes it: 5 bar at the most on a hookless rim; derived: this weight wants more",
        {"front_cap": 5.0, "rear_cap": 5.0},
        findings=(("stop", "tyre_front"), ("stop", "tyre_rear")),
    ),
    Vector(
        "tyre-pressure",
        {"system_mass": 80, "tyre_front": 32, "tyre_rear": 32, "max_tyre": 6.5, "max_rim": 5.8},
        "ISO 4210-1, 2.27 note, as restated by a Taiwan standard: the lower of the tyre's and the rim's marking",
        {"front_cap": 5.8, "rear_cap": 5.8},
    ),
    Vector(
        "tyre-pressure",
        {"system_mass": 60, "tyre_front": 50, "tyre_rear": 50},
        "derived: outside the chart, too soft, and no limit given",
        {"front_cap": None, "rear_cap": None},
        findings=(("care", "tyre_front"), ("care", "tyre_rear"), ("care", "max_tyre"), ("care", "max_rim")),
    ),
    Vector(
        "tyre-drop",
        {
            "height_unloaded": 339,
            "height_loaded": 333,
            "tyre_height": 30,
            "pressure": 3.0,
            "max_tyre": 5,
            "max_rim": 6,
        },
        "derived: 6 mm of 30 are 20 %; for 15 % a third more pressure",
        {"drop": 20.0, "pressure_new": 4.0},
    ),
    Vector(
        "tyre-drop",
        {
            "height_unloaded": 339,
            "height_loaded": 330,
            "tyre_height": 30,
            "pressure": 3.0,
            "hookless": True,
            "max_tyre": 7,
            "max_rim": 7,
        },
        "derived: 30 % would want 6 bar; a hookless rim stops at 5 (ISO 5775-1 / ETRTO as a tyre maker quotes it)",
        {"drop": 30.0, "pressure_new": 5.0},
        findings=(("stop", "pressure"),),
    ),
    Vector(
        "tyre-drop",
        {"height_unloaded": 339, "height_loaded": 330, "tyre_height": 30, "pressure": 3.0},
        "derived: more pressure is wanted, and nothing says that the tyre may have it",
        {"drop": 30.0, "pressure_new": 6.0},
        findings=(("stop", "max_tyre"), ("care", "max_rim")),
    ),
    Vector(
        "tyre-drop",
        {"height_unloaded": 339, "height_loaded": 339.5, "tyre_height": 30, "pressure": 3.0},
        "derived: a loaded wheel does not stand higher",
        refused=("height_loaded",),
    ),
    Vector(
        "sealant",
        {"tyre_width": 28, "days_since": 0, "climate": "cool"},
        "common practice: 30 to 40 ml in a 28 mm road tyre",
        {"volume": 35, "top_up_in": 180},
        absolute=5,
        findings=(("fine", "days_since"),),
    ),
    Vector(
        "sealant",
        {"tyre_width": 45, "days_since": 70, "climate": "hot"},
        "common practice: dry within two months in the heat",
        {"top_up_in": -10},
        findings=(("care", "days_since"),),
    ),
]

VECTORS = [*PRESSURE_CHANGE, *PRESSURE]
