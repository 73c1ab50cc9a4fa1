"""Wear: from a few readings to when the limit is reached, with an honest span."""

from .calculations import calculation
from .distributions import student_factor
from .errors import refuse
from .order import in_order
from .plain import objects
from .quantities import choice, finite, number, rows
from .straight_line import Crossing, Line
from .weight import sum_of
from .working import STOP, Work, shown

UP, DOWN = "up", "down"

SPELT_OUT = 8
"""Up to so many readings the sums are written out in the working."""

FAR = 2.0
"""A forecast further ahead than this many times the span of the readings is called bold: common practice."""

NEVER = 1e9
"""km or days: nothing on a bicycle is forecast as far as that."""


@calculation(
    id="wear-forecast",
    family="wear",
    title="Wear forecast",
    question="When will this chain, rotor, pad, tread or battery be at its limit?",
    inputs=[
        rows(
            "readings",
            "Readings",
            [
                number(
                    "at",
                    "",
                    "At",
                    possible=(0, 1000000),
                    plausible=(0, 60000),
                    step=50,
                    digits=0,
                    help="Kilometres, or days, the same in every row.",
                ),
                number(
                    "value",
                    "",
                    "Reading",
                    possible=(-100000, 100000),
                    step=0.05,
                    digits=2,
                    help="Measured the same way each time.",
                ),
            ],
            least=2,
            help="Of one part, since it was new or last renewed. Three or more, or there is no telling how sure it is.",
        ),
        number(
            "limit",
            "",
            "Limit",
            possible=(-100000, 100000),
            step=0.05,
            digits=2,
            help="In the unit of the readings. The figure on the part wins.",
        ),
        number(
            "now",
            "",
            "Now",
            optional=True,
            possible=(0, 1000000),
            plausible=(0, 60000),
            step=50,
            digits=0,
            help="Kilometres or days as in the readings. Left out: at the last reading.",
        ),
        number(
            "confidence",
            "",
            "Confidence",
            default=0.9,
            possible=(0.5, 0.999),
            plausible=(0.8, 0.99),
            step=0.05,
            digits=2,
            help="0.9: the limit comes outside the span one time in ten.",
        ),
        choice(
            "wears",
            "The reading goes",
            [UP, DOWN],
            optional=True,
            help="Up like a chain's elongation, down like a pad. Left out: from the first reading towards the limit.",
        ),
    ],
    outputs=[
        number("rate", "", "Wear a kilometre or day", digits=6),
        number("at_limit", "", "Limit reached at", digits=0, optional=True),
        number("earliest", "", "Earliest", digits=0, optional=True),
        number("latest", "", "Latest", digits=0, optional=True),
        number("remaining", "", "Left from now", digits=0, optional=True, help="Below 0: past the limit."),
    ],
    cautions=[
        "A forecast replaces no look: a pad, rotor or tyre can fail sooner (dirt, heat, a cut, another rider). "
        "At or past the limit it is changed before the next ride.",
    ],
    source="Least squares; the span is the prediction interval of a single new reading, Student's t, turned round (Fieller): "
    "any regression text (Penn State STAT 501, lesson 3, formula from memory). Straight wear is an assumption.",
    example={
        "readings": [
            {"at": 0, "value": 0.02},
            {"at": 620, "value": 0.11},
            {"at": 1210, "value": 0.19},
            {"at": 1890, "value": 0.31},
            {"at": 2400, "value": 0.37},
        ],
        "limit": 0.5,
        "now": 2550,
    },
)
def wear_forecast(
    work: Work, *, readings: object, limit: float, now: "float | None", confidence: float, wears: "str | None"
) -> dict[str, object]:
    """Where the fitted line reaches `limit`, in the unit of `at` (km or days), and the span of it at `confidence`."""
    at, values = _in_order_of_time(readings)
    line = Line(at, values)
    today = at[-1] if now is None else now
    _show_line(work, line, at, values)
    if now is not None and now < at[-1]:
        work.care("now", "Now is before the last reading, at " + shown(at[-1], 0) + ": check the figures.")
    rising = (limit > values[0]) if wears is None else wears == UP
    sign = 1.0 if rising else -1.0
    if (values[-1] - limit) * sign >= 0 or (wears is None and values[0] == limit):
        work.stop("limit", "The last reading is at or past the limit: change the part before the next ride.")
    nothing: dict[str, object] = {"rate": line.slope, "at_limit": None, "earliest": None, "latest": None, "remaining": None}
    if line.slope * sign <= 0:
        way = "do not move" if line.slope == 0 else "move away from the limit"
        work.care(
            "readings",
            "The readings "
            + way
            + ", so there is no forecast. Renewed in between, measured in two ways, or past the limit from "
            "the first: measure again.",
        )
        return nothing
    if abs(limit - line.mean_value) > NEVER * abs(line.slope):
        work.care("readings", "The readings hardly move, so there is no forecast.")
        return nothing
    at_limit = line.reaches(limit)
    work.line(
        "at_limit",
        "mean_at + (limit − mean_value) / rate",
        at_limit,
        mean_at=line.mean_at,
        limit=limit,
        mean_value=line.mean_value,
        rate=line.slope,
    )
    remaining = at_limit - today
    work.line("remaining", "at_limit − now", remaining, at_limit=at_limit, now=today)
    earliest, latest = _span(work, line, limit, confidence)
    _judge(work, at, today, at_limit, earliest, latest)
    return {"rate": line.slope, "at_limit": at_limit, "earliest": earliest, "latest": latest, "remaining": remaining}


