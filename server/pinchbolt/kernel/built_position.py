"""The position that was wanted against the one that was built, each line with its tolerance."""

from .plain import mapping
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# What is compared: label, unit, tolerance (common practice), where the wanted value stands (the first that is there counts),
# and where the built one. `measure:NAME` or `setting:NAME`. What the saddle measured on the old bike is the wanted value until
# a transfer has worked out the new one.
LINES = (
    ("bar_x", "Bar ahead", "mm", 3.0, "measure:target_bar_x", "measure:bar_x"),
    ("bar_y", "Bar above", "mm", 3.0, "measure:target_bar_y", "measure:bar_y"),
    (
        "saddle_height",
        "Saddle height",
        "mm",
        2.0,
        "measure:target_saddle_height measure:saddle_height",
        "setting:saddle_height",
    ),
    (
        "saddle_setback",
        "Saddle setback",
        "mm",
        3.0,
        "measure:target_saddle_setback measure:saddle_setback",
        "setting:saddle_setback",
    ),
    ("saddle_tilt", "Saddle tilt", "°", 0.5, "measure:target_saddle_tilt measure:saddle_tilt", "setting:saddle_tilt"),
)

# Left against right: neither is the wanted one, they are to be alike.
PAIRS = (
    ("lever_reach", "Lever reach", "mm", 2.0),
    ("lever_height", "Lever height", "mm", 2.0),
)

WITHIN = "within"
OFF = "off"
NOT_KNOWN = "not-known"


def built_position(state: "Body") -> "Body":
    """`{"lines": [...], "pairs": [...], "worst": ...}`.

    A line is `{"name", "label", "unit", "tolerance", "wanted", "built", "off", "result", "at"}`, `off` = built − wanted. A pair
    is `{"name", "label", "unit", "tolerance", "left", "right", "off", "result"}`, `off` = left − right. Results are `within`,
    `off`, and `not-known` while a value is missing, which never counts as within. `worst` is over the lines and those pairs of
    which a side has been measured.
    """
    lines: "list[Body]" = []
    for name, label, unit, tolerance, wanted_at, built_at in LINES:
        wanted, built = _value(state, wanted_at)[0], _value(state, built_at)
        line: "Body" = {"name": name, "label": label, "unit": unit, "wanted": wanted, "built": built[0], "at": built[1]}
        line.update(_held(built[0], wanted, tolerance))
        lines.append(line)
    pairs: "list[Body]" = []
    for name, label, unit, tolerance in PAIRS:
        left = _value(state, "setting:" + name + "_left")[0]
        right = _value(state, "setting:" + name + "_right")[0]
        pair: "Body" = {"name": name, "label": label, "unit": unit, "left": left, "right": right}
        pair.update(_held(left, right, tolerance))
        pairs.append(pair)
    results = [line["result"] for line in lines]
    results = results + [p["result"] for p in pairs if p["left"] is not None or p["right"] is not None]
    worst = OFF if OFF in results else (NOT_KNOWN if NOT_KNOWN in results else WITHIN)
    return {"lines": lines, "pairs": pairs, "worst": worst}


def _held(one: "float | None", other: "float | None", tolerance: float) -> "Body":
    if one is None or other is None:
        return {"tolerance": tolerance, "off": None, "result": NOT_KNOWN}
    off = one - other
    return {"tolerance": tolerance, "off": off, "result": WITHIN if abs(off) <= tolerance + 1e-9 else OFF}


def _value(state: "Body", places: str) -> "tuple[float | None, object]":
    for place in places.split():
        kind, _, name = place.partition(":")
        one = mapping(mapping(state.get("measures" if kind == "measure" else "settings")).get(name))
        value = finite(one.get("value"))
        if value is not None:
            return (value, one.get("at"))
    return (None, None)
