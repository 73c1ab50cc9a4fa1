"""Stores and workshops for the tests: real files, closed at the end."""

from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

import psycopg
import pytest

from pinchbolt.entries import Author, read_entry
from pinchbolt.store import Log, Sight
from pinchbolt.store.copying import TABLES
from pinchbolt.store.entry_log import EntryLog
from pinchbolt.store.log import Pushed
from pinchbolt.store.opening import open_database
from pinchbolt.workshop import Workshop
from tests.server import hands
from tests.server.postgres import cluster

# Every engine passes the same suite.
ENGINES = ("postgres", "sqlite")


@pytest.fixture(scope="session")
def postgres() -> Iterator[Callable[[], str]]:
    """Gives the URL of a new database in a PostgreSQL server of the tests' own, its schema made already."""
    with cluster() as running:
        template = running.database()
        open_database(template).migrate()
        name = urlsplit(template).path[1:]
        yield lambda: running.database(name)


@pytest.fixture(scope="session")
def emptied(postgres: Callable[[], str]) -> Callable[[], str]:
    """Gives the URL of one database, emptied each time: quicker than a new one."""
    url = postgres()

    def empty() -> str:
        with psycopg.connect(url, autocommit=True) as conn:
            for name in ("numbers", "subjects", "photos", "challenges", *(table.name for table in reversed(TABLES))):
                conn.execute(f"DELETE FROM {name}".encode())
            conn.execute("UPDATE lives SET seq = 0")
        return url

    return empty


@pytest.fixture(params=ENGINES)
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """An empty place for a record, in each engine."""
    if request.param == "sqlite":
        return str(tmp_path / "log.sqlite3")
    return request.getfixturevalue("emptied")()


@pytest.fixture
def log(place: str) -> Iterator[Log]:
    made = EntryLog(open_database(place))
    yield made
    made.close()


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    """Alder Bench with its people and their devices, and nothing in the log."""
    with Workshop(tmp_path / "data") as made:
        for id, name, role in (
            (hands.JUNO, "Juno", "owner"),
            (hands.BAS, "Bas", "mechanic"),
            (hands.IMRE, "Imre", "rider"),
            (hands.ODILE, "Odile", "rider"),
            (hands.ILKA, "Ilka", "checker"),
        ):
            made.add_person(id, name, role)
        for id, name, person in (
            (hands.BENCH, "Bench tablet", hands.JUNO),
            (hands.BAS_PHONE, "Bas's phone", hands.BAS),
            (hands.IMRE_PHONE, "Imre's phone", hands.IMRE),
            (hands.ODILE_PHONE, "Odile's phone", hands.ODILE),
            (hands.ILKA_PHONE, "Ilka's phone", hands.ILKA),
        ):
            made.add_device(id, name, person)
        yield made


def give(log: Log, entries: list[bytes], author: Author = hands.BENCH_AUTHOR, sight: Sight | None = None) -> Pushed:
    """Push entries' bytes and wait until they are on the disk."""
    arrivals = [read_entry(raw, author) for raw in entries]
    return log.push(author.device, arrivals, sight or Sight()).result(timeout=30)
