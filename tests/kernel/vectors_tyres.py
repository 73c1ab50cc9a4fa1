"""Vectors of tyres on their rims."""

from typing import Any

from tests.kernel.vectors import Vector

SECTION = "derived: π (D + 2H) with H = W, for W < 28 mm W + 2.5 mm (ISO 5775-1, older edition, as summarised by a public page)"

SIZES = [
    # bead seat, width, circumference, mm
    (622, 25, 2126.86),
    (622, 28, 2130.00),
    (622, 32, 2155.13),
    (622, 40, 2205.40),
    (584, 57, 2192.83),
    (559, 57, 2114.29),
]

ON_HOOKLESS = "hookless norm of 2023 as reported in the trade press: 28 mm on 25 mm inside no longer, 30 mm on 25 mm yes"

REFUSED: dict[str, Any] = {"rim_ok": False}
NOT_KNOWN: dict[str, Any] = {"rim_ok": None, "clearance_ok": None, "gap_left": None}


def _hookless(tyre: float, inner: float, **more: Any) -> dict[str, Any]:
    return {"tyre_width": tyre, "rim_inner_width": inner, "hookless": True, "tyre_hookless": True, **more}


ROLLOUT = [
    *[
        Vector(
            "rollout",
            {"bead_seat": bead, "tyre_width": width},
            SECTION,
            {"circumference": around, "difference": None},
            absolute=0.005,
            findings=(("care", "measured"),),
        )
        for bead, width, around in SIZES
    ],
    Vector(
        "rollout",
        {"bead_seat": 622, "tyre_height": 25, "tyre_width": 25},
        "derived: a height that was measured comes before the rule, 25-622 with H = W",
        {"circumference": 2111.15, "diameter": 672},
        absolute=0.005,
    ),
    Vector(
        "rollout",
        {"bead_seat": 622, "tyre_width": 28, "measured": 2109},
        "common practice: load shortens by about 1 %",
        {"difference": -21},
        absolute=0.01,
        findings=(("fine", "measured"),),
    ),
    Vector(
        "rollout",
        {"bead_seat": 622, "tyre_width": 28, "measured": 2040},
        "derived: 4 % short is no load but another size or a slack tyre",
        {"difference": -90},
        absolute=0.01,
        findings=(("care", "measured"),),
    ),
    Vector(
        "rollout",
        {"bead_seat": 622, "tyre_width": 28, "measured": 2155},
        "derived: no load makes a tyre longer round",
        findings=(("care", "measured"),),
    ),
    Vector("rollout", {"bead_seat": 622}, "derived: without height or width there is no diameter", refused=("tyre_height",)),
]

RIM_FIT = [
    Vector("rim-fit", _hookless(28, 25), ON_HOOKLESS, REFUSED, findings=(("stop", "hookless"),)),
    Vector(
        "rim-fit",
        _hookless(29, 25, rim_tyre_min=28, rim_tyre_max=50),
        "29 or 30 mm on 25 mm inside: the reports differ, so the safer one holds, against an older marking too",
        REFUSED,
        findings=(("stop", "hookless"),),
    ),
    Vector(
        "rim-fit",
        _hookless(30, 25, rim_tyre_min=28, rim_tyre_max=50),
        ON_HOOKLESS,
        {"rim_ok": True},
        findings=(("fine", "hookless"), ("fine", "tyre_width")),
    ),
    Vector(
        "rim-fit",
        _hookless(28, 23, rim_tyre_min=28, rim_tyre_max=50),
        "hookless norm of 2023 as commonly quoted: 23 mm inside takes 28 mm, just",
        {"rim_ok": True},
    ),
    Vector(
        "rim-fit",
        _hookless(30, 25),
        "derived: the hookless rule met, but the width table (ISO 5775-1) is not looked up: no pass",
        NOT_KNOWN,
        findings=(("care", "rim_tyre_min"),),
    ),
    Vector(
        "rim-fit",
        _hookless(30, 25, rim_tyre_min=28, rim_tyre_max=50, tyre_hookless=False),
        "common practice: hookless only with tyres approved for it",
        REFUSED,
        findings=(("stop", "tyre_hookless"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 30, "rim_inner_width": 25, "hookless": True, "rim_tyre_min": 28, "rim_tyre_max": 50},
        "derived: approval not told is no approval",
        {"rim_ok": None},
        findings=(("care", "tyre_hookless"),),
    ),
    *[
        Vector(
            "rim-fit",
            {"tyre_width": 38, "rim_inner_width": inner, "rim_tyre_min": 28, "rim_tyre_max": 62},
            "a tyre maker's page quotes 17 to 27 mm inside for 38-622; here the rim's range says yes as well",
            {"rim_ok": True, "inner_width_usual": 20.9},
        )
        for inner in (17, 27)
    ],
    Vector(
        "rim-fit",
        {"tyre_width": 28, "rim_inner_width": 19},
        "ISO 5775-1, older edition, as summarised by a public page: 0.65 W under 30 mm. A rule of thumb is no pass",
        {**NOT_KNOWN, "inner_width_usual": 18.2},
        findings=(("care", "rim_tyre_min"), ("care", "frame_gap")),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 23, "rim_inner_width": 21, "rim_tyre_min": 25, "rim_tyre_max": 40},
        "derived: the rim maker's range wins",
        REFUSED,
        findings=(("stop", "tyre_width"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 50, "rim_inner_width": 21, "rim_tyre_max": 45},
        "derived: above the rim maker's most, whatever the least",
        REFUSED,
        findings=(("stop", "tyre_width"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 35, "rim_inner_width": 21, "rim_tyre_min": 28},
        "derived: half a range is not a range",
        {"rim_ok": None},
        findings=(("care", "rim_tyre_max"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 23, "rim_inner_width": 21},
        "common practice: hardly wider than the rim inside",
        REFUSED,
        findings=(("stop", "tyre_width"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 30, "rim_inner_width": 21, "frame_gap": 38, "tyre_measured": 32},
        "derived: a frame said to clear 30 mm with 4 mm each side has 38 mm of room; a 32 mm tyre leaves 3",
        {"gap_left": 3, "clearance_ok": False},
        findings=(("stop", "frame_gap"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 30, "rim_inner_width": 21, "frame_gap": 38, "tyre_measured": 30},
        "derived: the margin met to the hair",
        {"gap_left": 4, "clearance_ok": True},
        findings=(("fine", "frame_gap"),),
    ),
    Vector(
        "rim-fit",
        {"tyre_width": 30, "rim_inner_width": 21, "rim_tyre_min": 40, "rim_tyre_max": 30},
        "derived: a range upside down",
        refused=("rim_tyre_max",),
    ),
]

LEAST = [
    Vector(
        "tyre-pressure",
        {"system_mass": mass, "front_share": 50, "tyre_front": width, "tyre_rear": width, "max_tyre": 8, "max_rim": 8},
        "ISO 5775-1, older edition, as summarised by a public page: at least 300 kPa to 25 mm, wider 200 kPa on the road",
        findings=(("care", "tyre_front"), ("care", "tyre_rear")),
    )
    for mass, width in [(42, 25), (50, 32)]
] + [
    Vector(
        "tyre-pressure",
        {"system_mass": 20, "tyre_front": 60, "tyre_rear": 60},
        "derived: the fit falls below nothing; nothing is no pressure to ride with",
        findings=(("stop", "tyre_front"), ("stop", "tyre_rear")),
    )
]

VECTORS = [*ROLLOUT, *RIM_FIT, *LEAST]
