"""The queue: what is written is kept until the server's receipt covers it, whatever answers in between."""

import hashlib
import json
import os
import signal
import time
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Playwright, Route, expect

from pinchbolt.workshop import Workshop
from tests.web.phone import ARGUMENTS, CHROMIUM, Phone, tell
from tests.web.workshop import ServedWorkshop

PUSH = "**/api/sync/push"
OURS = {"Pinchbolt-Protocol": "1"}
BIKE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"
SADDLE = "0d5d5b8f-3a11-4c52-9c1e-5d0c1c3e7a0b"


def note(text: str) -> dict[str, Any]:
    return {"subject": BIKE, "kind": "note", "body": {"text": text}}


def page_of_a_cafe(route: Route) -> None:
    route.fulfill(status=200, content_type="text/html", body="<html><h1>Welcome to our network</h1></html>")


def json_of_somebody_else(route: Route) -> None:
    route.fulfill(status=200, content_type="application/json", body='{"answers": [], "receipt": {"n": 99}}')


def signed_out(route: Route) -> None:
    route.fulfill(status=401, headers=OURS, content_type="application/problem+json", body='{"title": "Sign in"}')


def too_big(route: Route) -> None:
    route.fulfill(status=413, body="too big")


def slow_down(route: Route) -> None:
    route.fulfill(status=429, headers={**OURS, "Retry-After": "3600"}, body="")


def broken_server(route: Route) -> None:
    route.fulfill(status=500, headers=OURS, body="")


def cut_short(route: Route) -> None:
    route.fulfill(status=200, headers=OURS, content_type="application/json", body='{"answers": [{"id": "')


def receipt_of_another(route: Route) -> None:
    device = "11111111-1111-4111-8111-111111111111"
    entries = json.loads(route.request.post_data or "{}")["entries"]
    answers = [{"id": e["id"], "n": e["n"], "outcome": "stored", "seq": i} for i, e in enumerate(entries, 1)]
    receipt = {"device": device, "n": len(entries), "hash": "0" * 64, "missing": []}
    body = json.dumps({"answers": answers, "receipt": receipt})
    route.fulfill(status=200, headers=OURS, content_type="application/json", body=body)


def dropped(route: Route) -> None:
    route.abort("connectionreset")


@pytest.mark.parametrize(
    ("reply", "state", "said"),
    [
        (page_of_a_cafe, "offline", "sign-in page"),
        (json_of_somebody_else, "offline", "sign-in page"),
        (signed_out, "signed-out", "Pair it again"),
        (too_big, "trouble", "too much"),
        (slow_down, "waiting", "wait a little"),
        (broken_server, "waiting", "500"),
        (cut_short, "waiting", "cut short"),
        (receipt_of_another, "waiting", "not understood"),
        (dropped, "offline", "No way to the server"),
    ],
)
def test_no_wrong_answer_loses_an_entry(mine: Phone, reply: Callable[[Route], None], state: str, said: str) -> None:
    written = mine.do("record.write", [note("chain cleaned"), note("bottle cage loose")])
    mine.page.route(PUSH, reply)
    told = mine.sync()
    assert told["state"] == state
    assert said in told["said"]
    assert told["unsent"] == 2
    assert mine.waiting() == written
    mine.page.unroute(PUSH)
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0)


def test_a_reply_lost_after_the_server_stored_it_leads_to_nothing_twice(mine: Phone, workshop: ServedWorkshop) -> None:
    written = mine.do("record.write", note("saddle clamp greased"))

    def lose_the_reply(route: Route) -> None:
        route.fetch()
        route.abort("connectionreset")

    mine.page.route(PUSH, lose_the_reply)
    assert mine.sync()["unsent"] == 1
    mine.page.unroute(PUSH)
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    held = [json.loads(raw) for raw in workshop.held()]
    assert [one["id"] for one in held] == [one["id"] for one in written]


