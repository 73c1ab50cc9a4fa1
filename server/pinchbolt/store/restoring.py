"""Putting a backup in the place of the log: looked at first, laid down whole or not at all."""

import os
import sqlite3
from pathlib import Path

from pinchbolt.store import pulling
from pinchbolt.store.lives import begin_anew, set_aside
from pinchbolt.store.migrations import TooNew, migrate
from pinchbolt.store.sqlite import connect
from pinchbolt.store.verifying import verify


class NoBackup(Exception):
    """The file is no whole backup of a workshop; the text says why."""


def restore(backup: Path, file: Path) -> tuple[int, Path | None]:
    """Put `backup` in the place of the database `file`, as a new life of the log.

    Returns the highest seq restored, and where what was there before now lies. Raises NoBackup, or InUse while a server runs.
    """
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    made = file.with_name(file.name + ".restoring")
    made.unlink(missing_ok=True)
    try:
        top = _copy(backup, made)
        with made.open("rb+") as written:
            os.fsync(written.fileno())
        aside = set_aside(file)
        made.rename(file)
    finally:
        made.unlink(missing_ok=True)
    folder = os.open(file.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
    return top, aside


def _copy(backup: Path, made: Path) -> int:
    source = sqlite3.connect(f"{backup.resolve().as_uri()}?mode=ro", uri=True)
    conn = connect(made)
    try:
        source.backup(conn)
        # An empty or foreign database would be filled with our tables and pass for a workshop without entries.
        if conn.execute("SELECT 1 FROM sqlite_master WHERE name = 'entries'").fetchone() is None:
            raise NoBackup("it is no workshop's database")
        migrate(conn)
        broken = next(verify(conn), None)
        if broken is not None:
            raise NoBackup(f"{broken.where}: {broken.what}")
        begin_anew(conn)
        top = pulling.top(conn)
        conn.execute("PRAGMA journal_mode = DELETE")
        return top
    except (sqlite3.Error, TooNew) as error:
        raise NoBackup(str(error)) from None
    finally:
        source.close()
        conn.close()
