"""Brakes: a measured stop against the distances that standards ask for."""

from .calculations import calculation
from .quantities import choice, flag, number
from .working import Work, shown

STOPPING = [
    "On level, closed ground with helmet and gloves; first slowly, then from speed, with brakes that passed the check.",
    "New pads and rotors are bedded in first. A stop that is short enough does not say that hoses, pads or rotors are sound.",
]

TEST_MASS = 100.0
"""kg, rider and bike together in the standard's track test, from memory."""

ROAD, OTHER, US = "racing", "city-or-mountain", "us-hand-brakes"
BOTH, REAR = "both", "rear"

FAR = 0.2
"""A stop from a speed that many parts off the reference speed is carried over less surely: common practice."""

US_FEET = 4.572
"""m, 15 ft."""


def reference_stop(rule: str, brakes: str, wet: bool) -> "tuple[float, float, str] | None":
    """Test speed in km/h, longest distance in m, and where that stands; None when the rule does not say."""
    if rule == US:
        if wet or brakes == REAR:
            return None
        return 24.14016, US_FEET, "16 CFR 1512.5: 15 ft; the speed of 15 mph from memory"
    source = "ISO 4210-2, 4.6.8, from memory"
    if wet:
        return 16.0, (5.0 if brakes == BOTH else 10.0), source
    if rule == ROAD:
        return 25.0, (6.0 if brakes == BOTH else 12.0), source
    return 25.0, (7.0 if brakes == BOTH else 15.0), source


@calculation(
    id="stopping-check",
    family="brakes",
    title="Stopping check",
    question="Does this bike stop as short as it should?",
    inputs=[
        number(
            "speed",
            "km/h",
            "Speed when the brake went on",
            possible=(2, 100),
            plausible=(12, 35),
            step=0.5,
            digits=1,
            help="From a wheel sensor. Satellites lag: read them only where the speed was held, and give their ±.",
        ),
        number(
            "distance",
            "m",
            "Distance to standstill",
            possible=(0.2, 500),
            plausible=(2, 40),
            step=0.1,
            digits=1,
            help="From where the brake went on. The mean of several stops, both ways.",
        ),
        number(
            "mass",
            "kg",
            "Rider, bike and load",
            possible=(15, 400),
            plausible=(50, 140),
            step=1,
            digits=0,
            help="The test of the standard is ridden with 100 kg (from memory).",
        ),
        flag("wet", "Wet brakes", default=False, help="Wetted before the stop, as in the standard's wet test."),
        choice("brakes", "Brakes used", [BOTH, REAR], default=BOTH),
        choice(
            "rule",
            "Against",
            [OTHER, ROAD, US],
            default=OTHER,
            help="ISO 4210-2 for racing bikes, for all others, or the rule for hand brakes in the USA (dry, both brakes).",
        ),
        number(
            "reference_speed",
            "km/h",
            "Reference speed",
            optional=True,
            possible=(5, 60),
            plausible=(15, 30),
            step=1,
            digits=1,
            help="From a document of your own; wins over the built-in one. Together with the distance.",
        ),
        number(
            "reference_distance",
            "m",
            "Reference distance",
            optional=True,
            possible=(0.5, 100),
            plausible=(3, 20),
            step=0.5,
            digits=2,
            help="From a document of your own; wins over the built-in one. Together with the speed.",
        ),
    ],
    outputs=[
        number("deceleration", "m/s²", "Deceleration", digits=1),
        number("distance_at_reference", "m", "From the reference speed it takes", digits=1, optional=True),
        number("reference", "m", "The rule allows", digits=1, optional=True),
        choice("verdict", "Verdict", ["within", "beyond", "not-known"]),
    ],
    cautions=STOPPING,
    source="a = v²/2s; distance brought to the reference speed by (v_ref/v)² (EN 14766:2005, 4.6.7.5.1.9). Distances of "
    "ISO 4210-2, 4.6.8, from memory: put in your own from the document. USA: 16 CFR 1512.5, 15 ft, speed from memory.",
    example={"speed": 26, "distance": 6.2, "mass": 96, "wet": False},
)
def stopping_check(
    work: Work,
    *,
    speed: float,
    distance: float,
    mass: float,
    wet: bool,
    brakes: str,
    rule: str,
    reference_speed: "float | None",
    reference_distance: "float | None",
) -> dict[str, object]:
    """Mean deceleration, m/s², and the distance at the reference speed, m. A workshop's stop is no type test."""
    deceleration = (speed / 3.6) ** 2 / (2 * distance)
    work.line("deceleration", "(speed / 3.6)^2 / (2 × distance)", deceleration, "m/s²", speed=speed, distance=distance)
    found = reference_stop(rule, brakes, wet)
    if reference_speed is not None and reference_distance is not None:
        found = (reference_speed, reference_distance, "your own document")
    elif reference_speed is not None or reference_distance is not None:
        lone = "reference_distance" if reference_distance is None else "reference_speed"
        work.care(lone, "A reference needs speed and distance both: the built-in one was taken.")
    if found is None:
        work.care("rule", "This rule has no figure for such a stop: nothing was compared.")
        return {"deceleration": deceleration, "distance_at_reference": None, "reference": None, "verdict": "not-known"}
    at_speed, allowed, source = found
    brought = distance * (at_speed / speed) ** 2
    work.line(
        "distance_at_reference",
        "distance × (reference_speed / speed)^2",
        brought,
        "m",
        distance=distance,
        reference_speed=at_speed,
        speed=speed,
    )
    work.say("Reference: " + shown(allowed, 2) + " m from " + shown(at_speed, 1) + " km/h, " + source + ".")
    work.line("reference", "reference", allowed, "m", reference=allowed)
    verdict = _judge(work, brought, allowed, source, speed < (1 - FAR) * at_speed)
    if speed > (1 + FAR) * at_speed:
        work.care(
            "speed", "Far above the reference speed: the sum carries the distance over less surely. Stop from nearer to it."
        )
    if mass < TEST_MASS:
        work.care(
            "mass",
            "Lighter than the "
            + shown(TEST_MASS, 0)
            + " kg of the test: a heavier rider may need longer where the brakes, not the tyres, set the limit.",
        )
    return {
        "deceleration": deceleration,
        "distance_at_reference": brought,
        "reference": allowed,
        "verdict": verdict,
    }


def _judge(work: Work, brought: float, allowed: float, source: str, slow: bool) -> str:
    both = shown(brought, 1) + " m, " + shown(allowed, 1) + " m allowed (" + source + ")"
    if brought > allowed + 1e-9:
        work.stop("distance", "Too long: " + both + ". Do not ride: find the cause, then stop again.")
        return "beyond"
    if slow:
        # Walking pace shows that the brakes bite, not that they hold at speed.
        work.care(
            "speed", "Short enough for so slow a stop (" + both + "), which proves nothing at speed: stop from nearer to it."
        )
        return "not-known"
    if brought > 0.9 * allowed:
        work.care("distance", "Just within: " + both + ". Look at pads, rotors and air in the hoses.")
    else:
        work.fine("distance", "Within: " + both + ". One stop on this ground, not the standard's test.")
    return "within"
