"""The record: a fold from the entries of a subject to its state, the same on the server and on the phone.

The state depends only on which entries there are, never on the order in which they arrived: they are taken once each, voided
ones left out, in the order of their stamps. Entries whose kind this version does not know are counted and left alone.
"""

from .bike import Bike
from .event import Event
from .order import in_order, place_of
from .plain import listing, mapping
from .shop import Shop

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]


# The form of a snapshot; a snapshot of another form is thrown away and the fold made anew.
SNAPSHOT = 7

# What can only make a thing look better than it is: refused, it does not count. Anything else the server would not take still
# shows on the phone that wrote it; a check among it only where it makes things worse (see `Bike`).
ONLY_BETTER = ("fault-close", "decide", "service", "snooze", "withdraw")

_COUNTED = ("subject", "count", "gone", "first_at", "last_at", "key")


def flat(kept: "list[dict[str, Any]]") -> "list[Item]":
    """`{"seq", "entry": {...}}` pairs as single items, each entry once, in the order of the fold (stamp, then id).

    A phone marks with `refused` what the server would not take: nobody else has it.
    """
    by_id: "dict[object, Item]" = {}
    for pair in kept:
        entry = mapping(pair["entry"])
        seq = pair.get("seq")
        already = by_id.get(entry["id"])
        # The same entry may be held twice, before and after the server gave it a place.
        if already is None or (already["seq"] is None and seq is not None):
            item: "Item" = dict(entry)
            item["seq"] = seq
            item["refused"] = pair.get("refused") is True
            by_id[entry["id"]] = item
    items = list(by_id.values())
    return in_order([place_of(e) for e in items], items)


def voided(items: "list[Item]") -> "dict[str, str]":
    """Entry id -> the void entry's id, for every entry that is voided. A void can itself be voided by a later one.

    A cut is never voided: the material is off, whatever is written. A later cut of the same thing supersedes it.
    """
    cuts = [item["id"] for item in items if item["kind"] == "cut"]
    gone: "dict[str, str]" = {}
    for item in reversed(items):
        if item["kind"] == "void" and item["id"] not in gone and not item["refused"]:
            entry = mapping(item["body"])["entry"]
            if entry not in cuts:
                gone[entry] = item["id"]
    return gone


def fold(subject: str, kept: "list[dict[str, Any]]") -> "dict[str, Any]":
    """The state of `subject` after `kept`, a list of `{"seq": int or None, "entry": {...}}` in any order.

    `subject` is `bike/UUID`, `event/UUID` or `workshop`; anything else gives the workshop's empty state with its count.
    """
    return _Folding(subject).take(flat(kept)).state()


def freeze(subject: str, kept: "list[dict[str, Any]]", snapshot: "dict[str, Any] | None" = None) -> "dict[str, Any] | None":
    """A snapshot of a subject's fold, plain data that `resume` goes on from; `snapshot` is one to build it upon.

    Only what the server has ordered goes in: an entry without a `seq`, and all after it, may still change how they are seen.
    None when `snapshot` does not serve, as in `resume`.
    """
    settled: "list[Item]" = []
    for item in flat(kept):
        if item["seq"] is None:
            break
        settled.append(item)
    folding = _begun(subject, snapshot, settled)
    return None if folding is None else folding.take(settled).freeze()


def resume(snapshot: "dict[str, Any]", kept: "list[dict[str, Any]]") -> "dict[str, Any] | None":
    """The state after the snapshot's entries and `kept`, those that come after its `key`: the same as a full fold of all.

    None when the snapshot does not serve: it is of another version, an entry sorts before its key, or one voids another.
    """
    items = flat(kept)
    folding = _begun(str(snapshot.get("subject")), snapshot, items)
    return None if folding is None else folding.take(items).state()


def _begun(subject: str, snapshot: "dict[str, Any] | None", items: "list[Item]") -> "_Folding | None":
    """A fold that goes on from `snapshot`, if that serves for `items`; one from nothing without it."""
    folding = _Folding(subject)
    if snapshot is None:
        return folding
    if snapshot.get("version") != SNAPSHOT or snapshot.get("subject") != subject:
        return None
    for item in items:
        if item["kind"] == "void" or place_of(item) <= snapshot["key"]:
            return None
    folding.thaw(snapshot)
    return folding


class _Folding:
    """A fold under way: the bike, event or workshop, and what is counted beside it."""

    def __init__(self, subject: str) -> None:
        self.subject = subject
        if subject.startswith("bike/"):
            self.thing = Bike()
        elif subject.startswith("event/"):
            self.thing = Event()
        else:
            self.thing = Shop()
        self.count = 0
        self.gone: "list[str]" = []
        self.first_at: "str | None" = None
        self.last_at: "str | None" = None
        self.key = ""

    def take(self, items: "list[Item]") -> "_Folding":
        gone = voided(items)
        for item in items:
            if item["id"] not in gone and not (item["refused"] and item["kind"] in ONLY_BETTER):
                self.thing.take(item)
        self.count += len(items)
        self.gone = sorted(self.gone + list(gone))
        if items:
            self.first_at = self.first_at or items[0]["noted_at"]
            self.last_at = items[-1]["noted_at"]
            self.key = place_of(items[-1])
        return self

    def state(self) -> "dict[str, Any]":
        state = self.thing.state()
        state["subject"], state["entries"], state["voided"] = self.subject, self.count, self.gone
        state["first_at"], state["last_at"] = self.first_at, self.last_at
        return state

    def freeze(self) -> "dict[str, Any]":
        frozen: "dict[str, Any]" = {"version": SNAPSHOT, "thing": self.thing.freeze()}
        for name in _COUNTED:
            frozen[name] = getattr(self, name)
        return frozen

    def thaw(self, frozen: "dict[str, Any]") -> None:
        self.thing.thaw(frozen["thing"])
        for name in _COUNTED:
            setattr(self, name, frozen[name])


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
