"""What several server processes over one PostgreSQL database promise each other, and moving a workshop there and back."""

import subprocess
import threading
import time
from collections.abc import Callable
from pathlib import Path

import psycopg
import pytest
from click.testing import CliRunner

from pinchbolt.access import privacy
from pinchbolt.cli import main
from pinchbolt.entries import Author, read_entry
from pinchbolt.store import Log, Sight
from pinchbolt.store.copying import TABLES
from pinchbolt.store.entry_log import EntryLog
from pinchbolt.store.opening import open_database
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import hands, running
from tests.server.conftest import give
from tests.server.hands import BENCH, FERN, IMRE, JUNO, SLATE, describe, note, torque
from tests.server.postgres import programs

NewDatabase = Callable[[], str]

# Holds each commit back for up to 20 ms, after its rows are written and before anybody sees them.
LATE = """
CREATE FUNCTION late() RETURNS trigger LANGUAGE plpgsql AS
  $$ BEGIN PERFORM pg_sleep(random() * 0.02); RETURN NULL; END $$;
CREATE CONSTRAINT TRIGGER late AFTER INSERT ON {table} DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION late();
"""


def followed(seqs_after: Callable[[int], list[int]], done: threading.Event) -> list[int]:
    """What a reader gets that asks again and again for what is behind its cursor."""
    got: list[int] = []
    while True:
        last = done.is_set()
        got += seqs_after(got[-1] if got else 0)
        if last:
            return got


def at_once(works: list[Callable[[], None]], done: threading.Event) -> None:
    threads = [threading.Thread(target=work) for work in works]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    done.set()


def test_a_plain_sequence_would_let_a_reader_skip_what_commits_late(postgres: NewDatabase):
    """The danger is real: without the order of commits the very same reader loses entries."""
    url = postgres()
    with psycopg.connect(url, autocommit=True) as conn:
        conn.execute("CREATE TABLE naive (seq bigserial PRIMARY KEY)")
        conn.execute(LATE.format(table="naive").encode())
    done = threading.Event()

    def write() -> None:
        with psycopg.connect(url, autocommit=True) as conn:
            for _ in range(15):
                conn.execute("INSERT INTO naive DEFAULT VALUES")

    writing = threading.Thread(target=at_once, args=([write] * 4, done))
    with psycopg.connect(url, autocommit=True) as conn:
        writing.start()
        sql = "SELECT seq FROM naive WHERE seq > %s ORDER BY seq"
        got = followed(lambda after: [seq for (seq,) in conn.execute(sql, (after,))], done)
        writing.join()
    assert len(got) < 60


def test_a_reader_never_skips_an_entry_that_commits_late(postgres: NewDatabase):
    url = postgres()
    logs = [EntryLog(open_database(url)) for _ in range(4)]
    with psycopg.connect(url, autocommit=True) as conn:
        conn.execute(LATE.format(table="numbers").encode())
    done = threading.Event()

    def writer(i: int) -> Callable[[], None]:
        pen = Writer(f"{i:08x}-a72c-4f0b-8a3c-000000000001", JUNO)
        subject = (FERN, SLATE, "workshop", hands.GAPS_DAY)[i]

        def write() -> None:
            for _ in range(15):
                give(logs[i], [note(pen, subject=subject)], Author(pen.device, JUNO, "owner"))

        return write

    writing = threading.Thread(target=at_once, args=([writer(i) for i in range(4)], done))
    writing.start()
    try:
        # Read through a process that writes too, and page by page.
        got = followed(lambda after: [h.seq for h in logs[0].pull(after, 7, Sight()).held], done)
        while more := logs[1].pull(got[-1], 7, Sight()).held:
            got += [h.seq for h in more]
    finally:
        writing.join()
        for log in logs:
            log.close()
    assert got == list(range(1, 61))


def test_an_entry_waits_for_the_one_that_got_its_seq_before(postgres: NewDatabase):
    """Two transactions interleaved by hand: the first has its seqs and has not committed, the second may not pass it."""
    url = postgres()
    database = open_database(url)
    log, other = EntryLog(database), database.connect()
    try:
        with other.alone():
            seq = other.highest_given() + 1
            raw = note(Writer(hands.BAS_PHONE, hands.BAS))
            e = read_entry(raw, Author(hands.BAS_PHONE, hands.BAS, "mechanic")).envelope
            assert e is not None
            other.append([(seq, e.id, e.subject, e.device, e.n, e.kind, e.stamp, "0" * 64, e.noted_at, raw)])
            arrival = read_entry(note(hands.bench()), hands.BENCH_AUTHOR)
            second = log.push(BENCH, [arrival], Sight())
            time.sleep(0.2)
            assert not second.done()
            assert log.pull(0, 10, Sight()).held == []
        assert second.result(timeout=10).answers[0].seq == seq + 1
        assert [h.seq for h in log.pull(0, 10, Sight()).held] == [seq, seq + 1]
    finally:
        other.close()
        log.close()


