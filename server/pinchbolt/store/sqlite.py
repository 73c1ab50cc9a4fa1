"""The entry log in one SQLite file: write-ahead log, every commit on the disk before its answer, readers beside the writer."""

import os
import queue
import sqlite3
from collections.abc import Callable, Generator, Iterator, Sequence
from concurrent.futures import Future
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

from pinchbolt.entries import Arrival
from pinchbolt.store import pulling
from pinchbolt.store.appending import Appending, Push, receipt, sees
from pinchbolt.store.committer import Committer
from pinchbolt.store.keys import vouched
from pinchbolt.store.lives import begin_anew, epoch_of
from pinchbolt.store.log import Broken, Closed, Held, Page, Pushed, Receipt, Sight, SignedHead, Vouched
from pinchbolt.store.migrations import migrate
from pinchbolt.store.verifying import verify

# How long one process waits for another that writes, in seconds.
PATIENCE = 10.0
MOST_IDLE_READERS = 8

# The condition is spelt as in the index (migration 3), or that would not be used.
NAMING_PHOTO = (
    "SELECT DISTINCT subject FROM entries WHERE kind = 'photo' AND json_extract(CAST(bytes AS TEXT), '$.body.sha256') = ?"
)


def received_now() -> str:
    """The server's clock as it is written beside an entry."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def connect(file: Path) -> sqlite3.Connection:
    """A connection as every part of the server uses it; the file and what SQLite lays beside it are the owner's alone."""
    # Never opened when it is there: closing any handle of the file drops the locks this process holds on it (POSIX), and a
    # second process would then clear away the write-ahead log under the first (sqlite.org/howtocorrupt.html, 2.2).
    with suppress(FileExistsError):
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    conn = sqlite3.connect(file, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
    conn.execute("PRAGMA journal_mode = WAL")
    conn.execute("PRAGMA synchronous = FULL")
    conn.execute("PRAGMA foreign_keys = ON")
    return conn


class SqliteLog:
    """The log in the file `file`. `committed` is called in the writer's thread after each commit."""

    def __init__(self, file: Path, committed: Callable[[], None] = lambda: None) -> None:
        self._file = file
        conn = connect(file)
        migrate(conn)
        self._appending = Appending(conn, received_now)
        self._committer: Committer[Push, Pushed] = Committer(conn, self._appending.apply, self._appending.forget, committed)
        self._idle: queue.SimpleQueue[sqlite3.Connection] = queue.SimpleQueue()
        self._open = True

    def push(self, device: str, arrivals: Sequence[Arrival], sight: Sight, head: SignedHead | None = None) -> "Future[Pushed]":
        return self._committer.submit(Push(device, arrivals, sight, head))

    def waiting(self) -> int:
        """About how many pushes wait for the disk."""
        return self._committer.waiting()

    def receipt(self, device: str) -> Receipt:
        with self._reader() as conn:
            return receipt(conn, device)

    def pull(self, after: int, limit: int, sight: Sight) -> Page:
        with self._reader() as conn:
            return pulling.page(conn, after, limit, sight)

    def top(self) -> int:
        with self._reader() as conn:
            return pulling.top(conn)

    def last(self, subject: str) -> int:
        with self._reader() as conn:
            (seq,) = conn.execute("SELECT max(seq) FROM entries WHERE subject = ?", (subject,)).fetchone()
            return seq or 0

    def epoch(self) -> str:
        with self._reader() as conn:
            return epoch_of(conn)

    def subjects(self, prefix: str, sight: Sight) -> list[str]:
        with self._reader() as conn:
            return pulling.subjects(conn, prefix, sight)

    def sees(self, sight: Sight, subject: str) -> bool:
        with self._reader() as conn:
            return sees(conn, sight, subject)

    def subjects_of_photo(self, sha256: str) -> list[str]:
        with self._reader() as conn:
            return [subject for (subject,) in conn.execute(NAMING_PHOTO, (sha256,))]

    def of(self, subject: str) -> list[Held]:
        return list(self.everything(subject))

    def quarantined(self, device: str, n: int) -> bytes | None:
        with self._reader() as conn:
            row = conn.execute("SELECT bytes FROM quarantine WHERE device = ? AND n = ? AND placed = 1", (device, n)).fetchone()
            return row[0] if row else None

    def refused(self) -> Iterator[Held]:
        with self._reader() as conn:
            for at, raw in conn.execute("SELECT received_at, bytes FROM quarantine WHERE placed = 1 ORDER BY device, n"):
                yield Held(0, at, raw)

    def everything(self, subject: str | None = None) -> Iterator[Held]:
        sql = "SELECT seq, received_at, bytes FROM entries"
        with self._reader() as conn:
            if subject is None:
                rows = conn.execute(sql + " ORDER BY seq")
            else:
                rows = conn.execute(sql + " WHERE subject = ? ORDER BY seq", (subject,))
            for seq, received_at, raw in rows:
                yield Held(seq, received_at, raw)

    def vouched(self) -> list[Vouched]:
        with self._reader() as conn:
            return vouched(conn)

    def verify(self) -> Iterator[Broken]:
        with self._reader() as conn:
            yield from verify(conn)

    def backup(self, target: Path) -> None:
        copy = connect(target)
        try:
            with self._reader() as conn:
                conn.backup(copy, pages=1000)
            # Whoever puts the copy in the log's place by hand must not be taken for the log itself.
            begin_anew(copy)
            # One plain file, so that it can be carried about by itself.
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            copy.close()

    def close(self) -> None:
        self._open = False
        self._committer.close()
        while not self._idle.empty():
            self._idle.get().close()

    @contextmanager
    def _reader(self) -> Generator[sqlite3.Connection]:
        """A reading connection, inside one read transaction: what it sees does not move."""
        if not self._open:
            raise Closed("the store is closed")
        try:
            conn = self._idle.get_nowait()
        except queue.Empty:
            conn = connect(self._file)
            conn.execute("PRAGMA query_only = ON")
        try:
            conn.execute("BEGIN")
            yield conn
        finally:
            conn.execute("ROLLBACK")
            if self._open and self._idle.qsize() < MOST_IDLE_READERS:
                self._idle.put(conn)
            else:
                conn.close()
