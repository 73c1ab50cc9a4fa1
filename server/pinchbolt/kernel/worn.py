"""The wear of what is fitted now: its own readings, how long it lasts, and a reading that cannot be true.

Readings belong to a part: of a part that was replaced none counts for its successor.
"""

from .dates import day_number
from .intervals import WEARS
from .markings import chain_speeds, markings, usual_chain_limit
from .plain import mapping, objects
from .quantities import finite
from .straight_line import Line
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Where the part that wears is fitted; a maker's name for the place may be in the singular.
PLACES: "dict[str, tuple[str, ...]]" = {
    "chain_elongation": ("chain",),
    "rotor_front": ("rotor-front",),
    "rotor_rear": ("rotor-rear",),
    "pad_front": ("pads-front", "pad-front"),
    "pad_rear": ("pads-rear", "pad-rear"),
    "tread_front": ("tyre-front",),
    "tread_rear": ("tyre-rear",),
    "charge": ("battery",),
}

UNITS: "dict[str, str]" = {"chain_elongation": "%", "charge": "%"}  # all else is in mm

# How far two readings of one thing may differ when nobody said how sure they are: common practice for a gauge, a micrometer, a
# caliper held to a pad, a depth gauge.
UNSURE: "dict[str, float]" = {
    "chain_elongation": 0.05,
    "rotor_front": 0.03,
    "rotor_rear": 0.03,
    "pad_front": 0.15,
    "pad_rear": 0.15,
    "tread_front": 0.3,
    "tread_rear": 0.3,
}

# The most each can be at all.
MOST: "dict[str, float]" = {
    "chain_elongation": 3.0,
    "rotor_front": 3.0,
    "rotor_rear": 3.0,
    "pad_front": 12.0,
    "pad_rear": 12.0,
    "tread_front": 15.0,
    "tread_rear": 15.0,
    "charge": 100.0,
}

SUDDEN = 8.0  # times as quick as it wore before


def worn(state: "Body", what: str) -> "Body":
    """How the part measured by `what` stands: `{"what", "title", "unit", "part", "name", "limit", "limit_from", "wears", "by",
    "readings", "now"}`.

    `readings` are those of the part fitted now, oldest first, each `{"at", "value", "plus_minus", "entry", "when", "who"}`;
    `at` and `now` count the km the part has run on this bike, or the days since its first reading for what empties by itself
    (`by`).
    """
    title, way, usual, marking = _row(what)
    part = fitted(state, what)
    reading = mapping(mapping(state.get("measures")).get(what))
    limit, source = finite(markings(state).get(marking)), "the part's own marking"
    if limit is None:
        limit, source = usual, "common practice"
        if what == "chain_elongation":
            limit = usual_chain_limit(chain_speeds(state))
    since = _changed(state, what)
    taken = [r for r in _standing(reading) if _is_of(r, part, since)]
    by = "days" if what == "charge" else "km"
    if what == "charge":
        taken = _since_charged(taken)
    start = finite(part.get("fitted_km")) or 0.0 if part else 0.0
    readings: "list[Body]" = []
    for one in taken:
        value = finite(one.get("value"))
        if value is None:
            continue
        at = (finite(one.get("km")) or 0.0) - start if by == "km" else _days(taken[0], one)
        told: "Body" = {"at": at, "value": value, "plus_minus": one.get("plus_minus"), "entry": one.get("entry")}
        told["when"], told["who"] = one.get("at"), one.get("by")
        readings.append(told)
    return {
        "what": what,
        "title": title,
        "unit": UNITS.get(what, "mm"),
        "part": part.get("part") if part else None,
        "name": part.get("name") if part else None,
        "limit": limit,
        "limit_from": source if limit is not None else "",
        "wears": way,
        "by": by,
        "readings": readings,
        "now": (finite(state.get("km")) or 0.0) - start if by == "km" else None,
    }


def all_worn(state: "Body") -> "list[Body]":
    """Everything that wears on this bike: what is fitted or was ever measured."""
    measures = mapping(state.get("measures"))
    return [worn(state, row[0]) for row in WEARS if fitted(state, row[0]) or row[0] in measures]


def remaining(told: "Body") -> "float | None":
    """km (or days) from now until the line through the readings reaches the limit; None when there is no telling."""
    readings, limit = objects(told.get("readings")), finite(told.get("limit"))
    if limit is None or len(readings) < 2:
        return None
    at = [float(r["at"]) for r in readings]
    if max(at) - min(at) < 1e-6:
        return None
    line = Line(at, [float(r["value"]) for r in readings])
    if line.slope * (1.0 if told["wears"] == "up" else -1.0) <= 0:
        return None
    now = finite(told.get("now"))
    return line.reaches(limit) - (max(at) if now is None else now)


