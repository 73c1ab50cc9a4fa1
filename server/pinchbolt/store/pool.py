"""Connections lent out: a transaction at a time, from any thread."""

import threading
from collections.abc import Callable, Generator, Sequence
from contextlib import AbstractContextManager, contextmanager
from queue import Empty, SimpleQueue

from pinchbolt.store.database import Connection, Database, Row
from pinchbolt.store.log import Closed

MOST_IDLE = 4
# So many are open at once at most: an engine in processes of its own counts every one.
MOST_OPEN = 12


class Pool:
    """Lends the connections of a database."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._idle: SimpleQueue[Connection] = SimpleQueue()
        self._places = threading.BoundedSemaphore(MOST_OPEN)
        self._open = True

    def one(self, sql: str, values: Sequence[object] = ()) -> Row | None:
        """The first row of a statement that reads, by itself; None when there is none."""
        conn = self._take()
        try:
            return conn.one(sql, values)
        finally:
            self._give(conn)

    def reading(self) -> AbstractContextManager[Connection]:
        return self._lent(lambda conn: conn.reading())

    def alone(self) -> AbstractContextManager[Connection]:
        return self._lent(lambda conn: conn.alone())

    def changing(self) -> AbstractContextManager[Connection]:
        return self._lent(lambda conn: conn.changing())

    def erasing(self) -> AbstractContextManager[Connection]:
        return self._lent(lambda conn: conn.erasing())

    def close(self) -> None:
        """Nothing is lent any more; what is out closes when it comes back."""
        self._open = False
        while True:
            try:
                self._idle.get_nowait().close()
            except Empty:
                return

    @contextmanager
    def _lent(self, transaction: Callable[[Connection], AbstractContextManager[None]]) -> Generator[Connection]:
        conn = self._take()
        try:
            with transaction(conn):
                yield conn
        finally:
            self._give(conn)

    def _take(self) -> Connection:
        if not self._open:
            raise Closed("the store is closed")
        self._places.acquire()
        try:
            return self._idle.get_nowait()
        except Empty:
            try:
                return self._database.connect()
            except BaseException:
                self._places.release()
                raise

    def _give(self, conn: Connection) -> None:
        try:
            if self._open and self._idle.qsize() < MOST_IDLE:
                self._idle.put(conn)
            else:
                conn.close()
        finally:
            self._places.release()
