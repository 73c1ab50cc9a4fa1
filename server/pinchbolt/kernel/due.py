"""What is due on a bike: by distance, hours, days, wear, or because something happened. What stops a ride comes first."""

from .dates import date_of, day_number, day_or_none
from .intervals import INTERVALS, RE_TORQUE_KM, for_climate, own_jobs
from .order import in_order
from .plain import listing, mapping, objects
from .quantities import finite
from .torques import renewed
from .working import shown
from .worn import all_worn, near_limit, remaining, worst_now

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Overdue things in the order of what they stop, then what is coming.
RANK = {"stop": 0, "care": 1, "fine": 2, "coming": 3}
SOON = 0.85  # of an interval run: told as coming
SOON_KM = {"km": 300.0, "days": 7.0}  # of wear to go by its trend: told as coming


def due(state: "Body", now: str, own: "list[Body] | None" = None) -> "list[Body]":
    """Everything due or coming on the bike of `state` at `now` (a timestamp), gravest first.

    `own` are the workshop's intervals; the bike's own, in its state, win over them. Each answer is
    `{"due", "title", "level", "text", "left", "unit", "on", "source", "snoozed"}`: `level` is `stop`, `care`, `fine` or
    `coming`; `left` is what is left in `unit` (negative: past it), None when a happening made it due; `on` is the day it falls
    on: by the calendar, or by how much the bike has been ridden so far (today at the earliest), None when neither tells.
    A snooze moves a thing out of the way until its date, never one that stops a ride.
    """
    found = (
        _re_torque(state)
        + _after_fall(state)
        + _wear(state)
        + _intervals(state, now, (own or []) + objects(state.get("intervals")))
    )
    today = day_number(now)
    pace = _pace(state)
    for one in found:
        one["on"] = _on(one, today, pace)
        one["snoozed"] = None
        for snooze in objects(state.get("snoozes")):
            until = day_or_none(snooze["until"])
            if snooze.get("due") == one["due"] and one["level"] != "stop" and until is not None and until > today:
                one["snoozed"] = {"until": snooze["until"], "reason": snooze.get("reason"), "by": snooze.get("by")}
    keys = [(one["snoozed"] is not None, RANK.get(str(one["level"]), 9), str(one["title"])) for one in found]
    return in_order(keys, found)


def due_across(bikes: "list[Body]", now: str, own: "list[Body] | None" = None) -> "list[Body]":
    """What is due on all `bikes` (their states), what stops a ride first: rows of `due` with `subject` and `bike` beside."""
    rows: "list[Body]" = []
    for state in bikes:
        for one in due(state, now, own):
            one["subject"], one["bike"] = state.get("subject"), mapping(state.get("described")).get("name")
            rows.append(one)
    return ranked(rows)


def ranked(rows: "list[Body]") -> "list[Body]":
    """Put off last; then by what it stops; then by the day; then by the bike."""
    keys = [
        (
            row["snoozed"] is not None,
            RANK.get(str(row["level"]), 9),
            str(row.get("on") or "0"),
            str(row.get("bike") or ""),
            str(row["title"]),
        )
        for row in rows
    ]
    return in_order(keys, rows)


def _pace(state: "Body") -> "float | None":
    """km a day, over the whole time on record."""
    first, last = state.get("first_at"), state.get("last_at")
    km = finite(state.get("km")) or 0.0
    if not first or not last or km <= 0:
        return None
    days = day_number(str(last)) - day_number(str(first))
    return km / days if days >= 7 else None


def _on(one: "Body", today: float, pace: "float | None") -> "str | None":
    left = finite(one.get("left"))
    if left is None or one["unit"] not in ("days", "km") or (one["unit"] == "km" and pace is None):
        return date_of(today) if one["level"] != "coming" else None
    return date_of(today + max(0.0, left if one["unit"] == "days" else left / (pace or 1.0)))


def _one(due: str, title: str, level: str, text: str, left: "float | None", unit: str, source: str) -> "Body":
    return {"due": due, "title": title, "level": level, "text": text, "left": left, "unit": unit, "source": source}


