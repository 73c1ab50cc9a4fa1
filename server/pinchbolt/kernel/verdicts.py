"""From the answers of a check to its verdict. A verdict is never stronger than what was answered.

An answered check carries, item by item, what was asked (title, whether essential, limits) beside what was answered, so it
keeps its meaning whatever becomes of the definition. For a check shipped with the program the definition is looked at too:
an essential item that was left out counts as unanswered, and an item cannot be made less than essential.
"""

from .plain import objects
from .quantities import finite
from .shipped import find_check
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

FIT = "fit"
CARE = "care"
NOT_FIT = "not-fit"
NOT_COMPLETE = "not-complete"

# Worst first. What is known to be wrong is worse than what is not known; what is not known is never a pass.
WORST_FIRST = (NOT_FIT, NOT_COMPLETE, CARE, FIT)

WORDS = {
    FIT: "fit to ride",
    CARE: "ride with care",
    NOT_FIT: "not fit to ride",
    NOT_COMPLETE: "not complete",
}

# Who looked at a part of a bike cannot say of the bike that it is fit.
NOTHING_FOUND = "nothing found"

PASS = "pass"
ATTENTION = "attention"
FAIL = "fail"

CAUTION = (
    "This records what was seen at that time. It is no guarantee. The makers' instructions, local law, the event's rules and a "
    "qualified mechanic come first."
)


def worst(verdicts: list[str]) -> str:
    """The worst of some verdicts; `not-complete` of none."""
    for v in WORST_FIRST:
        if v in verdicts:
            return v
    return NOT_COMPLETE


def mark_of(answer: "Body") -> "str | None":
    """pass, attention, fail, or None when unanswered.

    A measured value outside its limits fails, whatever mark came with it; inside them it passes unless somebody marked it
    worse. A value that has no limits to hold against says nothing by itself.
    """
    mark = answer.get("mark")
    if mark not in (PASS, ATTENTION, FAIL):
        mark = None
    value = finite(answer.get("value"))
    low, high = finite(answer.get("low")), finite(answer.get("high"))
    if value is not None and (low is not None or high is not None):
        if (low is not None and value < low) or (high is not None and value > high):
            return FAIL
        if mark is None:
            return PASS
    return str(mark) if mark is not None else None


def verdict(check: "Body") -> "Body":
    """The verdict on an answered check: `{"verdict", "words", "reasons", "scope", "caution"}`.

    `check` is the body of a check entry: `check`, `version`, `answers` (each `item` with `mark` or `value`, and `title`,
    `essential`, `low`, `high` as they were asked). `reasons` is a list of `{"level", "item", "text"}`, the gravest first.
    Any essential fail: not fit. Else any essential unanswered: not complete. Else anything that did not pass: care.
    """
    definition = find_check(str(check.get("check")), check.get("version"))
    asked: "dict[str, Body]" = {}
    order: list[str] = []
    for answer in objects(check.get("answers")):
        name = str(answer.get("item"))
        if name not in asked:
            order.append(name)
        asked[name] = answer
    for item in objects(definition["items"]) if definition is not None else []:
        name = str(item["item"])
        if name not in asked:
            order.append(name)
            asked[name] = {"item": name}
        merged: "Body" = dict(item)
        merged.update({k: v for k, v in asked[name].items() if v is not None})
        merged["essential"] = bool(item.get("essential")) or bool(asked[name].get("essential"))
        asked[name] = merged

    stops: "list[Body]" = []
    opens: "list[Body]" = []
    cares: "list[Body]" = []
    for name in order:
        answer = asked[name]
        # An item that does not say whether it is essential is taken for one.
        essential = answer.get("essential") is not False
        mark = mark_of(answer)
        title = str(answer.get("title") or name)
        note = answer.get("note")
        text = title + ": " + _said(answer, mark) + (" (" + str(note) + ")" if note else "")
        if mark == FAIL and essential:
            stops.append({"level": "stop", "item": name, "text": text})
        elif mark is None and essential:
            opens.append({"level": "open", "item": name, "text": text})
        elif mark != PASS:
            # One that is not essential and was left open is no pass either.
            cares.append({"level": "care", "item": name, "text": text})
    if stops:
        found = NOT_FIT
    elif opens or not order:
        found = NOT_COMPLETE
    elif cares:
        found = CARE
    else:
        found = FIT
    scope = str(definition["scope"]) if definition is not None else str(check.get("scope") or "part")
    words = NOTHING_FOUND if found == FIT and scope != "whole" else WORDS[found]
    return {"verdict": found, "words": words, "reasons": stops + opens + cares, "scope": scope, "caution": CAUTION}


def _said(answer: "Body", mark: "str | None") -> str:
    value = finite(answer.get("value"))
    if value is None:
        return {PASS: "passed", ATTENTION: "needs attention", FAIL: "failed"}.get(mark or "", "not answered")
    unit = str(answer.get("unit") or "")
    text = shown(value) + (" " + unit if unit else "")
    low, high = finite(answer.get("low")), finite(answer.get("high"))
    if high is not None and value > high:
        return text + ", above the limit " + shown(high)
    if low is not None and value < low:
        return text + ", below the limit " + shown(low)
    if mark is None:
        return text + ", with no limit to hold it against"
    return text
