"""The server killed in the middle of pushes: what it gave a receipt for is there when it comes back."""

import os
import signal
import sqlite3
import threading
import time
from hashlib import sha256
from pathlib import Path

import httpx
import pytest

from pinchbolt.store import SqliteLog
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import BENCH, JUNO, note

KILLS = int(os.environ.get("KILLS", "3"))


def test_every_receipted_entry_outlives_a_kill(tmp_path: Path):
    data = tmp_path / "data"
    with Workshop(data) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        _, token = workshop.people.pair(workshop.people.invite(JUNO), BENCH, "Bench tablet")
    pen = Writer(BENCH, JUNO)
    written: list[bytes] = []
    receipted = 0
    for kill in range(KILLS):
        served = running.start(data)
        client = httpx.Client(base_url=served.url, headers=running.PROTOCOL, cookies={"pinchbolt": token}, timeout=30)
        answered = threading.Event()
        # However long the first answer takes: one that never comes ends the test by the client's own patience.
        killing = threading.Thread(
            target=lambda s=served, a=answered, k=kill: (a.wait(60), time.sleep(0.05 * (k + 1)), s.process.kill())
        )
        killing.start()
        try:
            while True:
                written += [note(pen, f"Note {pen.n}") for _ in range(20)]
                answer = running.push(client, batch(BENCH, written[receipted : receipted + 500]))
                receipt = answer["receipt"]
                # Nothing is ever lost: a receipt never goes back, and names the bytes that were written.
                assert receipt["n"] >= receipted
                assert receipt["hash"] == sha256(written[receipt["n"] - 1]).hexdigest()
                assert all(a["outcome"] in ("stored", "known") for a in answer["answers"])
                receipted = receipt["n"]
                answered.set()
        except httpx.TransportError:
            client.close()
        killing.join()
        assert served.process.wait() == -signal.SIGKILL
        log = SqliteLog(data / DATABASE)
        try:
            held = [h.raw for h in log.everything()]
            assert held[:receipted] == written[:receipted]
            assert held == written[: len(held)]
            assert list(log.verify()) == []
        finally:
            log.close()
    assert receipted > 0


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("UPDATE entries SET bytes = replace(bytes, 'Note 2', 'Note 7') WHERE n = 3", "hash"),
        ("UPDATE entries SET hash = '{0}' WHERE n = 3", "hash"),
        ("DELETE FROM entries WHERE n = 3", "gone"),
        ("DELETE FROM entries WHERE n = 5", "ends at"),
        ("UPDATE entries SET subject = 'workshop' WHERE n = 3", "subject"),
        ("INSERT INTO gaps VALUES ('{1}', 2, 2)", "missing"),
    ],
)
def test_verify_names_what_was_altered(tmp_path: Path, change: str, words: str):
    with Workshop(tmp_path) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        workshop.add_device(BENCH, "Bench tablet", JUNO)
        pen = Writer(BENCH, JUNO)
        workshop.push(BENCH, batch(BENCH, [note(pen, f"Note {i}") for i in range(5)]))
        assert list(workshop.log.verify()) == []
        conn = sqlite3.connect(tmp_path / DATABASE)
        conn.execute(change.format("0" * 64, BENCH))
        conn.commit()
        conn.close()
        found = list(workshop.log.verify())
        assert found
        assert any(words in broken.what for broken in found)
        assert all(BENCH in broken.where for broken in found)
