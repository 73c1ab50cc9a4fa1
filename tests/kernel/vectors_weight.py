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


def knapsack(room: int, weights: str, worths: str) -> dict[str, Any]:
    """A 0/1 knapsack as slots of two options: leaving an item out weighs nothing and costs what it is worth."""
    items = zip(map(int, weights.split()), map(int, worths.split()), strict=True)
    return {
        "base": 0,
        "target": room,
        "slots": [
            {
                "slot": f"item {i}",
                "options": [{"name": "packed", "mass": w, "cost": 0}, {"name": "left out", "mass": 0, "cost": worth}],
            }
            for i, (w, worth) in enumerate(items)
        ],
    }


KNAPSACK_01 = (
    "data set KNAPSACK_01, Florida State University: capacity seen (P07 from memory), items from memory, best worth by scipy's "
    "milp; problem "
)

TUTORIAL_WEIGHTS = """
7 0 30 22 80 94 11 81 70 64 59 18 0 36 3 8 15 42 9 0 42 47 52 32 26 48 55 6 29 84 2 4 18 56 7 29 93 44 71 3 86 66 31 65 0
79 20 65 52 13
"""
TUTORIAL_WORTHS = """
360 83 59 130 431 67 230 52 93 125 670 892 600 38 48 147 78 256 63 17 120 164 432 35 92 110 22 42 50 323 514 28 87 73 78 15
26 78 210 36 85 189 274 43 33 10 19 389 276 312
"""

PUBLISHED = [
    # name, room, weights, worths, best worth
    ("P01", 165, "23 31 29 44 53 38 63 85 89 82", "92 57 49 68 60 43 67 84 87 72", 309),
    ("P02", 26, "12 7 11 8 9", "24 13 23 15 16", 51),
    ("P03", 190, "56 59 80 64 75 17", "50 50 64 46 50 5", 150),
    ("P04", 50, "31 10 20 19 4 3 6", "70 20 39 37 7 5 10", 107),
    ("P05", 104, "25 35 45 5 25 3 2 2", "350 400 450 20 70 8 5 5", 900),
    ("P06", 170, "41 50 49 59 55 57 60", "442 525 511 593 546 564 617", 1735),
    (
        "P07",
        750,
        "70 73 77 80 82 87 90 94 98 106 110 113 115 118 120",
        "135 139 149 150 156 163 173 184 192 201 210 214 221 229 240",
        1458,
    ),
]

LIGHT = {"name": "light", "mass": 180, "cost": 150}
ON_NOW = {"name": "on now", "mass": 260, "cost": 0}

SWAPS = [
    *[
        Vector(
            "weight-swaps",
            knapsack(room, weights, worths),
            KNAPSACK_01 + name,
            {"cost": sum(map(int, worths.split())) - best, "feasible": True},
        )
        for name, room, weights, worths, best in PUBLISHED
    ],
    Vector(
        "weight-swaps",
        knapsack(850, TUTORIAL_WEIGHTS, TUTORIAL_WORTHS),
        "knapsack tutorial of the OR-Tools documentation, 50 items (data seen): best worth 7534 at weight 850, by scipy's milp",
        {"cost": sum(map(int, TUTORIAL_WORTHS.split())) - 7534, "total": 850, "feasible": True},
    ),
    Vector(
        "weight-swaps",
        {"base": 7000, "target": 7200, "slots": [{"slot": "saddle", "options": [ON_NOW, LIGHT]}]},
        "derived: one slot, and only the light part meets the goal",
        {"choice": [{"slot": "saddle", **LIGHT}], "total": 7180, "cost": 150, "feasible": True, "headroom": 20},
        findings=(("fine", "target"),),
    ),
    Vector(
        "weight-swaps",
        {"base": 7000, "target": 7180, "slots": [{"slot": "saddle", "options": [ON_NOW, LIGHT]}]},
        "derived: just on the goal meets it",
        {"total": 7180, "feasible": True, "headroom": 0},
    ),
    Vector(
        "weight-swaps",
        {"base": 7000, "target": 7179.9, "slots": [{"slot": "saddle", "options": [ON_NOW, LIGHT]}]},
        "derived: a tenth of a gram over does not; the lightest is told",
        {"choice": [{"slot": "saddle", **LIGHT}], "total": 7180, "feasible": False, "headroom": -0.1},
        findings=(("care", "target"),),
    ),
    Vector(
        "weight-swaps",
        {"base": 7000, "target": 7000, "slots": [{"slot": "saddle", "options": []}]},
        "derived: a slot without options has no answer",
        refused=("slots[0].options",),
    ),
]

# Letters beyond ASCII, which the engines treat each its own way; U+00A0 is a blank to one of them only.
LETTERS = Vector(
    "weight-budget",
    {
        "parts": [
            {"name": "caliper", "slot": "\u00c9TRIER", "weighed": 150},
            {"name": "post", "slot": "Gr\u00f6\u00dfe\u00a0", "weighed": 40},
        ],
        "needed_slots": [{"slot": "\u00e9trier"}, {"slot": "  GR\u00d6\u00dfE"}],
        "target": 400,
    },
    "derived: the same letters, large and small (ISO 8859-1)",
    {"complete": True, "total": 190},
)

VECTORS = [*BUDGET, *SWAPS, LETTERS]
