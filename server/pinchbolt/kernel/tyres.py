"""Tyres: how far a turn of the wheel carries, and whether a tyre goes on this rim and in this frame."""

import math

from .calculations import calculation
from .errors import refuse
from .quantities import Quantity, flag, number
from .tyre_air import TYRES
from .working import Work, shown

NEAR = 1e-9
"""mm; limits are met by figures equal but for their last binary digit."""

LOW_SECTION = 28.0
"""mm: narrower tyres stand 2.5 mm higher than wide (ISO 5775-1, older edition, as summarised)."""

OVERLAP = 5.0
"""mm that a tyre must be wider than a hookless rim is inside: the 2023 rule as the trade press told it."""

HARDLY_WIDER = 1.15
"""Tyre over rim inner width, below which no tyre is fitted: common practice."""

MARGIN = 4.0
"""mm free each side: common practice."""


def bead_seat() -> Quantity:
    """The bead-seat diameter, an input of every calculation that needs the wheel's size."""
    return number(
        "bead_seat",
        "mm",
        "Bead-seat diameter",
        default=622,
        possible=(200, 700),
        plausible=(305, 635),
        step=1,
        digits=0,
        help="The second figure on the tyre's side, 622 in 28-622 (ISO 5775).",
    )


def tyre_width(*, optional: bool = False) -> Quantity:
    """The tyre's width as marked."""
    return number(
        "tyre_width",
        "mm",
        "Tyre width",
        optional=optional,
        possible=(15, 130),
        plausible=(20, 65),
        step=1,
        digits=0,
        help="The first figure on the tyre's side, 28 in 28-622. A calliper on the inflated tyre is better.",
    )


@calculation(
    id="rollout",
    family="tyres",
    title="Rollout",
    question="How far does the bike go with one turn of this wheel?",
    inputs=[
        bead_seat(),
        number(
            "tyre_height",
            "mm",
            "Tyre height",
            optional=True,
            possible=(10, 130),
            plausible=(18, 70),
            step=0.5,
            digits=1,
            help="From the bead seat to the tread, inflated. Measured, it comes before the width.",
        ),
        tyre_width(optional=True),
        number(
            "measured",
            "mm",
            "Measured rollout",
            optional=True,
            possible=(500, 3000),
            plausible=(1200, 2400),
            step=1,
            digits=0,
            help="Rider on, pressure set: roll one turn in a straight line, valve from bottom to bottom. Three turns and a "
            "third of it are better.",
        ),
    ],
    outputs=[
        number("diameter", "mm", "Diameter without load", digits=1),
        number("circumference", "mm", "Circumference without load", digits=0),
        number("difference", "mm", "Measured less computed", optional=True, digits=0),
    ],
    source="Diameter = bead seat + 2 × height; height = width, for tyres under 28 mm width + 2.5 mm: a public summary of an "
    "older edition of ISO 5775-1. A load shortens the rollout by about 1 %: common practice.",
    example={"bead_seat": 622, "tyre_width": 28, "measured": 2109},
)
def rollout(
    work: Work,
    *,
    bead_seat: float,
    tyre_height: "float | None",
    tyre_width: "float | None",
    measured: "float | None",
) -> dict[str, object]:
    """Diameter and circumference in mm. Raises InputError when neither height nor width is given."""
    if tyre_height is not None:
        height = tyre_height
    elif tyre_width is None:
        raise refuse("tyre_height", "nothing", "the tyre's height, or else tyre_width")
    elif tyre_width < LOW_SECTION:
        height = tyre_width + 2.5
        work.line("height", "tyre_width + 2.5", height, "mm", tyre_width=tyre_width)
    else:
        height = tyre_width
        work.line("height", "tyre_width", height, "mm", tyre_width=tyre_width)
    diameter = bead_seat + 2 * height
    circumference = math.pi * diameter
    work.line("diameter", "bead_seat + 2 × height", diameter, "mm", bead_seat=bead_seat, height=height)
    work.line("circumference", "π × diameter", circumference, "mm", diameter=diameter)
    difference: "float | None" = None
    if measured is None:
        work.care("measured", "Computed without load, about 1 % too long on the road: roll it out for a figure to count on.")
    else:
        difference = measured - circumference
        work.line("difference", "measured − circumference", difference, "mm", measured=measured, circumference=circumference)
        share = difference / circumference
        if share > 0.005:
            work.care("measured", "Longer than the tyre is round: check the size on its side and roll it again.")
        elif share < -0.03:
            work.care("measured", "More than 3 % short: check pressure and size, and roll it again in a straight line.")
        else:
            work.fine("measured", "Use the measured " + shown(measured, 0) + " mm: it counts the load.")
    return {"diameter": diameter, "circumference": circumference, "difference": difference}