def doubts(state: "Body", what: str, value: float, plus_minus: "float | None" = None) -> "list[Body]":
    """Why a new reading cannot be true, to be asked before it is recorded: `{"text", "likely"}` each.

    `likely` is `renewed` (another part, or charged), `otherwise` (measured in another way) or `figure` (a slip). Empty: nothing
    speaks against it.
    """
    if what not in PLACES:
        return []
    told = worn(state, what)
    unit = " " + str(told["unit"])
    if value < 0 or value > MOST[what]:
        text = shown(value) + unit + " is not possible: from 0 to " + shown(MOST[what]) + unit + "."
        return [{"text": text, "likely": "figure"}]
    readings = objects(told["readings"])
    if not readings or what == "charge":
        return []
    last = readings[-1]
    before = float(last["value"])
    slack = _slack(what, last, plus_minus)
    sign = 1.0 if told["wears"] == "up" else -1.0
    found: "list[Body]" = []
    worn_by = (value - before) * sign
    if worn_by < -slack:
        way = "shorter" if what == "chain_elongation" else "thicker"
        text = "It cannot grow " + way + " with use: " + shown(before) + unit + " on " + str(last["when"])[:10] + "."
        found.append({"text": text, "likely": "renewed"})
    run = (finite(told["now"]) or 0.0) - float(last["at"])
    if worn_by > slack and run <= 0:
        text = "Not ridden since " + shown(before) + unit + " on " + str(last["when"])[:10] + ", and yet worn."
        found.append({"text": text, "likely": "otherwise"})
    elif worn_by > slack and len(readings) > 1 and _sudden(readings, sign, worn_by - slack, run):
        text = "It wore more than " + shown(SUDDEN) + " times as quickly as before since " + str(last["when"])[:10] + "."
        found.append({"text": text, "likely": "otherwise"})
    return found


def doubts_of_ride(km: float, hours: "float | None") -> "list[Body]":
    """Why a ride cannot be as typed."""
    if km > 600:
        return [{"text": shown(km) + " km in one ride.", "likely": "figure"}]
    if hours is not None and hours > 0 and km / hours > 60:
        return [{"text": shown(km / hours, 0) + " km/h on average.", "likely": "figure"}]
    return []


def fitted(state: "Body", what: str) -> "Body | None":
    """The part that `what` measures, as it is fitted now; the one fitted last, where an old one was never taken off."""
    found: "Body | None" = None
    for part in objects(state.get("parts")):
        if str(part.get("slot")) in PLACES.get(what, ()):
            if found is None or str(part.get("fitted_place")) > str(found.get("fitted_place")):
                found = part
    return found


def worst_now(state: "Body", told: "Body") -> float:
    """The last reading; while two that were taken at once are still a question, the worse of them."""
    value = float(objects(told["readings"])[-1]["value"])
    for question in objects(state.get("questions")):
        if question.get("question") == "measure." + str(told["what"]):
            for option in objects(question.get("options")):
                other = finite(option.get("value"))
                if other is not None:
                    value = max(value, other) if told["wears"] == "up" else min(value, other)
    return value


def near_limit(what: str, value: float, limit: float) -> bool:
    """Whether a reading is no further from its limit than readings of its kind differ."""
    return abs(limit - value) <= UNSURE.get(what, 0.0) + 1e-9


def _standing(reading: "Body") -> "list[Body]":
    """The readings that stand: what came after the one that was decided on was taken at once with it, and put aside."""
    history = objects(reading.get("history"))
    for i, one in enumerate(history):
        if one.get("entry") == reading.get("entry"):
            return history[: i + 1]
    return history


def _row(what: str) -> "tuple[str, str, float | None, str]":
    for name, title, way, usual, marking in WEARS:
        if name == what:
            return title, way, usual, marking
    return what, "up", None, ""


def _is_of(reading: "Body", part: "Body | None", since: str) -> bool:
    """Whether a reading is of the part fitted now: it says so, or says nothing and is not of one that was taken off."""
    said = reading.get("part")
    if said is None:
        return str(reading.get("at")) >= since
    return part is not None and said == part.get("part")


def _changed(state: "Body", what: str) -> str:
    """When the last part of this place was taken off; "" when none ever was."""
    gone = [str(p.get("removed_at")) for p in objects(state.get("removed")) if str(p.get("slot")) in PLACES[what]]
    return max(gone) if gone else ""


def _since_charged(taken: "list[Body]") -> "list[Body]":
    start = 0
    for i in range(1, len(taken)):
        if (finite(taken[i].get("value")) or 0.0) > (finite(taken[i - 1].get("value")) or 0.0):
            start = i
    return taken[start:]


def _days(first: "Body", one: "Body") -> float:
    return day_number(str(one.get("at"))) - day_number(str(first.get("at")))


def _slack(what: str, last: "Body", plus_minus: "float | None") -> float:
    a, b = finite(last.get("plus_minus")), finite(plus_minus)
    if a is None and b is None:
        return UNSURE[what]
    return (a or UNSURE[what] / 2) + (b or UNSURE[what] / 2)


def _sudden(readings: "list[Body]", sign: float, worn_by: float, run: float) -> bool:
    first, last = readings[0], readings[-1]
    gone, wore = float(last["at"]) - float(first["at"]), (float(last["value"]) - float(first["value"])) * sign
    if gone <= 0 or wore <= 0 or run <= 0:
        return False
    return worn_by / run > SUDDEN * wore / gone
