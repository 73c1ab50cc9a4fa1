"""A bar position measured on one bike, built again on another."""

import math

from .calculations import calculation
from .position import AFTER_MOVING_THE_BAR, HEAD_ANGLE, REACH, STACK, STEM_HEIGHT
from .quantities import flag, number, numbers, rows, whole
from .stem_search import NEAR, each_once, piles_of, search
from .working import Work, shown

FIELDS = [
    number("headset_cover", "mm", "Headset cover", digits=1),
    number("spacers", "mm", "Spacers", digits=1),
    number("stem_length", "mm", "Stem length", digits=0),
    number("stem_angle", "°", "Stem angle", digits=1, help="+ rises, − drops, from square to the steerer."),
    number("error_x", "mm", "Too far forward by", digits=1),
    number("error_y", "mm", "Too high by", digits=1),
    number("error", "mm", "Off by", digits=1),
]


@calculation(
    id="position-transfer",
    family="position",
    title="Position transfer",
    question="Which stem, spacers and cover put the bar where it was on the other bike?",
    inputs=[
        number(
            "target_bar_x",
            "mm",
            "Wanted: bar ahead of the bottom bracket",
            possible=(0, 1000),
            plausible=(350, 650),
            step=1,
            digits=0,
            help="Bike level: plumb lines through bottom-bracket centre and bar centre, the distance between them.",
        ),
        number(
            "target_bar_y",
            "mm",
            "Wanted: bar above the bottom bracket",
            possible=(100, 1200),
            plausible=(500, 800),
            step=1,
            digits=0,
            help="Bike level: height of the bar's centre from the floor less that of the bottom bracket.",
        ),
        STACK,
        REACH,
        HEAD_ANGLE,
        numbers(
            "headset_covers",
            "mm",
            "Headset covers at hand",
            possible=(0, 60),
            plausible=(2, 35),
            digits=1,
            most=20,
            help="Head tube's upper edge to where the first spacer or the stem sits, one figure for each cover.",
        ),
        number("spacer_max", "mm", "Most spacers", default=30, possible=(0, 120), plausible=(0, 40), step=5, digits=1),
        number(
            "spacer_step",
            "mm",
            "Spacer step",
            default=5,
            possible=(0.5, 60),
            plausible=(1, 10),
            step=0.5,
            digits=1,
            help="The thinnest spacer at hand.",
        ),
        STEM_HEIGHT,
        numbers("stem_lengths", "mm", "Stem lengths at hand", possible=(0, 200), plausible=(30, 140), digits=0, most=40),
        numbers(
            "stem_angles",
            "°",
            "Stem angles at hand",
            possible=(-60, 60),
            plausible=(-40, 40),
            digits=1,
            most=20,
            help="As marked: a stem can be flipped, so each counts with both signs.",
        ),
        number(
            "tolerance",
            "mm",
            "Near enough",
            default=3,
            possible=(0, 50),
            plausible=(1, 10),
            step=1,
            digits=0,
            help="How far the bar's centre may be from the wanted place.",
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
            help="Marked for the steerer. Left out: 30 mm is taken as common practice for carbon.",
        ),
        flag("carbon", "Carbon steerer", default=True),
    ],
    outputs=[
        rows(
            "exact",
            "Would hit it exactly",
            [
                number("stem_angle", "°", "Stem angle", digits=1),
                number("stem_length", "mm", "Stem length", digits=1),
                number("spacers", "mm", "Spacers", digits=1, help="With the lowest cover; below zero the frame is too tall."),
            ],
        ),
        rows(
            "options",
            "Can be built, best first",
            FIELDS,
            help="The twenty best.",
        ),
        rows("best", "Best", FIELDS, help="One row, the first of the options."),
        whole("count", "Combinations compared"),
        whole("within", "Near enough", help="How many of them are within the tolerance."),
    ],
    cautions=AFTER_MOVING_THE_BAR,
    source="Plane geometry along and square to the steering axis. Tolerance 3 mm, 30 mm of spacers on carbon: common practice.",
    example={
        "target_bar_x": 474,
        "target_bar_y": 627,
        "stack": 545,
        "reach": 384,
        "head_angle": 72.5,
        "headset_covers": [5, 15],
        "spacer_max": 30,
        "spacer_step": 5,
        "stem_height": 40,
        "stem_lengths": [90, 100, 110, 120],
        "stem_angles": [6, 17],
        "tolerance": 3,
    },
)
def position_transfer(
    work: Work,
    *,
    target_bar_x: float,
    target_bar_y: float,
    stack: float,
    reach: float,
    head_angle: float,
    headset_covers: list[float],
    spacer_max: float,
    spacer_step: float,
    stem_height: float,
    stem_lengths: list[float],
    stem_angles: list[float],
    tolerance: float,
    spacer_limit: "float | None",
    carbon: bool,
) -> dict[str, object]:
    """Buildable bar positions, nearest first; lengths mm, angles degrees.

    With d from the head tube's top to the target, L = d·n / cos a and H = d·u − L sin a hit it exactly. Built parts miss by
    L cos a − d·n along n and by H − (d·u − L sin a) along u; only the second depends on the spacers, so each stem is looked
    at once and its spacer piles are counted, not tried one by one.
    """
    sin_head, cos_head = math.sin(math.radians(head_angle)), math.cos(math.radians(head_angle))
    ahead, above = target_bar_x - reach, target_bar_y - stack
    square = ahead * sin_head + above * cos_head
    along = above * sin_head - ahead * cos_head
    _show_target(work, target_bar_x, target_bar_y, reach, stack, head_angle, ahead, above, square, along)

    covers = each_once(headset_covers)
    angles = each_once([a for marked in stem_angles for a in (marked, -marked)])
    exact = [_exact(a, square, along, covers[0], stem_height) for a in angles]
    # A stem of less than no length is none.
    exact = [row for row in exact if row["stem_length"] > 0]

    lengths = each_once(stem_lengths)
    found, within = search(square, along, covers, spacer_max, spacer_step, stem_height, lengths, angles, tolerance)
    piles = piles_of(spacer_max, spacer_step)
    count = len(covers) * piles * len(lengths) * len(angles)
    work.line(
        "count",
        "covers × piles × lengths × angles",
        float(count),
        "",
        covers=float(len(covers)),
        piles=float(piles),
        lengths=float(len(lengths)),
        angles=float(len(angles)),
    )
    work.line("within", str(within), float(within))

    options = [_placed(option, square, along, stem_height, sin_head, cos_head) for option in found]
    best = options[0]
    _show_exact(work, exact, best["stem_angle"], square, along, covers[0], stem_height)
    _show_best(work, best, target_bar_x, target_bar_y, reach, stack, head_angle, stem_height)
    _say_miss(work, best, tolerance, len(exact) > 0)
    _say_spacers(work, options, spacer_limit, carbon, tolerance)
    return {
        "exact": exact,
        "options": options,
        "best": [best],
        "count": count,
        "within": within,
    }


