"""Torque wrenches: what to set, and what the joint got. How hard a bolt then pulls is in `bolts.py`."""

import math

from .calculations import calculation
from .errors import refuse
from .quantities import choice, number
from .working import Work, shown

TIGHTENING = [
    "The figure marked on the part, or its maker's, comes before every other; of two parts that meet, the lower one.",
    "A torque figure assumes the stated thread: dry, greased or with locking compound. Greasing a dry joint clamps harder.",
    "On carbon never above the marked torque. A part that was tightened too far or creaks is inspected before it is ridden.",
]

ACCURACY = number(
    "accuracy",
    "%",
    "Tool's error ±",
    default=4,
    possible=(0, 30),
    plausible=(1, 10),
    step=0.5,
    digits=1,
    help="From the tool's certificate. ISO 6789 allows ±6 % for tools up to 10 N·m and ±4 % above.",
)

FINE_TO = 10.0
"""N·m: up to here ISO 6789 allows a tool FINE_TOOL, above it COARSE_TOOL, as quoted in tool makers' manuals."""

FINE_TOOL = 6.0
"""±, %."""

COARSE_TOOL = 4.0
"""±, %."""

NEAR = 1e-9
"""Relative; limits are met by figures equal but for their last binary digit."""


@calculation(
    id="torque-check",
    family="fasteners",
    title="Torque check",
    question="Is the torque I applied within the limits, with my tool's error counted?",
    inputs=[
        number(
            "applied",
            "N·m",
            "Applied",
            possible=(0.1, 400),
            plausible=(1, 60),
            step=0.5,
            digits=1,
            help="The tool's setting when it clicked, or its highest reading.",
        ),
        number(
            "spec_low",
            "N·m",
            "Least allowed",
            possible=(0, 400),
            plausible=(1, 55),
            step=0.5,
            digits=1,
            help="Marked on the part. Only a greatest figure marked: put its maker's least, or 0, never the greatest.",
        ),
        number(
            "spec_high",
            "N·m",
            "Most allowed",
            possible=(0.1, 400),
            plausible=(2, 60),
            step=0.5,
            digits=1,
            help="Only a single figure given: put it as both. It is then a target, met within the tool's error.",
        ),
        ACCURACY,
    ],
    outputs=[
        number(
            "position",
            "",
            "Place between the limits",
            digits=2,
            optional=True,
            help="0 at the least, 1 at the most; empty when both are the same.",
        ),
        choice("verdict", "Verdict", ["within", "possibly-low", "possibly-high"]),
        number("low", "N·m", "Joint got at least", digits=2),
        number("high", "N·m", "Joint got at most", digits=2),
    ],
    cautions=TIGHTENING,
    source="Interval arithmetic. Usual tool errors: ISO 6789, ±6 % up to 10 N·m and ±4 % above, as quoted in tool makers' "
    "manuals.",
    example={"applied": 5.5, "spec_low": 5, "spec_high": 6, "accuracy": 4},
)
def torque_check(work: Work, *, applied: float, spec_low: float, spec_high: float, accuracy: float) -> dict[str, object]:
    """Whether the band applied ± accuracy lies inside the limits, N·m.

    A band that crosses both limits is named after the one it crosses further. Both limits the same are a single figure, a
    target: no band lies inside it, so it is met when it lies inside the band, by a tool no coarser than ISO 6789 allows.
    """
    if spec_low > spec_high:
        raise refuse("spec_high", shown(spec_high), "no less than spec_low, " + shown(spec_low) + " N·m")
    low = applied * (1 - accuracy / 100)
    high = applied * (1 + accuracy / 100)
    work.line("low", "applied × (1 − accuracy / 100)", low, "N·m", applied=applied, accuracy=accuracy)
    work.line("high", "applied × (1 + accuracy / 100)", high, "N·m", applied=applied, accuracy=accuracy)
    position: "float | None" = None
    if spec_high > spec_low:
        position = (applied - spec_low) / (spec_high - spec_low)
        work.line(
            "position",
            "(applied − spec_low) / (spec_high − spec_low)",
            position,
            "",
            applied=applied,
            spec_low=spec_low,
            spec_high=spec_high,
        )
    below = spec_low - low
    above = high - spec_high
    verdict = "within"
    if spec_low == spec_high:
        verdict = _target_met(work, applied, spec_high, accuracy)
    elif below > NEAR * spec_high or above > NEAR * spec_high:
        verdict = "possibly-low" if below > above else "possibly-high"
    if spec_low < spec_high:
        _say_verdict(work, verdict, applied, low, high, spec_low, spec_high)
    return {"position": position, "verdict": verdict, "low": low, "high": high}


