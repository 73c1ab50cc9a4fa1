"""Vectors of the wear forecast: certified and published regressions, turned round."""

from typing import Any

from tests.kernel.vectors import Vector

NORRIS_X = """
0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0 228.1 995.8
887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5
"""
NORRIS_Y = """
0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7 228.3 998.0
888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2
"""
NORRIS_INTERCEPT, NORRIS_INTERCEPT_SD = -0.262323073774029, 0.232818234301152
NORRIS_SLOPE, NORRIS_SLOPE_SD = 1.00211681802045, 0.429796848199937e-3
NORRIS_SCATTER = 0.884796396144373
"""NIST StRD, linear regression, data set Norris: data and certified values, from the file in scipy 1.17.1."""

CARS_SPEED = """
4 4 7 7 8 9 10 10 10 11 11 12 12 12 12 13 13 13 13 14 14 14 14 15 15 15 16 16 17 17 17 18 18 18 18 19 19 19 20 20 20 20 20
22 23 24 24 24 24 25
"""
CARS_DISTANCE = """
2 10 4 22 16 10 18 26 34 17 28 14 20 24 28 26 34 34 46 26 36 60 80 20 26 54 32 40 32 40 50 42 56 76 84 36 46 68 32 48 52 56
64 66 54 70 92 93 120 85
"""
CARS_BANDS = [(10, -9.8096, 53.2996), (12, -1.7495, 60.9691), (19, 25.7618, 88.5116), (24, 44.7525, 108.8450)]
"""The `cars` data of R: 95 % prediction intervals of the distance by statsmodels 0.15.0; 12, 19 and 24 also to three figures
in R's documentation of predict (from memory)."""


def paired(at: str, values: str) -> list[dict[str, float]]:
    rows = zip(at.split(), values.split(), strict=True)
    return [{"at": float(x), "value": float(y)} for x, y in rows]


NORRIS = paired(NORRIS_X, NORRIS_Y)
CARS = paired(CARS_SPEED, CARS_DISTANCE)

CHAIN: list[dict[str, Any]] = [{"at": 0, "value": 0.0}, {"at": 1000, "value": 0.1}, {"at": 2000, "value": 0.2}]

VECTORS = [
    Vector(
        "wear-forecast",
        {"readings": NORRIS, "limit": 1000},
        "NIST StRD, Norris: certified slope and intercept",
        {"rate": NORRIS_SLOPE, "at_limit": (1000 - NORRIS_INTERCEPT) / NORRIS_SLOPE},
        rel=1e-12,
    ),
    *[
        Vector(
            "wear-forecast",
            {"readings": CARS, "limit": high, "confidence": 0.95, "wears": "up"},
            f"R's cars data: 95 % prediction at {speed} mph up to {high} ft (statsmodels 0.15.0), reached there at earliest",
            {"earliest": speed, "rate": 3.932},
            absolute=5e-4,
        )
        for speed, _, high in CARS_BANDS
    ],
    *[
        Vector(
            "wear-forecast",
            {"readings": CARS, "limit": low, "confidence": 0.95, "wears": "up"},
            f"R's cars data: 95 % prediction at {speed} mph from {low} ft (statsmodels 0.15.0), reached there at the latest",
            {"latest": speed, "at_limit": (low + 17.579) / 3.932},
            rel=2e-4,
            absolute=1e-4,
        )
        for speed, low, _ in CARS_BANDS
    ],
    Vector(
        "wear-forecast",
        {"readings": CHAIN, "limit": 0.5, "now": 2200},
        "derived: 0.1 % every 1000 km without scatter reaches 0.5 % at 5000 km, and the span has no width",
        {"rate": 0.0001, "at_limit": 5000, "earliest": 5000, "latest": 5000, "remaining": 2800},
        absolute=1e-6,
    ),
    Vector(
        "wear-forecast",
        {"readings": [{"at": 0, "value": 3.0}, {"at": 60, "value": 2.0}], "limit": 0.5, "now": 90},
        "derived: pads from 3 to 2 mm in 60 days reach 0.5 mm (common practice) on day 150; two readings give no span",
        {"rate": -1 / 60, "at_limit": 150, "earliest": None, "latest": None, "remaining": 60},
        findings=(("care", "readings"),),
    ),
    Vector(
        "wear-forecast",
        {"readings": [{"at": 0, "value": 0.4}, {"at": 500, "value": 0.3}], "limit": 0.5},
        "derived: a chain does not get shorter, so there is no forecast",
        {"rate": -0.0002, "at_limit": None, "earliest": None, "latest": None, "remaining": None},
        findings=(("care", "readings"),),
    ),
    Vector(
        "wear-forecast",
        {"readings": [*CHAIN, {"at": 5200, "value": 0.52}], "limit": 0.5},
        "derived: past the limit",
        {"at_limit": 5000, "remaining": -200},
        absolute=1e-6,
        findings=(("stop", "limit"),),
    ),
    Vector(
        "wear-forecast",
        {"readings": [{"at": 0, "value": 1.8}, {"at": 1, "value": 1.78}, {"at": 2, "value": 1.79}], "limit": 1.5},
        "scipy.stats.t: the slope is not clear of the scatter at 90 %, so no latest can be told",
        {"rate": -0.005, "latest": None},
        findings=(("care", "readings"),),
    ),
    Vector(
        "wear-forecast",
        {"readings": [{"at": 500, "value": 0.1}, {"at": 500, "value": 0.2}], "limit": 0.5},
        "derived: two readings at one place have no slope",
        refused=("readings",),
    ),
    Vector(
        "wear-forecast",
        {"readings": [{"at": 500, "value": 0.1}], "limit": 0.5},
        "derived: one reading is no wear",
        refused=("readings",),
    ),
]
