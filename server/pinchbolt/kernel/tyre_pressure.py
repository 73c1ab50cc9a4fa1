"""Tyre pressure: from weight and width, or from how far the tyre sinks; never above what tyre and rim may carry."""

from .calculations import calculation
from .errors import refuse
from .quantities import Quantity, flag, number
from .tyre_air import TYRES
from .working import Work, shown

HOOKLESS = 5.0
"""bar, the most on a hookless rim: ISO 5775-1 / ETRTO, as a tyre maker quotes it."""

POUND = 0.45359237
"""kg in a pound, exact."""

PSI = 0.06894757293168
"""bar in a psi."""

CHART = (20.0, 37.0)
"""mm, the tyre widths of the chart, from memory."""

NARROW = 25.0
"""mm, up to which a tyre needs the most pressure at the least."""

LEAST_NARROW, LEAST_ROAD, LEAST_OFF_ROAD = 3.0, 2.0, 1.5
"""bar: 300 kPa to 25 mm, wider 200 kPa on and 150 kPa off the road (ISO 5775-1, an older edition, as summarised)."""


def _limits() -> list[Quantity]:
    return [
        number(
            "max_tyre",
            "bar",
            "Most, marked on the tyre",
            optional=True,
            possible=(0.5, 20),
            plausible=(2, 10),
            step=0.1,
            digits=1,
            help="On the sidewall.",
        ),
        number(
            "max_rim",
            "bar",
            "Most, marked on the rim",
            optional=True,
            possible=(0.5, 20),
            plausible=(2, 10),
            step=0.1,
            digits=1,
            help="On the rim or in its papers, for this tyre width.",
        ),
        flag("hookless", "Hookless rim", default=False, help="Straight side walls without a bead hook: 5 bar at the most."),
    ]


def least_limit(work: Work, symbol: str, max_tyre: "float | None", max_rim: "float | None", hookless: bool) -> "float | None":
    """The lowest limit known, bar; None when nothing is known. Says what was not given."""
    named: list[str] = []
    known: dict[str, "float | str"] = {}
    if max_tyre is not None:
        named.append("max_tyre")
        known["max_tyre"] = max_tyre
    if max_rim is not None:
        named.append("max_rim")
        known["max_rim"] = max_rim
    if hookless:
        named.append("hookless")
        known["hookless"] = HOOKLESS
    if not named:
        return None
    cap = min([float(known[name]) for name in named])
    formula = "min(" + ", ".join(named) + ")" if len(named) > 1 else named[0]
    work.line(symbol, formula, cap, "bar", **known)
    return cap


def _say_unknown(work: Work, max_tyre: "float | None", max_rim: "float | None") -> None:
    if max_tyre is None:
        work.care("max_tyre", "The tyre's own limit was not given, so it was not checked: look on the sidewall.")
    if max_rim is None:
        work.care("max_rim", "The rim's own limit was not given, so it was not checked.")


@calculation(
    id="tyre-pressure",
    family="tyres",
    title="Tyre pressure",
    question="What pressure do I start from, front and rear?",
    inputs=[
        number(
            "system_mass",
            "kg",
            "Rider, bike and load",
            possible=(15, 400),
            plausible=(50, 140),
            step=1,
            digits=0,
        ),
        number(
            "front_share",
            "%",
            "Share on the front wheel",
            default=45,
            possible=(10, 90),
            plausible=(38, 52),
            step=1,
            digits=0,
            help="Two scales under the wheels, rider in position, tell it. 45 % is common practice.",
        ),
        number("tyre_front", "mm", "Front tyre, measured", possible=(15, 130), plausible=(20, 60), step=1, digits=0),
        number("tyre_rear", "mm", "Rear tyre, measured", possible=(15, 130), plausible=(20, 60), step=1, digits=0),
    ]
    + _limits(),
    outputs=[
        number("front", "bar", "15 % drop wants, front", digits=1),
        number("rear", "bar", "15 % drop wants, rear", digits=1),
        number("front_cap", "bar", "Never above, front", digits=1, rounds="down", optional=True),
        number("rear_cap", "bar", "Never above, rear", digits=1, rounds="down", optional=True),
    ],
    cautions=TYRES,
    source="15 % drop, the chart published in Bicycle Quarterly after Berto's measurements, by the fit "
    "psi = 153.6 × lbf / mm^1.5785 − 7.1685 (fit from memory). Hookless rims 5 bar (ISO 5775-1 / ETRTO as quoted by a "
    "tyre maker); the lower marking governs (ISO 4210-1). Least pressures: an older ISO 5775-1, as summarised. "
    "A place to start from; the markings win.",
    example={"system_mass": 84, "tyre_front": 32, "tyre_rear": 33, "max_tyre": 5.0, "max_rim": 5.5, "hookless": False},
)
def tyre_pressure(
    work: Work,
    *,
    system_mass: float,
    front_share: float,
    tyre_front: float,
    tyre_rear: float,
    max_tyre: "float | None",
    max_rim: "float | None",
    hookless: bool,
) -> dict[str, object]:
    """Gauge pressures, bar, at which each tyre sinks 15 % of its height under its share of the weight (kg), and their caps."""
    wanted: list[float] = []
    caps: list[float | None] = []
    for end, width, share in (("front", tyre_front, front_share), ("rear", tyre_rear, 100 - front_share)):
        pounds = system_mass * share / 100 / POUND
        work.line("load_" + end, "system_mass × share / 100 / 0.45359237", pounds, "lbf", system_mass=system_mass, share=share)
        bar = max(0.0, 153.6 * pounds / width**1.5785 - 7.1685) * PSI
        work.line(end, "max(0, 153.6 × load / width^1.5785 − 7.1685) × 0.06894757293168", bar, "bar", load=pounds, width=width)
        cap = least_limit(work, end + "_cap", max_tyre, max_rim, hookless)
        wanted.append(bar)
        caps.append(cap)
        _judge(work, end, width, bar, cap)
    _say_unknown(work, max_tyre, max_rim)
    return {"front": wanted[0], "rear": wanted[1], "front_cap": caps[0], "rear_cap": caps[1]}