def _in_order_of_time(readings: object) -> "tuple[list[float], list[float]]":
    at: list[float] = []
    values: list[float] = []
    for row in objects(readings):
        at.append(finite(row["at"]) or 0.0)
        values.append(finite(row["value"]) or 0.0)
    values = in_order(at, values)
    at = in_order(at, at)
    if at[-1] - at[0] < 1e-6 * max(1.0, at[-1]):
        raise refuse("readings", "all at " + shown(at[0]), "readings at two or more different distances or days")
    return at, values


def _show_line(work: Work, line: Line, at: list[float], values: list[float]) -> None:
    told = {"mean_at": line.mean_at, "mean_value": line.mean_value}
    if line.many <= SPELT_OUT:
        work.line("mean_at", "(" + sum_of(at) + ") / " + str(line.many), line.mean_at)
        work.line("mean_value", "(" + sum_of(values) + ") / " + str(line.many), line.mean_value)
        pairs = [("(" + shown(x) + " − mean_at)", "(" + sum_of([values[i]]) + " − mean_value)") for i, x in enumerate(at)]
        work.line("sxx", " + ".join([x + "^2" for x, _ in pairs]), line.sxx, "", **told)
        work.line("sxy", " + ".join([x + " × " + y for x, y in pairs]), line.sxy, "", **told)
    else:
        work.say(
            str(line.many)
            + " readings: mean "
            + shown(line.mean_at)
            + " and "
            + shown(line.mean_value)
            + "; sxx is the sum of the squared distances from the mean, sxy of their products with those of the values."
        )
    work.line("rate", "sxy / sxx", line.slope, "", sxy=line.sxy, sxx=line.sxx)


def _span(work: Work, line: Line, limit: float, confidence: float) -> "tuple[float | None, float | None]":
    """Earliest and latest, each None when it cannot be told."""
    if line.scatter is None:
        work.care("readings", "Two readings give no span: how sure this is cannot be told. Take a third.")
        return None, None
    factor = student_factor(confidence, line.many - 2)
    crossing = Crossing(line, limit, factor)
    work.say(
        "The scatter is the root of the sum of the squared distances of the readings from the line, over "
        + str(line.many - 2)
        + ". A table of Student's t gives the factor t for that many degrees of freedom."
    )
    told = {
        "t": factor,
        "scatter": line.scatter,
        "rate": line.slope,
        "sxx": line.sxx,
        "n": float(line.many),
        "mean_at": line.mean_at,
        "apart": crossing.apart,
        "steepness": crossing.steepness,
    }
    work.line("scatter", "scatter", line.scatter, scatter=line.scatter)
    work.line("t", "t", factor, t=factor)
    work.line("apart", "limit − mean_value", crossing.apart, "", limit=limit, mean_value=line.mean_value)
    work.line("steepness", "rate^2 − (t × scatter)^2 / sxx", crossing.steepness, "", **told)
    if crossing.middle is not None and crossing.half is not None and abs(crossing.middle) + crossing.half < NEVER:
        work.line("middle", "mean_at + rate × apart / steepness", crossing.middle, "", **told)
        formula = "t × scatter × √(steepness × (1 + 1 / n) + apart^2 / sxx) / abs(steepness)"
        work.line("half", formula, crossing.half, "", **told)
        ends = {"middle": crossing.middle, "half": crossing.half}
        if crossing.latest is not None:
            work.line("earliest", "middle − half", crossing.earliest, "", **ends)
            work.line("latest", "middle + half", crossing.latest, "", **ends)
            return crossing.earliest, crossing.latest
        work.line("earliest", "middle + half", crossing.earliest, "", **ends)
        work.care("readings", "The trend is not clear of the scatter: there is no telling how late it may be. Measure again.")
        return crossing.earliest, None
    work.care("readings", "The trend is not clear of the scatter: no span can be told. Measure again.")
    return None, None


def _judge(
    work: Work, at: list[float], today: float, at_limit: float, earliest: "float | None", latest: "float | None"
) -> None:
    if any([f["level"] == STOP for f in work.findings]):
        return
    if at_limit <= today:
        work.stop("limit", "By this forecast the limit is passed: measure, and change the part unless it shows otherwise.")
    elif earliest is not None and earliest <= today:
        work.care("limit", "The limit may be reached already: measure before the next ride.")
    elif at_limit - at[-1] > FAR * (at[-1] - at[0]):
        work.care("readings", "The limit is far beyond the readings: a rough guess. Measure again on the way.")
    elif earliest is not None and latest is not None:
        work.fine("limit", "Measure again before " + shown(earliest, 0) + ".")
