"""The contract of a store: what docs/record.md promises of push, receipt and pull, the same for every store."""

import gzip
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path

import pytest

from pinchbolt.entries import NO_PREV, Arrival, Author, read_entry
from pinchbolt.store import Closed, Log, Sight, SqliteLog, Unsuitable
from pinchbolt.store.log import CHECKERS, Page, Pushed
from pinchbolt.store.opening import is_server
from pinchbolt.writer import Writer
from tests.server.conftest import give
from tests.server.hands import BENCH, FERN, GAPS_DAY, IMRE, IMRE_PHONE, ODILE, SLATE, bench, describe, note, now, torque


def outcomes(pushed: Pushed) -> list[str]:
    return [a.outcome for a in pushed.answers]


def fields(pushed: Pushed) -> list[str]:
    return [e["field"] for a in pushed.answers for e in a.errors or []]


def raws(log: Log, sight: Sight | None = None, after: int = 0, limit: int = 1000) -> list[bytes]:
    return [h.raw for h in log.pull(after, limit, sight or Sight()).held]


def digest(raw: bytes) -> str:
    return sha256(raw).hexdigest()


def several(many: int) -> list[bytes]:
    pen = bench()
    return [note(pen, f"Note {i}: 5 N·m") for i in range(many)]


def test_what_is_pushed_is_pulled_byte_for_byte(log: Log):
    entries = several(5)
    pushed = give(log, entries)
    assert outcomes(pushed) == ["stored"] * 5
    assert [a.seq for a in pushed.answers] == [1, 2, 3, 4, 5]
    assert (pushed.receipt.n, pushed.receipt.hash, pushed.receipt.missing) == (5, digest(entries[4]), [])
    assert raws(log) == entries


def test_an_entry_sent_again_is_known_and_stored_once(log: Log):
    entries = several(3)
    first = give(log, entries)
    again = give(log, entries)
    assert outcomes(again) == ["known"] * 3
    assert [a.seq for a in again.answers] == [a.seq for a in first.answers]
    assert again.receipt == first.receipt
    assert raws(log) == entries


def test_what_is_known_at_once_is_what_the_writer_says(log: Log, place: str):
    pen = bench()
    entries = [note(pen, "one"), note(pen, "two"), torque(pen, applied="tight"), note(pen, "four")]
    assert log.known(BENCH, entries) is None, "nothing is held yet"
    give(log, entries)
    for sound in (entries[:2], entries[1:2], entries[3:]):
        at_once = log.known(BENCH, sound)
        # A server over a network is asked by the writer only.
        assert at_once == (None if is_server(place) else give(log, sound))
    forged = entries[1].replace(b"two", b"2wo")
    backwards, twice, half_new = entries[1::-1], [entries[0]] * 2, [entries[3], note(pen)]
    for other in (entries, [entries[0], forged], [forged], backwards, twice, half_new, [b"{"], []):
        assert log.known(BENCH, other) is None, "left to the writer"
    assert log.known(IMRE_PHONE, entries[:2]) is None, "another device's"


def test_a_resend_that_overlaps_takes_the_new_and_knows_the_old(log: Log):
    entries = several(6)
    give(log, entries[:4])
    assert outcomes(give(log, entries[2:])) == ["known", "known", "stored", "stored"]
    assert raws(log) == entries


def test_a_device_that_has_sent_nothing_has_a_receipt_at_nought(log: Log):
    receipt = log.receipt(BENCH)
    assert (receipt.n, receipt.hash, receipt.missing) == (0, NO_PREV, [])
    assert give(log, []).receipt == receipt


def test_a_refused_entry_keeps_its_place_and_blocks_nothing(log: Log):
    pen = bench()
    entries = [note(pen), torque(pen, applied="tight"), note(pen)]
    pushed = give(log, entries)
    assert outcomes(pushed) == ["stored", "refused", "stored"]
    assert fields(pushed) == ["body.applied"]
    assert (pushed.receipt.n, pushed.receipt.hash) == (3, digest(entries[2]))
    assert raws(log) == [entries[0], entries[2]]
    assert outcomes(give(log, entries)) == ["known", "refused", "known"]


def test_a_broken_link_has_no_place_and_the_receipt_stays_below(log: Log):
    pen = bench()
    first = note(pen)
    pen.prev = "ab" * 32
    broken = note(pen)
    pushed = give(log, [first, broken])
    assert outcomes(pushed) == ["stored", "refused"]
    assert fields(pushed) == ["prev"]
    assert pushed.receipt.n == 1
    assert raws(log) == [first]


def test_a_number_taken_by_other_bytes_is_refused(log: Log):
    pen, fork = bench(), bench()
    first, other = note(pen, "one"), note(fork, "other")
    give(log, [first])
    pushed = give(log, [other])
    assert (outcomes(pushed), fields(pushed)) == (["refused"], ["n"])
    assert raws(log) == [first]


def test_an_id_that_is_taken_is_refused_and_keeps_its_place(log: Log):
    pen = bench()
    first = note(pen)
    twin = note(pen)
    twin = twin.replace(_id(twin), _id(first))
    pushed = give(log, [first, twin])
    assert (outcomes(pushed), fields(pushed)) == (["stored", "refused"], ["id"])
    assert pushed.receipt.n == 2


