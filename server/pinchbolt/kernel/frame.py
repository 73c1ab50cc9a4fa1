"""How the frame steers, and what a different fork or tyre does to its angles."""

import math

from .calculations import calculation
from .errors import refuse
from .position import HEAD_ANGLE
from .quantities import number
from .working import Work, shown

TOE_CLEARANCE = 89.0
"""mm, pedal centre to front tyre where feet are not held: 16 CFR 1512.17(d)."""


@calculation(
    id="steering-geometry",
    family="frame",
    title="Steering geometry",
    question="How much trail has it, and do the toes clear the front wheel?",
    inputs=[
        HEAD_ANGLE,
        number(
            "fork_offset",
            "mm",
            "Fork offset",
            possible=(-50, 150),
            plausible=(35, 65),
            step=1,
            digits=0,
            help="Steering axis to front axle, square to the axis.",
        ),
        number(
            "wheel_radius",
            "mm",
            "Front wheel radius",
            possible=(100, 450),
            plausible=(300, 380),
            step=1,
            digits=0,
            help="Axle to floor with the rider's weight on, tyre at riding pressure.",
        ),
        number(
            "front_centre",
            "mm",
            "Front centre",
            optional=True,
            possible=(300, 1000),
            plausible=(560, 800),
            step=1,
            digits=0,
            help="Bottom-bracket centre to front axle in a straight line.",
        ),
        number(
            "crank_length", "mm", "Crank length", optional=True, possible=(80, 220), plausible=(160, 180), step=2.5, digits=1
        ),
        number(
            "toe_overhang",
            "mm",
            "Toe past the pedal",
            optional=True,
            possible=(0, 200),
            plausible=(70, 130),
            step=1,
            digits=0,
            help="Pedal axle centre to the tip of the shoe.",
        ),
    ],
    outputs=[
        number("trail", "mm", "Trail", digits=1),
        number("mechanical_trail", "mm", "Mechanical trail", digits=1, help="Measured square to the steering axis."),
        number("wheel_flop", "mm", "Wheel flop", digits=1),
        number("toe_gap", "mm", "Toe to tyre", digits=0, optional=True, help="Below zero: the toe meets the turned wheel."),
    ],
    cautions=[
        "Another fork offset or length only where the makers of frame and fork allow it; the steering is new to the rider."
    ],
    source="Trail (R cos H − offset)/sin H: Wilson, Bicycling Science, 3rd ed. (2004), chapter 8 (from memory). 89 mm of toe "
    "clearance where feet are not held: 16 CFR 1512.17(d).",
    example={
        "head_angle": 73,
        "fork_offset": 45,
        "wheel_radius": 336,
        "front_centre": 590,
        "crank_length": 172.5,
        "toe_overhang": 105,
    },
)
def steering_geometry(
    work: Work,
    *,
    head_angle: float,
    fork_offset: float,
    wheel_radius: float,
    front_centre: "float | None",
    crank_length: "float | None",
    toe_overhang: "float | None",
) -> dict[str, object]:
    """Trail on the ground, trail square to the axis, wheel flop and toe gap, all mm."""
    head = math.radians(head_angle)
    mechanical = wheel_radius * math.cos(head) - fork_offset
    trail = mechanical / math.sin(head)
    flop = trail * math.sin(head) * math.cos(head)
    work.line(
        "mechanical_trail",
        "wheel_radius × cos(head_angle) − fork_offset",
        mechanical,
        "mm",
        wheel_radius=wheel_radius,
        head_angle=head_angle,
        fork_offset=fork_offset,
    )
    work.line("trail", "mechanical_trail / sin(head_angle)", trail, "mm", mechanical_trail=mechanical, head_angle=head_angle)
    work.line("wheel_flop", "trail × sin(head_angle) × cos(head_angle)", flop, "mm", trail=trail, head_angle=head_angle)
    if trail <= 0:
        work.stop("fork_offset", "No trail: the front wheel will not follow by itself. Check offset and head angle.")
    gap: "float | None" = None
    if front_centre is not None and crank_length is not None:
        pedal = front_centre - wheel_radius - crank_length
        work.line(
            "pedal_gap",
            "front_centre − wheel_radius − crank_length",
            pedal,
            "mm",
            front_centre=front_centre,
            wheel_radius=wheel_radius,
            crank_length=crank_length,
        )
        if pedal < TOE_CLEARANCE - 1e-9:
            work.care(
                "front_centre",
                "Pedal centre to front tyre is "
                + shown(pedal, 0)
                + " mm. Where feet are not held, 16 CFR 1512.17(d) asks for 89 mm.",
            )
        if toe_overhang is not None:
            gap = pedal - toe_overhang
            work.line("toe_gap", "pedal_gap − toe_overhang", gap, "mm", pedal_gap=pedal, toe_overhang=toe_overhang)
            if gap < 0:
                work.care("toe_overhang", "The toe meets the turned front wheel: tell the rider, mind slow tight turns.")
    return {"trail": trail, "mechanical_trail": mechanical, "wheel_flop": flop, "toe_gap": gap}


