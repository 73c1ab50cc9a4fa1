"""Reading a page of the log.

Those who see everything read a plain range of seq. For the others every entry has a place where it is due: its seq, or the
`at` of the grant when that came later. So a new grant brings the subject's past, and the cursor stays one number.
"""

import sqlite3

from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import SHARED_KINDS, Held, Page, Sight

_SHARED = ", ".join(f"'{kind}'" for kind in SHARED_KINDS)

# The two arms of the CASE keep each grant a range of the index: only what is due is read.
_DUE = f"""
SELECT max(e.seq, g.at) AS due, e.seq, e.received_at, e.bytes
  FROM grants g CROSS JOIN entries e
    ON e.subject = g.subject AND e.seq > CASE WHEN g.at > :after THEN 0 ELSE :after END
  WHERE g.audience = :audience
UNION ALL
SELECT seq, seq, received_at, bytes FROM entries
  WHERE subject = 'workshop' AND seq > :after AND kind IN ({_SHARED})
ORDER BY 1, 2
"""


def top(conn: sqlite3.Connection) -> int:
    """The highest seq in the log."""
    return conn.execute("SELECT max(seq) FROM entries").fetchone()[0] or 0


def page(conn: sqlite3.Connection, after: int, limit: int, sight: Sight) -> Page:
    """The entries due after the cursor `after`, about `limit` of them: what is due at one place stays together."""
    if sight.audience is None:
        plain = conn.execute(
            "SELECT seq, received_at, bytes FROM entries WHERE seq > ? ORDER BY seq LIMIT ?", (after, limit + 1)
        ).fetchall()
        more = len(plain) > limit
        held = [Held(seq, at, raw) for seq, at, raw in plain[:limit]]
        return Page(held, held[-1].seq if more else top(conn), more, epoch_of(conn))
    rows: list[tuple[int, int, str, bytes]] = []
    more = False
    for row in conn.execute(_DUE, {"after": after, "audience": sight.audience}):
        if len(rows) >= limit and row[0] != rows[-1][0]:
            more = True
            break
        rows.append(row)
    held = [Held(seq, at, raw) for _, seq, at, raw in rows]
    return Page(held, rows[-1][0] if more else top(conn), more, epoch_of(conn))


def subjects(conn: sqlite3.Connection, prefix: str, sight: Sight) -> list[str]:
    """The subjects that begin with `prefix`, by walking the index from one to the next."""
    # "0" follows "/" in ASCII, so prefix..end holds exactly what begins with "bike/".
    end = prefix[:-1] + chr(ord(prefix[-1]) + 1)
    if sight.audience is not None:
        rows = conn.execute(
            "SELECT subject FROM grants WHERE audience = ? AND subject >= ? AND subject < ? ORDER BY subject",
            (sight.audience, prefix, end),
        )
        return [subject for (subject,) in rows]
    rows = conn.execute(
        """
        WITH RECURSIVE walk (subject) AS (
          SELECT min(subject) FROM entries WHERE subject >= :prefix AND subject < :end
          UNION ALL
          SELECT (SELECT min(subject) FROM entries WHERE subject > walk.subject AND subject < :end)
            FROM walk WHERE walk.subject IS NOT NULL
        )
        SELECT subject FROM walk WHERE subject IS NOT NULL
        """,
        {"prefix": prefix, "end": end},
    )
    return [subject for (subject,) in rows]