@calculation(
    id="rim-fit",
    family="tyres",
    title="Tyre on rim and in frame",
    question="May this tyre go on this rim, and does it clear the frame?",
    inputs=[
        tyre_width(),
        number(
            "rim_inner_width",
            "mm",
            "Rim's inner width",
            possible=(9, 110),
            plausible=(13, 40),
            step=0.5,
            digits=1,
            help="Between the flanges, where the beads sit: marked on the rim, as in 622x19, or by calliper.",
        ),
        flag("hookless", "Hookless rim", default=False, help="Straight flanges without a hook inside. In doubt: yes."),
        flag(
            "tyre_hookless",
            "Tyre approved for hookless",
            optional=True,
            help="Only its maker's word counts: on the tyre's side or in the maker's list.",
        ),
        number(
            "rim_tyre_min",
            "mm",
            "Rim's narrowest tyre",
            optional=True,
            possible=(15, 130),
            plausible=(18, 65),
            step=1,
            digits=0,
            help="From the rim's marking or manual.",
        ),
        number(
            "rim_tyre_max",
            "mm",
            "Rim's widest tyre",
            optional=True,
            possible=(15, 130),
            plausible=(20, 80),
            step=1,
            digits=0,
            help="From the rim's marking or manual.",
        ),
        number(
            "frame_gap",
            "mm",
            "Room in frame or fork",
            optional=True,
            possible=(10, 200),
            plausible=(28, 90),
            step=0.5,
            digits=1,
            help="Between the legs or stays where the tyre is widest; the narrowest of chainstays, seatstays and fork.",
        ),
        number(
            "tyre_measured",
            "mm",
            "Tyre measured",
            optional=True,
            possible=(15, 140),
            plausible=(20, 70),
            step=0.5,
            digits=1,
            help="By calliper on this rim, at riding pressure, a day after mounting: tyres grow.",
        ),
        number(
            "margin",
            "mm",
            "Free each side",
            default=MARGIN,
            possible=(1.6, 20),
            plausible=(3, 10),
            step=0.5,
            digits=1,
            help="The frame maker's figure. 4 mm is common practice; more for mud.",
        ),
    ],
    outputs=[
        flag("rim_ok", "Goes on the rim", optional=True, help="Empty: not known, look it up before fitting."),
        number(
            "inner_width_usual",
            "mm",
            "Usual inner width for this tyre",
            digits=1,
            help="An old rule of thumb, for orientation only: never a pass.",
        ),
        number("gap_left", "mm", "Left free each side", optional=True, digits=1),
        flag("clearance_ok", "Clears the frame", optional=True, help="Empty: not measured."),
    ],
    cautions=TYRES
    + [
        "Wear eye protection while the beads seat. On a hookless rim only a tyre that its maker approves for it.",
        "The makers of rim, tyre and frame come first. Look also at crown, bridge and front mech, where a tyre can rub.",
    ],
    source="Usual inner width 0.65 of the tyre's under 30 mm, else 0.55: a public summary of an older edition of ISO 5775-1. "
    "Hookless: 5 mm wider than the rim is inside, as the trade press told the 2023 rule. The table of ISO 5775-1 itself is not "
    "built in. Tyres hardly wider than the rim, and 4 mm each side: common practice.",
    example={
        "tyre_width": 32,
        "rim_inner_width": 21,
        "hookless": False,
        "rim_tyre_min": 28,
        "rim_tyre_max": 45,
        "frame_gap": 44,
        "tyre_measured": 33.4,
        "margin": 4,
    },
)
def rim_fit(
    work: Work,
    *,
    tyre_width: float,
    rim_inner_width: float,
    hookless: bool,
    tyre_hookless: "bool | None",
    rim_tyre_min: "float | None",
    rim_tyre_max: "float | None",
    frame_gap: "float | None",
    tyre_measured: "float | None",
    margin: float,
) -> dict[str, object]:
    """Rim and frame judged apart; None where a figure is missing: never taken as a fit. Widths in mm."""
    if rim_tyre_min is not None and rim_tyre_max is not None and rim_tyre_min > rim_tyre_max:
        raise refuse("rim_tyre_max", shown(rim_tyre_max), "no less than rim_tyre_min, " + shown(rim_tyre_min) + " mm")
    ratio = 0.65 if tyre_width < 30 else 0.55
    usual = ratio * tyre_width
    work.line("inner_width_usual", "ratio × tyre_width", usual, "mm", ratio=ratio, tyre_width=tyre_width)
    in_range = _by_the_rims_range(work, tyre_width, rim_inner_width, rim_tyre_min, rim_tyre_max, usual)
    on_hookless = _on_hookless(work, tyre_width, rim_inner_width, tyre_hookless) if hookless else True
    rim_ok: "bool | None" = None
    if in_range is False or on_hookless is False:
        rim_ok = False
    elif in_range and on_hookless:
        rim_ok = True
    gap_left: "float | None" = None
    clearance_ok: "bool | None" = None
    if frame_gap is None or tyre_measured is None:
        missing = "frame_gap" if frame_gap is None else "tyre_measured"
        work.care(missing, "Clearance not checked: measure the room in the frame and the mounted tyre.")
    else:
        gap_left = (frame_gap - tyre_measured) / 2
        work.line(
            "gap_left", "(frame_gap − tyre_measured) / 2", gap_left, "mm", frame_gap=frame_gap, tyre_measured=tyre_measured
        )
        clearance_ok = gap_left >= margin - NEAR
        left, wanted = shown(gap_left, 2) + " mm", shown(margin) + " mm"
        if gap_left <= 0:
            work.stop("frame_gap", "The tyre does not go in: " + shown(-2 * gap_left, 1) + " mm too wide.")
        elif not clearance_ok:
            work.stop("frame_gap", "Only " + left + " free each side, " + wanted + " wanted: a narrower tyre.")
        else:
            work.fine("frame_gap", left + " free each side, " + wanted + " wanted, with the tyre in the middle.")
    return {"rim_ok": rim_ok, "inner_width_usual": usual, "gap_left": gap_left, "clearance_ok": clearance_ok}


