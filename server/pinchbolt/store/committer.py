"""One thread that writes, and group commit: what waits while one transaction runs goes to the disk together in the next.

Each job is answered after the commit that holds it. A job that fails takes its transaction down; the others of the group are
then done again one by one, so that nobody pays for another's fault.
"""

import logging
import queue
import threading
from collections.abc import Callable
from concurrent.futures import Future
from typing import Generic, TypeVar

from pinchbolt.store.database import Connection
from pinchbolt.store.log import Closed, StoreError

Job = TypeVar("Job")
Result = TypeVar("Result")

MOST_IN_GROUP = 64

log = logging.getLogger("pinchbolt.store")


class Again(Exception):
    """The job wants to be done once more, in a transaction of its own. To be raised once at most for a job."""


class Committer(Generic[Job, Result]):
    """Owns the writing connection and its thread. `changed` is told when others wrote or a transaction was undone."""

    def __init__(
        self,
        conn: Connection,
        apply: Callable[[Job], Result],
        changed: Callable[[], None],
        committed: Callable[[], None],
    ) -> None:
        self._conn = conn
        self._apply = apply
        self._changed = changed
        self._committed = committed
        self._waiting: queue.SimpleQueue[tuple[Job, Future[Result]] | None] = queue.SimpleQueue()
        self._open = True
        self._gate = threading.Lock()
        self._thread = threading.Thread(target=self._run, name="pinchbolt-writer", daemon=True)
        self._thread.start()

    def submit(self, job: Job) -> "Future[Result]":
        """Queue a job; the future is done after its commit."""
        future: Future[Result] = Future()
        with self._gate:
            if not self._open:
                raise Closed("the store is closed")
            self._waiting.put((job, future))
        return future

    def waiting(self) -> int:
        """About how many jobs wait."""
        return self._waiting.qsize()

    def close(self) -> None:
        """Finish what waits, then stop."""
        with self._gate:
            if not self._open:
                return
            self._open = False
            self._waiting.put(None)
        self._thread.join()
        self._conn.close()

    def _run(self) -> None:
        while True:
            first = self._waiting.get()
            if first is None:
                return
            group = [first]
            last = False
            while len(group) < MOST_IN_GROUP and not self._waiting.empty():
                following = self._waiting.get()
                if following is None:
                    last = True
                    break
                group.append(following)
            self._do(group)
            if last:
                return

    def _do(self, group: "list[tuple[Job, Future[Result]]]") -> None:
        try:
            results = self._transact([job for job, _ in group])
        except Exception as error:
            if len(group) > 1 or isinstance(error, Again):
                for one in group:
                    self._do([one])
            else:
                group[0][1].set_exception(_told(error))
            return
        self._committed()
        for (_, future), result in zip(group, results, strict=True):
            future.set_result(result)

    def _transact(self, jobs: list[Job]) -> list[Result]:
        try:
            with self._conn.alone():
                if self._conn.others_wrote():
                    # What is remembered of the tables may be old.
                    self._changed()
                return [self._apply(job) for job in jobs]
        except BaseException:
            self._changed()
            raise


def _told(error: Exception) -> Exception:
    if not isinstance(error, StoreError):
        log.exception("a push failed", exc_info=error)
    return error
