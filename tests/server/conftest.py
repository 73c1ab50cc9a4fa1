"""Stores and workshops for the tests: real files, closed at the end."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from pinchbolt.entries import Author, read_entry
from pinchbolt.store import Log, Sight, SqliteLog
from pinchbolt.store.log import Pushed
from pinchbolt.workshop import Workshop
from tests.server import hands

# Every store passes the same suite: a new one is one line here.
STORES: dict[str, Callable[[Path], Log]] = {"sqlite": lambda folder: SqliteLog(folder / "log.sqlite3")}


@pytest.fixture(params=sorted(STORES))
def log(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Log]:
    made = STORES[request.param](tmp_path)
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
