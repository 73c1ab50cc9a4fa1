"""Vectors of the steerer cut."""

from tests.kernel.vectors import Vector

PARTS = {
    "head_tube": 150,
    "lower_stack": 1,
    "upper_stack": 14,
    "spacers_below": 20,
    "stem_height": 40,
    "spacers_above": 5,
    "steerer_uncut": 277,
    "plug_depth": 70,
}
"""230 mm of parts, 227 mm with the usual gap of 3 mm."""

VECTORS = [
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 230, "fork_mass": 374, "steerer_mass_per_mm": 0.52},
        "common practice: a carbon fork of 374 g weighed 348 g after its steerer was cut (50 mm at 0.52 g/mm derived)",
        {
            "cut_by_sum": 227.0,
            "cut_by_mark": 227.0,
            "disagreement": 0.0,
            "agreed": True,
            "cut_length": 227.0,
            "removed": 50.0,
            "fork_mass_after": 348.0,
        },
        findings=(("fine", "mark"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 231},
        "derived: when the routes agree within the tolerance the longer one is cut",
        {"cut_by_mark": 228.0, "disagreement": 1.0, "agreed": True, "cut_length": 228.0, "removed": 49.0},
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 229},
        "derived: and the longer one may be the sum",
        {"cut_by_mark": 226.0, "disagreement": 1.0, "agreed": True, "cut_length": 227.0},
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 231.1},
        "derived: 1.1 mm apart, 1 mm wanted (common practice)",
        {"agreed": False, "cut_length": None, "removed": None},
        findings=(("stop", "mark"),),
    ),
    Vector(
        "steerer-cut",
        PARTS,
        "derived: one route is not two",
        {"cut_by_sum": 227.0, "cut_by_mark": None, "agreed": False, "cut_length": None},
        findings=(("stop", "mark"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 230, "steerer_uncut": 226},
        "derived: a millimetre too short",
        {"removed": None},
        findings=(("stop", "steerer_uncut"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "spacers_above": 0, "top_gap": 5.5, "gap_allowed": 6, "mark": 225},
        "ISO 4210-2:2014, 4.7.4: the stem stands at most 5 mm above the steerer's end",
        findings=(("stop", "spacers_above"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "top_gap": 6, "mark": 230},
        "ISO 4210-2:2014, 4.7.4, taken for the cap's limit: 6 mm of gap is more than 5 mm",
        findings=(("stop", "top_gap"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "mark": 230, "plug_depth": 41},
        "derived: 5 mm of spacer and 40 mm of stem less 3 mm of gap need 42 mm of plug",
        findings=(("stop", "plug_depth"),),
    ),
    Vector(
        "steerer-cut",
        {**PARTS, "spacers_below": 35, "mark": 245},
        "30 mm of spacers on carbon: common practice",
        {"cut_length": 242.0},
        findings=(("care", "spacers_below"),),
    ),
    Vector("steerer-cut", {**PARTS, "head_tube": 15}, "derived: centimetres given as millimetres", refused=("head_tube",)),
]