def test_processes_hear_of_each_others_commits_and_what_they_remember_stays_true(postgres: NewDatabase):
    url = postgres()
    heard = threading.Event()
    one, two = EntryLog(open_database(url)), EntryLog(open_database(url), heard.set)
    pen = hands.bench()
    try:
        for i in range(6):
            heard.clear()
            # The same phone comes by way of either process.
            pushed = give((one, two)[i % 2], [note(pen), torque(pen, "tight" if i == 3 else 5.0)])
            assert pushed.receipt.n == 2 * (i + 1)
            assert heard.wait(5)
        # The database goes away and comes back; nobody is told.
        with psycopg.connect(url, autocommit=True) as conn:
            others = "datname = current_database() AND pid <> pg_backend_pid()"
            conn.execute(f"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE {others}".encode())
        assert one.top() == 11
        assert give(two, [note(pen)]).receipt.n == 13
        assert list(one.verify()) == []
    finally:
        one.close()
        two.close()


def test_verify_finds_what_was_altered_in_one_of_the_two_tables(postgres: NewDatabase):
    url = postgres()
    log = EntryLog(open_database(url))
    pen = hands.bench()
    give(log, [note(pen), note(pen)])
    for change in ("UPDATE entries SET hash = 'f' || hash WHERE n = 2", "DELETE FROM numbers WHERE n = 1"):
        with psycopg.connect(url, autocommit=True) as conn:
            conn.execute(change.encode())
        assert "seq" in next(log.verify()).what
    log.close()


def test_two_servers_over_one_database_are_one_workshop(postgres: NewDatabase, tmp_path: Path):
    url = postgres()
    with (
        running.server(tmp_path / "data", "--database", url) as one,
        running.server(tmp_path / "data", "--database", url) as two,
    ):
        here = running.pair(one.url, one.code, BENCH)
        there = running.pair(two.url, two.code, hands.BAS_PHONE)
        pen = Writer(BENCH, here.get("/api/me").json()["person"]["id"])
        with there.stream("GET", "/api/live") as live:
            lines = live.iter_lines()
            assert next(lines) == "event: seq"
            entry = note(pen)
            running.push(here, batch(BENCH, [entry]))
            told = next(line for line in lines if line.startswith("data:") and line != "data: 0")
            assert told == "data: 1"
        assert entry in there.get("/api/sync/pull").content
        here.close()
        there.close()


# The accounts, over each engine.


@pytest.fixture
def house(place: str, tmp_path: Path):
    with Workshop(tmp_path / "data", place=place) as made:
        made.add_person(JUNO, "Juno", "owner")
        made.add_person(IMRE, "Imre Quillfeather", "rider")
        made.add_device(BENCH, "Bench tablet", JUNO)
        yield made


def test_a_phone_is_let_in_known_and_shut_out(house: Workshop):
    people = house.people
    device, token = people.pair(people.invite(IMRE), hands.IMRE_PHONE, "Imre's phone")
    assert people.authenticate(token, unsent=3) == device
    assert [(one.name, one.unsent) for one in people.listed() if one.person == IMRE] == [("Imre's phone", 3)]
    with pytest.raises(Exception, match="nobody else"):
        people.pair(people.invite(JUNO), hands.IMRE_PHONE, "x")
    assert people.revoke(hands.IMRE_PHONE)
    assert people.authenticate(token) is None
    assert people.was_shut_out(token)
    for odd in ("", "no id", "\0", "é"):
        assert people.person(odd) is None
        assert people.device(odd) is None
        assert not people.revoke(odd)


def test_a_person_is_taken_out_whole_and_forgotten(house: Workshop):
    house.people.add_device(hands.IMRE_PHONE, "Quillfeather's phone", IMRE)
    house.push(BENCH, batch(BENCH, [describe(hands.bench(), FERN, "Fern", IMRE)]))
    assert house.log.sees(Sight(IMRE), FERN)
    told = privacy.everything_of(house.database, IMRE)
    assert told["person"]["name"] == "Imre Quillfeather"
    assert [e["entry"]["subject"] for e in told["entries"]] == [FERN]
    in_a_year = time.time() + 365 * 86400
    assert privacy.stale(house.database, 300, in_a_year) == [IMRE]
    privacy.forget(house.database, IMRE)
    assert "Quillfeather" not in str(privacy.everything_of(house.database, IMRE))
    with pytest.raises(Exception, match="last owner"):
        privacy.forget(house.database, JUNO)
    assert [b["name"] for b in house.bikes(Sight(IMRE))] == ["Fern"]
    assert house.passphrases.owner_of("Juno", "none was set") is None


def columns(url: str, table: str) -> set[str]:
    sql = "SELECT column_name FROM information_schema.columns WHERE table_name = %s"
    with psycopg.connect(url) as conn:
        return {name for (name,) in conn.execute(sql, (table,))}