def _re_torque(state: "Body") -> "list[Body]":
    """Joints not touched again since the first ride after they were last made, or since a fall, or with a part fitted since."""
    km = finite(state.get("km")) or 0.0
    falls = [f["entry"] for f in objects(state.get("falls"))]
    waiting: list[str] = []
    most = 0.0
    shaken = False
    joints, parts = mapping(state.get("joints")), objects(state.get("parts"))
    of_all = [s for s in objects(state.get("services")) if s.get("job") == "re-torque"]
    of_some = [c for c in objects(state.get("checks")) if c.get("joints")]
    for name in sorted(joints):
        joint = mapping(joints[name])
        made, again, known = finite(joint.get("km")) or 0.0, bool(joint.get("again")), listing(joint.get("falls_known"))
        # A re-torque of all, or a first-ride check that found it at its figure, after it was made.
        for one in of_all + [c for c in of_some if name in listing(c["joints"])]:
            if str(one.get("place")) > str(joint.get("place")):
                again = again or (finite(one.get("km")) or 0.0) > made
                known = known + listing(one.get("falls_known"))
        anew = renewed(name, joint, parts)
        if anew:
            made, again = max([finite(p.get("fitted_km")) or 0.0 for p in anew]), False
        if any([fall not in known for fall in falls]):
            shaken = True
            waiting.append(name)
        elif km > made and not again:
            waiting.append(name)
            most = max(most, km - made)
    if not waiting:
        return []
    left = 0.0 if shaken else RE_TORQUE_KM - most
    names = ", ".join(waiting[:4]) + (" and " + str(len(waiting) - 4) + " more" if len(waiting) > 4 else "")
    told = "Tighten to its figure once more: " + names + "."
    return [_one("re-torque", "Re-torque", "coming" if left > 0 else "care", told, left, "km", "common practice")]


def _after_fall(state: "Body") -> "list[Body]":
    reasons = objects(mapping(state.get("standing")).get("reasons"))
    if not any([str(r.get("text")).startswith("After a fall") for r in reasons]):
        return []
    return [_one("after-fall", "Check after a fall", "stop", "Not to be ridden until it passes.", None, "", "common practice")]


def _wear(state: "Body") -> "list[Body]":
    """The last reading of what is fitted now against its own limit, or the usual one; in km where its readings tell a trend."""
    found: "list[Body]" = []
    for told in all_worn(state):
        readings, limit = objects(told["readings"]), finite(told["limit"])
        if not readings or limit is None:
            continue
        what, title, unit = str(told["what"]), str(told["title"]), str(told["unit"])
        first, value = float(readings[0]["value"]), worst_now(state, told)
        past = value >= limit if told["wears"] == "up" else value <= limit
        text = shown(value) + " " + unit + ", limit " + shown(limit) + " " + unit
        source = str(told["limit_from"])
        share = (value - first) / (limit - first) if first != limit else 0.0
        left = remaining(told)
        if past:
            level = "stop" if what.startswith(("rotor", "pad")) else "care"
            found.append(_one("wear-" + what, title, level, text + ".", 0.0, unit, source))
        elif left is not None and (share >= SOON or left <= SOON_KM[str(told["by"])]):
            by = str(told["by"])
            more = ", about " + shown(left, 0) + " " + by + " to go." if left > 0 else ", by its trend there already."
            found.append(_one("wear-" + what, title, "coming", text + more, left, by, source))
        elif share >= SOON or near_limit(what, value, limit):
            found.append(_one("wear-" + what, title, "coming", text + ".", abs(limit - value), unit, source))
    return found


def _intervals(state: "Body", now: str, own: "list[Body]") -> "list[Body]":
    """Jobs by km, hours or days since they were last done, or since the bike's first entry when never."""
    km, hours = finite(state.get("km")) or 0.0, finite(state.get("hours")) or 0.0
    found: "list[Body]" = []
    ours = {str(i.get("due")): i for i in own}
    fitted = [str(p.get("slot")) for p in objects(state.get("parts"))]
    tomorrow = day_number(now) + 1
    for shipped in INTERVALS + own_jobs(own):
        job = str(shipped["due"])
        interval: "Body" = dict(for_climate(shipped, state.get("climate")))
        for name in ("km", "hours", "days"):
            if job in ours and name in ours[job]:
                interval[name], interval["source"] = ours[job][name], "the workshop's own"
        # A clock that was ahead must not put a job off for as long: what is dated in the future does not count.
        done = [s for s in objects(state.get("services")) if s.get("job") == job and day_number(str(s["at"])) <= tomorrow]
        if not done and job not in ours and not _concerns(job, fitted):
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
