"""The record in one SQLite file."""

from collections.abc import Callable
from pathlib import Path

from pinchbolt.store.entry_log import EntryLog
from pinchbolt.store.sqlite.connection import NAMING_PHOTO
from pinchbolt.store.sqlite.database import SqliteDatabase

__all__ = ["NAMING_PHOTO", "SqliteDatabase", "SqliteLog"]


class SqliteLog(EntryLog):
    """The log in the file `file`."""

    def __init__(self, file: Path, committed: Callable[[], None] = lambda: None) -> None:
        super().__init__(SqliteDatabase(file), committed)
