"""Hoses and wires between bar and frame: enough to turn, no more."""

import math

from .calculations import calculation
from .quantities import number
from .working import Work, shown


@calculation(
    id="hose-slack",
    family="hoses",
    title="Hose slack",
    question="How much longer must the hose be so that the bars can turn to the frame?",
    inputs=[
        number(
            "port_forward",
            "mm",
            "Port ahead of the steering axis",
            possible=(-400, 400),
            plausible=(-150, 80),
            step=1,
            digits=0,
            help="Where the hose enters the frame, seen from above, bars straight. Below zero: behind the axis.",
        ),
        number(
            "port_side",
            "mm",
            "Port to the left of the axis",
            possible=(-200, 200),
            plausible=(-40, 40),
            step=1,
            digits=0,
            help="Below zero: to the right.",
        ),
        number(
            "anchor_forward",
            "mm",
            "Last tie ahead of the axis",
            possible=(-400, 400),
            plausible=(0, 150),
            step=1,
            digits=0,
            help="The last point where the hose is held on bar or stem, seen from above, bars straight.",
        ),
        number(
            "anchor_side",
            "mm",
            "Last tie to the left of the axis",
            possible=(-500, 500),
            plausible=(-150, 150),
            step=1,
            digits=0,
            help="Below zero: to the right.",
        ),
        number(
            "height",
            "mm",
            "Height between port and tie",
            possible=(-500, 500),
            plausible=(-100, 250),
            step=1,
            digits=0,
            help="Along the steering axis.",
        ),
        number(
            "turn",
            "°",
            "Greatest turn, each way",
            default=90,
            possible=(1, 180),
            plausible=(60, 150),
            step=5,
            digits=0,
            help="Until the bar or the stop meets the frame.",
        ),
        number(
            "current_slack",
            "mm",
            "Slack there is now",
            possible=(0, 500),
            plausible=(0, 80),
            step=1,
            digits=0,
            help="Bars straight: how much longer the hose is between port and tie than a thread pulled straight.",
        ),
    ],
    outputs=[
        number("length_straight", "mm", "Straight line, bars straight", digits=1),
        number("length_max", "mm", "Straight line, worst turn", digits=1),
        number("slack_needed", "mm", "Slack needed", digits=1),
        number("worst_turn", "°", "Worst turn", digits=0, help="+ to the left, − to the right."),
    ],
    cautions=[
        "A hose that goes tight can pull out or pull the brake on. After fitting, turn to both ends and work both brakes.",
        "The figure is for a straight pull: bends want more. Cut long, try, then cut again; a cut hose cannot be lengthened.",
        "Cutting a hydraulic hose opens the brake: new olive and insert, the right fluid, bleed and test before riding.",
    ],
    source="Distance between two points, one of them turned about the steering axis.",
    example={
        "port_forward": -45,
        "port_side": 0,
        "anchor_forward": 70,
        "anchor_side": 40,
        "height": 60,
        "turn": 90,
        "current_slack": 20,
    },
)
def hose_slack(
    work: Work,
    *,
    port_forward: float,
    port_side: float,
    anchor_forward: float,
    anchor_side: float,
    height: float,
    turn: float,
    current_slack: float,
) -> dict[str, object]:
    """Straight distances port to tie, mm, bars straight and at the worst turn within ± `turn` degrees.

    The distance grows until the tie stands opposite the port; when that lies within the turn, the worst is there and not at
    the end.
    """

    def apart(angle: float) -> float:
        sin_turn, cos_turn = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        forward = anchor_forward * cos_turn - anchor_side * sin_turn - port_forward
        side = anchor_forward * sin_turn + anchor_side * cos_turn - port_side
        return math.sqrt(forward * forward + side * side + height * height)

    straight = apart(0.0)
    tried = [0.0, turn, -turn]
    if (port_forward or port_side) and (anchor_forward or anchor_side):
        port_at = math.degrees(math.atan2(port_side, port_forward))
        anchor_at = math.degrees(math.atan2(anchor_side, anchor_forward))
        opposite = (port_at - anchor_at) % 360 - 180
        if abs(opposite) < turn:
            tried.append(opposite)
    worst_turn, longest = 0.0, straight
    for angle in tried:
        length = apart(angle)
        if length > longest + 1e-9:
            worst_turn, longest = angle, length
    needed = longest - straight
    work.line(
        "length_straight",
        "√((anchor_forward − port_forward)^2 + (anchor_side − port_side)^2 + height^2)",
        straight,
        "mm",
        anchor_forward=anchor_forward,
        port_forward=port_forward,
        anchor_side=anchor_side,
        port_side=port_side,
        height=height,
    )
    work.say("The worst turn is to the end, or where the tie stands opposite the port if the bars turn that far.")
    work.line("worst_turn", shown(worst_turn), worst_turn, "°")
    work.line(
        "length_max",
        "√((anchor_forward × cos(worst_turn) − anchor_side × sin(worst_turn) − port_forward)^2"
        " + (anchor_forward × sin(worst_turn) + anchor_side × cos(worst_turn) − port_side)^2 + height^2)",
        longest,
        "mm",
        anchor_forward=anchor_forward,
        anchor_side=anchor_side,
        port_forward=port_forward,
        port_side=port_side,
        height=height,
        worst_turn=worst_turn,
    )
    work.line("slack_needed", "length_max − length_straight", needed, "mm", length_max=longest, length_straight=straight)
    if current_slack < needed - 1e-9:
        way = "left" if worst_turn > 0 else "right"
        work.stop(
            "current_slack",
            "The hose goes tight turning "
            + way
            + ": it lacks "
            + shown(needed - current_slack, 1)
            + " mm. A longer hose, or a tie nearer the steering axis.",
        )
    return {"length_straight": straight, "length_max": longest, "slack_needed": needed, "worst_turn": worst_turn}
