"""Vectors of chain, gears and hanger."""

from tests.kernel.vectors import Vector

MOTT = "Mott, Machine Elements in Mechanical Design, 4th ed., Example Problem 7-3, p. 295"
SHIGLEY = "Shigley, Mechanical Engineering Design, Example 17-5"
WEAR = "derived: 24 pitches of 12.7 mm are 304.8 mm. Limits 0.5 % and 0.75 %: common practice"
CLIMB = {"rider": 80, "bike": 10, "gradient": 8, "power": 250, "ring_min": 34, "cog_max": 30, "rollout": 2100}
GAUGE = {"gap_12": 20, "gap_3": 20, "gap_6": 20, "gap_9": 20, "radius": 290}

VECTORS = [
    Vector(
        "chain-length",
        {"chainstay": 30 * 12.7, "ring_max": 65, "cog_max": 17},
        MOTT + ": 17 and 65 teeth, 30 pitches apart, L = 102.9 pitches",
        {"handbook": 102.9},
        absolute=0.05,
    ),
    Vector(
        "chain-length",
        {"chainstay": 30 * 12.7, "ring_max": 65, "cog_max": 17},
        "derived: " + MOTT + " in full figures, and tangent plus arc, arcs counted in teeth",
        {"handbook": 102.9454, "exact": 102.9561, "meet": 103, "pitches": 106},
        absolute=6e-5,
    ),
    Vector(
        "chain-length",
        {"chainstay": 25 * 12.7, "ring_max": 34, "cog_max": 17},
        SHIGLEY + ": 17 and 34 teeth, 25 pitches apart; 75.79 pitches (75.7928 derived), rounded up to 76",
        {"handbook": 75.7928, "meet": 76, "pitches": 78},
        absolute=5e-5,
    ),
    Vector(
        "chain-length",
        {"chainstay": 36 * 12.7, "ring_max": 63, "cog_max": 20},
        "a journal's worked example, 20 and 63 teeth: 114.8 pitches by the approximate form (36 pitches apart inferred)",
        {"handbook": 114.8},
        absolute=0.05,
    ),
    Vector(
        "chain-length",
        {"chainstay": 36 * 12.7, "ring_max": 63, "cog_max": 20},
        "derived: tangent plus arc for the same example (its printed exact figures are half a pitch off)",
        {"exact": 114.805},
        absolute=5e-4,
    ),
    Vector(
        "chain-length",
        {"chainstay": 410, "ring_max": 50, "cog_max": 28, "ring_min": 34, "cog_min": 11, "capacity": 32},
        "derived: 410 mm, 50 and 28 teeth, tangent plus arc; capacity 16 + 17 teeth",
        {"handbook": 103.9467, "exact": 103.9471, "meet": 104, "pitches": 106, "length_mm": 1346.2, "capacity_needed": 33},
        absolute=1e-4,
        findings=(("stop", "capacity"),),
    ),
    Vector(
        "chain-length",
        {"chainstay": 410, "ring_max": 50, "cog_max": 11},
        "derived: 410 mm, 50 and 11 teeth",
        {"handbook": 96.2603, "exact": 96.2640, "meet": 97, "pitches": 100, "capacity_needed": None},
        absolute=1e-4,
    ),
    Vector(
        "chain-length",
        {"chainstay": 150, "ring_max": 52, "cog_max": 36},
        "derived: pitch radii of 105.2 and 72.9 mm do not go into 150 mm",
        refused=("chainstay",),
    ),
    Vector(
        "chain-length",
        {"chainstay": 410, "ring_max": 40, "cog_max": 28, "ring_min": 42, "cog_min": 30},
        "derived: the smallest is bigger than the biggest",
        refused=("ring_min",),
    ),
    Vector(
        "chain-wear",
        {"pitches": 24, "measured": 304.8, "speeds": 12},
        WEAR,
        {"elongation": 0.0, "limit": 0.5, "remaining": 0.5},
    ),
    Vector(
        "chain-wear",
        {"pitches": 24, "measured": 306.324, "speeds": 11},
        WEAR,
        {"elongation": 0.5, "limit": 0.5, "remaining": 0.0},
        findings=(("care", "measured"),),
    ),
    Vector(
        "chain-wear",
        {"pitches": 24, "measured": 307.086, "speeds": 10},
        WEAR,
        {"elongation": 0.75, "limit": 0.75, "remaining": 0.0},
        findings=(("care", "measured"),),
    ),
    Vector(
        "chain-wear",
        {"pitches": 24, "measured": 330.2, "speeds": 10},
        "derived: 26 pitches counted as 24",
        refused=("measured",),
    ),
    Vector(
        "gear-table",
        {"rings": [50], "cogs": [25, 20], "rollout": 2100, "cadence": 100},
        "derived: twice and two and a half times 2.1 m a turn",
        {
            "gears": [
                {"ring": 50, "cog": 25, "ratio": 2.0, "development": 4.2, "speed": 25.2, "step": None},
                {"ring": 50, "cog": 20, "ratio": 2.5, "development": 5.25, "speed": 31.5, "step": 25.0},
            ],
            "range": 125.0,
            "duplicates": [],
            "jump_max": 25.0,
        },
    ),
    Vector(
        "gear-table",
        {"rings": [52, 39], "cogs": [16, 12], "rollout": 2100, "cadence": 90},
        "derived: 52/16 and 39/12 are both 3.25",
        {"duplicates": [{"ring": 39, "cog": 12, "ring_other": 52, "cog_other": 16, "apart": 0.0}]},
    ),
    Vector(
        "gear-table",
        {"rings": [50.5], "cogs": [25], "rollout": 2100},
        "derived: half a tooth",
        refused=("rings[0]",),
    ),
    Vector(
        "climb-gear",
        {
            **CLIMB,
            "gradient": 0,
            "power": 245.8129,
            "rolling": 0.0032,
            "drag_area": 0.2565,
            "air_density": 1.2234,
            "efficiency": 0.976,
        },
        "derived: the plain model of Martin et al., J. Appl. Biomech. 14 (1998): 90 kg at 11 m/s on the level asks 245.8129 W "
        "(with g = 9.81; here 9.80665)",
        {"speed": 39.6},
        rel=3e-5,
    ),
    Vector(
        "climb-gear",
        {**CLIMB, "gradient": 20, "power": 200, "cadence_min": 60},
        "derived: at walking pace nearly all power lifts the weight, v ≈ 195 W / (90 kg × 9.80665 × (sin + 0.005 cos))",
        {"speed": 3.6 * 195 / (90 * 9.80665 * (0.19611613513818404 + 0.005 * 0.98058067569092011))},
        rel=5e-3,
        findings=(("care", "cog_max"),),
    ),
    Vector(
        "hanger-alignment",
        GAUGE,
        "derived: four equal gaps, a straight hanger",
        {"toe": 0.0, "camber": 0.0, "tilt": 0.0, "spread": 0.0, "misfit": 0.0},
        findings=(("fine", "tolerance"),),
    ),
    Vector(
        "hanger-alignment",
        {**GAUGE, "gap_3": 25.061969, "gap_9": 14.938031},
        "derived: tan 1° = 0.01745506; 580 mm across are 10.124 mm. 4 mm: common practice",
        {"toe": 1.0, "camber": 0.0, "tilt": 1.0, "spread": 10.123938, "misfit": 0.0},
        absolute=1e-5,
        findings=(("care", "tolerance"),),
    ),
    Vector(
        "hanger-alignment",
        {**GAUGE, "gap_12": 22, "gap_6": 22},
        "derived: top and bottom 2 mm out, front and rear not: no plane does that. 1 mm: common practice",
        {"misfit": 2.0, "tilt": 0.0},
        findings=(("care", "gap_12"),),
    ),
]
