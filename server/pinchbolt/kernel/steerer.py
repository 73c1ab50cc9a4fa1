"""The steerer: the cut that cannot be undone."""

from .calculations import calculation
from .quantities import flag, number
from .working import STOP, Work, shown

CUTTING_CARBON = [
    "Cut carbon wet, with a fine blade and a saw guide; clamp, do not crush.",
    "Wear a respirator rated for fine dust, gloves and eye protection; never blow or dry-sweep the dust.",
    "Measure twice by two routes. Seal and inspect the cut edge; a split or delaminated edge is not to be ridden.",
    "The fork maker's cutting limits and plug instructions come first.",
]

STEM_ABOVE = 5.0
"""mm, the most that the stem may stand above the steerer's end: ISO 4210-2:2014, 4.7.4."""


@calculation(
    id="steerer-cut",
    family="steerer",
    title="Steerer cut",
    question="Where do I cut the steerer, and do two ways of measuring agree?",
    inputs=[
        number(
            "head_tube",
            "mm",
            "Head tube",
            possible=(60, 350),
            plausible=(90, 240),
            step=0.5,
            digits=1,
            help="Frame only, edge to edge along the axis, without bearings or covers.",
        ),
        number(
            "lower_stack",
            "mm",
            "Lower headset stack",
            possible=(0, 40),
            plausible=(0, 15),
            step=0.5,
            digits=1,
            help="Crown seat to the lower edge of the head tube, bearing and race fitted.",
        ),
        number(
            "upper_stack",
            "mm",
            "Upper headset stack",
            possible=(0, 60),
            plausible=(2, 35),
            step=0.5,
            digits=1,
            help="Upper edge of the head tube to where the first spacer or the stem sits: bearing, ring and cover.",
        ),
        number(
            "spacers_below",
            "mm",
            "Spacers below the stem",
            possible=(0, 120),
            plausible=(0, 40),
            step=0.5,
            digits=1,
            help="The pile as it will be ridden, measured together, not added up from labels.",
        ),
        number(
            "stem_height",
            "mm",
            "Stem height at the steerer",
            possible=(20, 80),
            plausible=(35, 50),
            step=0.5,
            digits=1,
            help="Height of the clamp along the steerer.",
        ),
        number("spacers_above", "mm", "Spacers above the stem", possible=(0, 60), plausible=(0, 20), step=0.5, digits=1),
        number(
            "top_gap",
            "mm",
            "Gap below the top",
            default=3,
            possible=(0, 15),
            plausible=(2, 5),
            step=0.5,
            digits=1,
            help="How far the steerer ends below the top spacer or stem, so that the cap can press the headset.",
        ),
        number(
            "tolerance",
            "mm",
            "Agreement wanted",
            default=1,
            possible=(0.1, 5),
            plausible=(0.5, 2),
            step=0.5,
            digits=1,
            help="The most the two routes may differ.",
        ),
        number(
            "steerer_uncut",
            "mm",
            "Steerer as it is",
            possible=(50, 500),
            plausible=(180, 350),
            step=1,
            digits=1,
            help="Crown seat to the end of the steerer as it is now.",
        ),
        number(
            "mark",
            "mm",
            "Mark at the stem's top",
            optional=True,
            possible=(50, 500),
            plausible=(120, 340),
            step=0.5,
            digits=1,
            help="Dry-assemble everything, mark the steerer at the top of the stem or top spacer, take it out and measure "
            "crown seat to mark.",
        ),
        number("fork_mass", "g", "Fork as it is", optional=True, possible=(100, 3000), plausible=(280, 1200), step=1, digits=0),
        number(
            "steerer_mass_per_mm",
            "g/mm",
            "Steerer mass a millimetre",
            optional=True,
            possible=(0.1, 5),
            plausible=(0.4, 1.6),
            step=0.05,
            digits=2,
            help="Weigh an offcut of the same tube, or leave it out.",
        ),
        number(
            "spacer_limit",
            "mm",
            "Spacer limit of the fork",
            optional=True,
            possible=(0, 120),
            plausible=(10, 60),
            step=1,
            digits=0,
            help="Marked by the fork's maker. Left out: 30 mm is taken as common practice for carbon.",
        ),
        number(
            "plug_depth",
            "mm",
            "Plug depth",
            optional=True,
            possible=(10, 200),
            plausible=(30, 90),
            step=1,
            digits=0,
            help="How far the expander plug reaches down from the steerer's end.",
        ),
        number(
            "gap_allowed",
            "mm",
            "Most gap the cap allows",
            default=5,
            possible=(0, 15),
            plausible=(2, 6),
            step=0.5,
            digits=1,
            help="ISO 4210-2 lets the stem stand at most 5 mm above the steerer's end; the cap's maker may allow less.",
        ),
        flag("carbon", "Carbon steerer", default=True),
    ],
    outputs=[
        number("cut_by_sum", "mm", "Cut by the sum of parts", rounds="up", digits=1),
        number("cut_by_mark", "mm", "Cut by the mark", rounds="up", digits=1, optional=True),
        number("disagreement", "mm", "The routes differ by", digits=1, optional=True),
        flag("agreed", "The routes agree"),
        number(
            "cut_length",
            "mm",
            "Cut to",
            rounds="up",
            digits=1,
            optional=True,
            help="Crown seat to cut; empty until both routes agree.",
        ),
        number("removed", "mm", "Comes off", rounds="down", digits=1, optional=True),
        number("fork_mass_after", "g", "Fork afterwards", digits=0, optional=True),
    ],
    cautions=CUTTING_CARBON,
    source="Sum of the parts along the steering axis; the end of the steerer at most 5 mm below the stem's top: "
    "ISO 4210-2:2014, 4.7.4. Gap of 3 mm, agreement within 1 mm, 30 mm of spacers on carbon: common practice.",
    example={
        "head_tube": 148,
        "lower_stack": 1,
        "upper_stack": 12,
        "spacers_below": 20,
        "stem_height": 40,
        "spacers_above": 5,
        "steerer_uncut": 300,
        "mark": 226.5,
        "fork_mass": 374,
        "steerer_mass_per_mm": 0.52,
        "plug_depth": 70,
    },
)
def steerer_cut(
    work: Work,
    *,
    head_tube: float,
    lower_stack: float,
    upper_stack: float,
    spacers_below: float,
    stem_height: float,
    spacers_above: float,
    top_gap: float,
    tolerance: float,
    steerer_uncut: float,
    mark: "float | None",
    fork_mass: "float | None",
    steerer_mass_per_mm: "float | None",
    spacer_limit: "float | None",
    plug_depth: "float | None",
    gap_allowed: float,
    carbon: bool,
) -> dict[str, object]:
    """Cut length from the crown seat, mm, by two routes; the longer one when they agree, none otherwise.

    All lengths mm along the steering axis, masses g. The result is not rounded, and in words only upwards: rounding down would
    take material away.
    """
    by_sum = head_tube + lower_stack + upper_stack + spacers_below + stem_height + spacers_above - top_gap
    work.line(
        "cut_by_sum",
        "head_tube + lower_stack + upper_stack + spacers_below + stem_height + spacers_above − top_gap",
        by_sum,
        "mm",
        head_tube=head_tube,
        lower_stack=lower_stack,
        upper_stack=upper_stack,
        spacers_below=spacers_below,
        stem_height=stem_height,
        spacers_above=spacers_above,
        top_gap=top_gap,
    )
    by_mark: "float | None" = None
    disagreement: "float | None" = None
    agreed = False
    if mark is None:
        work.stop("mark", "Only one route was measured. Dry-assemble, mark the steerer at the top and measure to the mark.")
    else:
        by_mark = mark - top_gap
        work.line("cut_by_mark", "mark − top_gap", by_mark, "mm", mark=mark, top_gap=top_gap)
        disagreement = abs(by_sum - by_mark)
        work.line("disagreement", "abs(cut_by_sum − cut_by_mark)", disagreement, "mm", cut_by_sum=by_sum, cut_by_mark=by_mark)
        # A billionth of a millimetre: sums of decimal inputs are not exact in binary.
        agreed = disagreement <= tolerance + 1e-9
        if not agreed:
            work.stop(
                "mark",
                "The two routes differ by "
                + shown(disagreement, 2)
                + " mm, more than "
                + shown(tolerance, 2)
                + " mm. Find the reason before cutting.",
            )

    cut = max(by_sum, by_mark) if agreed and by_mark is not None else None
    needed = max(by_sum, by_mark) if by_mark is not None else by_sum
    removed: "float | None" = None
    if needed > steerer_uncut + 1e-9:
        work.stop(
            "steerer_uncut",
            "The steerer is too short by "
            + shown(needed - steerer_uncut, 2)
            + " mm: fewer spacers, a lower stem, or another fork.",
        )
    if cut is not None and by_mark is not None:
        work.line("cut_length", "max(cut_by_sum, cut_by_mark)", cut, "mm", cut_by_sum=by_sum, cut_by_mark=by_mark)
    if cut is not None and cut <= steerer_uncut + 1e-9:
        removed = steerer_uncut - cut
        work.line("removed", "steerer_uncut − cut_length", removed, "mm", steerer_uncut=steerer_uncut, cut_length=cut)
        if removed < 1e-9:
            work.fine("steerer_uncut", "Nothing to cut: the steerer is already at its length.")

    _clamp_is_backed(work, top_gap, spacers_above, stem_height, plug_depth, gap_allowed, carbon)
    limit = 30.0 if spacer_limit is None else spacer_limit
    if spacers_below > limit and (carbon or spacer_limit is not None):
        said = "common practice for carbon" if spacer_limit is None else "the fork's own limit"
        work.care(
            "spacers_below", shown(spacers_below, 1) + " mm of spacers is above " + shown(limit, 0) + " mm, " + said + "."
        )

    if removed is not None and removed >= 1e-9 and cut is not None and not any(f["level"] == STOP for f in work.findings):
        # Up to the next tenth: rounding to the nearest could take material away.
        work.fine("mark", "Mark the cut at " + shown(cut, 1, "up") + " mm from the crown seat, no shorter.")

    after: "float | None" = None
    if fork_mass is not None and steerer_mass_per_mm is not None and removed is not None:
        after = fork_mass - removed * steerer_mass_per_mm
        work.line(
            "fork_mass_after",
            "fork_mass − removed × steerer_mass_per_mm",
            after,
            "g",
            fork_mass=fork_mass,
            removed=removed,
            steerer_mass_per_mm=steerer_mass_per_mm,
        )
        if after <= 0:
            work.stop("steerer_mass_per_mm", "The offcut would weigh more than the fork: one of the masses is wrong.")
            after = None
    return {
        "cut_by_sum": by_sum,
        "cut_by_mark": by_mark,
        "disagreement": disagreement,
        "agreed": agreed,
        "cut_length": cut,
        "removed": removed,
        "fork_mass_after": after,
    }


