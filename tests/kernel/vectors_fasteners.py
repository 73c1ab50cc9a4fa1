"""Vectors of torque wrenches and bolts."""

from tests.kernel.vectors import Vector

LBF_FT = 1.3558179483314004
"""N·m, exact factors of NIST SP 811 (2008), Appendix B, multiplied out."""

PROOF_LOADS = {
    "8.8": {"M4": 5100, "M5": 8230, "M6": 11600, "M8": 21200},
    "10.9": {"M4": 7290, "M5": 11800, "M6": 16700, "M8": 30400},
    "12.9": {"M4": 8520, "M5": 13800, "M6": 19500, "M8": 35500},
}
"""N, coarse thread, ISO 898-1; printed to three figures."""

STAINLESS_LOADS = {"M4": 3960, "M5": 6390, "M6": 9040, "M8": 16470}
"""N at the 0.2 % limit, A2-70: a guide table of the time of DIN 267-11."""

STAINLESS_GUIDE = (("M4", 2.2, 2490, 0.221), ("M5", 4.3, 4030, 0.213), ("M6", 7.3, 5700, 0.213), ("M8", 17.7, 10380, 0.213))
"""Thread, N·m, N and the nut factor that the two imply, from the same table."""

WRENCH = {"wrench_length": 12 * 25.4, "adaptor_length": 6 * 25.4, "wrench_min": 10, "wrench_max": 60}


def _at(load: float, thread: str, property_class: str) -> dict[str, object]:
    """The torque that pulls the bolt to `load` N with a nut factor of 0.2: T = K·d·F."""
    torque = 0.2 * int(thread[1:]) * load / 1000
    return {"torque": torque, "diameter": thread, "property_class": property_class, "nut_factor": 0.2}


