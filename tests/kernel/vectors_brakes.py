"""Vectors of the stopping check."""

from typing import Any

from tests.kernel.vectors import Vector

RIDER: dict[str, Any] = {"mass": 100}
ISO = "ISO 4210-2, 4.6.8, from memory; the deceleration derived: "

CELLS = [
    # speed, distance, wet, brakes, rule, deceleration
    (25, 7, False, "both", "city-or-mountain", 3.445),
    (25, 6, False, "both", "racing", 4.019),
    (25, 15, False, "rear", "city-or-mountain", 1.608),
    (25, 12, False, "rear", "racing", 2.0094),
    (16, 5, True, "both", "city-or-mountain", 1.975),
    (16, 10, True, "rear", "city-or-mountain", 0.988),
    (16, 5, True, "both", "racing", 1.975),
]

VECTORS = [
    *[
        Vector(
            "stopping-check",
            {**RIDER, "speed": speed, "distance": distance, "wet": wet, "brakes": brakes, "rule": rule},
            ISO + f"{distance} m from {speed} km/h",
            {"deceleration": a, "distance_at_reference": distance, "reference": distance, "verdict": "within"},
            absolute=6e-4,
        )
        for speed, distance, wet, brakes, rule, a in CELLS
    ],
    Vector(
        "stopping-check",
        {**RIDER, "speed": 26, "distance": 7},
        "EN 14766:2005, 4.6.7.5.1.9: 7 m from 26 km/h are 6.4719 m from 25 km/h (derived from its formula)",
        {"distance_at_reference": 6.4719, "reference": 7, "verdict": "within"},
        absolute=5e-5,
        findings=(("care", "distance"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 25, "distance": 7.1},
        ISO + "longer than 7 m",
        {"verdict": "beyond"},
        findings=(("stop", "distance"),),
    ),
    Vector(
        "stopping-check",
        {"mass": 68.1, "speed": 24.14016, "distance": 4.572, "rule": "us-hand-brakes"},
        "16 CFR 1512.5(b)(1), 1-1-11 edition: 15 ft with a rider of 68.1 kg; speed from memory; 4.917 m/s² derived",
        {"deceleration": 4.917, "reference": 4.572, "distance_at_reference": 4.572, "verdict": "within"},
        absolute=6e-4,
        findings=(("care", "mass"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 16, "distance": 5, "rule": "us-hand-brakes", "wet": True},
        "derived: the rule has no wet test, so there is no verdict",
        {"verdict": "not-known", "reference": None, "distance_at_reference": None},
        findings=(("care", "rule"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 20, "distance": 4, "reference_speed": 20, "reference_distance": 3.5},
        "derived: the builder's own document wins",
        {"reference": 3.5, "distance_at_reference": 4, "verdict": "beyond"},
        findings=(("stop", "distance"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 25, "distance": 5, "reference_speed": 20},
        "derived: half a reference is none",
        {"reference": 7},
        findings=(("care", "reference_distance"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 6, "distance": 0.3},
        "derived: a stop from walking pace is short enough and still says nothing about 25 km/h",
        {"deceleration": 4.6296, "distance_at_reference": 5.2083, "verdict": "not-known"},
        absolute=5e-5,
        findings=(("care", "speed"),),
    ),
    Vector(
        "stopping-check",
        {**RIDER, "speed": 12, "distance": 3.5},
        "derived: too long even from a slow speed is too long",
        {"distance_at_reference": 15.1910, "verdict": "beyond"},
        absolute=5e-5,
        findings=(("stop", "distance"),),
    ),
    Vector("stopping-check", {**RIDER, "speed": 0, "distance": -1}, "derived: no stop", refused=("speed", "distance")),
]
