"""The lives of a log: going back to a backup begins a new one, and that must not pass unnoticed.

A restored server has forgotten what came after its backup, but the phones have not. By the new epoch they see that they must
fetch everything anew and offer again what they wrote. Numbers go on far above any the old life can have given, so no seq ever
means two entries.
"""

import secrets

from pinchbolt.store.database import Connection

# More entries than a workshop writes between a backup and its restore; a seq stays far below 2**53.
LEAP = 1_000_000_000


class InUse(Exception):
    """Another process has the database open."""


def epoch_of(conn: Connection) -> str:
    """The epoch of this life."""
    row = conn.execute("SELECT epoch FROM lives").fetchone()
    if row is None:
        raise RuntimeError("a log without a life")
    return row[0]


def begin_anew(conn: Connection) -> str:
    """Begin a new life of the log, in one transaction; returns its epoch."""
    epoch = secrets.token_hex(16)
    with conn.alone():
        conn.execute("UPDATE lives SET epoch = ?", (epoch,))
        conn.leap(LEAP)
    return epoch
