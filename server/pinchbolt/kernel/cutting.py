"""Cuts that cannot be undone: a card that opens only when two independent routes agree and both are on the record."""

from .catalogue import find
from .dates import day_number
from .errors import InputError
from .fits import DOES_NOT_FIT, fit_report
from .markings import markings
from .plain import mapping, objects
from .quantities import finite
from .steerer import CUTTING_CARBON
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Two measurements by one hand count as made at another time when so far apart: the tool has been put down in between.
APART_DAYS = 10.0 / 1440

# Nothing that is cut is longer: mm, and pitches of a chain. Common practice.
LONGEST = {"steerer": 500.0, "hose-front": 3000.0, "hose-rear": 4000.0, "chain": 200.0, "seatpost": 600.0}

STEERER_SUM = ("head_tube", "lower_stack", "upper_stack", "spacers_below", "stem_height", "spacers_above")

# Which rules of fit must not fail before the cut is made.
STEERER_RULES = ("steerer-stem", "headset-frame", "headset-fork", "bar")


def _card(
    what: str, title: str, unit: str, tolerance: float, first: str, second: str, rules: "tuple[str, ...]", cautions: "list[str]"
) -> "Body":
    return {
        "what": what,
        "title": title,
        "unit": unit,
        "tolerance": tolerance,
        "first": first,
        "second": second,
        "rules": rules,
        "cautions": cautions,
    }


CUTS: "list[Body]" = [
    _card("steerer", "Steerer", "mm", 1.0, "by the sum of the parts", "by the mark", STEERER_RULES, CUTTING_CARBON),
    _card(
        "hose-front",
        "Front hose",
        "mm",
        5.0,
        "by the route measured with a string",
        "by the old hose or a dry fit",
        (),
        [
            "Turn the bar to both ends before cutting.",
            "Cut square with a hose cutter; new olive and insert; bleed; test at walking pace.",
        ],
    ),
    _card(
        "hose-rear",
        "Rear hose",
        "mm",
        5.0,
        "by the route measured with a string",
        "by the old hose or a dry fit",
        (),
        [
            "Turn the bar to both ends before cutting.",
            "Cut square with a hose cutter; new olive and insert; bleed; test at walking pace.",
        ],
    ),
    _card(
        "chain",
        "Chain",
        "pitches",
        0.0,
        "by the calculation",
        "by wrapping the largest ring and cog, past the mech",
        ("cassette-chain", "largest-cog", "capacity"),
        [
            "An even number of pitches for a joining link.",
            "Close the link by its maker's way; never reuse a single-use link or pin.",
        ],
    ),
    _card(
        "seatpost",
        "Seatpost",
        "mm",
        1.0,
        "by the position wanted",
        "by the mark, dry-fitted",
        ("seatpost",),
        ["Never shorter than the minimum insertion, of post and of frame."] + CUTTING_CARBON[:3],
    ),
]


