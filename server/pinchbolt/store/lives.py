"""The lives of a log: going back to a backup begins a new one, and that must not pass unnoticed.

A restored server has forgotten what came after its backup, but the phones have not. By the new epoch they see that they must
fetch everything anew and offer again what they wrote. Numbers go on far above any the old life can have given, so no seq ever
means two entries.
"""

import secrets
import shutil
import sqlite3
import time
from pathlib import Path

# More entries than a workshop writes between a backup and its restore; a seq stays far below 2**53.
LEAP = 1_000_000_000


class InUse(Exception):
    """Another process has the database open."""


def epoch_of(conn: sqlite3.Connection) -> str:
    """The epoch of this life."""
    return conn.execute("SELECT epoch FROM lives").fetchone()[0]


def begin_anew(conn: sqlite3.Connection) -> str:
    """Begin a new life of the log, in one transaction; returns its epoch."""
    epoch = secrets.token_hex(16)
    conn.execute("BEGIN IMMEDIATE")
    conn.execute("UPDATE lives SET epoch = ?", (epoch,))
    # A log that never held an entry has no row in this table.
    conn.execute(
        "INSERT INTO sqlite_sequence (name, seq) SELECT 'entries', 0"
        " WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = 'entries')"
    )
    conn.execute("UPDATE sqlite_sequence SET seq = seq + ? WHERE name = 'entries'", (LEAP,))
    conn.execute("COMMIT")
    return epoch


def set_aside(file: Path) -> Path | None:
    """Move the database that is there out of the way, with all it holds; None when there is none. Raises InUse."""
    if not file.exists():
        return None
    conn = sqlite3.connect(file, timeout=0, isolation_level=None)
    try:
        # Only who is alone with the file can leave the write-ahead log; after that all of it is in the one file.
        (mode,) = conn.execute("PRAGMA journal_mode = DELETE").fetchone()
    except sqlite3.OperationalError as error:
        raise InUse(str(error)) from None
    except sqlite3.DatabaseError:
        # Broken beyond opening: what lies beside it goes along.
        mode = "delete"
    finally:
        conn.close()
    if mode != "delete":
        raise InUse("its journal is in use")
    aside = file.with_name(f"{file.name}.before-{time.strftime('%Y%m%d-%H%M%S')}-{secrets.token_hex(2)}")
    file.rename(aside)
    for ending in ("-wal", "-shm"):
        beside = file.with_name(file.name + ending)
        if beside.exists():
            shutil.move(beside, aside.with_name(aside.name + ending))
    return aside