def _by_the_rims_range(
    work: Work, tyre: float, inner: float, least: "float | None", most: "float | None", usual: float
) -> "bool | None":
    """Whether the rim maker's range holds the tyre; None when it is not given in full and nothing speaks against it."""
    width = shown(tyre) + " mm"
    if least is not None and tyre < least - NEAR:
        work.stop("tyre_width", width + " is narrower than the rim's maker allows, " + shown(least) + " mm: do not fit it.")
        return False
    if most is not None and tyre > most + NEAR:
        work.stop("tyre_width", width + " is wider than the rim's maker allows, " + shown(most) + " mm: do not fit it.")
        return False
    if least is not None and most is not None and tyre > inner + NEAR:
        work.fine("tyre_width", width + " lies in the rim's own " + shown(least) + " to " + shown(most) + " mm.")
        return True
    if tyre < inner * HARDLY_WIDER - NEAR:
        work.stop("tyre_width", width + " is hardly wider than the rim is inside, " + shown(inner) + " mm: do not fit it.")
        return False
    work.care(
        "rim_tyre_min" if least is None else "rim_tyre_max",
        "Not known whether the rim takes it. Look up the rim's range, or the table of ISO 5775-1, before fitting. An old rule "
        "of thumb puts this tyre on about " + shown(usual, 0) + " mm inside; this rim has " + shown(inner) + " mm.",
    )
    return None


def _on_hookless(work: Work, tyre: float, inner: float, approved: "bool | None") -> "bool | None":
    """Whether the tyre may go on a hookless rim; the overlap holds even against an older, wider range of the rim."""
    if tyre < inner + OVERLAP - NEAR:
        work.stop(
            "hookless",
            "On a hookless rim of "
            + shown(inner)
            + " mm inside a tyre is at least "
            + shown(inner + OVERLAP)
            + " mm wide: do not fit this one. Ask the rim's and the tyre's makers.",
        )
        return False
    if approved is False:
        work.stop("tyre_hookless", "The tyre is not approved for hookless rims: do not fit it, it can blow off.")
        return False
    if approved is None:
        work.care("tyre_hookless", "Not known whether the tyre is approved for hookless rims: look it up before fitting.")
        return None
    work.fine("hookless", "Approved for hookless and wide enough. Never above 5 bar.")
    return True