def cut_card(what: str, state: "Body") -> "Body":
    """The card of the cut `what` (`steerer`, `hose-front`, `hose-rear`, `chain`, `seatpost`) for the bike of `state`.

    `{"what", "title", "unit", "routes", "disagreement", "tolerance", "agreed", "independent", "number", "open", "blocked",
    "marks", "cautions", "done"}`. Each route is `{"name", "measure", "value", "missing", "at", "by"}`. `number` is what to
    mark, the longer of the two, never rounded down. `open` is true only when nothing in `blocked` stands. `marks` say what
    weakens it.

    Raises InputError for a cut it does not know.
    """
    kinds = {str(c["what"]): c for c in CUTS}
    if what not in kinds:
        raise InputError([{"field": "what", "given": what, "wanted": "one of " + ", ".join(sorted(kinds))}])
    kind = kinds[what]
    measures = mapping(state.get("measures"))
    first = _by_sum(measures) if what == "steerer" else _measured(measures, "cut_" + what + "_first")
    second = _measured(measures, "steerer_mark" if what == "steerer" else "cut_" + what + "_second")
    if what == "steerer" and second["value"] is not None:
        second["value"] -= _gap(measures)
    first["name"], second["name"] = kind["first"], kind["second"]
    blocked: list[str] = []
    marks: list[str] = []
    for route in (first, second):
        if route["value"] is None:
            # Only a sum has pieces to name.
            pieces = ": " + ", ".join(route["missing"]).replace("_", " ") if not route["measure"] else ""
            blocked.append("Measure " + str(route["name"]) + pieces + ".")
    disagreement: "float | None" = None
    number: "float | None" = None
    agreed = False
    unit = str(kind["unit"])
    if first["value"] is not None and second["value"] is not None:
        disagreement = abs(first["value"] - second["value"])
        agreed = disagreement <= kind["tolerance"] + 1e-9
        if agreed:
            number = max(first["value"], second["value"])
        else:
            blocked.append(
                "The two routes differ by "
                + shown(disagreement, 1)
                + " "
                + unit
                + ", "
                + shown(kind["tolerance"], 1)
                + " allowed: find the reason."
            )
    independent = _independent(first, second)
    if independent == "at once":
        marks.append("Both routes were measured by one person at one time. Have somebody else measure, or measure again later.")
    blocked.extend(_undecided(what, state))
    if what == "steerer":
        blocked.extend(_moved_since(state, measures))
    if number is not None:
        blocked.extend(_impossible(what, number))
    stops, cares = _weighed(what, kind, state, measures, number)
    blocked.extend(stops)
    marks.extend(cares)
    return {
        "what": what,
        "title": kind["title"],
        "unit": unit,
        "routes": [first, second],
        "disagreement": disagreement,
        "tolerance": kind["tolerance"],
        "agreed": agreed,
        "independent": independent,
        "number": number,
        "open": not blocked,
        "blocked": blocked,
        "marks": marks,
        "cautions": kind["cautions"],
        "done": [c for c in objects(state.get("cuts")) if c.get("what") == what],
    }


def _measured(measures: "Body", name: str) -> "Body":
    one = mapping(measures.get(name))
    value = finite(one.get("value"))
    return {
        "measure": name,
        "value": value,
        "missing": [] if value is not None else [name],
        "at": one.get("at"),
        "by": one.get("by"),
    }


def _gap(measures: "Body") -> float:
    gap = finite(mapping(measures.get("top_gap")).get("value"))
    return 3.0 if gap is None else gap


def _by_sum(measures: "Body") -> "Body":
    """The sum of the parts: it is as recent as its latest measure, and by whoever made that."""
    total = -_gap(measures)
    missing: list[str] = []
    at: "str | None" = None
    by: object = None
    for name in STEERER_SUM:
        one = mapping(measures.get(name))
        value = finite(one.get("value"))
        if value is None:
            missing.append(name)
            continue
        total += value
        if at is None or str(one.get("at")) > at:
            at, by = str(one.get("at")), one.get("by")
    return {"measure": "", "value": None if missing else total, "missing": missing, "at": at, "by": by}


def _independent(first: "Body", second: "Body") -> "str | None":
    """`another person`, `another time`, `at once`, or None while a route is missing."""
    if first["value"] is None or second["value"] is None or first["at"] is None or second["at"] is None:
        return None
    if first["by"] != second["by"]:
        return "another person"
    apart = abs(day_number(str(first["at"])) - day_number(str(second["at"])))
    return "another time" if apart >= APART_DAYS else "at once"


def _undecided(what: str, state: "Body") -> list[str]:
    """Measures of the routes that two people took without knowing of each other: until one is decided on, neither counts."""
    if what == "steerer":
        names = list(STEERER_SUM) + ["steerer_mark", "top_gap", "steerer_uncut", "plug_depth"]
    else:
        names = ["cut_" + what + "_first", "cut_" + what + "_second"]
    asked = [str(q.get("question")) for q in objects(state.get("questions"))]
    twice = [name.replace("_", " ") for name in names if "measure." + name in asked]
    return ["Measured twice and not decided: " + ", ".join(twice) + "."] if twice else []