def test_what_the_server_would_refuse_for_its_size_is_refused_on_the_phone(mine: Phone, workshop: ServedWorkshop) -> None:
    answers = [{"item": "x", "mark": "fail", "note": "ö" * 8001}]
    check = {"subject": BIKE, "kind": "check", "body": {"check": "pre-event", "version": 1, "answers": answers}}
    ride = {"subject": BIKE, "kind": "ride", "body": {"km": -1}}
    pieces = {"subject": BIKE, "kind": "part-fit", "body": {"part": SADDLE, "slot": "saddle", "name": "saddle A", "count": 2.5}}
    for draft, said in (
        (note("ö" * 8001), "text: 8001 characters, wanted at most 8000"),
        (check, r"answers\[0\].note: 8001 characters, wanted at most 8000"),
        (ride, "km: -1, wanted a number of at least 0"),
        (pieces, "count: 2.5, wanted a whole number"),
    ):
        with pytest.raises(AssertionError, match=said):
            mine.do("record.write", draft)
    # What is just right goes, in the server's way of counting: a character of two UTF-16 units is one.
    mine.do("record.write", note("\N{BICYCLE}" * 8000))
    assert (mine.sync()["unsent"], mine.value("syncState")["refused"]) == (0, [])
    assert len(workshop.held()) == 1


def test_a_batch_too_big_is_halved_until_it_passes(mine: Phone, workshop: ServedWorkshop) -> None:
    mine.do("record.write", [note(f"spoke {i} at its tension") for i in range(60)])
    sizes: list[int] = []

    def only_small(route: Route) -> None:
        sizes.append(len(json.loads(route.request.post_data or "{}")["entries"]))
        if sizes[-1] > 16:
            too_big(route)
        else:
            route.continue_()

    mine.page.route(PUSH, only_small)
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0)
    assert sizes[:3] == [60, 30, 15]
    assert len(workshop.held()) == 60


def test_a_refused_entry_needs_somebody_and_blocks_nobody(mine: Phone, workshop: ServedWorkshop) -> None:
    bad = {"subject": BIKE, "kind": "torque", "body": {"joint": "stem-bar", "applied": "tight"}}
    mine.do("record.write", [note("before"), bad, note("after")])
    told = mine.sync()
    assert told["unsent"] == 0
    assert [one["entry"]["kind"] for one in told["refused"]] == ["torque"]
    assert any("applied" in fault["field"] for fault in told["refused"][0]["errors"])
    assert [json.loads(raw)["body"].get("text") for raw in workshop.held()] == ["before", "after"]
    # Somebody writes it again, rightly, and puts the wrong one away.
    mine.do("record.write", {**bad, "body": {"joint": "stem-bar", "applied": 5.0}})
    mine.do("record.dismiss", told["refused"][0]["entry"]["id"])
    told = mine.sync()
    assert (told["unsent"], told["refused"]) == (0, [])
    assert workshop.broken() == []


def test_what_was_refused_mends_nothing_on_this_phone_either(mine: Phone, workshop: ServedWorkshop) -> None:
    """A fault whose closing the server would not take is open for everybody, and so it is here."""
    fault = {"what": "crack at the crown", "level": "stop"}
    (opened,) = mine.do("record.write", {"subject": BIKE, "kind": "fault", "body": fault})
    closed = {"fault": opened["id"], "done": "new fork", "by_whom": "nobody asks for this"}
    mine.do("record.write", {"subject": BIKE, "kind": "fault-close", "body": closed})
    assert mine.do("folding.openBike", BIKE)["state"]["faults"] == []
    assert [one["entry"]["kind"] for one in mine.sync()["refused"]] == ["fault-close"]
    assert [f["what"] for f in mine.do("folding.openBike", BIKE)["state"]["faults"]] == ["crack at the crown"]


