"""Reading a page of the log.

Those who see everything read a plain range of seq. For the others every entry has a place where it is due: its seq, or the
`at` of the grant when that came later. So a new grant brings the subject's past, and the cursor stays one number.
"""

from msgspec import Struct

from pinchbolt.store.database import Connection, Row, span_of
from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import Held, Page, Sight


class Stretch(Struct, frozen=True, gc=False):
    """The place of a page in the log, for those who see everything: above `after`, up to `to`. The rest as in `Page`."""

    after: int
    to: int
    more: bool
    epoch: str
    top: int


def top(conn: Connection) -> int:
    """The highest seq in the log."""
    row = conn.execute("SELECT max(seq) FROM entries").fetchone()
    return row[0] or 0 if row else 0


def stretch(conn: Connection, after: int, limit: int) -> Stretch:
    """Where the page after the cursor `after` ends: at the next seq that `limit` divides, or at the end of the log.

    So phones that come from anywhere soon ask for the same pages, and what one was sent can be kept for the next.
    """
    row = conn.execute(
        "SELECT epoch, (SELECT max(seq) FROM entries), (SELECT min(seq) FROM entries WHERE seq > ?) FROM lives", (after,)
    ).fetchone()
    if row is None:
        raise RuntimeError("a log without a life")
    epoch, last, first = row[0], row[1] or 0, row[2]
    to = last if first is None else min(last, -(-first // limit) * limit)
    return Stretch(after, to, to < last, epoch, last)


def page(conn: Connection, after: int, limit: int, sight: Sight) -> Page:
    """The entries due after the cursor `after`, at most or about `limit` of them: what is due at one place stays together."""
    if sight.audience is None:
        at = stretch(conn, after, limit)
        plain = conn.execute(
            "SELECT seq, received_at, bytes FROM entries WHERE seq > ? AND seq <= ? ORDER BY seq", (after, at.to)
        ).fetchall()
        return Page([Held(seq, received_at, raw) for seq, received_at, raw in plain], at.to, at.more, at.epoch, at.top)
    last, epoch = top(conn), epoch_of(conn)
    rows: list[Row] = []
    more = False
    for row in conn.due(after, sight.audience):
        if len(rows) >= limit and row[0] != rows[-1][0]:
            more = True
            break
        rows.append(row)
    held = [Held(seq, received_at, raw) for _, seq, received_at, raw in rows]
    return Page(held, rows[-1][0] if more else last, more, epoch, last)


def text(conn: Connection, after: int, limit: int, sight: Sight) -> bytes:
    """The same page as JSON, its entries' bytes as they were written. By `top` a device can say how far it is."""
    if sight.audience is None:
        at = stretch(conn, after, limit)
        return b"".join((OPENING, conn.joined(after, at.to), ending(at.to, at.more, at.epoch, at.top)))
    found = page(conn, after, limit, sight)
    return b"".join((OPENING, joined(found), ending(found.next, found.more, found.epoch, found.top)))


OPENING = b'{"entries":['


def ending(following: int, more: bool, epoch: str, last: int) -> bytes:
    """What stands behind the entries of a page."""
    return b'],"next":%d,"more":%s,"epoch":"%s","top":%d}' % (following, b"true" if more else b"false", epoch.encode(), last)


def joined(page: Page) -> bytes:
    """The entries of a page as they are sent, with commas between."""
    return b",".join([one(held) for held in page.held])


def one(held: Held) -> bytes:
    """An entry with the server's place beside it."""
    return b'{"seq":%d,"received_at":"%s","entry":%s}' % (held.seq, held.received_at.encode(), held.raw)


def subjects(conn: Connection, prefix: str, sight: Sight) -> list[str]:
    """The subjects that begin with `prefix` and may be seen, in order."""
    if sight.audience is None:
        return conn.subjects(prefix)
    rows = conn.execute(
        "SELECT subject FROM grants WHERE audience = ? AND subject >= ? AND subject < ? ORDER BY subject",
        (sight.audience, *span_of(prefix)),
    )
    return [subject for (subject,) in rows]
