"""What is due on a bike: by distance, hours, days, wear, or because something happened. What stops a ride comes first."""

from .dates import day_number
from .intervals import INTERVALS, RE_TORQUE_KM, WEARS
from .markings import markings
from .order import in_order
from .plain import listing, mapping, objects
from .quantities import finite
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Overdue things in the order of what they stop, then what is coming.
RANK = {"stop": 0, "care": 1, "fine": 2, "coming": 3}
SOON = 0.85  # of an interval run: told as coming


def due(state: "Body", now: str, own: "list[Body] | None" = None) -> "list[Body]":
    """Everything due or coming on the bike of `state` at `now` (a timestamp), gravest first.

    `own` are the workshop's intervals; the bike's own, in its state, win over them. Each answer is
    `{"due", "title", "level", "text", "left", "unit", "source", "snoozed"}`: `level` is `stop`, `care`, `fine` or `coming`;
    `left` is what is left in `unit` (negative: past it), None when a happening made it due.
    A snooze moves a thing out of the way until its date, never one that stops a ride.
    """
    found = (
        _re_torque(state)
        + _after_fall(state)
        + _wear(state)
        + _intervals(state, now, (own or []) + objects(state.get("intervals")))
    )
    today = day_number(now)
    for one in found:
        one["snoozed"] = None
        for snooze in objects(state.get("snoozes")):
            if snooze.get("due") == one["due"] and one["level"] != "stop" and day_number(str(snooze["until"])) > today:
                one["snoozed"] = {"until": snooze["until"], "reason": snooze.get("reason"), "by": snooze.get("by")}
    keys = [(one["snoozed"] is not None, RANK.get(str(one["level"]), 9), str(one["title"])) for one in found]
    return in_order(keys, found)


def _one(due: str, title: str, level: str, text: str, left: "float | None", unit: str, source: str) -> "Body":
    return {"due": due, "title": title, "level": level, "text": text, "left": left, "unit": unit, "source": source}


def _re_torque(state: "Body") -> "list[Body]":
    """Joints not touched again since the first ride after they were last made, and after a fall."""
    km = finite(state.get("km")) or 0.0
    falls = objects(state.get("falls"))
    checked = -1.0
    for check in objects(state.get("checks")):
        if check.get("check") == "first-ride" and check.get("verdict") == "fit":
            checked = max(checked, finite(check.get("km")) or 0.0)
    for service in objects(state.get("services")):
        if service.get("job") == "re-torque":
            checked = max(checked, finite(service.get("km")) or 0.0)
    waiting: list[str] = []
    most = 0.0
    joints = mapping(state.get("joints"))
    for name in sorted(joints):
        joint = mapping(joints[name])
        made = finite(joint.get("km")) or 0.0
        shaken = [f for f in falls if str(f.get("at")) > str(joint.get("at"))]
        if (km > made and checked <= made and not joint.get("again")) or shaken:
            waiting.append(name)
            most = max(most, km - made)
    if not waiting:
        return []
    past = most >= RE_TORQUE_KM
    names = ", ".join(waiting[:4]) + (" and " + str(len(waiting) - 4) + " more" if len(waiting) > 4 else "")
    told = "Tighten to its figure once more: " + names + "."
    return [_one("re-torque", "Re-torque", "care" if past else "coming", told, RE_TORQUE_KM - most, "km", "common practice")]


def _after_fall(state: "Body") -> "list[Body]":
    reasons = objects(mapping(state.get("standing")).get("reasons"))
    if not any([str(r.get("text")).startswith("After a fall") for r in reasons]):
        return []
    return [_one("after-fall", "Check after a fall", "stop", "Not to be ridden until it passes.", None, "", "common practice")]


def _wear(state: "Body") -> "list[Body]":
    """The last reading against the part's own limit, or the usual one where there is one."""
    found: "list[Body]" = []
    marked = markings(state)
    measures = mapping(state.get("measures"))
    for what, title, way, usual, marking in WEARS:
        reading = mapping(measures.get(what))
        value = finite(reading.get("value"))
        limit = finite(marked.get(marking))
        source = "the part's own marking"
        if limit is None:
            limit, source = usual, "common practice"
        if value is None or limit is None:
            continue
        unit = str(reading.get("unit") or "")
        past = value >= limit if way == "up" else value <= limit
        told = shown(value) + " " + unit + ", limit " + shown(limit) + " " + unit + "."
        run = _share(objects(reading.get("history")), limit, value)
        if past:
            found.append(
                _one("wear-" + what, title, "stop" if what.startswith(("rotor", "pad")) else "care", told, 0.0, unit, source)
            )
        elif run >= SOON:
            found.append(_one("wear-" + what, title, "coming", told, abs(limit - value), unit, source))
    return found


def _share(history: "list[Body]", limit: float, value: float) -> float:
    """How much of the way from the first reading to the limit is gone, 0 to 1."""
    first = finite(history[0].get("value")) if history else None
    if first is None or first == limit:
        return 0.0
    return (value - first) / (limit - first)


def _intervals(state: "Body", now: str, own: "list[Body]") -> "list[Body]":
    """Jobs by km, hours or days since they were last done, or since the bike's first entry when never."""
    km, hours = finite(state.get("km")) or 0.0, finite(state.get("hours")) or 0.0
    found: "list[Body]" = []
    ours = {str(i.get("due")): i for i in own}
    fitted = [str(p.get("slot")) for p in objects(state.get("parts"))]
    for shipped in INTERVALS:
        job = str(shipped["due"])
        interval: "Body" = dict(shipped)
        for name in ("km", "hours", "days"):
            if job in ours and name in ours[job]:
                interval[name], interval["source"] = ours[job][name], "the workshop's own"
        done = [s for s in objects(state.get("services")) if s.get("job") == job]
        if not done and not _concerns(job, fitted):
            continue
        last = done[-1] if done else {"at": state.get("first_at"), "km": 0.0, "hours_then": 0.0}
        if last.get("at") is None:
            continue
        gone = {
            "km": km - (finite(last.get("km")) or 0.0),
            "hours": hours - (finite(last.get("hours_then")) or 0.0),
            "days": day_number(now) - day_number(str(last["at"])),
        }
        shares = [(gone[u] / limit, u, limit) for u in ("km", "hours", "days") for limit in [finite(interval.get(u))] if limit]
        if not shares:
            continue
        share, unit, limit = max(shares)
        if share < SOON:
            continue
        since = "last " + str(last["at"])[:10] if done else "never on record"
        told = shown(gone[unit], 0) + " of " + shown(limit, 0) + " " + unit + ", " + since + "."
        level = str(interval["level"]) if share >= 1 else "coming"
        found.append(_one(job, str(interval["title"]), level, told, limit - gone[unit], unit, str(interval["source"])))
    return found


def _concerns(job: str, fitted: list[str]) -> bool:
    """Whether a job never done concerns this bike at all, by what is fitted."""
    if job == "sealant":
        return any([s.startswith("tyre") or s == "sealant" for s in fitted])
    if job == "charge":
        return "battery" in fitted
    if job == "bleed":
        return any([s.startswith("brake") for s in fitted])
    return len(listing(fitted)) > 0
