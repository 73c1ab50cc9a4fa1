"""Who may do what: one table, and what is not in it is denied.

`python -m pinchbolt.access.rules > pwa/src/rights.json` makes the phone's copy of what each role writes.
"""

import json

from pinchbolt.entries import Arrival
from pinchbolt.entries.bodies import BODIES, Check
from pinchbolt.entries.envelope import Problem
from pinchbolt.kernel.errors import problem
from pinchbolt.kernel.shipped import SHIPPED
from pinchbolt.kernel.standing import AFTER_FALL
from pinchbolt.store.log import CHECKERS, Sight

ROLES = ("owner", "mechanic", "checker", "rider")

EVERY_KIND = frozenset(BODIES)

# What each role writes, by kind of entry. Checkers and riders write only about subjects granted to them.
WRITES: dict[str, frozenset[str]] = {
    "owner": EVERY_KIND,
    "mechanic": EVERY_KIND,
    "checker": frozenset({"check", "note", "fault", "photo", "void", "start", "withdraw"}),
    "rider": frozenset({"check", "ride", "note", "adjust", "fault", "photo", "void"}),
}

_EVERYBODY = frozenset({"push", "pull", "read-bikes", "read-people", "read-live", "put-photo", "get-photo"})

# What each role asks of the server, by the name of the act.
ACTS: dict[str, frozenset[str]] = {
    "owner": _EVERYBODY | {"add-person", "invite", "read-devices", "revoke", "add-passkey"},
    "mechanic": _EVERYBODY | {"add-person", "invite", "read-devices", "revoke"},
    "checker": _EVERYBODY,
    "rider": _EVERYBODY,
}

# The roles whose people each role may add, and let in with a pairing code. A mechanic lets in nobody above themselves.
LETS_IN: dict[str, frozenset[str]] = {
    "owner": frozenset(ROLES),
    "mechanic": frozenset({"checker", "rider"}),
}

# Whose names each role may read; beside these everybody reads their own.
NAMES: dict[str, frozenset[str]] = {
    "owner": frozenset(ROLES),
    "mechanic": frozenset(ROLES),
    "checker": frozenset(ROLES),
    "rider": frozenset({"owner", "mechanic", "checker"}),
}


def may(role: str, act: str) -> bool:
    """Whether this role may ask for `act`."""
    return act in ACTS.get(role, frozenset())


def lets_in(role: str, other: str) -> bool:
    """Whether this role may add people of the role `other` and give them pairing codes."""
    return other in LETS_IN.get(role, frozenset())


def sight(role: str, person: str, event: str | None = None) -> Sight:
    """What a person of this role sees of the log. `event` is the id of the one event a checker was let in for."""
    if role in ("owner", "mechanic"):
        return Sight(None)
    if role == "checker":
        return Sight(CHECKERS if event is None else "event/" + event)
    return Sight(person)


def not_written_by(role: str, arrival: Arrival) -> list[Problem]:
    """Why this role may not write this entry; empty when it may (its subject is looked at in the log)."""
    e = arrival.envelope
    if e is None:
        return []
    if e.kind in EVERY_KIND and e.kind not in WRITES.get(role, frozenset()):
        return [problem("kind", e.kind, f"a kind that a {role} writes")]
    if isinstance(arrival.body, Check):
        if role == "rider":
            return _riders_check(arrival.body)
        if role == "checker" and arrival.body.check == AFTER_FALL:
            return [problem("body.check", AFTER_FALL, "a check for checkers: a fall is cleared by a mechanic")]
    return []


def _riders_check(check: Check) -> list[Problem]:
    """A rider answers riders' checks; what clears a fall or gives a bike its standing is a mechanic's or a checker's."""
    # By name, whatever the version: a version not known here must not open what the known one keeps shut.
    if any(one["check"] == check.check and one["who"] != "rider" for one in SHIPPED):
        return [problem("body.check", check.check, "a check for riders")]
    own = not any(one["check"] == check.check for one in SHIPPED)
    if check.scope == "whole" or (own and check.scope is None):
        return [problem("body.scope", check.scope or "nothing", "part")]
    return []


def phone_table() -> dict[str, list[str]]:
    """The kinds of entry each role writes that does not write all; for the phone, which offers no others."""
    return {role: sorted(kinds) for role, kinds in WRITES.items() if kinds != EVERY_KIND}


if __name__ == "__main__":
    print(json.dumps(phone_table(), indent=2))
