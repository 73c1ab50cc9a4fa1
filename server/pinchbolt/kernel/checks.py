"""Making a check ready for one bike: its limits from the bike's markings, its last values, its joints."""

from .check_items import item
from .joints import JOINT_ITEM
from .markings import chain_speeds, markings, usual_chain_limit
from .moving import possible_in_check
from .plain import mapping, objects, spaced
from .quantities import finite
from .shipped import SHIPPED

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def all_checks(own: "list[Body] | None" = None) -> "list[Body]":
    """The shipped definitions and the workshop's `own`, the newest version of each, shipped ones first."""
    newest: "list[Body]" = []
    for one in SHIPPED + (own or []):
        for i, other in enumerate(newest):
            if other["check"] == one["check"]:
                if (finite(one["version"]) or 0) > (finite(other["version"]) or 0):
                    newest[i] = one
                break
        else:
            newest.append(one)
    return newest


def prepare(definition: "Body", state: "Body") -> "Body":
    """`definition` for the bike of `state`: every item with `low` and `high` from the parts' markings and `last` measured.

    The first-ride re-torque has no items of its own: it asks for each joint on the bike's record.
    """
    listed = _joints(state) if definition["check"] == "first-ride" else objects(definition["items"])
    marked = markings(state)
    measures = mapping(state.get("measures"))
    ready: "list[Body]" = []
    for one in listed:
        made: "Body" = dict(one)
        for end in ("low", "high"):
            limit = marked.get(str(one.get(end + "_from")))
            if limit is None and one.get(end + "_from") == "chain_limit":
                limit = usual_chain_limit(chain_speeds(state))
            if limit is not None:
                made[end] = limit
        if one.get("measure"):
            made["last"] = measures.get(one["measure"])
            made["possible"] = possible_in_check(str(one["measure"]), str(one.get("unit") or ""), finite(made.get("low")))
        ready.append(made)
    told = dict(definition)
    told["items"] = ready
    return told


def _joints(state: "Body") -> "list[Body]":
    joints = mapping(state.get("joints"))
    made: "list[Body]" = []
    for name in sorted(joints):
        joint = mapping(joints[name])
        made.append(
            item(
                JOINT_ITEM + name,
                "joints",
                spaced(name),
                "Tighten to its figure once more.",
                "At its figure, mark in line.",
                measure="joint." + name,
                unit="N\u00b7m",
                low=finite(joint.get("low")),
                high=finite(joint.get("high")),
                must_measure=True,
                caution="Never above the figure marked on the part; the condition of the thread as it was.",
            )
        )
    return made
