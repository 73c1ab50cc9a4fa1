"""Vectors of spokes: their length, their tone, and the balance of a wheel."""

import math
from typing import Any

from tests.kernel.vectors import Vector

HUB: dict[str, Any] = {"erd": 600, "pitch_circle": 45, "spokes": 32, "hole": 2.6}

LACED = "derived from the geometry, formula and distance of coordinates alike"


def string(linear: float, wave: float) -> dict[str, float]:
    """300 mm of a steel wire of `linear` kg/m, and the lowest tone of waves that run at `wave` m/s: there and back."""
    return {
        "tone": wave / (2 * 0.3),
        "free_length": 300,
        "diameter": math.sqrt(4 * linear / (7850 * math.pi)) * 1000,
    }


VECTORS = [
    Vector("spoke-length", {**HUB, "flange_offset": 35, "crosses": 3}, LACED, {"length": 292.9193}, absolute=5e-5),
    Vector("spoke-length", {**HUB, "flange_offset": 20, "crosses": 3}, LACED, {"length": 291.5140}, absolute=5e-5),
    Vector(
        "spoke-length",
        {**HUB, "flange_offset": 35, "crosses": 0},
        LACED,
        {"length": 278.3985},
        absolute=5e-5,
        findings=(("care", "crosses"),),
    ),
    Vector(
        "spoke-length",
        {"erd": 600, "pitch_circle": 58, "spokes": 28, "hole": 2.6, "flange_offset": 33, "crosses": 2},
        LACED,
        {"length": 283.4477},
        absolute=5e-5,
    ),
    Vector(
        "spoke-length",
        {**HUB, "flange_offset": 38, "crosses": 3, "rim_offset": 3},
        "derived: a rim drilled 3 mm towards the flange is as a flange 3 mm nearer",
        {"length": 292.9193},
        absolute=5e-5,
    ),
    Vector(
        "spoke-length",
        {**HUB, "flange_offset": 35, "spokes": 31, "crosses": 3},
        "derived: half of the spokes go to each side",
        refused=("spokes",),
    ),
    Vector(
        "spoke-length",
        {**HUB, "flange_offset": 35, "spokes": 16, "crosses": 5},
        "derived: past half a turn there is nothing to cross",
        refused=("crosses",),
    ),
    Vector(
        "spoke-length",
        {"erd": 150, "pitch_circle": 149.99999999, "flange_offset": 0, "spokes": 32, "crosses": 0},
        "derived: no spoke fits between a flange and a rim of one size",
        refused=("pitch_circle",),
    ),
    Vector(
        "spoke-tension",
        string(3.09e-4, 427.23),
        "OpenStax University Physics 1, 16.3, example: 3.09e-4 kg/m at 56.40 N, a wave of 427.23 m/s (answer from memory)",
        {"tension": 56.40},
        absolute=0.005,
    ),
    Vector(
        "spoke-tension",
        string(5.78e-3, 427.23),
        "OpenStax University Physics 1, 16.3, example: 5.78e-3 kg/m at the same speed needs 1055 N (answer from memory)",
        {"tension": 1055},
        absolute=0.05,
    ),
    *[
        Vector(
            "spoke-tension",
            {"tone": tone, "free_length": 260, "diameter": diameter},
            "derived: 1000 N on 260 mm of steel wire, ideal string",
            {"tension": 1000, "stress": 1000 / (math.pi * diameter**2 / 4)},
            rel=3e-5,
        )
        for tone, diameter in [(430.27, 1.8), (387.25, 2.0), (516.33, 1.5)]
    ],
    Vector(
        "spoke-tension",
        {"tone": 520, "free_length": 260, "diameter": 2.0},
        "common practice: 1000 to 1200 N for aluminium rims",
        {"tension": 1803.1},
        absolute=0.1,
        findings=(("care", "tone"),),
    ),
    Vector(
        "tension-balance",
        {
            "tensions_left": [500, 600, 550, 550],
            "tensions_right": [1000, 1000, 1300, 700],
            "offset_left": 36,
            "offset_right": 18,
            "length_left": 290,
            "length_right": 290,
        },
        "derived: half the offset pulls twice as hard; 30 % off the mean is called out (20 %, common practice)",
        {
            "mean_left": 550,
            "mean_right": 1000,
            "spread_left": 100 / 11,
            "spread_right": 30,
            "ratio": 0.55,
            "ratio_expected": 0.5,
        },
        findings=(("care", "tensions_right[2]"), ("care", "tensions_right[3]")),
    ),
    Vector(
        "tension-balance",
        {
            "tensions_left": [600, 600, 0, 600],
            "tensions_right": [900, 900, 900, 900],
            "offset_left": 36,
            "offset_right": 18,
            "length_left": 290,
            "length_right": 290,
        },
        "derived: one loose spoke",
        {"mean_left": 450, "spread_left": 100, "ratio": 0.5, "ratio_expected": 0.5},
        findings=(("stop", "tensions_left[2]"), ("care", "tensions_left[0]")),
    ),
    Vector(
        "tension-balance",
        {
            "tensions_left": [0, 0],
            "tensions_right": [0, 0],
            "offset_left": 36,
            "offset_right": 18,
            "length_left": 290,
            "length_right": 290,
        },
        "derived: a wheel without tension is no wheel",
        {"ratio": None, "mean_left": 0},
        findings=(("stop", "tensions_left"), ("stop", "tensions_right")),
    ),
]
