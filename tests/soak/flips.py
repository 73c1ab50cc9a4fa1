"""One byte altered in a store at rest: verify must find it, wherever it is. And entries with bytes altered on their way."""

import random
import sqlite3
from pathlib import Path

from pinchbolt.entries import Author, read_entry
from pinchbolt.store.sqlite.connection import SqliteConnection
from pinchbolt.store.verifying import verify
from pinchbolt.workshop import DATABASE
from tests.server import hands

# Every column that says something of an entry.
PLACES = (
    ("entries", ("bytes", "hash", "id", "subject", "kind", "stamp")),
    ("quarantine", ("bytes", "hash")),
)
MOST_ROWS = 150


def small(data: Path, file: Path) -> sqlite3.Connection:
    """A copy with the first entries of each device only, so that a walk over it is short."""
    conn = sqlite3.connect(f"file:{data / DATABASE}?mode=ro", uri=True, isolation_level=None)
    copy = sqlite3.connect(file, isolation_level=None)
    conn.backup(copy)
    conn.close()
    copy.execute("DELETE FROM entries WHERE n > ?", (MOST_ROWS,))
    copy.execute("DELETE FROM quarantine WHERE n > ?", (MOST_ROWS,))
    copy.execute("UPDATE chains SET top = (SELECT max(n) FROM places p WHERE p.device = chains.device)")
    copy.execute("VACUUM")
    assert list(verify(SqliteConnection(copy))) == []
    return copy


def flip(conn: sqlite3.Connection, chance: random.Random) -> bool:
    """Alter one bit of one value; whether verify names something. The store is then as it was."""
    table, columns = PLACES[chance.random() < 0.2]
    column = chance.choice(columns)
    rowids = [row[0] for row in conn.execute(f"SELECT rowid FROM {table}")]
    rowid = chance.choice(rowids)
    (value,) = conn.execute(f"SELECT {column} FROM {table} WHERE rowid = ?", (rowid,)).fetchone()
    raw = bytearray(value if isinstance(value, bytes) else str(value).encode())
    raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(7)
    conn.execute("BEGIN")
    try:
        put = bytes(raw) if isinstance(value, bytes) else raw.decode()
        conn.execute(f"UPDATE {table} SET {column} = ? WHERE rowid = ?", (put, rowid))
        return next(verify(SqliteConnection(conn)), None) is not None
    finally:
        conn.execute("ROLLBACK")


def bad_inputs(conn: sqlite3.Connection, chance: random.Random, many: int) -> int:
    """Entries with bytes put in, taken out and exchanged: each is read without a fault. Returns how many were refused."""
    author = Author(hands.BENCH, hands.JUNO, "owner")
    entries = [row[0] for row in conn.execute("SELECT bytes FROM entries WHERE device = ?", (hands.BENCH,))]
    refused = 0
    for _ in range(many):
        raw = bytearray(chance.choice(entries))
        for _ in range(chance.randint(1, 6)):
            at = chance.randrange(len(raw))
            match chance.randrange(4):
                case 0:
                    raw[at] = chance.randrange(256)
                case 1:
                    del raw[at : at + chance.randint(1, 9)]
                case 2:
                    raw[at:at] = chance.choice((b"\x00", b"\xff", b'"', b"[" * 40, b"1e999", b"null", b"\\ud800"))
                case _:
                    raw[at:at] = raw[: chance.randrange(40)]
            if not raw:
                break
        arrival = read_entry(bytes(raw), author)
        refused += bool(arrival.problems)
        assert arrival.problems or arrival.envelope is not None
    return refused
