"""Which engine a place asks for: a PostgreSQL server's URL, or a file for SQLite."""

from pathlib import Path

from pinchbolt.store.database import Database, Unsuitable
from pinchbolt.store.sqlite import SqliteDatabase

DATABASE = "pinchbolt.sqlite3"
POSTGRES = ("postgresql://", "postgres://")


def place_of(data: Path, database: str) -> str:
    """Where the record is: what `database` names, else a file in the folder `data`."""
    return database or str(data / DATABASE)


def is_server(place: str) -> bool:
    """Whether a place is a server's URL rather than a file."""
    return place.startswith(POSTGRES)


def open_database(place: str) -> Database:
    """The database at `place`; nothing is asked of it yet. Raises Unsuitable when its driver is not installed."""
    if not is_server(place):
        return SqliteDatabase(Path(place))
    try:
        from pinchbolt.store.postgres import PostgresDatabase  # noqa: PLC0415
    except ImportError:
        raise Unsuitable("a PostgreSQL database wants its driver: pip install 'pinchbolt[postgres]'") from None
    return PostgresDatabase(place)
