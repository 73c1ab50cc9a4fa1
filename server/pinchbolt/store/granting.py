"""Keeping the grants: a rider sees the bikes described as theirs, checkers see the events and the bikes that start there, and a
checker of one event that event and its bikes.

What the entries say together is the fold's business, so the fold says it; it is asked only when an entry came that can change
the answer, and only about that subject.
"""

from collections.abc import Sequence
from typing import Any

import msgspec

from pinchbolt.entries import Arrival
from pinchbolt.kernel.record import fold
from pinchbolt.store.database import Connection
from pinchbolt.store.log import CHECKERS

_OF_BIKES = frozenset({"describe", "void", "decide"})
_OF_EVENTS = frozenset({"start", "withdraw", "void", "decide", "describe"})


class Granting:
    """Brings the table of grants in line with what was just stored, in the same transaction."""

    def __init__(self, conn: Connection) -> None:
        self._conn = conn
        self._at = 0

    def after(self, stored: Sequence[Arrival], newest: int) -> None:
        """`stored` was just appended; `newest` is the highest seq now: above every cursor handed out before."""
        self._at = newest
        touched: dict[str, None] = {}
        for arrival in stored:
            e = arrival.envelope
            if e is None or e.subject == "workshop":
                continue
            if e.kind in (_OF_BIKES if e.subject.startswith("bike/") else _OF_EVENTS):
                touched[e.subject] = None
        for subject in touched:
            if subject.startswith("bike/"):
                self._bike(subject)
            else:
                self._event(subject)

    def _bike(self, subject: str) -> None:
        state = self._fold(subject, sorted(_OF_BIKES))
        rider = state["described"]["rider"]
        self._conn.execute(
            "DELETE FROM grants WHERE subject = ? AND audience NOT IN (?, ?) AND audience NOT LIKE 'event/%'",
            (subject, CHECKERS, rider or CHECKERS),
        )
        if rider is not None:
            self._grant(rider, subject)

    def _event(self, event: str) -> None:
        """Checkers see an event and every bike that ever stood on its start list; so do those let in for this event alone."""
        self._grant(CHECKERS, event)
        self._grant(event, event)
        for starter in self._fold(event, sorted(_OF_EVENTS))["starters"]:
            if starter.get("bike"):
                for audience in (CHECKERS, event):
                    self._grant(audience, "bike/" + starter["bike"])

    def _grant(self, audience: str, subject: str) -> None:
        self._conn.execute(
            "INSERT INTO grants (audience, subject, at) VALUES (?, ?, ?) ON CONFLICT DO NOTHING", (audience, subject, self._at)
        )

    def _fold(self, subject: str, kinds: list[str]) -> dict[str, Any]:
        marks = ", ".join("?" * len(kinds))
        rows = self._conn.execute(
            f"SELECT seq, bytes FROM entries WHERE subject = ? AND kind IN ({marks}) ORDER BY seq", (subject, *kinds)
        )
        return fold(subject, [{"seq": seq, "entry": msgspec.json.decode(raw)} for seq, raw in rows])
