"""Rules of fit out of the workshop's own interface kinds: a kind that says what it meets is held against it, field by field."""

from .fit_rules import STEP, plain_text
from .plain import objects
from .quantities import finite
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    Body = dict[str, Any]
    Judged = tuple[str, str, str]


def own_rules(kinds: "list[Body]") -> "list[Body]":
    """One rule for each of `kinds` with a `meets`: every field alike, sizes within 0.05 mm.

    A kind that meets itself (two halves of one coupling) pairs only with another part.
    """
    rules: "list[Body]" = []
    for kind in kinds:
        meets = kind.get("meets")
        fields = objects(kind.get("fields"))
        if not meets or not fields:
            continue
        needs = [[str(f["name"])] for f in fields]
        rules.append(
            {
                "rule": "own-" + str(kind["kind"]),
                "title": str(kind["label"]) + " and " + str(meets).replace("-", " "),
                "a": kind["kind"],
                "b": meets,
                "needs_a": needs,
                "needs_b": needs,
                "judge": _alike(fields),
                "stop": False,
                "may_be_empty": False,
                "source": "the workshop's own rule",
            }
        )
    return rules


def _alike(fields: "list[Body]") -> "Callable[[Body, Body], Judged]":
    def judge(a: "Body", b: "Body") -> "Judged":
        told: list[str] = []
        for field in fields:
            name, label, unit = str(field["name"]), str(field["label"]), str(field.get("unit") or "")
            one, other = finite(a[name]), finite(b[name])
            if one is not None and other is not None:
                same = abs(one - other) <= STEP + 1e-9
                unit = " " + unit if unit not in ("", "text", "flag") else ""
                said, against = shown(one) + unit, shown(other) + unit
            else:
                same = plain_text(a[name]) == plain_text(b[name])
                said, against = str(a[name]), str(b[name])
            if not same:
                return ("does-not-fit", label + ": " + said + " against " + against + ".", "")
            told.append(label + " " + said)
        return ("fits", "Alike: " + ", ".join(told) + ".", "")

    return judge
