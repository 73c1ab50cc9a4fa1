"""A database as each step of the schema left it is brought up to date with everything in it."""

import sqlite3
from pathlib import Path

import pytest

from pinchbolt.store import SqliteLog
from pinchbolt.store.migrations import TooNew, steps
from tests.server.conftest import give
from tests.server.hands import bench, note, torque

STEPS = steps()


@pytest.mark.parametrize("version", [number for number, _ in STEPS])
def test_what_an_older_version_stored_is_carried_on(tmp_path: Path, version: int):
    pen = bench()
    entries = [note(pen, "one"), torque(pen, "tight"), note(pen, "three")]
    now = SqliteLog(tmp_path / "now")
    give(now, entries)
    now.close()
    # The older database, made by its own steps alone, with the rows it would have had.
    old = sqlite3.connect(tmp_path / "old", isolation_level=None)
    for number, sql in STEPS:
        if number <= version:
            old.executescript(sql)
    old.execute(f"PRAGMA user_version = {version}")
    old.execute("ATTACH ? AS now", (str(tmp_path / "now"),))
    for table in ("entries", "quarantine", "chains", "gaps", "grants"):
        old.execute(f"INSERT INTO main.{table} SELECT * FROM now.{table}")
    old.close()
    log = SqliteLog(tmp_path / "old")
    try:
        assert [h.raw for h in log.everything()] == [entries[0], entries[2]]
        assert list(log.verify()) == []
        assert len(log.epoch()) == 32
        pushed = give(log, [*entries, note(pen, "four")])
        assert [a.outcome for a in pushed.answers] == ["known", "refused", "known", "stored"]
        assert (pushed.receipt.n, pushed.receipt.missing) == (4, [])
    finally:
        log.close()


def test_a_database_of_a_later_version_is_left_alone(tmp_path: Path):
    conn = sqlite3.connect(tmp_path / "later")
    conn.execute(f"PRAGMA user_version = {STEPS[-1][0] + 1}")
    conn.close()
    with pytest.raises(TooNew):
        SqliteLog(tmp_path / "later")
