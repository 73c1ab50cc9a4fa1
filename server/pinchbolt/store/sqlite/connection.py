"""A connection to SQLite, and what SQLite says in its own words."""

import logging
import os
import sqlite3
from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path

from pinchbolt.store.database import ENTRY_COLUMNS, EntryRow, Row, Rows, Taken, span_of
from pinchbolt.store.log import SHARED_KINDS, Full, StoreError

# How long one process waits for another that writes, in seconds.
PATIENCE = 10.0

log = logging.getLogger("pinchbolt.store")

# The condition is spelt as in the index (migration 3), or that would not be used.
NAMING_PHOTO = (
    "SELECT DISTINCT subject FROM entries WHERE kind = 'photo' AND json_extract(CAST(bytes AS TEXT), '$.body.sha256') = ?"
)

# Python's interpreter lock is given up once a statement: with a row in each, a writer beside busy threads waits at every row.
ROWS_A_STATEMENT = 50

_SHARED = ", ".join(f"'{kind}'" for kind in SHARED_KINDS)

# The two arms of the CASE keep each grant a range of the index: only what is due is read.
_DUE = f"""
SELECT max(e.seq, g.at) AS due, e.seq, e.received_at, e.bytes
  FROM grants g CROSS JOIN entries e
    ON e.subject = g.subject AND e.seq > CASE WHEN g.at > ?1 THEN 0 ELSE ?1 END
  WHERE g.audience = ?2
UNION ALL
SELECT seq, seq, received_at, bytes FROM entries
  WHERE subject = 'workshop' AND seq > ?1 AND kind IN ({_SHARED})
ORDER BY 1, 2
"""

# A page put together by the engine: no row passes through Python, which took most of a pull's time.
_JOINED = """
SELECT CAST(group_concat(
    '{"seq":' || seq || ',"received_at":"' || received_at || '","entry":' || CAST(bytes AS TEXT) || '}') AS BLOB)
  FROM (SELECT seq, received_at, bytes FROM entries WHERE seq > ? AND seq <= ? ORDER BY seq)
"""

# Walks the index from one subject to the next.
_SUBJECTS = """
WITH RECURSIVE walk (subject) AS (
  SELECT min(subject) FROM entries WHERE subject >= ?1 AND subject < ?2
  UNION ALL
  SELECT (SELECT min(subject) FROM entries WHERE subject > walk.subject AND subject < ?2)
    FROM walk WHERE walk.subject IS NOT NULL
)
SELECT subject FROM walk WHERE subject IS NOT NULL
"""

_WRITTEN_OR_GRANTED = (
    "SELECT seq, received_at, bytes FROM entries WHERE subject IN (SELECT subject FROM grants WHERE audience = ?1)"
    " OR json_extract(CAST(bytes AS TEXT), '$.by') = ?1 ORDER BY seq"
)


@cache
def _append(rows: int) -> str:
    return f"INSERT INTO entries ({ENTRY_COLUMNS}) VALUES " + ", ".join(["(?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"] * rows)


