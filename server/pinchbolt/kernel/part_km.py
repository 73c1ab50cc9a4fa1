"""What a part has run in all: a wheel moved between bikes keeps its own kilometres."""

from .order import in_order
from .plain import mapping, objects
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def part_totals(states: "list[Body]") -> "list[Body]":
    """Every part on the bikes of `states`, by name: `{"part", "name", "slot", "km", "hours", "on", "stretches"}`.

    `on` lists the bikes it is fitted to now: none for a spare, and two only when it was fitted to one without being taken off
    the other, which somebody has to put right. `stretches` are its times on a bike, earliest first:
    `{"subject", "bike", "km", "hours", "from", "until"}`, `until` None while it is on.
    """
    found: "dict[str, Body]" = {}
    for state in states:
        for part in objects(state.get("parts")):
            _add(found, state, part, None)
        for part in objects(state.get("removed")):
            _add(found, state, part, part.get("removed_at"))
    totals = list(found.values())
    for total in totals:
        stretches = total["stretches"]
        total["stretches"] = in_order([str(s["from"]) for s in stretches], stretches)
        # Called as it was called when it was last fitted.
        for name in ("name", "slot"):
            total[name] = total["stretches"][-1].pop(name)
            for stretch in total["stretches"][:-1]:
                stretch.pop(name)
    return in_order([(str(t["name"]), str(t["part"])) for t in totals], totals)


def _add(found: "dict[str, Body]", state: "Body", part: "Body", until: "str | None") -> None:
    id = str(part.get("part"))
    if id not in found:
        found[id] = {"part": id, "km": 0.0, "hours": 0.0, "on": [], "stretches": []}
    total = found[id]
    km, hours = finite(part.get("ran_km")) or 0.0, finite(part.get("ran_hours")) or 0.0
    total["km"] += km
    total["hours"] += hours
    bike = mapping(state.get("described")).get("name")
    if until is None:
        total["on"].append(state.get("subject"))
    stretch: "Body" = {"subject": state.get("subject"), "bike": bike, "km": km, "hours": hours}
    stretch["from"], stretch["until"] = part.get("at"), until
    stretch["name"], stretch["slot"] = part.get("name"), part.get("slot")
    total["stretches"].append(stretch)