def _exact(angle: float, square: float, along: float, cover: float, stem_height: float) -> dict[str, float]:
    """Stem length and spacers that would hit the target with a stem of this angle."""
    stem = math.radians(angle)
    length = square / math.cos(stem)
    spacers = along - length * math.sin(stem) - stem_height / 2 - cover
    return {"stem_angle": angle, "stem_length": length, "spacers": spacers}


def _show_exact(
    work: Work, exact: list[dict[str, float]], angle: float, square: float, along: float, cover: float, stem_height: float
) -> None:
    """The sums behind one row of the exact figures: the others go the same way."""
    for row in exact:
        if row["stem_angle"] != angle:
            continue
        work.say("To hit it exactly with a stem of the best option's angle and the lowest cover:")
        work.line("stem_length", "square / cos(angle)", row["stem_length"], "mm", square=square, angle=angle)
        work.line(
            "spacers",
            "up − stem_length × sin(angle) − stem_height / 2 − cover",
            row["spacers"],
            "mm",
            up=along,
            stem_length=row["stem_length"],
            angle=angle,
            stem_height=stem_height,
            cover=cover,
        )


def _placed(
    option: "tuple[float, float, float, float, float]",
    square: float,
    along: float,
    stem_height: float,
    sin_head: float,
    cos_head: float,
) -> dict[str, float]:
    """An option as a row, its miss turned from the steering axis into forward and up."""
    _, spacers, shorter, cover, angle = option
    length = -shorter
    stem = math.radians(angle)
    out = length * math.cos(stem) - square
    up = cover + spacers + stem_height / 2 + length * math.sin(stem) - along
    return {
        "headset_cover": cover,
        "spacers": spacers,
        "stem_length": length,
        "stem_angle": angle,
        "error_x": out * sin_head - up * cos_head,
        "error_y": out * cos_head + up * sin_head,
        "error": math.sqrt(out * out + up * up),
    }