def _id(raw: bytes) -> bytes:
    return raw.split(b'"')[3]


def test_the_id_of_another_device_s_entry_is_refused_in_the_ordinary_push_too(log: Log):
    pen = bench()
    opening = note(pen)
    give(log, [opening])
    follower = note(pen)
    stolen = follower.replace(_id(follower), _id(opening))
    pushed = give(log, [stolen])
    assert (outcomes(pushed), fields(pushed)) == (["refused"], ["id"])
    assert raws(log) == [opening]


def test_a_gap_is_named_and_never_passed(log: Log):
    entries = several(6)
    pushed = give(log, [entries[0], entries[1], entries[3], entries[5]])
    assert outcomes(pushed) == ["stored"] * 4
    assert (pushed.receipt.n, pushed.receipt.hash, pushed.receipt.missing) == (2, digest(entries[1]), [3, 5])
    assert give(log, [entries[4]]).receipt.missing == [3]
    whole = give(log, [entries[2]]).receipt
    assert (whole.n, whole.hash, whole.missing) == (6, digest(entries[5]), [])


def test_what_fills_a_gap_must_be_what_the_next_entry_names(log: Log):
    pen, fork = bench(), bench()
    entries = [note(pen, str(i)) for i in range(3)]
    note(fork, "0")
    fork.prev = digest(entries[0])
    wrong = note(fork, "not what the device wrote")
    give(log, [entries[0], entries[2]])
    pushed = give(log, [wrong])
    assert (outcomes(pushed), fields(pushed)) == (["refused"], ["entry"])
    assert (pushed.receipt.n, pushed.receipt.missing) == (1, [2])
    assert give(log, [entries[1]]).receipt.n == 3


def test_at_most_a_hundred_missing_numbers_are_named(log: Log):
    entries = several(300)
    receipt = give(log, [entries[0], entries[299]]).receipt
    assert receipt.missing == list(range(2, 102))


def test_an_enormous_number_costs_nothing(log: Log):
    pen = bench()
    pen.n = 2**53 - 2
    receipt = give(log, [note(pen)]).receipt
    assert (receipt.n, receipt.missing) == (0, list(range(1, 101)))


@pytest.mark.parametrize(("cursor", "ends"), [(0, [10, 20, 25]), (7, [10, 20, 25]), (20, [25]), (25, [25])])
def test_pull_pages_meet_without_gap_or_overlap(log: Log, cursor: int, ends: list[int]):
    entries = several(25)
    give(log, entries)
    for _ in ("packed anew", "kept from before"):
        got: list[bytes] = []
        met: list[int] = []
        after, more = cursor, True
        while more:
            page = log.pull(after, 10, Sight())
            assert log.pull_text(after, 10, Sight()) == as_sent(page)
            assert gzip.decompress(log.pull_packed(after, 10, Sight())) == as_sent(page)
            got += [h.raw for h in page.held]
            after, more = page.next, page.more
            met.append(after)
        assert got == entries[cursor:]
        # So that phones come to ask for the same pages, a page ends at a seq that its limit divides.
        assert met == ends
    assert log.top() == 25


def test_a_page_that_was_not_full_is_packed_anew_when_more_came(log: Log):
    pen = bench()
    give(log, [note(pen, str(i)) for i in range(4)])
    assert gzip.decompress(log.pull_packed(0, 10, Sight())) == as_sent(log.pull(0, 10, Sight()))
    give(log, [note(pen, str(i)) for i in range(4, 12)])
    whole = log.pull(0, 10, Sight())
    assert len(whole.held) == 10
    assert gzip.decompress(log.pull_packed(0, 10, Sight())) == as_sent(whole)


def test_a_cursor_beyond_the_log_is_sent_back_to_its_end(log: Log):
    give(log, several(3))
    page = log.pull(99, 10, Sight())
    assert (page.held, page.next, page.more) == ([], 3, False)
    assert gzip.decompress(log.pull_packed(99, 10, Sight())) == log.pull_text(99, 10, Sight()) == as_sent(page)


def test_what_is_kept_packed_for_the_bench_is_not_shown_to_a_rider(log: Log):
    pen = bench()
    mine = describe(pen, FERN, "Fern", IMRE)
    give(log, [mine, note(pen, subject=SLATE), note(pen, subject=SLATE)])
    for sight in (Sight(), Sight(IMRE), Sight()):
        page = log.pull(0, 3, sight)
        assert len(page.held) == (3 if sight == Sight() else 1)
        assert gzip.decompress(log.pull_packed(0, 3, sight)) == as_sent(page)


def as_sent(page: Page) -> bytes:
    """A page as docs/record.md says it goes over the line."""
    entries = [b'{"seq":%d,"received_at":"%s","entry":%s}' % (h.seq, h.received_at.encode(), h.raw) for h in page.held]
    ending = b'"next":%d,"more":%s,"epoch":"%s","top":%d}' % (
        page.next,
        str(page.more).lower().encode(),
        page.epoch.encode(),
        page.top,
    )
    return b'{"entries":[' + b",".join(entries) + b"]," + ending


