"""What an engine must give for the record to be kept in it: connections, transactions, a few questions in its own words.

The rules of the record (chains, grants, people) are written once, over `Connection`, in SQL that every engine understands, with
`?` for values. What engines say differently is a method here, and its SQL stands in the engine's own folder.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any, Protocol

Row = tuple[Any, ...]
# seq, id, subject, device, n, kind, stamp, hash, received_at, bytes
EntryRow = tuple[int, str, str, str, int, str, str, str, str, bytes]
ENTRY_COLUMNS = "seq, id, subject, device, n, kind, stamp, hash, received_at, bytes"


def span_of(prefix: str) -> tuple[str, str]:
    """From where (included) to where (not) the texts stand that begin with `prefix`, so that an index finds them."""
    return prefix, prefix[:-1] + chr(ord(prefix[-1]) + 1)


class Taken(Exception):
    """A row that may be there once only is there already; the transaction is to be undone."""


class Unsuitable(Exception):
    """This engine does not do this; the text says what to use instead."""


class Rows(Protocol):
    """What a statement gave."""

    @property
    def rowcount(self) -> int: ...
    def fetchone(self) -> Row | None: ...
    def fetchall(self) -> list[Row]: ...
    def __iter__(self) -> Iterator[Row]: ...


class Connection(Protocol):
    """One connection, used by one thread at a time. Its errors are Taken, or StoreError and Full of `store.log`."""

    def execute(self, sql: str, values: Sequence[object] = ()) -> Rows: ...

    def executemany(self, sql: str, rows: Sequence[Sequence[object]]) -> None: ...

    def stream(self, sql: str, values: Sequence[object] = ()) -> Iterator[Row]:
        """As `execute`, for results that are not to be held at once."""
        ...

    def one(self, sql: str, values: Sequence[object] = ()) -> Row | None:
        """The first row of a statement that reads, by itself: where that is cheaper, it is its own transaction."""
        ...

    def reading(self) -> AbstractContextManager[None]:
        """A transaction that reads: what it sees does not move."""
        ...

    def alone(self) -> AbstractContextManager[None]:
        """A transaction that writes, one at a time over all processes.

        So entries come to be seen in the order of their seq, and a cursor never passes one that is still to come.
        """
        ...

    def changing(self) -> AbstractContextManager[None]:
        """A transaction that writes beside the log, and need not be alone where the engine knows better."""
        ...

    def erasing(self) -> AbstractContextManager[None]:
        """As `alone`; what it overwrites or deletes is afterwards gone from the database's files too."""
        ...

    def others_wrote(self) -> bool:
        """In a transaction that is alone: whether anybody else wrote since this connection's last one."""
        ...

    def highest_given(self) -> int:
        """The highest seq ever given, in a transaction that is alone."""
        ...

    def leap(self, by: int) -> None:
        """Go on with seqs this far above the highest given, in a transaction that is alone."""
        ...

    def append(self, rows: Sequence[EntryRow]) -> None:
        """Add entries, in the order of their seqs, in a transaction that is alone. Raises Taken."""
        ...

    def joined(self, after: int, to: int) -> bytes:
        """The entries above `after`, up to `to`, as a pull sends them, with commas between (see `pulling.one`)."""
        ...

    def due(self, after: int, audience: str) -> Iterator[Row]:
        """What falls due to an audience after a cursor, in order: due, seq, received_at, bytes."""
        ...

    def subjects(self, prefix: str) -> list[str]:
        """The subjects that have entries and begin with `prefix`, in order."""
        ...

    def naming_photo(self, sha256: str) -> list[str]:
        """The subjects whose entries name this photo."""
        ...

    def written_by_or_granted(self, person: str) -> Iterator[Row]:
        """The entries a person wrote, or that are about what is granted to them: seq, received_at, bytes."""
        ...

    def unsound(self) -> Iterator[str]:
        """What the engine itself finds wrong with its files or tables."""
        ...

    def close(self) -> None: ...


class Database(Protocol):
    """A place where a workshop's record is kept."""

    @property
    def name(self) -> str:
        """As it is told to people: without a password."""
        ...

    @property
    def at_hand(self) -> bool:
        """Whether looking up a row takes microseconds and waits for nobody, so that it needs no thread of its own."""
        ...

    def exists(self) -> bool:
        """Whether a workshop's record is there."""
        ...

    def migrate(self) -> None:
        """Bring the schema up to date. Raises TooNew."""
        ...

    def connect(self) -> Connection:
        """A new connection."""
        ...

    def watch(self, committed: Callable[[], None]) -> Callable[[], None]:
        """Call `committed` after other processes' commits, from any thread; returns what stops it."""
        ...

    def backup(self, target: Path) -> None:
        """Copy everything to a new file while it stays in use. Raises Unsuitable."""
        ...
