"""A connection to PostgreSQL, and what PostgreSQL says in its own words."""

import logging
from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import lru_cache
from typing import Any

import msgspec
import psycopg
from psycopg import errors
from psycopg.types.string import TextLoader

from pinchbolt.store.database import ENTRY_COLUMNS, EntryRow, Row, Rows, Taken, span_of
from pinchbolt.store.log import SHARED_KINDS, Full, StoreError

# Where processes tell each other that the log has grown.
CHANNEL = "pinchbolt"
# Rows fetched at once when a result is not to be held whole.
STREAMED = 2000

log = logging.getLogger("pinchbolt.store")

_SHARED = ", ".join(f"'{kind}'" for kind in SHARED_KINDS)

# One statement and one way to the server and back for a whole batch.
_APPEND = f"""
WITH new ({ENTRY_COLUMNS}) AS (
  SELECT * FROM unnest(%s::bigint[], %s::uuid[], %s::text[], %s::uuid[], %s::bigint[],
                       %s::text[], %s::text[], %s::text[], %s::text[], %b::bytea[])
), named AS (
  INSERT INTO subjects SELECT DISTINCT subject FROM new ON CONFLICT DO NOTHING
), numbered AS (
  INSERT INTO numbers (device, n, id, hash, subject, seq) SELECT device, n, id, hash, subject, seq FROM new
)
INSERT INTO entries ({ENTRY_COLUMNS}) SELECT {ENTRY_COLUMNS} FROM new
"""

_NAME_PHOTO = b"INSERT INTO photos (sha256, subject) VALUES (%s, %s) ON CONFLICT DO NOTHING"

_DUE = f"""
SELECT greatest(e.seq, g.at) AS due, e.seq, e.received_at, e.bytes
  FROM grants g JOIN entries e
    ON e.subject = g.subject AND e.seq > CASE WHEN g.at > %(after)s::bigint THEN 0 ELSE %(after)s::bigint END
  WHERE g.audience = %(audience)s
UNION ALL
SELECT seq, seq, received_at, bytes FROM entries
  WHERE subject = 'workshop' AND seq > %(after)s::bigint AND kind IN ({_SHARED})
ORDER BY 1, 2
"""

_JOINED = b"""
SELECT string_agg(
    convert_to('{"seq":' || seq || ',"received_at":"' || received_at || '","entry":', 'UTF8') || bytes || '}', ',' ORDER BY seq)
  FROM entries WHERE seq > %s AND seq <= %s
"""

_WRITTEN_OR_GRANTED = b"""
SELECT seq, received_at, bytes FROM entries
  WHERE subject IN (SELECT subject FROM grants WHERE audience = %(person)s)
     OR convert_from(bytes, 'UTF8')::json ->> 'by' = %(person)s
ORDER BY seq
"""

# What stands in one of the two tables and not, or otherwise, in the other.
_UNSOUND = """
SELECT coalesce(e.seq, p.seq) FROM entries e FULL JOIN numbers p ON p.subject = e.subject AND p.seq = e.seq
  WHERE (e.id, e.device, e.n, e.hash) IS DISTINCT FROM (p.id, p.device, p.n, p.hash) ORDER BY 1 LIMIT 1
"""


class _Photo(msgspec.Struct):
    sha256: str


class _Naming(msgspec.Struct):
    body: _Photo


_read_naming = msgspec.json.Decoder(_Naming).decode


