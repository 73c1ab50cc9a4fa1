"""The entry log over any engine: one thread that writes, readers beside it."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future
from datetime import UTC, datetime
from pathlib import Path

from pinchbolt.entries import Arrival
from pinchbolt.store import packing, pulling, replaying
from pinchbolt.store.appending import Appending, Push, receipt, sees
from pinchbolt.store.committer import Committer
from pinchbolt.store.database import Database
from pinchbolt.store.keys import vouched
from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import Broken, Held, Page, Pushed, Receipt, Sight, SignedHead, Vouched
from pinchbolt.store.pool import Pool
from pinchbolt.store.verifying import verify


def received_now() -> str:
    """The server's clock as it is written beside an entry."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class EntryLog:
    """The log in `database`. `committed` is called after each commit, this process's or another's, in any thread."""

    def __init__(self, database: Database, committed: Callable[[], None] = lambda: None) -> None:
        database.migrate()
        self._database = database
        conn = database.connect()
        self._appending = Appending(conn, received_now)
        self._committer: Committer[Push, Pushed] = Committer(conn, self._appending.apply, self._appending.forget, committed)
        self._pool = Pool(database)
        self._packed = packing.PackedPages()
        self._unwatch = database.watch(committed)

    def push(self, device: str, arrivals: Sequence[Arrival], sight: Sight, head: SignedHead | None = None) -> "Future[Pushed]":
        return self._committer.submit(Push(device, arrivals, sight, head))

    def known(self, device: str, entries: Sequence[bytes]) -> Pushed | None:
        if not self._database.at_hand or not entries:
            return None
        last = replaying.number(entries[-1])
        if last is None or last > self._appending.reached(device):
            return None
        with self._pool.reading() as conn:
            return replaying.answer(conn, device, entries)

    def waiting(self) -> int:
        """About how many pushes wait for the disk."""
        return self._committer.waiting()

    def receipt(self, device: str) -> Receipt:
        with self._pool.reading() as conn:
            return receipt(conn, device)

    def pull(self, after: int, limit: int, sight: Sight) -> Page:
        with self._pool.reading() as conn:
            return pulling.page(conn, after, limit, sight)

    def pull_text(self, after: int, limit: int, sight: Sight) -> bytes:
        with self._pool.reading() as conn:
            return pulling.text(conn, after, limit, sight)

    def pull_packed(self, after: int, limit: int, sight: Sight) -> bytes:
        if sight.audience is not None:
            page = self.pull(after, limit, sight)
            ending = pulling.ending(page.next, page.more, page.epoch, page.top)
            return packing.ended(packing.pack(pulling.joined(page)), ending)
        with self._pool.reading() as conn:
            at = pulling.stretch(conn, after, limit)

        def joined() -> bytes:
            # What is in the log stays as it is, so it may be read in a second transaction.
            with self._pool.reading() as conn:
                return conn.joined(at.after, at.to)

        if at.to - at.after == limit:
            packed = self._packed.page((at.epoch, at.after, at.to), joined)
        else:
            packed = packing.pack(joined() if at.to > at.after else b"")
        return packing.ended(packed, pulling.ending(at.to, at.more, at.epoch, at.top))

    def top(self) -> int:
        with self._pool.reading() as conn:
            return pulling.top(conn)

    def last(self, subject: str) -> int:
        with self._pool.reading() as conn:
            row = conn.execute("SELECT max(seq) FROM entries WHERE subject = ?", (subject,)).fetchone()
            return row[0] or 0 if row else 0

    def epoch(self) -> str:
        with self._pool.reading() as conn:
            return epoch_of(conn)

    def subjects(self, prefix: str, sight: Sight) -> list[str]:
        with self._pool.reading() as conn:
            return pulling.subjects(conn, prefix, sight)

    def sees(self, sight: Sight, subject: str) -> bool:
        with self._pool.reading() as conn:
            return sees(conn, sight, subject)

    def subjects_of_photo(self, sha256: str) -> list[str]:
        with self._pool.reading() as conn:
            return conn.naming_photo(sha256)

    def of(self, subject: str) -> list[Held]:
        return list(self.everything(subject))

    def quarantined(self, device: str, n: int) -> bytes | None:
        with self._pool.reading() as conn:
            row = conn.execute("SELECT bytes FROM quarantine WHERE device = ? AND n = ? AND placed = 1", (device, n)).fetchone()
            return row[0] if row else None

    def refused(self) -> Iterator[Held]:
        with self._pool.reading() as conn:
            for at, raw in conn.stream("SELECT received_at, bytes FROM quarantine WHERE placed = 1 ORDER BY device, n"):
                yield Held(0, at, raw)

    def everything(self, subject: str | None = None) -> Iterator[Held]:
        about = "" if subject is None else " WHERE subject = ?"
        with self._pool.reading() as conn:
            sql = f"SELECT seq, received_at, bytes FROM entries{about} ORDER BY seq"
            for seq, received_at, raw in conn.stream(sql, () if subject is None else (subject,)):
                yield Held(seq, received_at, raw)

    def vouched(self) -> list[Vouched]:
        with self._pool.reading() as conn:
            return vouched(conn)

    def verify(self) -> Iterator[Broken]:
        with self._pool.reading() as conn:
            yield from verify(conn)

    def backup(self, target: Path) -> None:
        self._database.backup(target)

    def close(self) -> None:
        self._unwatch()
        self._pool.close()
        self._committer.close()