VECTORS = [
    Vector(
        "torque-adaptor",
        {**WRENCH, "target": 30 * LBF_FT},
        "a torque-tool handbook: 30 lbf·ft with a 12 in wrench and a 6 in adaptor in line is set at 20 lbf·ft",
        {"setting": 20 * LBF_FT, "low": 30 * LBF_FT * 0.96, "high": 30 * LBF_FT * 1.04},
    ),
    Vector(
        "torque-adaptor",
        {**WRENCH, "target": 30, "adaptor_angle": 90},
        "the same handbook's rule: square to the wrench an adaptor changes nothing",
        {"setting": 30.0},
    ),
    Vector(
        "torque-adaptor",
        {**WRENCH, "target": 30, "adaptor_angle": 180},
        "derived: folded back, 12 in become 6 in",
        {"setting": 60.0},
    ),
    Vector(
        "torque-adaptor",
        {**WRENCH, "target": 31, "adaptor_angle": 180},
        "derived: above the wrench's 60 N·m",
        {"setting": 62.0},
        findings=(("stop", "wrench_max"),),
    ),
    Vector(
        "torque-adaptor",
        {"target": 4.5, "wrench_length": 200, "adaptor_length": 0, "wrench_max": 24},
        "ISO 6789, as quoted in tool makers' manuals: checked from 20 % of the maximum up; 20 % of 24 N·m is 4.8 N·m",
        {"setting": 4.5},
        findings=(("stop", "wrench_min"),),
    ),
    Vector(
        "torque-adaptor",
        {**WRENCH, "target": 30, "adaptor_length": 290, "adaptor_angle": 180},
        "derived: folded back to the hand, the wrench turns nothing",
        refused=("adaptor_length",),
    ),
    Vector(
        "torque-check",
        {"applied": 5, "spec_low": 4, "spec_high": 6, "accuracy": 4},
        "ISO 6789 as quoted in tool makers' manuals: ±4 %; the interval derived",
        {"position": 0.5, "verdict": "within", "low": 4.8, "high": 5.2},
        findings=(("fine", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 6, "spec_low": 4, "spec_high": 6, "accuracy": 6},
        "ISO 6789 as quoted in tool makers' manuals: ±6 % up to 10 N·m; the interval derived",
        {"position": 1.0, "verdict": "possibly-high", "low": 5.64, "high": 6.36},
        findings=(("care", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 12.2, "spec_low": 12, "spec_high": 14, "accuracy": 4},
        "12 to 14 N·m for a two-bolt crank clamp: common practice; the interval derived",
        {"position": 0.1, "verdict": "possibly-low", "low": 11.712, "high": 12.688},
        findings=(("care", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 44, "spec_low": 4, "spec_high": 5},
        "derived: pound-inches read as newton-metres, 44 lbf·in are 4.97 N·m",
        {"verdict": "possibly-high"},
        findings=(("stop", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 40, "spec_low": 40, "spec_high": 40, "accuracy": 4},
        "ISO 6789 as quoted in tool makers' manuals: a tool of ±4 % set to 40 N·m gives 38.4 to 41.6",
        {"verdict": "within", "low": 38.4, "high": 41.6},
        findings=(("fine", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 40, "spec_low": 40, "spec_high": 40, "accuracy": 6},
        "ISO 6789 as quoted in tool makers' manuals: above 10 N·m no more than ±4 %",
        {"verdict": "possibly-high", "low": 37.6, "high": 42.4},
        findings=(("care", "accuracy"),),
    ),
    Vector(
        "torque-check",
        {"applied": 42, "spec_low": 40, "spec_high": 40, "accuracy": 4},
        "derived: 42 N·m less 4 % are 40.32, the joint got more than the figure",
        {"verdict": "possibly-high"},
        findings=(("stop", "applied"),),
    ),
    Vector(
        "torque-check",
        {"applied": 5, "spec_low": 6, "spec_high": 5},
        "derived: the limits are the wrong way round",
        refused=("spec_high",),
    ),
    *[
        Vector(
            "bolt-preload",
            _at(load, thread, property_class),
            f"ISO 898-1, proof load of {thread} {property_class}: {load} N (printed to three figures)",
            {"preload": load, "proof_use": 100.0},
            rel=5e-3,
        )
        for property_class, loads in PROOF_LOADS.items()
        for thread, load in loads.items()
    ],
    *[
        Vector(
            "bolt-preload",
            _at(load, thread, "A2-70"),
            f"a guide table of the time of DIN 267-11: {thread} A2-70 reaches its 0.2 % limit at {load} N",
            {"proof_use": 100.0},
            rel=5e-3,
        )
        for thread, load in STAINLESS_LOADS.items()
    ],
    *[
        Vector(
            "bolt-preload",
            {"torque": torque, "diameter": thread, "property_class": "A2-70", "nut_factor": factor},
            f"the same guide table: {thread} A2-70, {torque} N·m give {load} N, 63 % of the 0.2 % limit (K {factor} implied)",
            {"preload": load, "proof_use": 63.0},
            rel=5e-3,
        )
        for thread, torque, load, factor in STAINLESS_GUIDE
    ],
    Vector(
        "bolt-preload",
        {"torque": 10.49, "diameter": "M6", "property_class": "8.8", "nut_factor": 0.2},
        "derived: M6 8.8 at 75 % of 20.1 mm² × 580 MPa pulls 8744 N at 10.49 N·m",
        {"preload": 8744, "proof_use": 75.0},
        rel=1e-3,
    ),
    Vector(
        "bolt-preload",
        {"torque": 7, "diameter": "M5", "property_class": "8.8"},
        "derived: above 75 % of proof (Shigley Eq. 8-31, from memory), and past it when greased",
        {"proof_use": 84.99},
        absolute=0.01,
        findings=(("care", "torque"), ("care", "nut_factor")),
    ),
    Vector(
        "bolt-preload",
        {"torque": 9, "diameter": "M5", "property_class": "8.8"},
        "ISO 898-1: 9000 N is above the proof load of 8230 N",
        {"preload": 9000.0},
        findings=(("stop", "torque"),),
    ),
    Vector(
        "bolt-preload",
        {"torque": 5, "diameter": "M5", "property_class": "4.6"},
        "derived: not a class that is known here",
        refused=("property_class",),
    ),
]
