"""Putting a backup in the place of the log: looked at first, laid down whole or not at all."""

import os
import secrets
import shutil
import sqlite3
import time
from pathlib import Path

from pinchbolt.store import pulling
from pinchbolt.store.lives import InUse, begin_anew
from pinchbolt.store.log import StoreError
from pinchbolt.store.migrations import TooNew
from pinchbolt.store.sqlite.connection import SqliteConnection, open_file
from pinchbolt.store.sqlite.database import SqliteDatabase
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
    raw = open_file(made)
    conn = SqliteConnection(raw)
    try:
        source.backup(raw)
        # An empty or foreign database would be filled with our tables and pass for a workshop without entries.
        if raw.execute("SELECT 1 FROM sqlite_master WHERE name = 'entries'").fetchone() is None:
            raise NoBackup("it is no workshop's database")
        SqliteDatabase(made).migrate()
        broken = next(verify(conn), None)
        if broken is not None:
            raise NoBackup(f"{broken.where}: {broken.what}")
        begin_anew(conn)
        top = pulling.top(conn)
        conn.execute("PRAGMA journal_mode = DELETE")
        return top
    except (sqlite3.Error, StoreError, TooNew) as error:
        raise NoBackup(str(error)) from None
    finally:
        source.close()
        conn.close()


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