def test_a_rider_pulls_only_their_own_bike(log: Log):
    pen = bench()
    mine = [describe(pen, FERN, "Fern", IMRE), torque(pen)]
    others = [describe(pen, SLATE, "Slate", ODILE), note(pen, subject=SLATE), note(pen, "Keys are at the bakery.", "workshop")]
    give(log, [*mine, *others])
    assert raws(log, Sight(IMRE)) == mine
    assert log.subjects("bike/", Sight(IMRE)) == [FERN]
    assert log.sees(Sight(IMRE), FERN)
    assert not log.sees(Sight(IMRE), SLATE)
    assert log.subjects("bike/", Sight()) == sorted([FERN, SLATE])


def test_a_new_grant_brings_the_bike_s_past(log: Log):
    pen = bench()
    past = [describe(pen, SLATE, "Slate", ODILE), note(pen, subject=SLATE), torque(pen, subject=SLATE)]
    give(log, past)
    cursor = log.pull(0, 10, Sight(IMRE)).next
    assert cursor == 3
    sold = describe(pen, SLATE, "Slate", IMRE)
    give(log, [sold])
    page = log.pull(cursor, 2, Sight(IMRE))
    assert log.pull_text(cursor, 2, Sight(IMRE)) == as_sent(page)
    assert gzip.decompress(log.pull_packed(cursor, 2, Sight(IMRE))) == as_sent(page)
    assert [h.raw for h in page.held] == [*past, sold]
    assert log.pull(page.next, 2, Sight(IMRE)).held == []
    assert raws(log, Sight(ODILE)) == []


def test_a_voided_description_takes_its_grant_back(log: Log):
    pen = bench()
    wrong = describe(pen, FERN, "Fern", ODILE)
    give(log, [wrong])
    assert log.sees(Sight(ODILE), FERN)
    give(log, [pen.write(FERN, "void", {"entry": _id(wrong).decode(), "reason": "wrong rider"}, now())])
    assert not log.sees(Sight(ODILE), FERN)


def test_checkers_see_the_event_and_the_bikes_that_start(log: Log):
    pen = bench()
    give(log, [describe(pen, FERN, "Fern", IMRE), describe(pen, SLATE, "Slate", ODILE)])
    give(log, [pen.write(GAPS_DAY, "describe", {"name": "Three Gaps Day", "date": "2026-06-06"}, now())])
    give(log, [pen.write(GAPS_DAY, "start", {"plate": "7", "bike": FERN[5:]}, now())])
    assert log.subjects("bike/", Sight(CHECKERS)) == [FERN]
    assert log.subjects("event/", Sight(CHECKERS)) == [GAPS_DAY]


@pytest.mark.parametrize("kind", ["note", "void"])
def test_a_rider_writes_only_about_their_own(log: Log, kind: str):
    pen = bench()
    theirs = note(pen, subject=SLATE)
    give(log, [describe(pen, FERN, "Fern", IMRE), theirs])
    body = {"text": "mine now"} if kind == "note" else {"entry": _id(theirs).decode(), "reason": "away with it"}
    for subject, field in ((SLATE, "subject"), (FERN, "body.entry")):
        if kind == "note" and subject == FERN:
            continue
        phone = Writer(IMRE_PHONE, IMRE)
        phone.n, phone.prev = log.receipt(phone.device).n, log.receipt(phone.device).hash
        pushed = give(log, [phone.write(subject, kind, body, now())], Author(phone.device, IMRE, "rider"), Sight(IMRE))
        assert (outcomes(pushed), fields(pushed)) == (["refused"], [field])


def test_backup_is_whole_and_opens_or_says_what_to_use(log: Log, place: str, tmp_path: Path):
    entries = several(40)
    give(log, entries)
    copy = tmp_path / "copy.sqlite3"
    if is_server(place):
        with pytest.raises(Unsuitable, match="pg_dump"):
            log.backup(copy)
        return
    log.backup(copy)
    give(log, [])
    opened = SqliteLog(copy)
    try:
        assert [h.raw for h in opened.everything()] == entries
        assert list(opened.verify()) == []
        assert copy.stat().st_mode & 0o777 == 0o600
    finally:
        opened.close()


def test_a_closed_store_says_so(log: Log):
    log.close()
    with pytest.raises(Closed):
        give(log, several(1))
    with pytest.raises(Closed):
        log.top()


def test_many_devices_at_once_get_one_order(log: Log):
    pens = [Writer(f"{i:08x}-a72c-4f0b-8a3c-000000000001", IMRE) for i in range(8)]

    def arrivals(pen: Writer) -> Sequence[Arrival]:
        return [read_entry(note(pen), Author(pen.device, IMRE, "mechanic")) for _ in range(20)]

    futures = [log.push(pen.device, arrivals(pen), Sight()) for pen in pens for _ in range(5)]
    seqs = [a.seq for f in futures for a in f.result(timeout=30).answers]
    assert sorted(s for s in seqs if s is not None) == list(range(1, 801))
    assert list(log.verify()) == []