def _clamp_is_backed(
    work: Work,
    top_gap: float,
    spacers_above: float,
    stem_height: float,
    plug_depth: "float | None",
    gap_allowed: float,
    carbon: bool,
) -> None:
    """The stem must clamp steerer, not air, over its whole height, and carbon must have the plug behind the clamp."""
    if top_gap > gap_allowed + 1e-9:
        work.stop(
            "top_gap",
            "A gap of "
            + shown(top_gap, 1)
            + " mm is more than the "
            + shown(gap_allowed, 1)
            + " mm allowed: the clamp would not be backed by the steerer.",
        )
    elif top_gap < 2:
        work.care("top_gap", "With less than 2 mm the cap may bottom on the steerer and the headset cannot be set.")
    empty = top_gap - spacers_above
    if empty > STEM_ABOVE + 1e-9:
        work.stop(
            "spacers_above",
            "The stem would stand "
            + shown(empty, 1)
            + " mm above the steerer's end; ISO 4210-2 allows 5 mm. Less gap, or a spacer above.",
        )
    elif empty > 1e-9:
        work.care(
            "spacers_above",
            "The top " + shown(empty, 1) + " mm of the clamp hold no steerer: many makers want a 5 mm spacer above on carbon.",
        )
    if plug_depth is None:
        if carbon:
            work.care("plug_depth", "Not checked: whether the plug backs the whole clamp. Measure how deep it reaches.")
        return
    reach = spacers_above - top_gap + stem_height
    work.line(
        "plug_needed",
        "spacers_above − top_gap + stem_height",
        reach,
        "mm",
        spacers_above=spacers_above,
        top_gap=top_gap,
        stem_height=stem_height,
    )
    if carbon and plug_depth < reach - 1e-9:
        work.stop(
            "plug_depth",
            "The plug ends "
            + shown(reach - plug_depth, 1)
            + " mm above the bottom of the clamp: it must back the whole clamp.",
        )
