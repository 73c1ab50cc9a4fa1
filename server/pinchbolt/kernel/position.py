"""Where the bar sits: the frame's stack and reach carried up the steerer and out along the stem."""

import math

from .calculations import calculation
from .quantities import number
from .working import Work

AFTER_MOVING_THE_BAR = [
    "After every change at the stem: tighten to the figure marked on it, bolts in turn, and check that the bar does not twist.",
    "Turn the bar to both ends: no hose or wire may be pulled tight, and the brakes must work at both ends.",
]

STACK = number(
    "stack",
    "mm",
    "Stack",
    possible=(300, 900),
    plausible=(480, 680),
    step=1,
    digits=0,
    help="Bottom-bracket centre straight up to the height of the head tube's upper edge, bike level.",
)
REACH = number(
    "reach",
    "mm",
    "Reach",
    possible=(200, 700),
    plausible=(340, 520),
    step=1,
    digits=0,
    help="Bottom-bracket centre straight forward to the middle of the head tube's upper edge.",
)
HEAD_ANGLE = number(
    "head_angle",
    "°",
    "Head angle",
    possible=(50, 85),
    plausible=(62, 76),
    step=0.1,
    digits=1,
    help="From the horizontal, bike level on its wheels. An angle gauge on the head tube reads it.",
)
STEM_HEIGHT = number(
    "stem_height",
    "mm",
    "Stem height at the steerer",
    default=40,
    possible=(20, 80),
    plausible=(35, 50),
    step=0.5,
    digits=1,
    help="Height of the clamp along the steerer. The stem's line leaves from its middle.",
)


@calculation(
    id="bar-position",
    family="position",
    title="Bar position",
    question="Where will the bar sit with this frame, these spacers and this stem?",
    inputs=[
        STACK,
        REACH,
        HEAD_ANGLE,
        number(
            "headset_cover",
            "mm",
            "Headset cover",
            possible=(0, 60),
            plausible=(2, 35),
            step=0.5,
            digits=1,
            help="Head tube's upper edge to where the first spacer or the stem sits.",
        ),
        number(
            "spacers",
            "mm",
            "Spacers below the stem",
            possible=(0, 120),
            plausible=(0, 40),
            step=0.5,
            digits=1,
            help="Measure the whole pile together.",
        ),
        STEM_HEIGHT,
        number(
            "stem_length",
            "mm",
            "Stem length",
            possible=(0, 200),
            plausible=(30, 140),
            step=5,
            digits=0,
            help="Steerer centre to bar centre, along the stem.",
        ),
        number(
            "stem_angle",
            "°",
            "Stem angle",
            possible=(-60, 60),
            plausible=(-40, 40),
            step=1,
            digits=0,
            help="From square to the steerer: + rises, − drops. A stem marked 6° is −6 when it is fitted to drop.",
        ),
    ],
    outputs=[
        number("bar_x", "mm", "Bar ahead of the bottom bracket", digits=1),
        number("bar_y", "mm", "Bar above the bottom bracket", digits=1),
    ],
    cautions=AFTER_MOVING_THE_BAR,
    source="Plane geometry along the steering axis; stack and reach in their usual sense.",
    example={
        "stack": 560,
        "reach": 390,
        "head_angle": 73,
        "headset_cover": 10,
        "spacers": 20,
        "stem_height": 40,
        "stem_length": 100,
        "stem_angle": -6,
    },
)
def bar_position(
    work: Work,
    *,
    stack: float,
    reach: float,
    head_angle: float,
    headset_cover: float,
    spacers: float,
    stem_height: float,
    stem_length: float,
    stem_angle: float,
) -> dict[str, object]:
    """Bar centre from the bottom-bracket centre, mm: x forward, y up.

    bar = (reach, stack) + u·along + stem_length·(cos a·n + sin a·u) with u = (−cos H, sin H), n = (sin H, cos H); the stem's
    part is the same as stem_length·(sin(H − a), cos(H − a)), which is what the working shows.
    """
    along = headset_cover + spacers + stem_height / 2
    head = math.radians(head_angle)
    stem = math.radians(head_angle - stem_angle)
    bar_x = reach - along * math.cos(head) + stem_length * math.sin(stem)
    bar_y = stack + along * math.sin(head) + stem_length * math.cos(stem)
    work.line(
        "along",
        "headset_cover + spacers + stem_height / 2",
        along,
        "mm",
        headset_cover=headset_cover,
        spacers=spacers,
        stem_height=stem_height,
    )
    work.line(
        "bar_x",
        "reach − along × cos(head_angle) + stem_length × sin(head_angle − stem_angle)",
        bar_x,
        "mm",
        reach=reach,
        along=along,
        head_angle=head_angle,
        stem_length=stem_length,
        stem_angle=stem_angle,
    )
    work.line(
        "bar_y",
        "stack + along × sin(head_angle) + stem_length × cos(head_angle − stem_angle)",
        bar_y,
        "mm",
        stack=stack,
        along=along,
        head_angle=head_angle,
        stem_length=stem_length,
        stem_angle=stem_angle,
    )
    return {"bar_x": bar_x, "bar_y": bar_y}
