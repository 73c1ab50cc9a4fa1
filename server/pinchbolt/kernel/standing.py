"""May it be ridden? How a bike stands, from its checks and from what happened since."""

from .plain import listing, mapping, objects, spaced
from .quantities import finite
from .registers import has_seen
from .verdicts import CARE, CAUTION, FIT, NOT_COMPLETE, NOT_FIT, WORDS, worst
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

AFTER_FALL = "after-fall"
NEAR = 1e-9


def counting(counted: "list[Body]", check: "Body") -> "list[Body]":
    """The checks that count once `check` was made: those of `counted` that it did not take the place of, and it.

    A check takes the place of those its maker knew: of the same check, and of any other when the whole bike was looked at. What
    an after-fall check found only an after-fall check can answer.
    """
    left: "list[Body]" = []
    for one in counted:
        same = one["check"] == check["check"]
        within = check["scope"] == "whole" and one["check"] != AFTER_FALL
        if not (same or within) or not has_seen(check, one):
            left.append(one)
    return left + [check]


def standing(
    counted: "list[Body]",
    checks: "list[Body]",
    faults: "list[Body]",
    falls: "list[Body]",
    changes: "list[Body]",
    joints: "Body",
) -> "Body":
    """From the checks that count and all checks, in their order, the open faults, the falls, what was changed since the last
    check of the whole bike, and the joints as they were tightened last:
    `{"verdict", "words", "reasons", "clears", "at", "by", "check", "caution"}`.

    - Only a check of the whole bike gives a standing; any other check can only make it worse.
    - Of checks made without knowledge of each other the worst counts. Only a new check, made in its knowledge, replaces one.
    - An open fault, a fall since the last after-fall check, and anything changed since the check weigh on it: a new or cut part
      was not looked at, so the verdict no longer covers the bike.
    - A joint tightened beyond its figure weighs until it is tightened anew: no check sees it.
    """
    reasons: "list[Body]" = []
    clears: list[str] = []
    verdicts: list[str] = []

    whole = [c for c in counted if c["scope"] == "whole"]
    base = whole[-1] if whole else None
    if base is None:
        verdicts.append(NOT_COMPLETE)
        reasons.append({"level": "open", "text": "No check of the whole bike is on record."})
        clears.append("a check of the whole bike")
    for check in counted:
        # Without a whole one what a part's check found weighs too, but what it did not find says nothing.
        if check["scope"] == "whole" or check["verdict"] != FIT:
            verdicts.append(str(check["verdict"]))
            _tell(reasons, clears, check)
    if base is not None:
        if len(whole) > 1:
            text = "Checked " + str(len(whole)) + " times at once; the worst counts."
            reasons.append({"level": "care", "text": text, "entry": base["entry"]})
        _weigh_changes(changes, verdicts, reasons, clears)

    for fault in faults:
        stops = fault["level"] == "stop"
        verdicts.append(NOT_FIT if stops else CARE)
        reasons.append(
            {"level": "stop" if stops else "care", "text": "Open fault: " + str(fault["what"]), "entry": fault["entry"]}
        )
        clears.append("mending and closing: " + str(fault["what"]))

    for name in sorted(joints):
        _weigh_joint(name, mapping(joints[name]), verdicts, reasons, clears)

    uncleared = _uncleared(counted, checks, falls)
    if uncleared:
        verdicts.append(NOT_FIT)
        reasons.append({"level": "stop", "text": "After a fall, not cleared.", "entry": uncleared[-1]["entry"]})
        clears.append("a full check after a fall, by a qualified mechanic")

    found = worst(verdicts)
    ranked = [r for level in ("stop", "open", "care") for r in reasons if r["level"] == level]
    return {
        "verdict": found,
        "words": WORDS[found],
        "reasons": ranked,
        "clears": clears,
        "check": base["check"] if base is not None else None,
        "at": base["at"] if base is not None else None,
        "by": base["by"] if base is not None else None,
        "caution": CAUTION,
    }


def _uncleared(counted: "list[Body]", checks: "list[Body]", falls: "list[Body]") -> "list[Body]":
    """The falls that no passed after-fall check knew of. One that does not pass takes back what was cleared before it, and as
    long as it counts everything."""
    if any([c["check"] == AFTER_FALL and c["verdict"] != FIT for c in counted]):
        return falls
    known: "list[object]" = []
    for check in checks:
        if check["check"] == AFTER_FALL:
            known = known + listing(check["falls_known"]) if check["verdict"] == FIT else []
    return [f for f in falls if f["entry"] not in known]


def _tell(reasons: "list[Body]", clears: list[str], check: "Body") -> None:
    """The reasons a check gave, and what clears them: only a new check does."""
    for reason in objects(check["reasons"]):
        reasons.append({"level": reason["level"], "text": reason["text"], "entry": check["entry"]})
    clear = "a new check: " + str(check.get("title") or check["check"])
    if check["verdict"] != FIT and clear not in clears:
        clears.append(clear)


def _weigh_changes(changes: "list[Body]", verdicts: list[str], reasons: "list[Body]", clears: list[str]) -> None:
    """What was changed since the check was not checked."""
    built = [c for c in changes if c["kind"] != "adjust"]
    moved = [c for c in changes if c["kind"] == "adjust"]
    if built:
        verdicts.append(NOT_COMPLETE)
        names = _names(built)
        reasons.append({"level": "open", "text": "Changed since the check: " + names + ".", "entry": built[-1]["entry"]})
    if moved:
        verdicts.append(CARE)
        reasons.append({"level": "care", "text": "Moved since the check: " + _names(moved) + ".", "entry": moved[-1]["entry"]})
    if built or moved:
        clears.append("a new check of the whole bike")


def _weigh_joint(name: str, joint: "Body", verdicts: list[str], reasons: "list[Body]", clears: list[str]) -> None:
    """Beyond a limit with the tool's whole error counted in its favour: above one that is marked stops the bike; above a usual
    one, or too loose, asks for care."""
    applied, accuracy = finite(joint.get("applied")), finite(joint.get("accuracy")) or 0.0
    low, high = finite(joint.get("low")), finite(joint.get("high"))
    if applied is None:
        return
    about = spaced(name)
    if high is not None and applied * (1 - accuracy / 100) > high * (1 + NEAR):
        stops = joint.get("usual") is not True
        text = "Tightened to " + shown(applied) + " N\u00b7m, " + shown(high) + " at most: " + about + "."
    elif low is not None and applied * (1 + accuracy / 100) < low * (1 - NEAR):
        stops = False
        text = "Tightened to " + shown(applied) + " N\u00b7m, " + shown(low) + " at least: " + about + "."
    else:
        return
    verdicts.append(NOT_FIT if stops else CARE)
    reasons.append({"level": "stop" if stops else "care", "text": text, "entry": joint.get("entry")})
    clears.append("a look at the joint, and tightening it to its figure: " + about)


def _names(changes: "list[Body]") -> str:
    names: list[str] = []
    for change in changes:
        name = spaced(change["about"])
        if name not in names:
            names.append(name)
    return ", ".join(names)