def test_a_refused_entry_is_mended_without_signal_and_stays_on_record(mine: Phone, workshop: ServedWorkshop) -> None:
    bad = {"subject": BIKE, "kind": "torque", "body": {"joint": "stem-bar", "applied": "tight"}}
    (refused,) = mine.do("record.write", bad)
    assert len(mine.sync()["refused"]) == 1
    app = mine.page.context.new_page()
    app.route(PUSH, dropped)
    app.goto(workshop.url + "/device")
    app.get_by_role("button", name="Mend it").click()
    applied = app.get_by_label("applied")
    # What was refused stands first, with what was given and what is wanted.
    expect(app.locator(".mend .text-field").first).to_contain_text("body.applied: given tight, wanted a number")
    app.get_by_role("button", name="Write it anew").click()
    expect(app.get_by_text("A number is wanted here.")).to_be_visible()
    applied.fill("5.2")
    app.get_by_role("button", name="Write it anew").click()
    expect(app.get_by_text("1 refused before")).to_be_visible()
    app.close()
    told = mine.sync()
    assert (told["unsent"], told["refused"], len(told["dealtWith"])) == (0, [], 1)
    (held,) = [json.loads(raw) for raw in workshop.held()]
    assert held["body"] == {"joint": "stem-bar", "applied": 5.2, "instead_of": refused["id"]}
    # The refused one stays on both sides, and is not brought up again.
    here = tell(mine.page, f"door.database().then((db) => db.get('refused', {json.dumps(refused['id'])}))")
    assert json.loads(here["text"]) == refused
    with Workshop(workshop.data) as opened:
        kept = opened.log.quarantined(refused["device"], refused["n"])
        assert kept is not None
        assert json.loads(kept) == refused
    mine.open()
    assert (mine.sync()["refused"], workshop.broken()) == ([], [])


def test_a_killed_server_gets_the_queue_when_it_is_back(mine: Phone, workshop: ServedWorkshop) -> None:
    workshop.kill()
    mine.do("record.write", [note("written in the dark"), note("and another")])
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("offline", 2)
    workshop.start()
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    assert len(workshop.held()) == 2
    assert workshop.broken() == []


def chain_is_whole(entries: list[dict[str, Any]], texts: list[str]) -> bool:
    """n counts from 1 without a gap, and each prev is the SHA-256 of the bytes before it (docs/record.md)."""
    sums = ["0" * 64, *(hashlib.sha256(text.encode()).hexdigest() for text in texts)]
    return [e["n"] for e in entries] == list(range(1, len(entries) + 1)) and [e["prev"] for e in entries] == sums[:-1]


def test_two_tabs_never_fork_the_counter(mine: Phone, workshop: ServedWorkshop) -> None:
    other = Phone(mine.page.context.new_page(), mine.url).open()
    write = "Promise.all(Array.from({length: 60}, (_, i) => door.record.write(%s)))"
    started = [
        (tab, tell(tab.page, f"void (globalThis.writing = {write % json.dumps(note(name))})"))
        for tab, name in ((mine, "from one tab"), (other, "from the other"))
    ]
    for tab, _ in started:
        tell(tab.page, "globalThis.writing.then(() => null)")
    texts = [kept["text"] for kept in mine.do("record.unsent")]
    entries = [json.loads(text) for text in texts]
    assert len(entries) == 120
    assert chain_is_whole(entries, texts)
    stamps = [entry["stamp"] for entry in entries]
    assert stamps == sorted(set(stamps))
    # Both send at once; one does, and the server has everything once.
    tell(other.page, "void door.syncNow()")
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    assert len(workshop.held()) == 120
    assert workshop.broken() == []


@pytest.fixture
def own_browser(playwright: Playwright, tmp_path: Path, workshop: ServedWorkshop) -> Iterator[Callable[[], Phone]]:
    """A browser with a profile on the disk, opened as often as asked."""
    opened: list[Any] = []

    def again() -> Phone:
        made = playwright.chromium.launch_persistent_context(
            str(tmp_path / "profile"), executable_path=CHROMIUM, args=ARGUMENTS, service_workers="block"
        )
        opened.append(made)
        return Phone(made.new_page(), workshop.url).open()

    yield again
    for made in opened:
        made.close()


def processes_of(profile: Path) -> list[int]:
    found: list[int] = []
    for folder in Path("/proc").iterdir():
        if folder.name.isdigit():
            try:
                called = (folder / "cmdline").read_bytes().split(b"\0")
            except OSError:
                continue
            if f"--user-data-dir={profile}".encode() in called:
                found.append(int(folder.name))
    return found


