"""The record: a fold from the entries of a subject to its state, the same on the server and on the phone.

The state depends only on which entries there are, never on the order in which they arrived: they are taken once each, voided
ones left out, in the order of their stamps. Entries whose kind this version does not know are counted and left alone.
"""

from .bike import Bike
from .event import Event
from .order import in_order
from .plain import listing, mapping
from .shop import Shop

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]


def flat(kept: "list[dict[str, Any]]") -> "list[Item]":
    """`{"seq", "entry": {...}}` pairs as single items, each entry once, in the order of the fold (stamp, then id)."""
    by_id: "dict[object, Item]" = {}
    for pair in kept:
        entry = mapping(pair["entry"])
        seq = pair.get("seq")
        already = by_id.get(entry["id"])
        # The same entry may be held twice, before and after the server gave it a place.
        if already is None or (already["seq"] is None and seq is not None):
            item: "Item" = dict(entry)
            item["seq"] = seq
            by_id[entry["id"]] = item
    items = list(by_id.values())
    return in_order([e["stamp"] + e["id"] for e in items], items)


def voided(items: "list[Item]") -> "dict[object, object]":
    """Entry id -> the void entry's id, for every entry that is voided. A void can itself be voided by a later one."""
    gone: "dict[object, object]" = {}
    for item in reversed(items):
        if item["kind"] == "void" and item["id"] not in gone:
            gone[mapping(item["body"])["entry"]] = item["id"]
    return gone


def fold(subject: str, kept: "list[dict[str, Any]]") -> "dict[str, Any]":
    """The state of `subject` after `kept`, a list of `{"seq": int or None, "entry": {...}}` in any order.

    `subject` is `bike/UUID`, `event/UUID` or `workshop`; anything else gives a state with its count of entries only.
    """
    items = flat(kept)
    gone = voided(items)
    if subject.startswith("bike/"):
        folding = Bike()
    elif subject.startswith("event/"):
        folding = Event()
    else:
        folding = Shop()
    for item in items:
        if item["id"] not in gone:
            folding.take(item)
    state = folding.state()
    state["subject"] = subject
    state["entries"] = len(items)
    state["voided"] = sorted([str(id) for id in gone])
    if items:
        state["first_at"] = items[0]["noted_at"]
        state["last_at"] = items[-1]["noted_at"]
    return state


def summary(state: "dict[str, Any]") -> "dict[str, Any]":
    """The one line of a list: what a bike is called, whose it is, how it stands and what matters most."""
    told = mapping(state.get("described"))
    return {
        "subject": state["subject"],
        "name": told.get("name"),
        "use": told.get("use"),
        "rider": told.get("rider"),
        "standing": state.get("standing"),
        "faults": len(listing(state.get("faults"))),
        "questions": len(listing(state.get("questions"))),
        "km": state.get("km"),
        "last_at": state.get("last_at"),
    }