def _show_target(
    work: Work,
    target_bar_x: float,
    target_bar_y: float,
    reach: float,
    stack: float,
    head_angle: float,
    ahead: float,
    above: float,
    square: float,
    along: float,
) -> None:
    work.line("ahead", "target_bar_x − reach", ahead, "mm", target_bar_x=target_bar_x, reach=reach)
    work.line("above", "target_bar_y − stack", above, "mm", target_bar_y=target_bar_y, stack=stack)
    work.line(
        "square",
        "ahead × sin(head_angle) + above × cos(head_angle)",
        square,
        "mm",
        ahead=ahead,
        above=above,
        head_angle=head_angle,
    )
    work.line(
        "up", "above × sin(head_angle) − ahead × cos(head_angle)", along, "mm", ahead=ahead, above=above, head_angle=head_angle
    )


def _show_best(
    work: Work,
    best: dict[str, float],
    target_bar_x: float,
    target_bar_y: float,
    reach: float,
    stack: float,
    head_angle: float,
    stem_height: float,
) -> None:
    height = best["headset_cover"] + best["spacers"] + stem_height / 2
    work.say("The best of what can be built:")
    work.line(
        "along",
        "headset_cover + spacers + stem_height / 2",
        height,
        "mm",
        headset_cover=best["headset_cover"],
        spacers=best["spacers"],
        stem_height=stem_height,
    )
    work.line(
        "error_x",
        "reach − along × cos(head_angle) + stem_length × sin(head_angle − stem_angle) − target_bar_x",
        best["error_x"],
        "mm",
        reach=reach,
        along=height,
        head_angle=head_angle,
        stem_length=best["stem_length"],
        stem_angle=best["stem_angle"],
        target_bar_x=target_bar_x,
    )
    work.line(
        "error_y",
        "stack + along × sin(head_angle) + stem_length × cos(head_angle − stem_angle) − target_bar_y",
        best["error_y"],
        "mm",
        stack=stack,
        along=height,
        head_angle=head_angle,
        stem_length=best["stem_length"],
        stem_angle=best["stem_angle"],
        target_bar_y=target_bar_y,
    )
    work.line("error", "√(error_x^2 + error_y^2)", best["error"], "mm", error_x=best["error_x"], error_y=best["error_y"])


def _say_miss(work: Work, best: dict[str, float], tolerance: float, by_other_parts: bool) -> None:
    if best["error"] <= tolerance * (1 + NEAR) + NEAR:
        return
    ways: list[str] = []
    for miss, over, under in (
        (best["error_x"], "too far forward", "too far back"),
        (best["error_y"], "too high", "too low"),
    ):
        if abs(miss) >= 0.05:
            ways.append(shown(abs(miss), 1) + " mm " + (over if miss > 0 else under))
    work.stop(
        "tolerance",
        "Nothing at hand reaches the place on this frame: the nearest puts the bar "
        + " and ".join(ways)
        + (
            ". Look at the exact figures for the parts it would take." if by_other_parts else ". It lies where no stem reaches."
        ),
    )


def _say_spacers(
    work: Work, options: list[dict[str, float]], spacer_limit: "float | None", carbon: bool, tolerance: float
) -> None:
    if spacer_limit is None and not carbon:
        return
    limit = 30.0 if spacer_limit is None else spacer_limit
    if options[0]["spacers"] <= limit + NEAR:
        return
    said = "common practice for carbon" if spacer_limit is None else "the limit of the fork"
    lower = ""
    for i, option in enumerate(options):
        if option["spacers"] <= limit + NEAR and option["error"] <= tolerance + NEAR:
            lower = " Option " + str(i + 1) + " stays below it."
            break
    work.care(
        "spacer_max",
        "The best needs "
        + shown(options[0]["spacers"], 1)
        + " mm of spacers, above "
        + shown(limit, 0)
        + " mm, "
        + said
        + "."
        + lower,
    )
