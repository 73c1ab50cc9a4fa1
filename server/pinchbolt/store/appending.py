"""Taking one push inside the writer's transaction.

The ordinary push continues its device's chain with sound entries, and goes in as one statement. Everything else (resent, out
of order, refused) is looked at entry by entry.
"""

from collections.abc import Callable, Sequence

import msgspec
from msgspec import Struct

from pinchbolt.entries import NO_PREV, Arrival
from pinchbolt.entries.bodies import Start, Void
from pinchbolt.entries.envelope import Envelope, Link, Problem
from pinchbolt.kernel.errors import problem
from pinchbolt.store import chain
from pinchbolt.store.committer import Again
from pinchbolt.store.database import Connection, EntryRow, Taken
from pinchbolt.store.granting import Granting
from pinchbolt.store.keys import keep_head
from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import Placed, Pushed, Receipt, Sight, SignedHead


class Push(Struct, frozen=True, gc=False):
    device: str
    arrivals: Sequence[Arrival]
    sight: Sight
    head: SignedHead | None = None


class _Prev(Struct, frozen=True, gc=False):
    """The one field of a held entry that its neighbour below is checked against."""

    prev: str


_read_prev = msgspec.json.Decoder(_Prev).decode


class Appending:
    """Takes pushes on the writing connection. `now` gives received_at."""

    def __init__(self, conn: Connection, now: Callable[[], str]) -> None:
        self._conn = conn
        self._now = now
        self._granting = Granting(conn)
        # device -> (top, hash at top) of chains without a gap, so that the ordinary push asks nothing.
        self._whole: dict[str, tuple[int, str]] = {}
        # n -> (hash, seq) around the push that is looked at entry by entry; None where nothing is held.
        self._near: dict[int, tuple[str, int | None] | None] = {}
        self._epoch = ""
        # The push that is to be looked at entry by entry.
        self._by_entry: Push | None = None
        # The highest seq given; nothing is known of it at first.
        self._given: int | None = None

    def forget(self) -> None:
        """Others wrote, or a transaction was undone: nothing remembered holds."""
        self._whole.clear()
        self._epoch = ""
        self._given = None

    def reached(self, device: str) -> int:
        """The top of a device's whole chain as far as it is remembered, else 0. A hint, for any thread: it may not hold yet."""
        return self._whole.get(device, (0, ""))[0]

    def apply(self, push: Push) -> Pushed:
        """Take one push and answer it."""
        self._epoch = self._epoch or epoch_of(self._conn)
        pushed = self._continue(push)
        if pushed is None:
            self._look_around(push)
            answers = [self._take(arrival, push) for arrival in push.arrivals]
            pushed = Pushed(answers, receipt(self._conn, push.device), self._epoch)
            self._remember(pushed.receipt)
        stored = [a for a, p in zip(push.arrivals, pushed.answers, strict=True) if p.outcome == "stored"]
        self._granting.after(stored, self._newest())
        return pushed if push.head is None else self._with_head(pushed, push.device, push.head)

    def _with_head(self, pushed: Pushed, device: str, signed: SignedHead) -> Pushed:
        """A head that is not good is not kept; the entries are taken all the same."""
        kept = signed.kid is not None and keep_head(self._conn, device, signed.kid, signed.head, self._now())
        return msgspec.structs.replace(pushed, head="kept" if kept else "refused")

    def _remember(self, receipt: Receipt) -> None:
        if receipt.missing:
            self._whole.pop(receipt.device, None)
        else:
            self._whole[receipt.device] = (receipt.n, receipt.hash)

    def _continue(self, push: Push) -> Pushed | None:
        """The ordinary push, or None when it is not one (and nothing was written)."""
        device, arrivals = push.device, push.arrivals
        if not arrivals or push is self._by_entry:
            return None
        whole = self._whole.get(device)
        if whole is None:
            # Not remembered: one look at the device rather than one at each entry.
            self._remember(receipt(self._conn, device))
            whole = self._whole.get(device)
            if whole is None:
                return None
        top, head = whole
        if push.sight.audience is not None and not self._all_seen(push):
            return None
        now = self._now()
        rows: list[EntryRow] = []
        seq = self._newest()
        for arrival in arrivals:
            e = arrival.envelope
            top += 1
            if e is None or arrival.problems or e.n != top or e.prev != head:
                return None
            head = arrival.hash
            seq += 1
            rows.append((seq, e.id, e.subject, device, top, e.kind, e.stamp, head, now, arrival.raw))
        try:
            self._conn.append(rows)
        except Taken:
            # An id that is taken. Undone and done again, it is found out entry by entry which.
            self._by_entry = push
            raise Again from None
        self._given = seq
        self._set_top(device, top)
        self._whole[device] = (top, head)
        answers = [Placed(row[1], row[4], "stored", row[0]) for row in rows]
        return Pushed(answers, Receipt(device, top, head, []), self._epoch)

    def _newest(self) -> int:
        if self._given is None:
            self._given = self._conn.highest_given()
        return self._given

    def _set_top(self, device: str, top: int) -> None:
        self._conn.execute(
            "INSERT INTO chains (device, top) VALUES (?, ?) ON CONFLICT (device) DO UPDATE SET top = excluded.top",
            (device, top),
        )

    def _all_seen(self, push: Push) -> bool:
        envelopes = [a.envelope for a in push.arrivals if a.envelope is not None]
        if any(e.kind in ("void", "start") for e in envelopes):
            return False
        return all(sees(self._conn, push.sight, s) for s in {e.subject for e in envelopes})

    def _take(self, arrival: Arrival, push: Push) -> Placed:
        """Take one entry, whatever is the matter with it."""
        link = arrival.link
        if link is None:
            self._quarantine(arrival, push.device, None, arrival.problems)
            known = arrival.envelope
            return Placed(known and known.id, known and known.n, "refused", errors=arrival.problems)
        here = self._place(push.device, link.n)
        if here is not None and here[0] == arrival.hash:
            if here[1] is not None:
                return Placed(link.id, link.n, "known", here[1])
            return self._look_again(arrival, link, push)
        problems = list(arrival.problems) or self._not_allowed(arrival, push)
        fault = chain.fault(link.n, arrival.hash, link.prev, self._around(push.device, link, here))
        if fault is not None:
            problems = [fault, *problems]
            self._quarantine(arrival, push.device, None, problems)
            return Placed(link.id, link.n, "refused", errors=problems)
        if not problems and self._id_taken(link.id):
            problems = [problem("id", link.id, "an id no other entry has")]
        self._advance(push.device, link.n)
        e = arrival.envelope
        if problems or e is None:
            self._near[link.n] = (arrival.hash, None)
            self._quarantine(arrival, push.device, link.n, problems)
            return Placed(link.id, link.n, "refused", errors=problems)
        return self._store(arrival, e)

    def _store(self, arrival: Arrival, e: Envelope) -> Placed:
        seq = self._newest() + 1
        self._conn.append([(seq, e.id, e.subject, e.device, e.n, e.kind, e.stamp, arrival.hash, self._now(), arrival.raw)])
        self._given = seq
        self._near[e.n] = (arrival.hash, seq)
        return Placed(e.id, e.n, "stored", seq)

    def _look_again(self, arrival: Arrival, link: "Envelope | Link", push: Push) -> Placed:
        """A refused entry that keeps its place is sent again: what stood against it (a grant not yet here) may be gone."""
        e = arrival.envelope
        problems = list(arrival.problems) or self._not_allowed(arrival, push)
        if not problems and self._id_taken(link.id):
            problems = [problem("id", link.id, "an id no other entry has")]
        if problems or e is None:
            return Placed(link.id, link.n, "refused", errors=problems)
        self._conn.execute("DELETE FROM quarantine WHERE device = ? AND n = ? AND placed = 1", (push.device, link.n))
        return self._store(arrival, e)

    def _not_allowed(self, arrival: Arrival, push: Push) -> list[Problem]:
        """Whether this person may write about this subject, and void this entry."""
        e = arrival.envelope
        if push.sight.audience is None or e is None:
            return []
        if not sees(self._conn, push.sight, e.subject):
            return [problem("subject", e.subject, "a subject this person may see")]
        if isinstance(arrival.body, Void):
            found = self._conn.execute(
                "SELECT 1 FROM entries WHERE id = ? AND device = ? AND subject = ?",
                (arrival.body.entry, push.device, e.subject),
            ).fetchone()
            if found is None:
                return [problem("body.entry", arrival.body.entry, "an entry this device wrote about this subject")]
        # Whoever could put any bike on a start list would come to see it.
        if isinstance(arrival.body, Start) and arrival.body.bike is not None:
            bike = "bike/" + arrival.body.bike
            if not sees(self._conn, push.sight, bike):
                return [problem("body.bike", arrival.body.bike, "a bike this person may see")]
        return []

    def _look_around(self, push: Push) -> None:
        """Read at once what is held where the entries of the push belong: a batch that is resent is one range."""
        self._near = {}
        numbers = [a.link.n for a in push.arrivals if a.link is not None]
        if len(numbers) > 1 and max(numbers) - min(numbers) <= 2 * len(numbers):
            low, high = min(numbers) - 1, max(numbers)
            self._near = dict.fromkeys(range(low, high + 1))
            for n, hash, seq in self._conn.execute(
                "SELECT n, hash, seq FROM places WHERE device = ? AND n BETWEEN ? AND ?", (push.device, low, high)
            ):
                self._near[n] = (hash, seq)

    def _place(self, device: str, n: int) -> tuple[str, int | None] | None:
        if n in self._near:
            return self._near[n]
        found = self._conn.execute("SELECT hash, seq FROM places WHERE device = ? AND n = ?", (device, n)).fetchone()
        return None if found is None else (found[0], found[1])

    def _around(self, device: str, link: "Envelope | Link", here: tuple[str, int | None] | None) -> chain.Around:
        before = self._place(device, link.n - 1) if link.n > 1 else None
        after = self._conn.execute("SELECT bytes FROM places WHERE device = ? AND n = ?", (device, link.n + 1)).fetchone()
        return chain.Around(
            here=here[0] if here else None,
            before=before[0] if before else None,
            named_after=_read_prev(after[0]).prev if after else None,
        )

    def _id_taken(self, id: str) -> bool:
        return self._conn.execute("SELECT 1 FROM entries WHERE id = ?", (id,)).fetchone() is not None

    def _advance(self, device: str, n: int) -> None:
        """The place n of this device is taken: above its top, or in one of its gaps."""
        conn = self._conn
        top = top_of(conn, device)
        if n > top:
            gap = chain.gap_left_by(top, n)
            if gap is not None:
                conn.execute("INSERT INTO gaps (device, low, high) VALUES (?, ?, ?)", (device, gap.low, gap.high))
            self._set_top(device, n)
            return
        found = conn.execute(
            "SELECT low, high FROM gaps WHERE device = ? AND low <= ? ORDER BY low DESC LIMIT 1", (device, n)
        ).fetchone()
        if found is None:
            raise RuntimeError(f"n {n} of device {device} is neither held nor missing")
        low, high = found
        conn.execute("DELETE FROM gaps WHERE device = ? AND low = ?", (device, low))
        conn.executemany(
            "INSERT INTO gaps (device, low, high) VALUES (?, ?, ?)",
            [(device, g.low, g.high) for g in chain.split(chain.Gap(low, high), n)],
        )

    def _quarantine(self, arrival: Arrival, device: str, place: int | None, problems: list[Problem]) -> None:
        n = arrival.link.n if arrival.link is not None else None
        self._conn.execute(
            "INSERT INTO quarantine (device, n, hash, placed, received_at, problems, bytes)"
            " VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
            (device, n, arrival.hash, int(place is not None), self._now(), msgspec.json.encode(problems).decode(), arrival.raw),
        )


def top_of(conn: Connection, device: str) -> int:
    """The highest n held of a device; 0 when there is none."""
    found = conn.execute("SELECT top FROM chains WHERE device = ?", (device,)).fetchone()
    return found[0] if found else 0


def receipt(conn: Connection, device: str) -> Receipt:
    """The receipt of a device as the tables stand."""
    top = top_of(conn, device)
    rows = conn.execute("SELECT low, high FROM gaps WHERE device = ? ORDER BY low LIMIT ?", (device, chain.MOST_MISSING))
    gaps = [chain.Gap(low, high) for low, high in rows]
    n = chain.reached(top, gaps[0] if gaps else None)
    found = conn.execute("SELECT hash FROM places WHERE device = ? AND n = ?", (device, n)).fetchone()
    return Receipt(device, n, found[0] if found else NO_PREV, chain.missing(gaps))


def sees(conn: Connection, sight: Sight, subject: str) -> bool:
    """Whether a subject is within somebody's sight."""
    if sight.audience is None:
        return True
    found = conn.execute("SELECT 1 FROM grants WHERE audience = ? AND subject = ?", (sight.audience, subject)).fetchone()
    return found is not None
