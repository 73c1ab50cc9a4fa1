"""May it be ridden? How a bike stands, from its checks and from what happened since."""

from .plain import listing, objects
from .registers import Registers
from .verdicts import CARE, CAUTION, FIT, NOT_COMPLETE, NOT_FIT, WORDS, worst

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

AFTER_FALL = "after-fall"


def standing(
    checks: "list[Body]", registers: Registers, faults: "list[Body]", falls: "list[Body]", changes: "list[Body]"
) -> "Body":
    """From the checks in their order, the open faults, the falls, and what was changed since the last check of the whole bike:
    `{"verdict", "words", "reasons", "clears", "at", "by", "check", "caution"}`.

    - Only a check of the whole bike gives a standing; any other check can only make it worse.
    - Of checks made without knowledge of each other the worst counts.
    - An open fault, a fall since the last after-fall check, and anything changed since the check weigh on it: a new or cut part
      was not looked at, so the verdict no longer covers the bike.
    """
    reasons: "list[Body]" = []
    clears: list[str] = []
    verdicts: list[str] = []

    whole = [c for c in checks if c["scope"] == "whole"]
    base = whole[-1] if whole else None
    if base is None:
        verdicts.append(NOT_COMPLETE)
        reasons.append({"level": "open", "text": "No check of the whole bike is on record."})
        clears.append("a check of the whole bike")
    else:
        concurrent = registers.heads("check." + str(base["check"]))
        found = worst([str(h["value"]) for h in concurrent])
        verdicts.append(found)
        _tell(reasons, clears, base, found, len(concurrent))
        _weigh_changes(changes, verdicts, reasons, clears)
        for check in checks[checks.index(base) + 1 :]:
            if check["scope"] != "whole" and check["verdict"] != FIT:
                verdicts.append(str(check["verdict"]))
                _tell(reasons, clears, check, str(check["verdict"]), 1)

    for fault in faults:
        stops = fault["level"] == "stop"
        verdicts.append(NOT_FIT if stops else CARE)
        reasons.append(
            {"level": "stop" if stops else "care", "text": "Open fault: " + str(fault["what"]), "entry": fault["entry"]}
        )
        clears.append("mending and closing: " + str(fault["what"]))

    uncleared = _uncleared(checks, falls)
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


def _uncleared(checks: "list[Body]", falls: "list[Body]") -> "list[Body]":
    """The falls that no passed after-fall check knew of. A later check that does not pass takes the clearance back."""
    known: "list[object]" = []
    for check in checks:
        if check["check"] == AFTER_FALL:
            known = listing(check["falls_known"]) if check["verdict"] == FIT else []
    return [f for f in falls if f["entry"] not in known]


def _tell(reasons: "list[Body]", clears: list[str], check: "Body", found: str, many: int) -> None:
    """The reasons a check gave, and what clears them: only a new check does."""
    for reason in objects(check["reasons"]):
        reasons.append({"level": reason["level"], "text": reason["text"], "entry": check["entry"]})
    if many > 1:
        reasons.append(
            {"level": "care", "text": "Checked " + str(many) + " times at once; the worst counts.", "entry": check["entry"]}
        )
    if found != FIT:
        clears.append("a new check: " + str(check.get("title") or check["check"]))


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


def _names(changes: "list[Body]") -> str:
    names: list[str] = []
    for change in changes:
        name = str(change["about"]).replace("_", " ").replace("-", " ")
        if name not in names:
            names.append(name)
    return ", ".join(names)