def open_file(file: Path) -> sqlite3.Connection:
    """SQLite as every part of the server uses it; the file and what SQLite lays beside it are the owner's alone."""
    # Never opened when it is there: closing any handle of the file drops the locks this process holds on it (POSIX), and a
    # second process would then clear away the write-ahead log under the first (sqlite.org/howtocorrupt.html, 2.2).
    with suppress(FileExistsError):
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    conn = sqlite3.connect(file, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
    conn.execute("PRAGMA journal_mode = WAL")
    conn.execute("PRAGMA synchronous = FULL")
    conn.execute("PRAGMA foreign_keys = ON")
    return conn


class SqliteConnection:
    """`store.database.Connection` over one of SQLite's."""

    def __init__(self, raw: sqlite3.Connection) -> None:
        self.raw = raw
        self._version = -1

    def execute(self, sql: str, values: Sequence[object] = ()) -> Rows:
        try:
            return self.raw.execute(sql, values)  # pyright: ignore[reportArgumentType]
        except sqlite3.Error as error:
            raise _told(error) from error

    def executemany(self, sql: str, rows: Sequence[Sequence[object]]) -> None:
        try:
            self.raw.executemany(sql, rows)  # pyright: ignore[reportArgumentType]
        except sqlite3.Error as error:
            raise _told(error) from error

    def stream(self, sql: str, values: Sequence[object] = ()) -> Iterator[Row]:
        return iter(self.execute(sql, values))

    def one(self, sql: str, values: Sequence[object] = ()) -> Row | None:
        return self.execute(sql, values).fetchone()

    @contextmanager
    def reading(self) -> Generator[None]:
        self.execute("BEGIN")
        try:
            yield
        finally:
            self._rollback()

    @contextmanager
    def alone(self) -> Generator[None]:
        self.execute("BEGIN IMMEDIATE")
        try:
            yield
            self.execute("COMMIT")
        except BaseException:
            self._rollback()
            raise

    # SQLite has one writer anyway.
    changing = alone

    @contextmanager
    def erasing(self) -> Generator[None]:
        # Overwrites what is erased with zeros (sqlite.org/pragma.html#pragma_secure_delete).
        self.execute("PRAGMA secure_delete = ON")
        with self.alone():
            yield
        self.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()

    def others_wrote(self) -> bool:
        before = self._version
        (self._version,) = self.raw.execute("PRAGMA data_version").fetchone()
        return self._version != before

    def highest_given(self) -> int:
        found = self.execute("SELECT seq FROM sqlite_sequence WHERE name = 'entries'").fetchone()
        return found[0] if found else 0

    def leap(self, by: int) -> None:
        # A log that never held an entry has no row in this table.
        self.execute(
            "INSERT INTO sqlite_sequence (name, seq) SELECT 'entries', 0"
            " WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = 'entries')"
        )
        self.execute("UPDATE sqlite_sequence SET seq = seq + ? WHERE name = 'entries'", (by,))

    def append(self, rows: Sequence[EntryRow]) -> None:
        for at in range(0, len(rows), ROWS_A_STATEMENT):
            some = rows[at : at + ROWS_A_STATEMENT]
            self.execute(_append(len(some)), [value for row in some for value in row])

    def joined(self, after: int, to: int) -> bytes:
        (text,) = self.execute(_JOINED, (after, to)).fetchone() or (None,)
        return text or b""

    def due(self, after: int, audience: str) -> Iterator[Row]:
        return self.stream(_DUE, (after, audience))

    def subjects(self, prefix: str) -> list[str]:
        return [subject for (subject,) in self.execute(_SUBJECTS, span_of(prefix))]

    def naming_photo(self, sha256: str) -> list[str]:
        return [subject for (subject,) in self.execute(NAMING_PHOTO, (sha256,))]

    def written_by_or_granted(self, person: str) -> Iterator[Row]:
        return self.stream(_WRITTEN_OR_GRANTED, (person,))

    def unsound(self) -> Iterator[str]:
        for (found,) in self.execute("PRAGMA quick_check(1)"):
            if found != "ok":
                yield str(found)

    def close(self) -> None:
        self.raw.close()

    def _rollback(self) -> None:
        if self.raw.in_transaction:
            self.raw.execute("ROLLBACK")


def _told(error: sqlite3.Error) -> Exception:
    """SQLite's error as the store's own."""
    if isinstance(error, sqlite3.IntegrityError):
        return Taken(str(error))
    name = getattr(error, "sqlite_errorname", "") or ""
    log.error("SQLite could not do it: %s %s", name, error)
    if name.startswith(("SQLITE_FULL", "SQLITE_IOERR", "SQLITE_READONLY", "SQLITE_CANTOPEN")):
        return Full("no room on the disk, or no right to write there")
    return StoreError(f"the store could not do it: {error}")