def test_a_browser_killed_right_after_writing_still_has_the_entry(
    own_browser: Callable[[], Phone], tmp_path: Path, workshop: ServedWorkshop
) -> None:
    # A phone that has been opened before: what a browser notes of a new site may not be on the disk within a second.
    first = own_browser()
    first.pair(workshop.code)
    first.page.context.close()
    first = own_browser()
    written = first.do("record.write", note("the last word"))
    killed = processes_of(tmp_path / "profile")
    assert killed
    for process in killed:
        os.kill(process, signal.SIGKILL)
    while processes_of(tmp_path / "profile"):
        time.sleep(0.05)
    second = own_browser()
    assert second.waiting() == written
    # Its cookie may not have reached the disk in that moment; then it says so, and pairs again as the same device.
    if second.sync()["state"] == "signed-out":
        second.pair(workshop.code_for("Owner"))
    assert second.sync()["unsent"] == 0
    assert [json.loads(raw)["id"] for raw in workshop.held()] == [written[0]["id"]]


def test_the_queue_saved_to_a_file_is_the_exact_entries(mine: Phone) -> None:
    mine.do("record.write", [note("one"), note("Größe, 5 N·m, “quoted”\nsecond line")])
    saved = tell(mine.page, "door.queueFile().then((file) => file.text())")
    assert saved.splitlines() == [kept["text"] for kept in mine.do("record.unsent")]
    assert chain_is_whole([json.loads(line) for line in saved.splitlines()], saved.splitlines())


def test_a_server_restored_from_a_backup_gets_everything_again(mine: Phone, workshop: ServedWorkshop) -> None:
    mine.do("record.write", [note("one"), note("two")])
    mine.sync()
    workshop.stop()
    backup = {path: path.read_bytes() for path in workshop.data.iterdir()}
    workshop.start()
    mine.do("record.write", [note("three"), note("four")])
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    workshop.stop()
    for path in workshop.data.iterdir():
        path.unlink()
    for path, content in backup.items():
        path.write_bytes(content)
    workshop.start()
    assert len(workshop.held()) == 2
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    assert [json.loads(raw)["body"]["text"] for raw in workshop.held()] == ["one", "two", "three", "four"]


def test_a_wrong_clock_is_said_and_order_is_kept(browser: Browser, workshop: ServedWorkshop) -> None:
    made = browser.new_context(service_workers="block")
    made.clock.install(time="2026-01-01T00:00:00Z")
    slow = Phone(made.new_page(), workshop.url).open()
    slow.pair(workshop.code)
    slow.do("record.write", note("long ago, says the phone"))
    assert "behind" in slow.sync()["clock"]
    made.close()


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        ({"subject": "bike/fern", "kind": "note", "body": {"text": "x"}}, "subject"),
        ({"subject": "workshop", "kind": "note", "body": {"text": "x" * 8_001}}, "text: 8001 characters"),
        ({"subject": "workshop", "kind": "check-define", "body": {"not measured in characters": [0] * 70_000}}, "bytes"),
    ],
)
def test_what_can_be_no_entry_is_not_written(mine: Phone, draft: dict[str, Any], field: str) -> None:
    with pytest.raises(AssertionError, match=field):
        mine.do("record.write", draft)
    assert mine.waiting() == []


def test_numbers_that_are_none_are_not_written(mine: Phone) -> None:
    draft = f"{{subject: {json.dumps(BIKE)}, kind: 'weigh', body: {{mass: NaN}}}}"
    with pytest.raises(AssertionError, match=r"body\.mass: NaN, wanted a finite number"):
        tell(mine.page, f"door.record.write({draft})")


def test_ids_are_uuid_version_7_and_times_are_the_phones(mine: Phone) -> None:
    (entry,) = mine.do("record.write", note("now"))
    assert uuid.UUID(entry["id"]).version == 7  # RFC 9562, 5.7
    assert entry["noted_at"].endswith("Z")
    assert entry["stamp"].endswith(entry["device"][:8])
