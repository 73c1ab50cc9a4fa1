"""The line-up: the starters of an event and how each one's bike stands there."""

from .event import STARTS, WHICH_BIKE, WHO
from .order import in_order
from .plain import mapping, objects
from .registers import has_seen
from .standing import counting
from .standing import standing as standing_of
from .verdicts import CARE, FIT, NOT_COMPLETE, NOT_FIT, WORDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

UNDECIDED = "undecided"
NOT_SEEN = "not-seen"
OPEN = "open"
NOT_CLEARED = "not-cleared"
CLEARED = "cleared"
CLEARED_WITH_CARE = "cleared-with-care"

# What holds up the start comes first.
PRESSING_FIRST = (UNDECIDED, NOT_CLEARED, OPEN, NOT_SEEN, CLEARED_WITH_CARE, CLEARED)

# Nobody is lost and nobody cleared while two phones say different things of a plate.
_ASKED = {
    WHO: "Plate taken twice: two phones gave it without knowing of each other.",
    WHICH_BIKE: "Two phones told different bikes of this starter.",
    STARTS: "One phone says that this plate starts, another that it does not.",
}

_TOLD = ("entry", "check", "title", "verdict", "scope", "at", "by", "started_at", "finished_at")


def lineup(event: "Body", bikes: "dict[str, Body]") -> "Body":
    """`{"rows", "unlisted", "tally", "starters"}` from an event's state and the states of bikes by id (without `bike/`).

    A row is `{"plate", "bike", "rider", "name", "bike_name", "status", "words", "checks", "reasons",
    "entry", "question"}`. A plate that two phones gave to two is a row for each of them, which nobody clears before it is
    settled. A bike counts as seen
    only by a check made for this event; how it stands then is its standing, so a fault found elsewhere or a change made after
    the check shows here too. Checks of the plate made before its bike was known count beside it until somebody who knew them
    checks again. `checks` lists every check made for this event, so a bike checked twice shows both. `unlisted` has a row for
    each plate that was checked and that nobody starts under.
    """
    id = str(event["subject"]).split("/")[-1]
    rows = [_row(starter, id, mapping(bikes.get(str(starter.get("bike"))))) for starter in objects(event.get("starters"))]
    unlisted = [_row(one, id, {}) for one in objects(event.get("unlisted"))]
    tally = {name: len([r for r in rows if r["status"] == name]) for name in PRESSING_FIRST}
    return {"rows": rows, "unlisted": unlisted, "tally": tally, "starters": len(rows)}


def _row(starter: "Body", event: str, state: "Body") -> "Body":
    of_plate = objects(starter.get("checks"))
    of_bike = [c for c in objects(state.get("checks")) if c.get("event") == event]
    standing = _standing(of_plate, state) if of_plate else mapping(state.get("standing"))
    found = str(standing.get("verdict"))
    seen = len(of_bike) + len(of_plate) > 0
    row: "Body" = {name: starter.get(name) for name in ("plate", "bike", "rider", "name", "entry", "question")}
    row["bike_name"] = mapping(state.get("described")).get("name")
    row["status"] = status(found, seen)
    row["words"] = WORDS[found] if seen else None
    row["reasons"] = objects(standing.get("reasons"))
    asked = _ASKED.get(str(row["question"]))
    if asked is not None:
        row["status"] = UNDECIDED
        row["reasons"] = [{"level": "stop", "text": asked}] + row["reasons"]
    row["checks"] = [{name: c.get(name) for name in _TOLD} for c in of_plate + of_bike]
    return row


def _standing(of_plate: "list[Body]", state: "Body") -> "Body":
    """How a bike would stand if the checks of its plate were its own."""
    checks = objects(state.get("checks")) + of_plate
    checks = in_order([str(c["place"]) for c in checks], checks)
    counted: "list[Body]" = []
    for check in checks:
        counted = counting(counted, check)
    whole = [c for c in of_plate if c["scope"] == "whole"]
    changes = [c for c in objects(state.get("changes")) if not any([has_seen(w, c) for w in whole])]
    faults, falls, joints = objects(state.get("faults")), objects(state.get("falls")), mapping(state.get("joints"))
    return standing_of(counted, checks, faults, falls, changes, joints)


def status(verdict: str, seen: bool) -> str:
    """How a starter stands in the line: a bike nobody looked at here is `not-seen`, unless it is known not to be fit."""
    if verdict == NOT_FIT:
        return NOT_CLEARED
    if not seen:
        return NOT_SEEN
    return {FIT: CLEARED, CARE: CLEARED_WITH_CARE, NOT_COMPLETE: OPEN}.get(verdict, OPEN)