def _target_met(work: Work, applied: float, target: float, accuracy: float) -> str:
    """The verdict on a single figure: |applied − target| against the tool's error at `applied`."""
    off = applied - target
    error = applied * accuracy / 100
    work.line("off", "applied − target", off, "N·m", applied=applied, target=target)
    work.line("error", "applied × accuracy / 100", error, "N·m", applied=applied, accuracy=accuracy)
    work.say("A single figure is a target: it is met when off, either way, is no more than error. Nearer no tool can tell.")
    figure = shown(target, 2) + " N·m"
    band = shown(applied - error, 2) + " to " + shown(applied + error, 2) + " N·m"
    if off < -error - NEAR * target:
        work.stop("applied", "Below the figure of " + figure + " by more than the tool's error: tighten in steps to it.")
        return "possibly-low"
    if off > error + NEAR * target:
        work.stop(
            "applied",
            "Above the figure of "
            + figure
            + " by more than the tool's error: loosen, look over part and bolt for damage, and ask the maker before riding.",
        )
        return "possibly-high"
    allowed = FINE_TOOL if target <= FINE_TO else COARSE_TOOL
    if accuracy > allowed * (1 + NEAR):
        work.care(
            "accuracy",
            "The joint got " + band + ", the figure is " + figure + ": too coarse a tool for a single figure, "
            "ISO 6789 allows ±" + shown(allowed) + " % there.",
        )
        return "possibly-low" if off < 0 else "possibly-high"
    work.fine("applied", "The joint got " + band + ". The target, " + figure + ", is met within the tool's error.")
    return "within"


def _say_verdict(work: Work, verdict: str, applied: float, low: float, high: float, spec_low: float, spec_high: float) -> None:
    band = shown(low, 2) + " to " + shown(high, 2) + " N·m"
    limits = shown(spec_low, 2) + " to " + shown(spec_high, 2) + " N·m"
    if applied < spec_low * (1 - NEAR):
        work.stop("applied", "Below the limits of " + limits + ": tighten in steps to the figure.")
    elif applied > spec_high * (1 + NEAR):
        work.stop(
            "applied",
            "Above the limits of " + limits + ": loosen, look over part and bolt for damage, and ask the maker before riding.",
        )
    elif verdict == "within":
        work.fine("applied", "The joint got " + band + ", inside " + limits + ".")
    else:
        side = "too little" if verdict == "possibly-low" else "too much"
        work.care(
            "applied",
            "The joint got "
            + band
            + "; the limits are "
            + limits
            + ". With this tool it may be "
            + side
            + ": aim nearer the middle.",
        )