def test_every_column_is_carried_over(postgres: NewDatabase, tmp_path: Path):
    """A migration that adds one is told here that it is not copied, or not in the other engine."""
    url = postgres()
    file = open_database(str(tmp_path / "here"))
    file.migrate()
    conn = file.connect()
    tables = {
        name for (name,) in conn.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
    }
    # A life begins anew in a copy, and a challenge is good for minutes.
    assert tables == {table.name for table in TABLES} | {"lives", "challenges"}
    for table in TABLES:
        here = {row[1] for row in conn.execute(f"PRAGMA table_info({table.name})")}
        assert here == columns(url, table.name) == set(table.columns.split(", ")) | ({"number"} & here)
    conn.close()


def test_a_workshop_moves_to_postgresql_and_back(postgres: NewDatabase, tmp_path: Path):
    with Workshop(tmp_path) as made:
        made.add_person(JUNO, "Juno", "owner")
        made.add_person(IMRE, "Imre", "rider")
        _, token = made.people.pair(made.people.invite(JUNO), BENCH, "Bench tablet")
        pen = hands.bench()
        entries = [
            describe(pen, FERN, "Fern", IMRE),
            *(note(pen, f"Note {i}") for i in range(30)),
            torque(pen, "tight"),
            note(pen),
        ]
        made.push(BENCH, batch(BENCH, [*entries[:10], *entries[12:]]))
        receipt, epoch, held = made.log.receipt(BENCH), made.log.epoch(), list(made.log.everything())
    assert receipt.missing == [11, 12]
    here, there, back = str(tmp_path / "pinchbolt.sqlite3"), postgres(), str(tmp_path / "back.sqlite3")
    for source, target in ((here, there), (there, back)):
        done = CliRunner().invoke(main, ["copy", source, target])
        assert done.exit_code == 0, done.output
        assert "1 quarantine" in done.output
        again = CliRunner().invoke(main, ["copy", source, target])
        assert again.exit_code == 2
        assert f"{open_database(target).name} is not empty: 30 rows in entries" in again.output
    for place in (there, back):
        with Workshop(tmp_path, place=place) as moved:
            log: Log = moved.log
            assert list(log.everything()) == held
            assert log.receipt(BENCH) == receipt
            assert log.epoch() != epoch
            assert moved.people.authenticate(token) is not None
            answers = moved.push(BENCH, batch(BENCH, entries[10:12]))
            assert [a["outcome"] for a in answers["answers"]] == ["stored", "stored"]
            assert answers["receipt"]["missing"] == []
            assert list(moved.verify()) == []
    assert CliRunner().invoke(main, ["copy", str(tmp_path / "nowhere"), there]).exit_code == 2


def test_what_a_file_s_commands_do_not_do_to_a_server_is_said(postgres: NewDatabase, tmp_path: Path):
    url = postgres()
    for call, use in ((["backup", str(tmp_path / "b")], "pg_dump"), (["restore", __file__], "pg_restore")):
        done = CliRunner().invoke(main, [*call, "--data", str(tmp_path), "--database", url])
        assert (done.exit_code, use in done.output) == (2, True), done.output
    done = CliRunner().invoke(main, ["verify", "--data", str(tmp_path), "--database", url.replace("/workshop", "/elsewhere")])
    assert done.exit_code == 2
    assert "does not exist" in done.output
    done = CliRunner().invoke(main, ["verify", "--data", str(tmp_path), "--database", url])
    assert (done.exit_code, done.output) == (0, "whole, up to seq 0\n")


def test_what_pg_dump_keeps_comes_back_whole_and_its_copy_is_a_new_life(postgres: NewDatabase, tmp_path: Path):
    """As docs/administration.md has it: pg_dump, pg_restore, then `pinchbolt copy` into a fresh database."""
    url, restored, fresh = postgres(), postgres(), postgres()
    with psycopg.connect(restored, autocommit=True) as conn:
        # As createdb leaves it: pg_restore brings the tables along.
        conn.execute(b"DROP SCHEMA public CASCADE; CREATE SCHEMA public")
    with Workshop(tmp_path, place=url) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
        token = workshop.people.pair(workshop.people.invite(JUNO), BENCH, "the tablet")[1]
        pen = hands.bench()
        entries = [describe(pen, FERN, "Fern", IMRE), *(note(pen, f"Spoke {i}: 5 N·m") for i in range(60))]
        workshop.push(BENCH, batch(BENCH, entries))
        held, epoch, dump = list(workshop.log.everything()), workshop.log.epoch(), str(tmp_path / "dump")
        # The server keeps running meanwhile.
        for call in (
            ("pg_dump", "--format", "custom", "--file", dump, url),
            ("pg_restore", "--dbname", restored, dump),
        ):
            subprocess.run([programs() / call[0], *call[1:]], check=True, timeout=60)
    done = CliRunner().invoke(main, ["copy", restored, fresh])
    assert done.exit_code == 0, done.output
    for place in (restored, fresh):
        with Workshop(tmp_path, place=place) as back:
            assert list(back.verify()) == []
            assert list(back.log.everything()) == held
            assert back.people.authenticate(token) is not None
            assert (back.log.epoch() == epoch) == (place == restored)
            pushed = back.push(BENCH, batch(BENCH, [note(Writer(BENCH, JUNO)), entries[-1]]))
            assert [a["outcome"] for a in pushed["answers"]] == ["refused", "known"]
