"""Personal data: taking it out whole, erasing it, and erasing it by itself after a time. The log keeps ids only."""

import json
import time
from collections.abc import Callable
from typing import Any, TypeVar

from pinchbolt.access.people import DAY
from pinchbolt.kernel.errors import refuse
from pinchbolt.store.database import Connection, Database, Row
from pinchbolt.store.pool import Pool

FORGOTTEN = "Forgotten"

Found = TypeVar("Found")


def forget(database: Database, person: str) -> None:
    """Erase a person's name, their devices' names, codes and passphrase, and shut their devices out. The id stays in the log.

    The erased bytes go out of the files too. Raises InputError when there is no such person, or it is the last owner.
    """
    pool = Pool(database)
    try:
        with pool.erasing() as conn:
            _forget(conn, person)
    finally:
        pool.close()


def _forget(conn: Connection, person: str) -> None:
    row = conn.execute("SELECT role FROM people WHERE id = ?", (person,)).fetchone()
    if row is None:
        raise refuse("person", person, "the id of a person known here")
    others = conn.execute(
        "SELECT 1 FROM people WHERE role = 'owner' AND forgotten_at IS NULL AND id <> ?", (person,)
    ).fetchone()
    if row[0] == "owner" and others is None:
        raise refuse("person", person, "anybody but the last owner: nobody could let people in any more")
    now = int(time.time())
    conn.execute("UPDATE people SET name = ?, forgotten_at = ? WHERE id = ?", (FORGOTTEN, now, person))
    conn.execute(
        "UPDATE devices SET name = ?, revoked_at = coalesce(revoked_at, ?), revoked_token = coalesce(token, revoked_token),"
        " token = NULL, unsent = NULL WHERE person = ?",
        (FORGOTTEN, now, person),
    )
    conn.execute("DELETE FROM codes WHERE person = ?", (person,))
    conn.execute("DELETE FROM passphrases WHERE person = ?", (person,))
    conn.execute("DELETE FROM passkeys WHERE person = ?", (person,))


def stale(database: Database, days: int, now: float | None = None) -> list[str]:
    """Riders and checkers who came long ago, and of whom and of whose bikes nothing was heard for `days`."""
    if days <= 0:
        return []
    at = time.time() if now is None else now
    since = int(at) - days * DAY
    since_text = time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime(since))
    rows = _read(
        database,
        lambda conn: conn.execute(
            "SELECT id FROM people p WHERE role IN ('rider', 'checker') AND forgotten_at IS NULL AND added_at < ?"
            " AND NOT EXISTS (SELECT 1 FROM devices d WHERE d.person = p.id AND d.used_at >= ?)"
            " AND NOT EXISTS (SELECT 1 FROM grants g JOIN entries e ON e.subject = g.subject"
            "   WHERE g.audience = CAST(p.id AS TEXT) AND e.received_at >= ?)"
            " ORDER BY id",
            (since_text, since, since_text),
        ).fetchall(),
    )
    return [id for (id,) in rows]


def forget_stale(database: Database, days: int, now: float | None = None) -> int:
    """Forget them; how many there were."""
    found = stale(database, days, now)
    for person in found:
        forget(database, person)
    return len(found)


_PERSON = ("id", "name", "role", "added_at")
_DEVICE = ("id", "name", "paired_at", "used_at", "revoked_at", "unsent")


def everything_of(database: Database, person: str) -> dict[str, Any]:
    """All that is held about a person: the person, their devices, and the entries they wrote or that are about their bikes."""

    def read(conn: Connection) -> tuple[Row | None, list[Row], list[Row]]:
        return (
            conn.execute(f"SELECT {', '.join(_PERSON)} FROM people WHERE id = ?", (person,)).fetchone(),
            conn.execute(f"SELECT {', '.join(_DEVICE)} FROM devices WHERE person = ? ORDER BY id", (person,)).fetchall(),
            list(conn.written_by_or_granted(person)),
        )

    row, devices, entries = _read(database, read)
    if row is None:
        raise refuse("person", person, "the id of a person known here")
    return {
        "person": dict(zip(_PERSON, row, strict=True)),
        "devices": [dict(zip(_DEVICE, d, strict=True)) for d in devices],
        "entries": [{"seq": seq, "received_at": at, "entry": json.loads(raw)} for seq, at, raw in entries],
    }


def _read(database: Database, work: Callable[[Connection], Found]) -> Found:
    pool = Pool(database)
    try:
        with pool.reading() as conn:
            return work(conn)
    finally:
        pool.close()
