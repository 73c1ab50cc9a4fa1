"""The devices' public keys, and the heads they signed."""

from collections.abc import Iterator

from msgspec import Struct

from pinchbolt.entries.signing import Head, Jwk, is_signed, thumbprint
from pinchbolt.store.database import Connection
from pinchbolt.store.log import Broken, Vouched


class Key(Struct, frozen=True):
    """A key of a device; of its entries up to `after_n` it was not known yet."""

    device: str
    kid: str
    jwk: Jwk
    enrolled_at: str
    after_n: int


class Signed(Struct, frozen=True):
    """A head with the key that signed it."""

    device: str
    kid: str
    head: Head
    received_at: str


def keys(conn: Connection, device: str | None = None) -> list[Key]:
    """The keys of one device, or of all; the newest first."""
    one = "" if device is None else " WHERE device = ?"
    rows = conn.execute(
        f"SELECT device, kid, x, y, enrolled_at, after_n FROM keys{one} ORDER BY enrolled_at DESC, kid",
        () if device is None else (device,),
    )
    return [Key(of, kid, Jwk("EC", "P-256", x, y), at, after) for of, kid, x, y, at, after in rows]


def heads(conn: Connection) -> list[Signed]:
    """All signed heads."""
    rows = conn.execute("SELECT device, kid, n, hash, signature, received_at FROM heads ORDER BY device, n, kid")
    return [Signed(device, kid, Head(n, hash, signature), at) for device, kid, n, hash, signature, at in rows]


def keep_head(conn: Connection, device: str, kid: str, head: Head, now: str) -> bool:
    """Keep a head whose signature was checked; False when the log holds no such entry at n."""
    held = conn.execute("SELECT hash FROM places WHERE device = ? AND n = ?", (device, head.n)).fetchone()
    if held is None or held[0] != head.hash:
        return False
    conn.execute(
        "INSERT INTO heads (device, n, kid, hash, signature, received_at) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
        (device, head.n, kid, head.hash, head.signature, now),
    )
    return True


def wrong_heads(conn: Connection) -> Iterator[Broken]:
    """Signed heads that are not what the log holds, or not signed by their device's key."""
    known = {(key.device, key.kid): key.jwk for key in keys(conn)}
    for kid in {(key.device, key.kid) for key in keys(conn) if thumbprint(key.jwk) != key.kid}:
        yield Broken(f"device {kid[0]}, key {kid[1]}", "the key is not the one of this name")
    for signed in heads(conn):
        where = f"device {signed.device}, signed head at n {signed.head.n}"
        jwk = known.get((signed.device, signed.kid))
        if jwk is None:
            yield Broken(where, f"its key {signed.kid} is gone")
        elif not is_signed(jwk, signed.device, signed.head):
            yield Broken(where, "the signature is not of this device's key over this head")
        held = conn.execute("SELECT hash FROM places WHERE device = ? AND n = ?", (signed.device, signed.head.n)).fetchone()
        if held is None or held[0] != signed.head.hash:
            yield Broken(where, f"the device signed {signed.head.hash}, the log holds {held[0] if held else 'nothing'}")


def vouched(conn: Connection) -> list[Vouched]:
    """For each device that has entries."""
    rows = conn.execute(
        "SELECT c.device, c.top, coalesce((SELECT max(n) FROM heads h WHERE h.device = c.device), 0),"
        " coalesce((SELECT min(after_n) FROM keys k WHERE k.device = c.device), c.top)"
        " FROM chains c WHERE c.top > 0 ORDER BY c.device"
    )
    return [Vouched(*row) for row in rows]