@calculation(
    id="angle-change",
    family="frame",
    title="Change of angles",
    question="What does a different fork or tyre do to the angles and to the position?",
    inputs=[
        HEAD_ANGLE,
        number("seat_angle", "°", "Seat angle", possible=(55, 90), plausible=(70, 78), step=0.1, digits=1),
        number(
            "wheelbase",
            "mm",
            "Wheelbase",
            possible=(500, 2500),
            plausible=(950, 1300),
            step=1,
            digits=0,
            help="Axle to axle.",
        ),
        number(
            "front_rise",
            "mm",
            "Front comes up by",
            possible=(-150, 150),
            plausible=(-40, 40),
            step=1,
            digits=1,
            help="Tyre: the change of wheel radius. Fork: the change of axle-to-crown length times the sine of the head angle. "
            "Add both.",
        ),
        number(
            "rear_rise",
            "mm",
            "Rear comes up by",
            default=0,
            possible=(-150, 150),
            plausible=(-20, 20),
            step=1,
            digits=1,
            help="The change of the rear wheel's radius.",
        ),
        number("bar_x", "mm", "Bar ahead of the bottom bracket", possible=(0, 1000), plausible=(350, 650), step=1, digits=0),
        number("bar_y", "mm", "Bar above the bottom bracket", possible=(100, 1200), plausible=(500, 800), step=1, digits=0),
        number(
            "bb_drop",
            "mm",
            "Bottom-bracket drop",
            possible=(-100, 150),
            plausible=(30, 85),
            step=1,
            digits=0,
            help="How far the bottom bracket is below the line of the axles. Below zero: above it.",
        ),
        number(
            "chainstay",
            "mm",
            "Chainstay",
            default=420,
            possible=(250, 900),
            plausible=(380, 480),
            step=1,
            digits=0,
            help="Bottom-bracket centre to rear axle; only for the bottom bracket's height. 420 mm is common practice.",
        ),
    ],
    outputs=[
        number("tilt", "°", "Tilt", digits=2, help="+ nose up."),
        number("head_angle_new", "°", "Head angle", digits=2),
        number("seat_angle_new", "°", "Seat angle", digits=2),
        number("bar_x_new", "mm", "Bar ahead of the bottom bracket", digits=1),
        number("bar_y_new", "mm", "Bar above the bottom bracket", digits=1),
        number("bb_height_change", "mm", "Bottom bracket rises by", digits=1),
    ],
    cautions=[
        "A longer fork loads the head tube more: only lengths that the frame's maker allows; the steering is new to the rider.",
        "Check the tyre's gap to frame and fork, the pedals' ground clearance and the toes before riding.",
    ],
    source="A stiff frame turned about its axles, sin(tilt) = (front rise − rear rise)/wheelbase.",
    example={
        "head_angle": 72,
        "seat_angle": 73.5,
        "wheelbase": 1010,
        "front_rise": 12,
        "rear_rise": 4,
        "bar_x": 474,
        "bar_y": 627,
        "bb_drop": 70,
        "chainstay": 415,
    },
)
def angle_change(
    work: Work,
    *,
    head_angle: float,
    seat_angle: float,
    wheelbase: float,
    front_rise: float,
    rear_rise: float,
    bar_x: float,
    bar_y: float,
    bb_drop: float,
    chainstay: float,
) -> dict[str, object]:
    """Angles in degrees and bar place in mm after the bike has tilted; the bar is turned about the bottom bracket."""
    if chainstay <= abs(bb_drop):
        raise refuse("chainstay", shown(chainstay), "longer than the bottom-bracket drop")
    turn = math.asin((front_rise - rear_rise) / wheelbase)
    sin_turn, cos_turn = math.sin(turn), math.cos(turn)
    tilt = math.degrees(turn)
    bar_x_new = bar_x * cos_turn - bar_y * sin_turn
    bar_y_new = bar_x * sin_turn + bar_y * cos_turn
    rear = math.sqrt(chainstay**2 - bb_drop**2)
    change = rear_rise + rear * sin_turn + bb_drop * (1 - cos_turn)
    work.line(
        "tilt",
        "asin((front_rise − rear_rise) / wheelbase)",
        tilt,
        "°",
        front_rise=front_rise,
        rear_rise=rear_rise,
        wheelbase=wheelbase,
    )
    work.line("head_angle_new", "head_angle − tilt", head_angle - tilt, "°", head_angle=head_angle, tilt=tilt)
    work.line("seat_angle_new", "seat_angle − tilt", seat_angle - tilt, "°", seat_angle=seat_angle, tilt=tilt)
    work.line("bar_x_new", "bar_x × cos(tilt) − bar_y × sin(tilt)", bar_x_new, "mm", bar_x=bar_x, bar_y=bar_y, tilt=tilt)
    work.line("bar_y_new", "bar_x × sin(tilt) + bar_y × cos(tilt)", bar_y_new, "mm", bar_x=bar_x, bar_y=bar_y, tilt=tilt)
    work.line("rear_centre", "√(chainstay^2 − bb_drop^2)", rear, "mm", chainstay=chainstay, bb_drop=bb_drop)
    work.line(
        "bb_height_change",
        "rear_rise + rear_centre × sin(tilt) + bb_drop × (1 − cos(tilt))",
        change,
        "mm",
        rear_rise=rear_rise,
        rear_centre=rear,
        tilt=tilt,
        bb_drop=bb_drop,
    )
    if change < -5:
        work.care(
            "rear_rise", "The bottom bracket comes down " + shown(-change, 0) + " mm: check that the pedals clear the ground."
        )
    if abs(tilt) > 1:
        work.care(
            "front_rise", "More than a degree of tilt: set saddle and bar again, and ask the frame's maker about the fork."
        )
    return {
        "tilt": tilt,
        "head_angle_new": head_angle - tilt,
        "seat_angle_new": seat_angle - tilt,
        "bar_x_new": bar_x_new,
        "bar_y_new": bar_y_new,
        "bb_height_change": change,
    }