class PostgresConnection:
    """`store.database.Connection` over one of PostgreSQL's; one that was lost is made anew for the next transaction."""

    def __init__(self, url: str) -> None:
        self._url = url
        self._conn = open_server(url)
        self._writes = -1
        self._others = True
        self._given = 0

    def execute(self, sql: str, values: Sequence[object] = ()) -> Rows:
        try:
            return self._conn.execute(_spelt(sql), values) if values else self._conn.execute(sql.encode())
        except psycopg.Error as error:
            raise told(error) from error

    def executemany(self, sql: str, rows: Sequence[Sequence[object]]) -> None:
        try:
            with self._conn.cursor() as cursor:
                cursor.executemany(_spelt(sql), rows)
        except psycopg.Error as error:
            raise told(error) from error

    def stream(self, sql: str, values: Sequence[object] = ()) -> Iterator[Row]:
        return self._stream(_spelt(sql), values) if values else self._stream(sql.encode(), None)

    def one(self, sql: str, values: Sequence[object] = ()) -> Row | None:
        # Its BEGIN is what finds out that the connection was lost.
        with self.reading():
            return self.execute(sql, values).fetchone()

    @contextmanager
    def reading(self) -> Generator[None]:
        self._begin("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY")
        try:
            yield
        finally:
            self._rollback()

    @contextmanager
    def alone(self) -> Generator[None]:
        self._begin("BEGIN")
        try:
            row = self.execute("SELECT seq, writes FROM lives FOR UPDATE").fetchone()
            if row is None:
                raise StoreError("the database has lost its life")
            self._given, writes = row
            self._others = writes != self._writes
            yield
            self._finish(writes + 1)
            self._writes = writes + 1
        except BaseException:
            self._rollback()
            raise

    @contextmanager
    def changing(self) -> Generator[None]:
        self._begin("BEGIN")
        try:
            yield
            self.execute("COMMIT")
        except BaseException:
            self._rollback()
            raise

    @contextmanager
    def erasing(self) -> Generator[None]:
        with self.alone():
            yield
        # Writes the few rows of these tables into new files, without what is erased.
        for table in ("people", "devices", "codes", "passphrases", "passkeys"):
            self.execute("VACUUM FULL " + table)

    def others_wrote(self) -> bool:
        return self._others

    def highest_given(self) -> int:
        return self._given

    def leap(self, by: int) -> None:
        self._given += by

    def append(self, rows: Sequence[EntryRow]) -> None:
        if not rows:
            return
        try:
            self._conn.execute(_APPEND.encode(), [list(column) for column in zip(*rows, strict=True)])
            for row in rows:
                if row[5] == "photo":
                    self._conn.execute(_NAME_PHOTO, (_read_naming(row[9]).body.sha256, row[2]))
        except psycopg.Error as error:
            raise told(error) from error
        self._given = max(self._given, rows[-1][0])

    def joined(self, after: int, to: int) -> bytes:
        try:
            (text,) = self._conn.execute(_JOINED, (after, to), binary=True).fetchone() or (None,)
        except psycopg.Error as error:
            raise told(error) from error
        return text or b""

    def due(self, after: int, audience: str) -> Iterator[Row]:
        return self._stream(_DUE.encode(), {"after": after, "audience": audience})

    def subjects(self, prefix: str) -> list[str]:
        rows = self.execute("SELECT subject FROM subjects WHERE subject >= ? AND subject < ? ORDER BY subject", span_of(prefix))
        return [subject for (subject,) in rows]

    def naming_photo(self, sha256: str) -> list[str]:
        return [subject for (subject,) in self.execute("SELECT subject FROM photos WHERE sha256 = ?", (sha256,))]

    def written_by_or_granted(self, person: str) -> Iterator[Row]:
        return self._stream(_WRITTEN_OR_GRANTED, {"person": person})

    def unsound(self) -> Iterator[str]:
        for (seq,) in self.execute(_UNSOUND):
            yield f"seq {seq} stands otherwise in entries than in numbers"

    def close(self) -> None:
        self._conn.close()

    def _stream(self, sql: bytes, values: Any) -> Iterator[Row]:
        try:
            with self._conn.cursor(name="stream") as cursor:
                cursor.itersize = STREAMED
                yield from cursor.execute(sql, values)
        except psycopg.Error as error:
            raise told(error) from error

    def _begin(self, begin: str) -> None:
        try:
            self._conn.execute(begin.encode())
        except psycopg.OperationalError:
            if not self._conn.closed:
                raise
            self._conn = open_server(self._url)
            self.execute(begin)

    def _finish(self, writes: int) -> None:
        """The counters, the news and the commit, in one way to the server and back."""
        last = f"UPDATE lives SET seq = {self._given:d}, writes = {writes:d}; NOTIFY {CHANNEL}; COMMIT"
        try:
            self._conn.execute(last.encode())
        except psycopg.Error as error:
            raise told(error) from error

    def _rollback(self) -> None:
        # A connection that was lost rolls back by itself.
        with suppress(psycopg.OperationalError):
            if not self._conn.closed:
                self._conn.execute(b"ROLLBACK")


def open_server(url: str) -> "psycopg.Connection[Row]":
    """A connection as every part of the server uses it; ids come as text. Raises StoreError."""
    try:
        conn = psycopg.connect(url, autocommit=True, application_name="pinchbolt")
    except psycopg.OperationalError as error:
        raise StoreError(f"the PostgreSQL server does not let us in: {str(error).strip()}") from None
    conn.adapters.register_loader("uuid", TextLoader)
    return conn


@lru_cache
def _spelt(sql: str) -> bytes:
    """A statement with its values marked as this driver wants them."""
    return sql.replace("%", "%%").replace("?", "%s").encode()


def told(error: psycopg.Error) -> Exception:
    """PostgreSQL's error as the store's own."""
    if isinstance(error, errors.IntegrityError):
        return Taken(str(error))
    log.error("PostgreSQL could not do it: %s %s", error.sqlstate, error)
    if isinstance(error, errors.DiskFull):
        return Full("no room on the database's disk")
    return StoreError(f"the database could not do it: {error}")
