"""Reading a page of the log.

Those who see everything read a plain range of seq. For the others every entry has a place where it is due: its seq, or the
`at` of the grant when that came later. So a new grant brings the subject's past, and the cursor stays one number.
"""

from pinchbolt.store.database import Connection, Row, span_of
from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import Held, Page, Sight


def top(conn: Connection) -> int:
    """The highest seq in the log."""
    row = conn.execute("SELECT max(seq) FROM entries").fetchone()
    return row[0] or 0 if row else 0


def page(conn: Connection, after: int, limit: int, sight: Sight) -> Page:
    """The entries due after the cursor `after`, about `limit` of them: what is due at one place stays together."""
    last, epoch = top(conn), epoch_of(conn)
    if sight.audience is None:
        plain = conn.execute(
            "SELECT seq, received_at, bytes FROM entries WHERE seq > ? ORDER BY seq LIMIT ?", (after, limit + 1)
        ).fetchall()
        more = len(plain) > limit
        held = [Held(seq, at, raw) for seq, at, raw in plain[:limit]]
        return Page(held, held[-1].seq if more else last, more, epoch, last)
    rows: list[Row] = []
    more = False
    for row in conn.due(after, sight.audience):
        if len(rows) >= limit and row[0] != rows[-1][0]:
            more = True
            break
        rows.append(row)
    held = [Held(seq, at, raw) for _, seq, at, raw in rows]
    return Page(held, rows[-1][0] if more else last, more, epoch, last)


def text(conn: Connection, after: int, limit: int, sight: Sight) -> bytes:
    """The same page as JSON, its entries' bytes as they were written. By `top` a device can say how far it is."""
    if sight.audience is None:
        last, epoch = top(conn), epoch_of(conn)
        reached, entries = conn.joined(after, limit)
        more = reached < last
        return _page(entries, reached if more else last, more, epoch, last)
    found = page(conn, after, limit, sight)
    return _page(b",".join([one(held) for held in found.held]), found.next, found.more, found.epoch, found.top)


def one(held: Held) -> bytes:
    """An entry with the server's place beside it."""
    return b'{"seq":%d,"received_at":"%s","entry":%s}' % (held.seq, held.received_at.encode(), held.raw)


def _page(entries: bytes, following: int, more: bool, epoch: str, last: int) -> bytes:
    ending = (following, b"true" if more else b"false", epoch.encode(), last)
    return b'{"entries":[' + entries + b'],"next":%d,"more":%s,"epoch":"%s","top":%d}' % ending


def subjects(conn: Connection, prefix: str, sight: Sight) -> list[str]:
    """The subjects that begin with `prefix` and may be seen, in order."""
    if sight.audience is None:
        return conn.subjects(prefix)
    rows = conn.execute(
        "SELECT subject FROM grants WHERE audience = ? AND subject >= ? AND subject < ? ORDER BY subject",
        (sight.audience, *span_of(prefix)),
    )
    return [subject for (subject,) in rows]
