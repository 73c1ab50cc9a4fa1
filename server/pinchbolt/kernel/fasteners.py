"""Bolts and torque wrenches: what to set, what the joint got, and how hard the bolt pulls."""

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
            help="Marked on the part. Only a greatest figure marked: put its maker's least, or 0.",
        ),
        number("spec_high", "N·m", "Most allowed", possible=(0.1, 400), plausible=(2, 60), step=0.5, digits=1),
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

    A band that crosses both limits is named after the one it crosses further.
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
    if below > NEAR * spec_high or above > NEAR * spec_high:
        verdict = "possibly-low" if below > above else "possibly-high"
    _say_verdict(work, verdict, applied, low, high, spec_low, spec_high)
    return {"position": position, "verdict": verdict, "low": low, "high": high}


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
