"""Personal data: taking it out whole, erasing it, and erasing it by itself after a time. The log keeps ids only."""

import json
import sqlite3
import time
from pathlib import Path
from typing import Any

from pinchbolt.access.people import DAY
from pinchbolt.kernel.errors import refuse
from pinchbolt.store.sqlite import connect

FORGOTTEN = "Forgotten"


def forget(file: Path, person: str) -> None:
    """Erase a person's name, their devices' names, codes and passphrase, and shut their devices out. The id stays in the log.

    The erased bytes are overwritten in the file too. Raises InputError when there is no such person, or it is the last owner.
    """
    conn = connect(file)
    try:
        # Overwrites what is erased with zeros (sqlite.org/pragma.html#pragma_secure_delete).
        conn.execute("PRAGMA secure_delete = ON")
        conn.execute("BEGIN IMMEDIATE")
        try:
            _forget(conn, person)
            conn.execute("COMMIT")
        except BaseException:
            conn.execute("ROLLBACK")
            raise
        conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        conn.close()


def _forget(conn: sqlite3.Connection, person: str) -> None:
    row = conn.execute("SELECT role FROM people WHERE id = ?", (person,)).fetchone()
    if row is None:
        raise refuse("person", person, "the id of a person known here")
    owners = conn.execute("SELECT count(*) FROM people WHERE role = 'owner' AND forgotten_at IS NULL").fetchone()[0]
    if row[0] == "owner" and owners < 2:
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


def stale(file: Path, days: int, now: float | None = None) -> list[str]:
    """Riders and checkers who came long ago, and of whom and of whose bikes nothing was heard for `days`."""
    if days <= 0:
        return []
    at = time.time() if now is None else now
    since = int(at) - days * DAY
    since_text = time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime(since))
    conn = connect(file)
    try:
        rows = conn.execute(
            "SELECT id FROM people p WHERE role IN ('rider', 'checker') AND forgotten_at IS NULL AND added_at < :text"
            " AND NOT EXISTS (SELECT 1 FROM devices d WHERE d.person = p.id AND d.used_at >= :since)"
            " AND NOT EXISTS (SELECT 1 FROM grants g JOIN entries e ON e.subject = g.subject"
            "   WHERE g.audience = p.id AND e.received_at >= :text)"
            " ORDER BY id",
            {"since": since, "text": since_text},
        ).fetchall()
    finally:
        conn.close()
    return [id for (id,) in rows]


def forget_stale(file: Path, days: int, now: float | None = None) -> int:
    """Forget them; how many there were."""
    found = stale(file, days, now)
    for person in found:
        forget(file, person)
    return len(found)


def everything_of(file: Path, person: str) -> dict[str, Any]:
    """All that is held about a person: the person, their devices, and the entries they wrote or that are about their bikes."""
    conn = connect(file)
    try:
        row = conn.execute("SELECT id, name, role, added_at FROM people WHERE id = ?", (person,)).fetchone()
        if row is None:
            raise refuse("person", person, "the id of a person known here")
        devices = conn.execute(
            "SELECT id, name, paired_at, used_at, revoked_at, unsent FROM devices WHERE person = ? ORDER BY id", (person,)
        ).fetchall()
        entries = conn.execute(
            "SELECT seq, received_at, bytes FROM entries WHERE subject IN (SELECT subject FROM grants WHERE audience = ?1)"
            " OR json_extract(CAST(bytes AS TEXT), '$.by') = ?1 ORDER BY seq",
            (person,),
        ).fetchall()
    finally:
        conn.close()
    return {
        "person": dict(zip(("id", "name", "role", "added_at"), row, strict=True)),
        "devices": [dict(zip(("id", "name", "paired_at", "used_at", "revoked_at", "unsent"), d, strict=True)) for d in devices],
        "entries": [{"seq": seq, "received_at": at, "entry": json.loads(raw)} for seq, at, raw in entries],
    }