def _judge(work: Work, end: str, width: float, bar: float, cap: "float | None") -> None:
    field = "tyre_" + end
    told = shown(bar, 2) + " bar"
    if cap is not None and bar > cap + 1e-9:
        work.stop(
            field,
            "The "
            + end
            + " wants "
            + told
            + ", above the limit of "
            + shown(cap, 1, "down")
            + " bar. Never exceed it: fit a wider tyre.",
        )
        return
    if bar <= 0:
        work.stop(field, "The chart gives nothing for so light a load on so wide a tyre: use its marked least pressure.")
        return
    if not CHART[0] <= width <= CHART[1]:
        work.care(
            field, "The chart was made for tyres of about 20 to 37 mm: take " + told + " as a rough guess for the " + end + "."
        )
    least = LEAST_NARROW if width <= NARROW else LEAST_ROAD
    if bar < least:
        off_road = " (off the road " + shown(LEAST_OFF_ROAD, 1) + ")" if width > NARROW else ""
        work.care(
            field,
            "Only "
            + told
            + " in the "
            + end
            + ": below "
            + shown(least, 1)
            + " bar"
            + off_road
            + " the rim may strike or the bead move. Look for the tyre's least pressure; the marking wins.",
        )


@calculation(
    id="tyre-drop",
    family="tyres",
    title="Pressure by drop",
    question="The tyre sinks this far under the rider: what pressure gives the drop wanted?",
    inputs=[
        number(
            "height_unloaded",
            "mm",
            "Axle height, unloaded",
            possible=(100, 450),
            plausible=(200, 380),
            step=0.5,
            digits=1,
            help="Floor to axle centre, wheel just touching the floor.",
        ),
        number(
            "height_loaded",
            "mm",
            "Axle height, rider on",
            possible=(80, 450),
            plausible=(190, 380),
            step=0.5,
            digits=1,
            help="The same with the rider in position, held up by a hand on a wall at most.",
        ),
        number(
            "tyre_height",
            "mm",
            "Tyre height",
            possible=(12, 130),
            plausible=(20, 66),
            step=0.5,
            digits=1,
            help="Rim edge to tread.",
        ),
        number("pressure", "bar", "Pressure now", possible=(0.2, 20), plausible=(1, 9), step=0.1, digits=1),
        number("target_drop", "%", "Drop wanted", default=15, possible=(3, 40), plausible=(10, 20), step=1, digits=0),
    ]
    + _limits(),
    outputs=[
        number("drop", "%", "Drop now", digits=0),
        number("pressure_new", "bar", "Try", digits=1, rounds="down"),
    ],
    cautions=TYRES,
    source="15 % of the unloaded tyre height: Berto's criterion as published in Bicycle Quarterly. That drop goes as one over "
    "pressure is an approximation: measure again after the change.",
    example={
        "height_unloaded": 342,
        "height_loaded": 335.5,
        "tyre_height": 32,
        "pressure": 3.2,
        "max_tyre": 5.0,
        "max_rim": 5.0,
    },
)
def tyre_drop(
    work: Work,
    *,
    height_unloaded: float,
    height_loaded: float,
    tyre_height: float,
    pressure: float,
    target_drop: float,
    max_tyre: "float | None",
    max_rim: "float | None",
    hookless: bool,
) -> dict[str, object]:
    """Drop in % of the tyre's height, and the pressure (bar, gauge) for the drop wanted, capped by the lowest limit."""
    sunk = height_unloaded - height_loaded
    if sunk <= 0 or sunk > tyre_height:
        raise refuse(
            "height_loaded",
            shown(height_loaded),
            "below height_unloaded, by no more than tyre_height: a loaded wheel stands lower, by no more than its tyre",
        )
    drop = sunk / tyre_height * 100
    work.line(
        "drop",
        "(height_unloaded − height_loaded) / tyre_height × 100",
        drop,
        "%",
        height_unloaded=height_unloaded,
        height_loaded=height_loaded,
        tyre_height=tyre_height,
    )
    wanted = pressure * drop / target_drop
    cap = least_limit(work, "cap", max_tyre, max_rim, hookless)
    told = {"pressure": pressure, "drop": drop, "target_drop": target_drop}
    new = wanted
    if cap is None:
        work.line("pressure_new", "pressure × drop / target_drop", new, "bar", **told)
        if new > pressure + 1e-9:
            work.stop("max_tyre", "Do not pump higher before the limits marked on tyre and rim are known.")
    else:
        new = min(wanted, cap)
        work.line("pressure_new", "min(pressure × drop / target_drop, cap)", new, "bar", cap=cap, **told)
        if max(wanted, pressure) > cap + 1e-9:
            work.stop("pressure", "The limit is " + shown(cap, 1, "down") + " bar. Never exceed it: fit a wider tyre.")
    _say_unknown(work, max_tyre, max_rim)
    if abs(drop - target_drop) <= 1 and (cap is None or pressure <= cap + 1e-9):
        work.fine("height_loaded", "The drop is right: stay at this pressure.")
    elif new < pressure / 2 or new > pressure * 2:
        work.care("height_loaded", "That is far from the pressure now: check the heights, then go half way and measure again.")
    return {"drop": drop, "pressure_new": new}
