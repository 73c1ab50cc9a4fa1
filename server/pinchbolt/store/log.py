"""What a store of entries must do; the contract suite in tests/server says it in tests, for every engine."""

from collections.abc import Iterator, Sequence
from concurrent.futures import Future
from pathlib import Path
from typing import Protocol

from msgspec import Struct

from pinchbolt.entries import Arrival
from pinchbolt.entries.envelope import Problem
from pinchbolt.entries.signing import Head

# The audience of people who check at events: they see the events and the bikes on their start lists.
CHECKERS = "checkers"

# What every person may see of the workshop itself.
SHARED_KINDS = ("check-define", "interface-define", "plan-define", "decide", "void")


class StoreError(Exception):
    """The store could not do it; nothing was acknowledged and nothing half done."""


class Full(StoreError):
    """No room on the disk, or no right to write there."""


class Closed(StoreError):
    """The store is being closed."""


class Sight(Struct, frozen=True):
    """What somebody may see: everything (`audience` None), or what is granted to an audience (a person, an event, CHECKERS)."""

    audience: str | None = None


class Placed(Struct, frozen=True, gc=False, omit_defaults=True):
    """The answer to one entry of a push."""

    id: str | None
    n: int | None
    outcome: str
    seq: int | None = None
    errors: list[Problem] | None = None


class Receipt(Struct, frozen=True, gc=False):
    """How far a device's chain is held without a gap, and what is missing above that (at most 100 numbers)."""

    device: str
    n: int
    hash: str
    missing: list[int]


class Pushed(Struct, frozen=True, gc=False, omit_defaults=True):
    """The answer to a push. `head` is `kept` or `refused` when a signed head came along."""

    answers: list[Placed]
    receipt: Receipt
    epoch: str
    head: str | None = None


class SignedHead(Struct, frozen=True, gc=False):
    """A head that came with a push; `kid` names the key that signed it, None when no key of this device did."""

    head: Head
    kid: str | None


class Held(Struct, frozen=True, gc=False):
    """An entry with the server's place beside it."""

    seq: int
    received_at: str
    raw: bytes


class Page(Struct, frozen=True, gc=False):
    """A page of a pull, in the order it is to be sent.

    `next` is the cursor after it, `top` the last seq there was, `epoch` the life of the log it is of.
    """

    held: list[Held]
    next: int
    more: bool
    epoch: str
    top: int


class Vouched(Struct, frozen=True):
    """How far a device has signed its entries: up to n `signed` of `top`; up to `before` they are older than its key."""

    device: str
    top: int
    signed: int
    before: int


class Broken(Struct, frozen=True):
    """One thing that `verify` found wrong."""

    where: str
    what: str


class Log(Protocol):
    """The entry log."""

    def push(self, device: str, arrivals: Sequence[Arrival], sight: Sight, head: SignedHead | None = None) -> "Future[Pushed]":
        """Take a device's entries; the answer comes when all of it is on the disk. Fails with StoreError."""
        ...

    def known(self, device: str, entries: Sequence[bytes]) -> Pushed | None:
        """The answer to entries that are all held already, where that is found out at once; else None: then push them."""
        ...

    def waiting(self) -> int:
        """About how many pushes wait to be taken."""
        ...

    def receipt(self, device: str) -> Receipt:
        """How far this device's chain is held."""
        ...

    def pull(self, after: int, limit: int, sight: Sight) -> Page:
        """Entries after the cursor that may be seen. A subject newly granted comes with its past."""
        ...

    def pull_text(self, after: int, limit: int, sight: Sight) -> bytes:
        """The same page as the JSON that a device is sent."""
        ...

    def pull_packed(self, after: int, limit: int, sight: Sight) -> bytes:
        """The same JSON, packed by gzip."""
        ...

    def top(self) -> int:
        """The highest sequence number given."""
        ...

    def epoch(self) -> str:
        """Which life of the log this is; a restore begins a new one."""
        ...

    def last(self, subject: str) -> int:
        """The highest sequence number of a subject; 0 when there is none."""
        ...

    def subjects(self, prefix: str, sight: Sight) -> list[str]:
        """The subjects beginning with `prefix` that may be seen."""
        ...

    def sees(self, sight: Sight, subject: str) -> bool:
        """Whether this subject may be seen."""
        ...

    def subjects_of_photo(self, sha256: str) -> list[str]:
        """The subjects whose entries name this photo."""
        ...

    def of(self, subject: str) -> list[Held]:
        """Every entry of a subject, in the order of arrival."""
        ...

    def quarantined(self, device: str, n: int) -> bytes | None:
        """The exact bytes of the refused entry that keeps this place; None when there is none."""
        ...

    def refused(self) -> Iterator[Held]:
        """The refused entries that keep their place in a chain, without a seq (0)."""
        ...

    def everything(self, subject: str | None = None) -> Iterator[Held]:
        """All entries, or all of a subject, one after another in the order of arrival."""
        ...

    def vouched(self) -> "list[Vouched]":
        """How far each device has signed its entries."""
        ...

    def verify(self) -> Iterator[Broken]:
        """Walk every chain and name what is wrong."""
        ...

    def backup(self, target: Path) -> None:
        """Copy the whole store to a new file while it stays in use."""
        ...

    def close(self) -> None: ...
