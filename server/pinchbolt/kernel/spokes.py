"""Spokes: how long, how tight by their tone, and whether the wheel pulls evenly."""

import math

from .calculations import calculation
from .errors import refuse
from .quantities import Quantity, number, numbers, whole
from .working import Work, shown

TENSION = [
    "The rim maker's greatest tension governs. Eye protection: a spoke or nipple can let go.",
    "Stress-relieve, then true again; a wheel that lost tension is not ridden until the cause is found.",
]

ODD = 20.0
"""%, a spoke this far off the mean of its side is called out: common practice."""

SHORTEST = 20.0
"""mm between flange holes and rim: a shorter spoke than that was never made, and the sums lose their figures."""


@calculation(
    id="spoke-length",
    family="wheels",
    title="Spoke length",
    question="How long are the spokes for this hub, rim and crossing?",
    inputs=[
        number(
            "erd",
            "mm",
            "Effective rim diameter",
            possible=(150, 700),
            plausible=(300, 620),
            step=0.5,
            digits=1,
            help="Across the rim between the spoke ends: two spokes of known length in nipples, pulled tight, plus the gap.",
        ),
        number(
            "pitch_circle",
            "mm",
            "Spoke-hole circle of the flange",
            possible=(15, 200),
            plausible=(28, 75),
            step=0.5,
            digits=1,
            help="Hole centre to hole centre across the hub.",
        ),
        number(
            "flange_offset",
            "mm",
            "Flange from hub middle",
            possible=(0, 80),
            plausible=(14, 42),
            step=0.5,
            digits=1,
            help="Middle between the locknuts or end caps to the middle of this flange.",
        ),
        whole("spokes", "Spokes in the wheel", possible=(8, 72), plausible=(16, 36), help="Both sides together."),
        whole(
            "crosses", "Crossings", possible=(0, 5), plausible=(0, 4), help="How many others each spoke crosses on its side."
        ),
        number("hole", "mm", "Spoke hole", default=2.5, possible=(0, 5), plausible=(2.2, 3), step=0.1, digits=1),
        number(
            "rim_offset",
            "mm",
            "Rim holes off the middle",
            default=0,
            possible=(-15, 15),
            plausible=(-4, 4),
            step=0.5,
            digits=1,
            help="+ when the holes of this side lie towards this flange.",
        ),
    ],
    outputs=[
        number("length", "mm", "Spoke length", digits=1, help="Inside of the elbow to the end of the thread."),
        number("bracing_angle", "°", "Bracing angle", digits=1),
    ],
    cautions=[
        "Measure hub and rim themselves: printed figures err, and half a millimetre matters. Try one side before cutting."
    ],
    source="Law of cosines in space; α = 720°·crossings/spokes: Brandt, The Bicycle Wheel, 3rd ed. 1993, from memory.",
    example={"erd": 594, "pitch_circle": 45, "flange_offset": 34.5, "spokes": 28, "crosses": 2, "hole": 2.6, "rim_offset": 0},
)
def spoke_length(
    work: Work,
    *,
    erd: float,
    pitch_circle: float,
    flange_offset: float,
    spokes: int,
    crosses: int,
    hole: float,
    rim_offset: float,
) -> dict[str, object]:
    """Length, mm, of a J-bend spoke without tension (it stretches about half a millimetre at 1000 N).

    Half a millimetre on the rim's radius moves the length by nearly as much; a tenth on the hub hardly at all.
    """
    if spokes % 2:
        raise refuse("spokes", str(spokes), "an even number: half of them go to each flange")
    angle = 720.0 * crosses / spokes
    if angle > 180:
        raise refuse("crosses", str(crosses), "no more than a quarter of the spokes, " + str(spokes // 4))
    rim, hub = erd / 2, pitch_circle / 2
    if rim - hub < SHORTEST:
        most = erd - 2 * SHORTEST
        raise refuse("pitch_circle", shown(pitch_circle), "at most " + shown(most) + " mm, for a spoke to fit in this rim")
    work.line("angle", "720 × crosses / spokes", angle, "°", crosses=float(crosses), spokes=float(spokes))
    sideways = flange_offset - rim_offset
    work.line("sideways", "flange_offset − rim_offset", sideways, "mm", flange_offset=flange_offset, rim_offset=rim_offset)
    flat = rim * rim + hub * hub - 2 * rim * hub * math.cos(math.radians(angle))
    straight = math.sqrt(flat + sideways * sideways)
    told = {"erd": erd, "pitch_circle": pitch_circle, "sideways": sideways, "angle": angle, "hole": hole}
    work.line(
        "straight",
        "√((erd / 2)^2 + (pitch_circle / 2)^2 + sideways^2 − erd × pitch_circle / 2 × cos(angle))",
        straight,
        "mm",
        **told,
    )
    length = straight - hole / 2
    work.line("length", "straight − hole / 2", length, "mm", straight=straight, hole=hole)
    bracing = math.degrees(math.asin(sideways / straight))
    work.line("bracing_angle", "asin(sideways / straight)", bracing, "°", sideways=sideways, straight=straight)
    _is_laced(work, crosses, spokes, angle, bracing)
    return {"length": length, "bracing_angle": bracing}


def _is_laced(work: Work, crosses: int, spokes: int, angle: float, bracing: float) -> None:
    if spokes % 4 and crosses:
        work.care("spokes", "Crossed spokes go in fours: " + str(spokes) + " is not divisible by four. Check the count.")
    if angle > 100:
        work.care("crosses", "The spoke runs past the tangent and over its neighbour's head: fewer crossings.")
    if crosses == 0:
        work.care(
            "crosses", "Radial spokes pull the flange apart: only where the hub's maker allows it, never for drive or disc."
        )
    if bracing < 3:
        work.care(
            "flange_offset",
            "The spokes stand nearly upright (" + shown(bracing, 1) + "°): a wheel weak to the side. Measure again.",
        )


@calculation(
    id="spoke-tension",
    family="wheels",
    title="Spoke tension by tone",
    question="What tension does this tone stand for?",
    inputs=[
        number(
            "tone",
            "Hz",
            "Tone",
            possible=(20, 2000),
            plausible=(200, 700),
            step=5,
            digits=0,
            help="Pluck near the middle of the free part, others muted; the lowest tone counts, not the octave.",
        ),
        number(
            "free_length",
            "mm",
            "Length that sounds",
            possible=(30, 350),
            plausible=(120, 300),
            step=1,
            digits=0,
            help="Nipple to the crossing where spokes touch, or to the elbow when none does.",
        ),
        number(
            "diameter",
            "mm",
            "Spoke diameter",
            possible=(0.2, 4),
            plausible=(1.4, 2.3),
            step=0.1,
            digits=2,
            help="Of the thin middle. Butted spokes read too low or too high: calibrate on one spoke.",
        ),
        number("density", "kg/m³", "Density", default=7850, possible=(1200, 9000), plausible=(7700, 8050), step=10, digits=0),
    ],
    outputs=[
        number("tension", "N", "Tension", digits=0),
        number("stress", "MPa", "Stress", digits=0),
    ],
    cautions=TENSION,
    source="String law, f = (1/2L)·√(T/μ): OpenStax University Physics 1, 16.3. Real spokes are stiff and sound higher, so the "
    "true tension is somewhat lower. Steel 7850 kg/m³: handbook, from memory.",
    example={"tone": 387, "free_length": 260, "diameter": 2.0},
)
def spoke_tension(work: Work, *, tone: float, free_length: float, diameter: float, density: float) -> dict[str, object]:
    """Tension, N, of an ideal string of round section; stress in MPa."""
    area = math.pi * diameter * diameter / 4
    work.line("area", "π × diameter^2 / 4", area, "mm²", diameter=diameter)
    linear = density * area * 1e-6
    work.line("linear", "density × area / 1000000", linear, "kg/m", density=density, area=area)
    tension = 4 * linear * (free_length / 1000) ** 2 * tone * tone
    work.line(
        "tension",
        "4 × linear × (free_length / 1000)^2 × tone^2",
        tension,
        "N",
        linear=linear,
        free_length=free_length,
        tone=tone,
    )
    stress = tension / area
    work.line("stress", "tension / area", stress, "MPa", tension=tension, area=area)
    if tension > 1200:
        work.care("tone", "Above 1200 N, beyond common practice: the rim maker's greatest tension governs. Was it the octave?")
    elif tension < 400:
        work.care("tone", "Below 400 N a spoke works loose (common practice). Was a longer part sounding?")
    return {"tension": tension, "stress": stress}


def _side(name: str, label: str) -> Quantity:
    return numbers(
        name,
        "N",
        label,
        possible=(0, 5000),
        plausible=(300, 1500),
        digits=0,
        most=36,
        help="In order round the rim from the valve.",
    )


def _offset(name: str, label: str) -> Quantity:
    return number(name, "mm", label, possible=(1, 80), plausible=(10, 42), step=0.5, digits=1, help="From the rim's plane.")


def _length(name: str, label: str) -> Quantity:
    return number(name, "mm", label, possible=(60, 350), plausible=(150, 310), step=0.5, digits=1)


@calculation(
    id="tension-balance",
    family="wheels",
    title="Tension balance",
    question="Do the spokes pull evenly, and do both sides balance?",
    inputs=[
        _side("tensions_left", "Tensions, left"),
        _side("tensions_right", "Tensions, right"),
        _offset("offset_left", "Flange offset, left"),
        _offset("offset_right", "Flange offset, right"),
        _length("length_left", "Spoke length, left"),
        _length("length_right", "Spoke length, right"),
    ],
    outputs=[
        number("mean_left", "N", "Mean, left", digits=0),
        number("mean_right", "N", "Mean, right", digits=0),
        number("spread_left", "%", "Farthest from the mean, left", digits=0),
        number("spread_right", "%", "Farthest from the mean, right", digits=0),
        number("ratio", "", "Left over right", digits=2, optional=True),
        number("ratio_expected", "", "Left over right, by geometry", digits=2),
    ],
    cautions=TENSION,
    source="The sideways pulls of both sides cancel: number·T·offset/length is the same left and right (statics). 20 % off the "
    "mean: common practice; many wheel makers ask for less.",
    example={
        "tensions_left": [560, 575, 540, 570, 555, 580, 565, 550, 560, 570, 545, 575],
        "tensions_right": [1050, 1080, 1020, 1060, 1075, 1040, 1055, 1030, 1065, 1045, 1070, 1025],
        "offset_left": 36,
        "offset_right": 19,
        "length_left": 292,
        "length_right": 290,
    },
)
def tension_balance(
    work: Work,
    *,
    tensions_left: list[float],
    tensions_right: list[float],
    offset_left: float,
    offset_right: float,
    length_left: float,
    length_right: float,
) -> dict[str, object]:
    """Means in N, the greatest distance of a spoke from its side's mean in %, and the ratio of the means."""
    mean_left, spread_left = _evenness(work, "left", tensions_left)
    mean_right, spread_right = _evenness(work, "right", tensions_right)
    told = {
        "offset_left": offset_left,
        "offset_right": offset_right,
        "length_left": length_left,
        "length_right": length_right,
        "n_left": float(len(tensions_left)),
        "n_right": float(len(tensions_right)),
    }
    expected = (len(tensions_right) * offset_right / length_right) / (len(tensions_left) * offset_left / length_left)
    work.line(
        "ratio_expected",
        "(n_right × offset_right / length_right) / (n_left × offset_left / length_left)",
        expected,
        "",
        **told,
    )
    ratio: "float | None" = None
    if mean_right > 0:
        ratio = mean_left / mean_right
        work.line("ratio", "mean_left / mean_right", ratio, "", mean_left=mean_left, mean_right=mean_right)
        left_off = (ratio / expected - 1) * 100
        right_off = (expected / ratio - 1) * 100 if ratio > 0 else 100.0
        off = max(left_off, right_off)
        if off > 10:
            side = "left" if left_off > 0 else "right"
            work.care(
                "tensions_left",
                "The "
                + side
                + " side is "
                + shown(off, 0)
                + " % tighter against the other than the geometry asks: check the dish, the offsets and the gauge.",
            )
    if not any([f["level"] != "fine" for f in work.findings]):
        work.fine("tensions_left", "Even, and both sides balance. Spin it: true and round come before even.")
    return {
        "mean_left": mean_left,
        "mean_right": mean_right,
        "spread_left": spread_left,
        "spread_right": spread_right,
        "ratio": ratio,
        "ratio_expected": expected,
    }


def _evenness(work: Work, side: str, tensions: list[float]) -> tuple[float, float]:
    mean = sum(tensions) / len(tensions)
    work.line("mean_" + side, "(" + " + ".join([shown(t) for t in tensions]) + ") / " + str(len(tensions)), mean, "N")
    if mean == 0:
        work.stop("tensions_" + side, "No tension at all on the " + side + ": not a wheel to ride.")
        work.line("spread_" + side, "0", 0.0, "%")
        return 0.0, 0.0
    far = 0
    for i, tension in enumerate(tensions):
        off = (tension / mean - 1) * 100
        if abs(tension - mean) > abs(tensions[far] - mean):
            far = i
        if tension == 0:
            work.stop(
                "tensions_" + side + "[" + str(i) + "]",
                "Spoke " + str(i + 1) + " " + side + " is loose: not a wheel to ride until the cause is found.",
            )
        elif abs(off) > ODD + 1e-9:
            way = "tighter" if off > 0 else "slacker"
            work.care(
                "tensions_" + side + "[" + str(i) + "]",
                "Spoke " + str(i + 1) + " " + side + " is " + shown(abs(off), 0) + " % " + way + " than the mean of its side.",
            )
    spread = abs(tensions[far] / mean - 1) * 100
    work.line("spread_" + side, "abs(tension / mean − 1) × 100", spread, "%", tension=tensions[far], mean=mean)
    return mean, spread
