"""Back to a baseline: what to turn, which way and how far. The list comes first; what was done is recorded as adjustments."""

from .adjustable import SETTINGS, setting_named, tidy, way_to_go
from .order import in_order
from .plain import mapping, objects
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def steps_back(state: "Body", baseline: "str | None" = None) -> "Body":
    """How to bring the bike of `state` back to the baseline of entry `baseline` (None: the last one).

    `{"baseline", "moves", "left_alone"}`. A move is `{"setting", "label", "place", "unit", "from", "to", "by", "way"}`, `way`
    in words (`4 mm down`); places in the order of the list of settings. `left_alone` are settings the baseline does not know.
    `baseline` is None when there is no such baseline.
    """
    found: "Body | None" = None
    for one in objects(state.get("baselines")):
        if baseline is None or one.get("entry") == baseline:
            found = one
    if found is None:
        return {"baseline": None, "moves": [], "left_alone": []}
    frozen = mapping(found.get("settings"))
    settings = mapping(state.get("settings"))
    order = [str(s["setting"]) for s in SETTINGS]
    names = in_order([(order.index(n) if n in order else len(order), n) for n in settings], list(settings))
    moves: "list[Body]" = []
    alone: list[str] = []
    for name in names:
        setting = dict(setting_named(name))
        setting["unit"] = setting["unit"] or mapping(settings[name]).get("unit") or ""
        now, then = finite(mapping(settings[name]).get("value")), finite(frozen.get(name))
        if now is None or now == then:
            continue
        if then is None:
            alone.append(str(setting["label"]))
            continue
        by = tidy(then - now)
        move = {k: setting[k] for k in ("setting", "label", "place", "unit")}
        move["from"], move["to"], move["by"], move["way"] = now, then, by, way_to_go(setting, by)
        moves.append(move)
    return {"baseline": {k: found[k] for k in ("name", "entry", "at", "by")}, "moves": moves, "left_alone": alone}


def compare(before: "Body", after: "Body") -> "Body":
    """Two states of one bike: `{"settings", "measures", "km", "hours", "fitted", "removed"}`.

    Settings and measures that differ, each `{"name", "label", "unit", "before", "after", "by"}` (None where there was none).
    """
    was = [str(p.get("part")) for p in objects(before.get("parts"))]
    now = [str(p.get("part")) for p in objects(after.get("parts"))]
    return {
        "settings": _differences(before, after, "settings"),
        "measures": _differences(before, after, "measures"),
        "km": (finite(after.get("km")) or 0.0) - (finite(before.get("km")) or 0.0),
        "hours": (finite(after.get("hours")) or 0.0) - (finite(before.get("hours")) or 0.0),
        "fitted": [_named(p) for p in objects(after.get("parts")) if str(p.get("part")) not in was],
        "removed": [_named(p) for p in objects(before.get("parts")) if str(p.get("part")) not in now],
    }


def _differences(before: "Body", after: "Body", held: str) -> "list[Body]":
    a, b = mapping(before.get(held)), mapping(after.get(held))
    found: "list[Body]" = []
    for name in sorted(list(a) + [n for n in b if n not in a]):
        one, two = mapping(a.get(name)), mapping(b.get(name))
        was, now = finite(one.get("value")), finite(two.get("value"))
        if was == now:
            continue
        by = tidy(now - was) if was is not None and now is not None else None
        unit = two.get("unit") or one.get("unit") or ""
        label = setting_named(name)["label"]
        found.append({"name": name, "label": label, "unit": unit, "before": was, "after": now, "by": by})
    return found


def _named(part: "Body") -> "Body":
    return {"part": part.get("part"), "slot": part.get("slot"), "name": part.get("name")}
