"""How hard a bolt pulls at a torque, and what grease changes."""

from .calculations import calculation
from .fasteners import NEAR, TIGHTENING
from .quantities import choice, number
from .working import Work, shown

STRESS_AREA = {"M4": 8.78, "M5": 14.2, "M6": 20.1, "M7": 28.9, "M8": 36.6}
"""mm², nominal, coarse thread: ISO 898-1."""

PROOF_STRESS = {
    "8.8": 580.0,
    "10.9": 830.0,
    "12.9": 970.0,
    "A2-70": 450.0,
    "A4-70": 450.0,
    "A2-80": 600.0,
    "A4-80": 600.0,
}
"""MPa: proof stress of ISO 898-1, for stainless the 0.2 % limit of ISO 3506-1."""

DRY = 0.20
GREASED = 0.15


@calculation(
    id="bolt-preload",
    family="fasteners",
    title="Bolt preload",
    question="How hard does the bolt pull at this torque, and what does grease change?",
    inputs=[
        number("torque", "N·m", "Torque", possible=(0.1, 200), plausible=(1, 30), step=0.5, digits=1),
        choice("diameter", "Thread", ["M4", "M5", "M6", "M7", "M8"], help="Coarse metric thread, outer diameter in mm."),
        choice(
            "property_class",
            "Strength class",
            ["8.8", "10.9", "12.9", "A2-70", "A4-70", "A2-80", "A4-80"],
            help="Stamped on the head. No stamp: do not guess, ask the maker. Titanium and aluminium have no such class.",
        ),
        number(
            "nut_factor",
            "",
            "Nut factor",
            default=DRY,
            possible=(0.05, 0.5),
            plausible=(0.1, 0.3),
            step=0.01,
            digits=2,
            help="0.20 dry, 0.15 greased: common practice. It scatters by a third from bolt to bolt.",
        ),
    ],
    outputs=[
        number("preload", "N", "Clamp force", digits=0),
        number("stress", "MPa", "Stress in the thread", digits=0),
        number("proof_use", "%", "Of the proof load", digits=0),
    ],
    cautions=TIGHTENING
    + [
        "This is the steel bolt alone: a thread in aluminium or carbon, and the part clamped, often give way long before it.",
    ],
    source="F = T/(K·d): Shigley, Mechanical Engineering Design, Eq. 8-27. Stress areas and proof stress: ISO 898-1; "
    "stainless: ISO 3506-1. 75 % of proof for joints that are opened again: Shigley Eq. 8-31 (from memory).",
    example={"torque": 5, "diameter": "M5", "property_class": "10.9", "nut_factor": 0.2},
)
def bolt_preload(work: Work, *, torque: float, diameter: str, property_class: str, nut_factor: float) -> dict[str, object]:
    """Clamp force in N, mean stress in MPa and use of the proof stress in %, from the torque law."""
    d = float(diameter[1:])
    area, proof = STRESS_AREA[diameter], PROOF_STRESS[property_class]
    preload = torque * 1000 / (nut_factor * d)
    stress = preload / area
    use = stress / proof * 100
    work.line("preload", "torque × 1000 / (nut_factor × d)", preload, "N", torque=torque, nut_factor=nut_factor, d=d)
    work.say(
        diameter + " coarse has " + shown(area) + " mm² in the thread, class " + property_class + " " + shown(proof) + " MPa."
    )
    work.line("stress", "preload / area", stress, "MPa", preload=preload, area=area)
    work.line("proof_use", "stress / proof × 100", use, "%", stress=stress, proof=proof)
    if use > 100 * (1 + NEAR):
        work.stop("torque", "The bolt would stretch for good: " + shown(use, 0) + " % of its proof load. Use less torque.")
    elif use > 75 * (1 + NEAR):
        work.care(
            "torque", "At " + shown(use, 0) + " % of the proof load, above the usual 75 %: check figure, thread and class."
        )
    if nut_factor > GREASED * (1 + NEAR):
        times = nut_factor / GREASED
        text = "Greased, the same torque clamps " + shown(times, 2) + " times as hard, " + shown(preload * times, 0) + " N."
        if use * times > 100 >= use:
            work.care("nut_factor", text + " That is past the proof load: do not grease a joint specified dry.")
        else:
            work.fine("nut_factor", text + " Do not grease a joint specified dry.")
    else:
        times = DRY / nut_factor
        work.care(
            "nut_factor",
            "If the torque was given for a dry thread, this one clamps "
            + shown(times, 2)
            + " times as hard as meant: lower the torque, or ask the maker.",
        )
    return {"preload": preload, "stress": stress, "proof_use": use}