def _moved_since(state: "Body", measures: "Body") -> list[str]:
    """Spacers moved after the sum or the mark was taken: neither is of this stack any more."""
    setting = mapping(mapping(state.get("settings")).get("spacers_below"))
    sum_of, mark = mapping(measures.get("spacers_below")), mapping(measures.get("steerer_mark"))
    to, since = finite(setting.get("value")), str(setting.get("at"))
    stale: list[str] = []
    if to is not None and finite(sum_of.get("value")) is not None and since > str(sum_of.get("at")) and to != sum_of["value"]:
        stale.append("spacers below")
    # What the stack was when it was marked.
    stack = [r.get("value") for r in objects(sum_of.get("history")) if str(r.get("at")) <= str(mark.get("at"))]
    if to is not None and stack and since > str(mark.get("at")) and to != stack[-1]:
        stale.append("steerer mark")
    return ["The spacers were changed since; measure again: " + ", ".join(stale) + "."] if stale else []


def _impossible(what: str, number: float) -> list[str]:
    """Why a number that two routes agree on can be no cut all the same."""
    if number <= 0 or number > LONGEST[what]:
        return ["Not a length to cut to: " + shown(number, 1) + "."]
    if what == "chain" and (number != int(number) or int(number) % 2):
        return ["A chain closes on an even number of pitches; " + shown(number) + " is not one."]
    return []


def _weighed(what: str, kind: "Body", state: "Body", measures: "Body", number: "float | None") -> "tuple[list[str], list[str]]":
    """What forbids this cut beside the routes (a part that does not fit, a steerer too short, a clamp not backed), and what
    asks for care."""
    stops: list[str] = []
    cares: list[str] = []
    if what == "seatpost" and number is not None:
        _weigh_post(number, state, measures, stops, cares)
    for joint in fit_report(objects(state.get("parts")))["joints"]:
        if joint["rule"] in kind["rules"] and joint["result"] == DOES_NOT_FIT:
            stops.append("Does not fit: " + str(joint["title"]) + ". " + str(joint["reason"]))
    if what == "steerer" and number is not None and not [m for m in STEERER_SUM if m not in measures]:
        inputs = {name: measures[name]["value"] for name in STEERER_SUM}
        inputs["top_gap"] = _gap(measures)
        for name in ("steerer_uncut", "plug_depth"):
            if name in measures:
                inputs[name] = measures[name]["value"]
        if "steerer_uncut" not in inputs:
            return stops + ["Measure the steerer as it is."], cares
        limit = markings(state).get("spacer_limit")
        if limit is not None:
            inputs["spacer_limit"] = limit
        inputs["mark"] = number + inputs["top_gap"]
        try:
            for finding in objects(find("steerer-cut").run(inputs)["findings"]):
                if finding["level"] == "stop" and finding["field"] != "mark":
                    stops.append(str(finding["text"]))
                elif finding["level"] == "care":
                    cares.append(str(finding["text"]))
        except InputError as error:
            for problem in error.problems:
                stops.append(
                    problem["field"].replace("_", " ") + ": " + problem["given"] + ", wanted " + problem["wanted"] + "."
                )
    return stops, cares


def _weigh_post(number: float, state: "Body", measures: "Body", stops: list[str], cares: list[str]) -> None:
    """How much of the post must stay inside, as marked on it or on the frame, or as measured for the position."""
    known = [finite(mapping(measures.get("min_insertion")).get("value")), finite(markings(state).get("min_insertion"))]
    least = max([one for one in known if one is not None] or [0.0])
    length = finite(mapping(measures.get("post_length")).get("value"))
    if least <= 0:
        stops.append("How deep the post must sit is not on record: read it off post and frame.")
    elif number <= least:
        stops.append("Shorter than the post must sit in the frame, " + shown(least) + " mm.")
    else:
        showing = shown(number - least, 1, "down")
        cares.append("So at most " + showing + " mm of it may show above the frame: " + shown(least) + " mm stay inside.")
    if length is not None and number > length:
        stops.append("Longer than the post is, " + shown(length) + " mm.")
