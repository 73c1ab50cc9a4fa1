"""The line-up: the starters of an event and how each one's bike stands there."""

from .plain import mapping, objects
from .verdicts import CARE, FIT, NOT_COMPLETE, NOT_FIT

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

NOT_SEEN = "not-seen"
OPEN = "open"
NOT_CLEARED = "not-cleared"
CLEARED = "cleared"
CLEARED_WITH_CARE = "cleared-with-care"

# What holds up the start comes first.
PRESSING_FIRST = (NOT_CLEARED, OPEN, NOT_SEEN, CLEARED_WITH_CARE, CLEARED)


def lineup(event: "Body", bikes: "dict[str, Body]") -> "Body":
    """`{"rows": [...], "tally": {...}}` from an event's state and the states of bikes by id (`UUID`, without `bike/`).

    A row is `{"plate", "bike", "rider", "bike_name", "status", "words", "checks", "reasons"}`. A bike counts as seen only by a
    check made for this event; how it stands then is its standing, so a fault found elsewhere or a change made after the check
    shows here too. `checks` lists every check made for this event, so a bike checked twice shows both.
    """
    id = str(event["subject"]).split("/")[-1]
    rows: "list[Body]" = []
    for starter in objects(event.get("starters")):
        state = mapping(bikes.get(str(starter.get("bike"))))
        here = [c for c in objects(state.get("checks")) if c.get("event") == id]
        standing = mapping(state.get("standing"))
        row: "Body" = {name: starter.get(name) for name in ("plate", "bike", "rider", "name")}
        row["bike_name"] = mapping(state.get("described")).get("name")
        row["status"] = status(str(standing.get("verdict")), len(here) > 0)
        row["words"] = standing.get("words") if here else None
        row["reasons"] = objects(standing.get("reasons"))
        row["checks"] = [
            {name: c.get(name) for name in ("entry", "verdict", "at", "by", "started_at", "finished_at")} for c in here
        ]
        rows.append(row)
    tally = {name: len([r for r in rows if r["status"] == name]) for name in PRESSING_FIRST}
    return {"rows": rows, "tally": tally, "starters": len(rows)}


def status(verdict: str, seen: bool) -> str:
    """How a starter stands in the line: a bike nobody looked at here is `not-seen`, unless it is known not to be fit."""
    if verdict == NOT_FIT:
        return NOT_CLEARED
    if not seen:
        return NOT_SEEN
    return {FIT: CLEARED, CARE: CLEARED_WITH_CARE, NOT_COMPLETE: OPEN}.get(verdict, OPEN)
