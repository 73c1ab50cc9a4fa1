"""Vectors of the weight budget and of the swaps that meet a goal."""

import math
from typing import Any

from scipy import stats

from tests.kernel.vectors import Vector

WHEELS: dict[str, Any] = {"name": "wheelset with tape", "slot": "wheels", "claimed": 1440, "weighed": 1490}
FORK: dict[str, Any] = {"name": "fork", "slot": "fork", "claimed": 400, "weighed": 404}
TYRES: dict[str, Any] = {"name": "tyre", "slot": "tyres", "count": 2, "claimed": 300}
SADDLE: dict[str, Any] = {"name": "saddle", "slot": "saddle", "claimed": 200}

# The textbook's prediction of single observations about a mean, here of sums: by hand, for two pairs.
OVERRUNS = [100 * (1490 / 1440 - 1), 1.0]
MEAN = sum(OVERRUNS) / 2
SCATTER = abs(OVERRUNS[0] - OVERRUNS[1]) / math.sqrt(2)
CLAIMED_SD = SCATTER / 100 * math.sqrt(600**2 + 200**2 + 800**2 / 2)
TOTAL_SD = math.sqrt(CLAIMED_SD**2 + 2 / 12)
TOTAL = 1894 + 800 * (1 + MEAN / 100)

BUDGET = [
    Vector(
        "weight-budget",
        {"parts": [WHEELS], "target": 1500, "needed_slots": [{"slot": "wheels"}]},
        "common practice: a wheelset claimed at 1440 g weighed 1490 g with tape, 3.5 % more; scale step/√12 "
        "(JCGM 100:2008, 4.3.7, from memory)",
        {
            "total": 1490,
            "headroom": 10,
            "overrun": 3.5,
            "sd": 0.288675,
            "complete": True,
            "not_weighed": [],
            "missing_slots": [],
            "chance": 1.0,
        },
        absolute=0.05,
        findings=(("fine", "target"),),
    ),
    Vector(
        "weight-budget",
        {
            "parts": [{"name": "the bike on the scale", "weighed": 7475}],
            "target": 7500,
            "needed_slots": [{"slot": "bottle cage"}],
        },
        "common practice: a goal of 7.5 kg, 7.475 kg weighed, one small part not on the scale: it can eat the 25 g",
        {"total": 7475, "headroom": 25, "complete": False, "chance": None, "missing_slots": [{"slot": "bottle cage"}]},
        findings=(("care", "needed_slots"), ("care", "target")),
    ),
    Vector(
        "weight-budget",
        {
            "parts": [WHEELS, FORK, TYRES, SADDLE],
            "target": 2725,
            "needed_slots": [{"slot": s} for s in ("wheels", "fork", "tyres", "saddle")],
        },
        "scipy.stats.norm, on a deviation by hand: scatter of the claims about their mean, of the mean itself, of the scale",
        {
            "total": TOTAL,
            "sd": TOTAL_SD,
            "overrun": MEAN,
            "chance": float(stats.norm.cdf((2725 - TOTAL) / TOTAL_SD)),
            "not_weighed": [{"name": "tyre", "slot": "tyres"}, {"name": "saddle", "slot": "saddle"}],
        },
        rel=1e-12,
        findings=(("care", "parts"),),
    ),
    Vector(
        "weight-budget",
        {"parts": [WHEELS, SADDLE], "target": 1600},
        "derived: one part with both figures gives a correction but no scatter, so no deviation and no chance",
        {
            "total": 1490 + 200 * 1490 / 1440,
            "sd": None,
            "chance": None,
            "complete": None,
            "headroom": 1600 - 1490 - 206.9444444,
        },
        absolute=1e-6,
        findings=(("care", "needed_slots"), ("care", "target")),
    ),
    Vector(
        "weight-budget",
        {"parts": [{"name": "bolt", "count": 10, "weighed": 2.5}, {"name": "clip"}], "target": 100, "scale_step": 0.1},
        "derived: one weighing stands for ten pieces, its rounding counts ten times; a part without weight leaves no total",
        {"total": 25, "sd": 1 / math.sqrt(12), "complete": False, "chance": None, "not_weighed": [{"name": "clip"}]},
        findings=(("care", "parts[1]"),),
    ),
    Vector(
        "weight-budget",
        {"parts": [{"name": "frame", "claimed": -1}], "target": 0},
        "derived: no mass below zero, no goal of nothing",
        refused=("parts[0].claimed", "target"),
    ),
]

VECTORS = [*BUDGET]
