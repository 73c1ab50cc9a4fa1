"""The mech hanger: is it straight to the wheel?"""

import math

from .calculations import calculation
from .quantities import Quantity, number
from .working import Work, shown

NEAR = 1e-9


def _gap(hour: str, where: str) -> Quantity:
    return number(
        "gap_" + hour,
        "mm",
        "Gap at " + hour + " o'clock, " + where,
        possible=(-50, 200),
        plausible=(0, 60),
        step=0.5,
        digits=1,
        help="Gauge tip to rim, seen from the drive side. Turn the wheel along and measure to the same place on the rim.",
    )


@calculation(
    id="hanger-alignment",
    family="drivetrain",
    title="Hanger alignment",
    question="Is the hanger straight, and which way is it bent?",
    inputs=[
        _gap("12", "top"),
        _gap("3", "front"),
        _gap("6", "bottom"),
        _gap("9", "rear"),
        number(
            "radius",
            "mm",
            "Gauge radius",
            possible=(50, 450),
            plausible=(240, 340),
            step=1,
            digits=0,
            help="Hanger bolt to the gauge's tip.",
        ),
        number(
            "tolerance",
            "mm",
            "Allowed difference",
            default=4,
            possible=(0.1, 20),
            plausible=(2, 6),
            step=0.5,
            digits=1,
            help="Between the greatest and the least gap. 4 mm is common practice; many gears want less.",
        ),
    ],
    outputs=[
        number("toe", "°", "Toe", digits=2, help="+ the front stands out."),
        number("camber", "°", "Camber", digits=2, help="+ the top stands out."),
        number("tilt", "°", "Tilt in all", digits=2),
        number("spread", "mm", "Greatest less least gap", digits=1),
        number("misfit", "mm", "Misfit of the four", digits=1, help="Four points on one plane give 0."),
    ],
    cautions=[
        "Bend a metal hanger only once or twice, slowly; a cracked, thin or pulled thread means a new one. Never heat it.",
        "Never lever against a carbon stay. If the dropout itself is bent or cracked, stop and have it inspected.",
        "A mech that reaches into the spokes locks the wheel: after straightening, set the low limit before riding.",
    ],
    source="A plane through four points on a circle. 4 mm between greatest and least, misfit of 1 mm: common practice.",
    example={"gap_12": 18, "gap_3": 23, "gap_6": 20.5, "gap_9": 15, "radius": 290, "tolerance": 4},
)
def hanger_alignment(
    work: Work, *, gap_12: float, gap_3: float, gap_6: float, gap_9: float, radius: float, tolerance: float
) -> dict[str, object]:
    """Angles of the hanger against the wheel, degrees, from four gaps in mm at `radius` mm.

    `misfit` is what no plane explains: a wheel out of true, or a gauge that moved.
    """
    across = gap_3 - gap_9
    upright = gap_12 - gap_6
    toe = math.degrees(math.atan(across / (2 * radius)))
    camber = math.degrees(math.atan(upright / (2 * radius)))
    tilt = math.degrees(math.atan(math.sqrt(across**2 + upright**2) / (2 * radius)))
    spread = max(gap_12, gap_3, gap_6, gap_9) - min(gap_12, gap_3, gap_6, gap_9)
    misfit = abs(gap_12 + gap_6 - gap_3 - gap_9) / 2
    work.line("toe", "atan((gap_3 − gap_9) / (2 × radius))", toe, "°", gap_3=gap_3, gap_9=gap_9, radius=radius)
    work.line("camber", "atan((gap_12 − gap_6) / (2 × radius))", camber, "°", gap_12=gap_12, gap_6=gap_6, radius=radius)
    work.line(
        "tilt",
        "atan(√((gap_3 − gap_9)^2 + (gap_12 − gap_6)^2) / (2 × radius))",
        tilt,
        "°",
        gap_3=gap_3,
        gap_9=gap_9,
        gap_12=gap_12,
        gap_6=gap_6,
        radius=radius,
    )
    work.line(
        "spread",
        "max(gap_12, gap_3, gap_6, gap_9) − min(gap_12, gap_3, gap_6, gap_9)",
        spread,
        "mm",
        gap_12=gap_12,
        gap_3=gap_3,
        gap_6=gap_6,
        gap_9=gap_9,
    )
    work.line(
        "misfit",
        "abs(gap_12 + gap_6 − gap_3 − gap_9) / 2",
        misfit,
        "mm",
        gap_12=gap_12,
        gap_6=gap_6,
        gap_3=gap_3,
        gap_9=gap_9,
    )
    if misfit > 1 + NEAR:
        work.care(
            "gap_12",
            "The four gaps do not lie on one plane (off by "
            + shown(misfit, 1)
            + " mm): the wheel is out of true or the gauge moved. Measure again.",
        )
    if spread > tolerance + NEAR:
        # Nobody is sent to bend metal by figures that do not fit together.
        way = _way(across, upright) + " Then measure all four again." if misfit <= 1 + NEAR else "measure again before bending."
        work.care("tolerance", "Out by " + shown(spread, 2) + " mm: " + way)
    elif misfit <= 1 + NEAR:
        work.fine("tolerance", "Straight within " + shown(tolerance, 1) + " mm.")
    return {"toe": toe, "camber": camber, "tilt": tilt, "spread": spread, "misfit": misfit}


def _way(across: float, upright: float) -> str:
    """The place to press towards the wheel first, in words."""
    if max(abs(across), abs(upright)) < NEAR:
        return "no tilt explains it."
    if abs(across) >= abs(upright):
        hour, out = ("3", across) if across > 0 else ("9", -across)
    else:
        hour, out = ("12", upright) if upright > 0 else ("6", -upright)
    return "with the gauge at " + hour + " o'clock press towards the wheel by half of " + shown(out, 1) + " mm."
