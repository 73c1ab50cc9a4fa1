"""Walking the chains: every entry against its hash, its own words and its neighbour. Finds what was altered afterwards."""

from collections.abc import Iterator
from hashlib import sha256
from typing import Any

import msgspec

from pinchbolt.entries import NO_PREV
from pinchbolt.kernel.plain import mapping
from pinchbolt.store.database import Connection
from pinchbolt.store.keys import wrong_heads
from pinchbolt.store.log import Broken

_COLUMNS = ("id", "subject", "kind", "stamp")


def verify(conn: Connection) -> Iterator[Broken]:
    """Everything that is wrong, device by device. A whole log gives nothing."""
    unsound = [Broken("database", found) for found in conn.unsound()]
    if unsound:
        yield from unsound
        return
    devices = conn.execute("SELECT device FROM chains UNION SELECT device FROM places ORDER BY device").fetchall()
    for (device,) in devices:
        yield from _chain(conn, device)
    yield from _unplaced(conn)
    yield from wrong_heads(conn)


def _unplaced(conn: Connection) -> Iterator[Broken]:
    """What was refused without a place in a chain: its bytes against its hash."""
    for number, device, hash, kept in conn.stream("SELECT number, device, hash, bytes FROM quarantine WHERE placed = 0"):
        raw = kept if isinstance(kept, bytes) else str(kept).encode()
        real = sha256(raw).hexdigest()
        if real != hash:
            yield Broken(f"device {device}, refused number {number}", f"its bytes have the hash {real}, not {hash}")


def _chain(conn: Connection, device: str) -> Iterator[Broken]:
    known = {low: high for low, high in conn.execute("SELECT low, high FROM gaps WHERE device = ?", (device,))}
    found = conn.execute("SELECT top FROM chains WHERE device = ?", (device,)).fetchone()
    top = found[0] if found else 0
    rows = conn.stream(
        "SELECT p.n, p.hash, p.seq, p.bytes, e.id, e.subject, e.kind, e.stamp FROM places p"
        " LEFT JOIN entries e ON e.seq = p.seq WHERE p.device = ? ORDER BY p.n",
        (device,),
    )
    last, head = 0, NO_PREV
    for n, hash, seq, kept, *columns in rows:
        where = f"device {device}, n {n}" + (f", seq {seq}" if seq is not None else ", refused")
        # Whoever altered it may have left another type behind.
        raw = kept if isinstance(kept, bytes) else str(kept).encode()
        real = sha256(raw).hexdigest()
        if real != hash:
            yield Broken(where, f"its bytes have the hash {real}, not {hash} as when it was stored")
        if n != last + 1:
            if known.pop(last + 1, None) != n - 1:
                yield Broken(f"device {device}", f"n {last + 1} to {n - 1} are gone")
            head = ""
        yield from _words(where, raw, device, n, head, columns if seq is not None else None)
        last, head = n, hash
    if last != top:
        yield Broken(f"device {device}", f"the chain ends at n {last}, not at {top} as when it was stored")
    for low, high in known.items():
        yield Broken(f"device {device}", f"n {low} to {high} are held but noted as missing")


def _words(where: str, raw: bytes, device: str, n: int, head: str, columns: list[str] | None) -> Iterator[Broken]:
    """The entry's own words against its place and the columns beside it. `head` is empty after a gap."""
    try:
        entry: dict[str, Any] = mapping(msgspec.json.decode(raw))
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        if columns is not None:
            yield Broken(where, "its bytes are not JSON")
        return
    if entry.get("device") != device or entry.get("n") != n:
        yield Broken(where, f"its bytes say device {entry.get('device')}, n {entry.get('n')}")
    if head and entry.get("prev") != head:
        yield Broken(where, f"its prev is {entry.get('prev')}, the entry before it has the hash {head}")
    for name, kept in zip(_COLUMNS, columns or [], strict=False):
        if entry.get(name) != kept:
            yield Broken(where, f"its bytes say {name} {entry.get(name)}, the table says {kept}")
