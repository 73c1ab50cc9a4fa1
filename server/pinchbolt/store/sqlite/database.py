"""A workshop's record in one SQLite file: write-ahead log, every commit on the disk before its answer."""

from collections.abc import Callable
from pathlib import Path

from pinchbolt.store import migrations
from pinchbolt.store.lives import begin_anew
from pinchbolt.store.sqlite.connection import SqliteConnection, open_file


class SqliteDatabase:
    """The database in the file `file`, made when it is not there."""

    def __init__(self, file: Path) -> None:
        self.file = file

    @property
    def name(self) -> str:
        return str(self.file)

    @property
    def at_hand(self) -> bool:
        return True

    def exists(self) -> bool:
        return self.file.is_file()

    def connect(self) -> SqliteConnection:
        return SqliteConnection(open_file(self.file))

    def migrate(self) -> None:
        """Each step and its number are one transaction."""
        conn = open_file(self.file)
        try:
            (version,) = conn.execute("PRAGMA user_version").fetchone()
            for number, sql in migrations.after(version, "sqlite"):
                conn.executescript(f"BEGIN IMMEDIATE;\n{sql}\nPRAGMA user_version = {number};\nCOMMIT;")
        finally:
            conn.close()

    def watch(self, committed: Callable[[], None]) -> Callable[[], None]:
        """One server has the file; its commits need no telling."""
        return lambda: None

    def backup(self, target: Path) -> None:
        copy, source = SqliteConnection(open_file(target)), open_file(self.file)
        try:
            source.backup(copy.raw, pages=1000)
            # Whoever puts the copy in the log's place by hand must not be taken for the log itself.
            begin_anew(copy)
            # One plain file, so that it can be carried about by itself.
            copy.execute("PRAGMA journal_mode = DELETE")
        finally:
            source.close()
            copy.close()