@calculation(
    id="torque-adaptor",
    family="fasteners",
    title="Torque with an adaptor",
    question="What do I set on the wrench when an adaptor lengthens it?",
    inputs=[
        number("target", "N·m", "Torque wanted at the bolt", possible=(0.1, 400), plausible=(2, 60), step=0.5, digits=1),
        number(
            "wrench_length",
            "mm",
            "Wrench length",
            possible=(30, 1500),
            plausible=(120, 600),
            step=1,
            digits=0,
            help="Middle of the drive to the middle of the grip, where the hand pulls.",
        ),
        number(
            "adaptor_length",
            "mm",
            "Adaptor length",
            possible=(0, 500),
            plausible=(0, 150),
            step=1,
            digits=0,
            help="Middle of the drive to the middle of the bolt.",
        ),
        number(
            "adaptor_angle",
            "°",
            "Adaptor's angle",
            default=0,
            possible=(0, 180),
            plausible=(0, 90),
            step=15,
            digits=0,
            help="0 straight out, 90 square to the wrench, 180 folded back.",
        ),
        number(
            "wrench_min",
            "N·m",
            "Wrench's least",
            optional=True,
            possible=(0, 400),
            plausible=(1, 40),
            step=1,
            digits=1,
            help="Its lowest mark. Left out: 20 % of the most.",
        ),
        number("wrench_max", "N·m", "Wrench's most", possible=(0.5, 1000), plausible=(5, 200), step=1, digits=1),
        ACCURACY,
    ],
    outputs=[
        number("setting", "N·m", "Set the wrench to", digits=2),
        number("low", "N·m", "Joint gets at least", digits=2),
        number("high", "N·m", "Joint gets at most", digits=2),
    ],
    cautions=TIGHTENING,
    source="The lever at the hand, with and without the adaptor. 20 % of full scale, ±6 % up to 10 N·m and ±4 % above: "
    "ISO 6789 as quoted in tool makers' manuals.",
    example={
        "target": 12,
        "wrench_length": 180,
        "adaptor_length": 45,
        "adaptor_angle": 0,
        "wrench_min": 2,
        "wrench_max": 24,
        "accuracy": 4,
    },
)
def torque_adaptor(
    work: Work,
    *,
    target: float,
    wrench_length: float,
    adaptor_length: float,
    adaptor_angle: float,
    wrench_min: "float | None",
    wrench_max: float,
    accuracy: float,
) -> dict[str, object]:
    """Setting of the wrench and what the bolt then gets, N·m; lengths mm, angle degrees."""
    if wrench_min is not None and wrench_min >= wrench_max:
        raise refuse("wrench_min", shown(wrench_min), "less than wrench_max, " + shown(wrench_max) + " N·m")
    lever = wrench_length + adaptor_length * math.cos(math.radians(adaptor_angle))
    # Folded back nearly to the hand the wrench turns nothing, and a millimetre's error is everything.
    if lever < wrench_length / 5:
        raise refuse(
            "adaptor_length", shown(adaptor_length), "an adaptor that leaves at least a fifth of the wrench's length as lever"
        )
    setting = target * wrench_length / lever
    low = target * (1 - accuracy / 100)
    high = target * (1 + accuracy / 100)
    work.line(
        "setting",
        "target × wrench_length / (wrench_length + adaptor_length × cos(adaptor_angle))",
        setting,
        "N·m",
        target=target,
        wrench_length=wrench_length,
        adaptor_length=adaptor_length,
        adaptor_angle=adaptor_angle,
    )
    work.line("low", "target × (1 − accuracy / 100)", low, "N·m", target=target, accuracy=accuracy)
    work.line("high", "target × (1 + accuracy / 100)", high, "N·m", target=target, accuracy=accuracy)
    fifth = wrench_max / 5
    least = fifth if wrench_min is None else max(wrench_min, fifth)
    if setting < least * (1 - NEAR):
        why = "the wrench's lowest mark" if wrench_min is not None and wrench_min > fifth else "20 % of its full scale"
        work.stop(
            "wrench_min",
            "The setting is below "
            + shown(least, 2)
            + " N·m, "
            + why
            + ", where it can be trusted (ISO 6789): use a smaller wrench.",
        )
    elif setting > wrench_max * (1 + NEAR):
        work.stop("wrench_max", "The setting is above the wrench's " + shown(wrench_max, 2) + " N·m: use a bigger wrench.")
    return {"setting": setting, "low": low, "high": high}
