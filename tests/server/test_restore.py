"""Backups made while entries come in, and going back to one: what the phones then do by themselves."""

import json
import sqlite3
import subprocess
import sys
import threading
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from pinchbolt.cli import main
from pinchbolt.store import SqliteLog
from pinchbolt.store.lives import LEAP, InUse
from pinchbolt.store.sqlite.restoring import NoBackup, restore
from pinchbolt.workshop import DATABASE, PHOTOS, Workshop
from tests.server import hands, running
from tests.server.conftest import give
from tests.server.hands import FERN, bench, note
from tests.server.test_photos import picture, sha
from tests.sync.phones import Hand, House, Phone, workday

JUNO = Hand(hands.JUNO, "Juno", "owner", hands.BENCH)
BAS = Hand(hands.BAS, "Bas", "mechanic", hands.BAS_PHONE)


def test_a_backup_made_while_entries_come_in_is_a_whole_beginning_of_the_log(tmp_path: Path):
    log = SqliteLog(tmp_path / DATABASE)
    pen = bench()
    stop = threading.Event()
    written: list[bytes] = []

    def keep_writing() -> None:
        while not stop.is_set():
            entries = [note(pen) for _ in range(20)]
            written.extend(entries)
            give(log, entries)

    writing = threading.Thread(target=keep_writing)
    writing.start()
    try:
        tops: list[int] = []
        for i in range(4):
            least = log.top()
            copy = tmp_path / f"copy-{i}.sqlite3"
            log.backup(copy)
            opened = SqliteLog(copy)
            held = [h.raw for h in opened.everything()]
            assert len(held) >= least
            assert list(opened.verify()) == []
            assert held == written[: len(held)]
            tops.append(len(held))
            opened.close()
        assert tops == sorted(tops)
    finally:
        stop.set()
        writing.join()
        log.close()


def test_after_a_restore_phones_bring_back_what_the_server_lost(tmp_path: Path):
    house = House(tmp_path, [JUNO, BAS])
    juno, bas = Phone(JUNO), Phone(BAS)
    minute = workday()

    def write(phone: Phone, text: str) -> None:
        nonlocal minute
        minute += timedelta(minutes=1)
        phone.write(FERN, "note", {"text": text}, minute)

    for text in ("one", "two"):
        write(juno, text)
    juno.heals(house)
    backup = house.backup()
    write(juno, "three")
    write(bas, "four")
    juno.heals(house)
    bas.heals(house)
    assert bas.cursor == 4
    house.restore(backup)
    # The new life grows past Bas's cursor before Bas comes by: only the epoch tells.
    for i in range(5):
        write(juno, f"later {i}")
    juno.heals(house)
    assert min(h.seq for h in house.workshop.log.everything() if h.seq > 2) > LEAP
    bas.heals(house)
    juno.heals(house)
    for phone in (juno, bas):
        assert not phone.waiting
        assert {id: raw for id, (_, raw) in phone.log.items()} == house.held()
        assert phone.state(FERN, set()) == house.state(FERN)
    texts = {json.loads(raw)["body"]["text"] for raw in house.held().values()}
    assert {"one", "two", "three", "four"} < texts
    house.close()


def test_every_restore_is_another_life(tmp_path: Path):
    log = SqliteLog(tmp_path / DATABASE)
    give(log, [note(bench())])
    epochs = {log.epoch()}
    log.backup(tmp_path / "backup")
    log.close()
    for _ in range(2):
        restore(tmp_path / "backup", tmp_path / DATABASE)
        again = SqliteLog(tmp_path / DATABASE)
        epochs.add(again.epoch())
        again.close()
    assert len(epochs) == 3


def test_what_was_there_is_kept_beside(tmp_path: Path):
    log = SqliteLog(tmp_path / DATABASE)
    pen = bench()
    log.backup(tmp_path / "backup")
    give(log, [note(pen)])
    log.close()
    top, aside = restore(tmp_path / "backup", tmp_path / DATABASE)
    assert top == 0
    assert aside is not None
    old = SqliteLog(aside)
    assert old.top() == 1
    old.close()


@pytest.mark.parametrize("content", [b"", b"not a database at all", None])
def test_what_is_no_whole_backup_is_not_restored(tmp_path: Path, content: bytes | None):
    log = SqliteLog(tmp_path / DATABASE)
    give(log, [note(bench())])
    backup = tmp_path / "backup"
    if content is None:
        log.backup(backup)
        conn = sqlite3.connect(backup)
        conn.execute("UPDATE entries SET bytes = replace(bytes, 'Cables', 'Brakes')")
        conn.commit()
        conn.close()
    else:
        backup.write_bytes(content)
    log.close()
    with pytest.raises(NoBackup):
        restore(backup, tmp_path / DATABASE)
    again = SqliteLog(tmp_path / DATABASE)
    assert again.top() == 1
    again.close()


def test_a_workshop_in_use_is_not_restored(tmp_path: Path):
    log = SqliteLog(tmp_path / DATABASE)
    give(log, [note(bench())])
    log.backup(tmp_path / "backup")
    with pytest.raises(InUse):
        restore(tmp_path / "backup", tmp_path / DATABASE)
    give(log, [])
    assert log.top() == 1
    log.close()


def test_the_command_says_what_it_did_and_what_is_in_its_way(tmp_path: Path):
    def pinchbolt(*arguments: str) -> subprocess.CompletedProcess[str]:
        call = [sys.executable, "-m", "pinchbolt.cli", *arguments, "--data", str(tmp_path / "data")]
        return subprocess.run(call, env={"PYTHONPATH": str(running.SERVER)}, capture_output=True, text=True, check=False)

    with running.server(tmp_path / "data"):
        assert pinchbolt("backup", str(tmp_path / "backup")).returncode == 0
        refused = pinchbolt("restore", str(tmp_path / "backup"))
        assert refused.returncode == 2
        assert "stop its server first" in refused.stderr
    done = pinchbolt("restore", str(tmp_path / "backup"))
    assert (done.returncode, done.stderr) == (0, "")
    assert "what was there:" in done.stdout
    assert pinchbolt("verify").returncode == 0


def test_a_backup_takes_the_photos_along_and_a_restore_brings_them_back(tmp_path: Path):
    def pinchbolt(*arguments: str, data: str) -> str:
        done = CliRunner().invoke(main, [*arguments, "--data", str(tmp_path / data)])
        assert done.exit_code == 0, done.output
        return done.output

    with Workshop(tmp_path / "data") as workshop:
        good, spoilt = picture(), picture("PNG")
        for content in (good, spoilt):
            assert workshop.photos.put(sha(content), content)
        (file,) = (tmp_path / "data" / PHOTOS).glob(f"*/{sha(spoilt)}*")
        file.write_bytes(b"spoilt")
    backup = str(tmp_path / "backup")
    assert "1 photos" in pinchbolt("backup", backup, data="data")
    assert "1 photos brought back" in pinchbolt("restore", backup, data="elsewhere")
    assert "0 photos brought back" in pinchbolt("restore", backup, data="elsewhere")
    with Workshop(tmp_path / "elsewhere") as workshop:
        kept = workshop.photos.get(sha(good))
        assert kept is not None
        assert kept.content == good
        assert not workshop.photos.has(sha(spoilt)), "what is not what its name says is not carried on"
