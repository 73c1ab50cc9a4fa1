"""Figures that a bike cannot have, or hardly: a setting moved, a value measured in a check."""

from .adjustable import setting_named, stands
from .markings import markings
from .working import shown
from .worn import MOST

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]
    Span = tuple[float, float]

# More than this in one go is a slip, or a bike built anew: common practice.
LEAP: "dict[str, float]" = {"mm": 100.0, "\u00b0": 20.0, "bar": 3.0, "turns": 6.0, "steps": 30.0}

# What can be measured at all in each unit, for what has no span of its own: common practice, and wide.
IN_UNIT: "dict[str, Span]" = {
    "mm": (0, 3000),
    "N\u00b7m": (0, 400),
    "bar": (0, 20),
    "g": (0, 150000),
    "kg": (0, 400),
    "%": (0, 100),
    "\u00b0": (-180, 180),
}


def doubts_of_move(state: "Body", name: str, to: float) -> "list[Body]":
    """Why a setting is not moved to `to` without another look: `{"text", "likely"}` each, and a `level` where it is `stop`.

    `likely` is `impossible` (it is refused), `limit` (above what the maker marked) or `figure` (a slip). Empty: nothing speaks
    against it.
    """
    setting = setting_named(name)
    unit = " " + str(setting["unit"]) if setting["unit"] else ""
    least, most = setting["possible"]
    if to < least or to > most:
        text = shown(to) + unit + " is not possible: from " + shown(least) + " to " + shown(most) + unit + "."
        return [{"text": text, "likely": "impossible", "level": "stop"}]
    found: "list[Body]" = []
    limit = markings(state).get("max_" + name)
    if limit is not None and to > limit + 1e-9:
        text = "On the bike at most " + shown(limit) + unit + " is marked, and this is " + shown(to) + unit + "."
        found.append({"text": text, "likely": "limit", "level": "stop"})
    low, high = setting["usual"]
    if to < low or to > high:
        text = str(setting["label"]) + " is usually " + shown(low) + " to " + shown(high) + unit + ": measure it again."
        found.append({"text": text, "likely": "figure"})
    now = stands(state, setting)
    if now is not None and abs(to - now) > LEAP.get(str(setting["unit"]), float(most - least)):
        text = "From " + shown(now) + unit + " to " + shown(to) + unit + " in one go."
        found.append({"text": text, "likely": "figure"})
    return found


def possible_in_check(measure: str, unit: str, low: "float | None") -> "Span | None":
    """From where to where an item's measured value can be; None when nothing is known of its unit."""
    if measure in MOST:
        return (0, MOST[measure])
    setting = setting_named(measure)
    if unit and setting["unit"] == unit:
        return setting["possible"]
    span = IN_UNIT.get(unit)
    # A workshop's own item may count from a line: its least then says so.
    return (-span[1], span[1]) if span and low is not None and low < 0 else span
