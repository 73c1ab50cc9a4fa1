"""Answering a push that was answered before: a phone that lost the answer sends the same bytes again.

What is held is sound and was checked when it came, so the same bytes are compared and not read again; nothing is written.
Whatever is not plainly that is left to the writer.
"""

from collections.abc import Sequence

import msgspec
from msgspec import Struct

from pinchbolt.store.appending import receipt
from pinchbolt.store.database import Connection
from pinchbolt.store.lives import epoch_of
from pinchbolt.store.log import Placed, Pushed


class _Numbered(Struct, frozen=True, gc=False):
    """Where an entry says it stands; whether its bytes are those held there decides whether that is so."""

    n: int


_read_number = msgspec.json.Decoder(_Numbered).decode


def number(raw: bytes) -> int | None:
    """The n an entry gives itself; None when it cannot be read."""
    try:
        return _read_number(raw).n
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return None


def answer(conn: Connection, device: str, entries: Sequence[bytes]) -> Pushed | None:
    """The answer to a push of which every entry is held already, byte by byte; None for any other. Only reads."""
    low, high = number(entries[0]), number(entries[-1])
    # Of a run of one after another only: anything else is no plain replay.
    if low is None or high is None or high - low != len(entries) - 1:
        return None
    held = conn.execute(
        "SELECT id, n, seq, bytes FROM entries WHERE device = ? AND n BETWEEN ? AND ? ORDER BY n", (device, low, high)
    ).fetchall()
    if [raw for _, _, _, raw in held] != list(entries):
        return None
    return Pushed([Placed(id, n, "known", seq) for id, n, seq, _ in held], receipt(conn, device), epoch_of(conn))
