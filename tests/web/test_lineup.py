"""The start line of the Three Gaps Day: two checkers without a signal, a desk that sees them come in, bad lists and labels."""

import csv
import json
import random
import re
import time
from io import StringIO
from pathlib import Path

import pytest
from playwright.sync_api import Browser, FilePayload, expect

from tests.web.checking import EVENT, PATIENT, STARTERS, Hand, counts, hand, tally, three_at_the_line
from tests.web.phone import Phone, phone
from tests.web.workshop import ServedWorkshop

# A clean bike, item by item: a minute of them, two seconds a touch. The list is read rather than leafed: to it and out again.
MOST_TOUCHES = 30
MOST_ON_LIST = 32


def checks_held(served: ServedWorkshop) -> list[dict[str, object]]:
    entries = [json.loads(raw) for raw in served.held()]
    return [e for e in entries if e["kind"] == "check" and e["body"].get("event") == EVENT]


def test_24_starters_checked_by_two_without_a_signal_are_all_there_afterwards(
    browser: Browser, day: ServedWorkshop, capsys: pytest.CaptureFixture[str]
):
    with three_at_the_line(browser, day) as (desk, juno, bas):
        before = len(day.held())
        for one in (juno, bas):
            one.page.context.set_offline(True)

        # One clean bike by hand: the touches and the time it takes.
        juno.touches, began = 0, time.monotonic()
        juno.plate("1")
        juno.begin()
        juno.pass_all()
        seconds = time.monotonic() - began
        with capsys.disabled():
            print(f"\na clean bike: {juno.touches} touches (at most {MOST_TOUCHES}), {seconds:.1f} s of them without thought")
        assert juno.touches <= MOST_TOUCHES

        # Another clean bike on the whole list: every item by its own touch there too.
        juno.touches, began = 0, time.monotonic()
        juno.plate("2")
        juno.begin()
        juno.pass_on_list()
        with capsys.disabled():
            print(f"on the list: {juno.touches} touches (at most {MOST_ON_LIST}), {time.monotonic() - began:.1f} s")
        assert juno.touches <= MOST_ON_LIST

        # Juno takes 1 to 14, Bas 11 to 24: four bikes are seen by both, and of plate 12 they think differently.
        for plate in range(3, 15):
            juno.check(str(plate), fail="Headset" if plate == 12 else None)
        for plate in range(11, 25):
            bas.check(str(plate))
        counts(juno, "Checked", 14)
        counts(bas, "Checked", 14)
        counts(desk, "Checked", 0)
        assert len(day.held()) == before, "nothing was sent without a signal"

        for one in (juno, bas):
            one.page.context.set_offline(False)
        # Live: nobody touches the desk.
        counts(desk, "Checked", STARTERS)
        for one in (juno, bas):
            expect(one.page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
            counts(one, "Checked", STARTERS)

        # Nothing lost, nothing twice: 28 checks of 24 bikes, the chains whole, all phones of one mind.
        assert len(checks_held(day)) == 28
        assert day.broken() == []
        words = ("Not cleared", "Open", "Not seen", "With care", "Cleared")
        seen = [[tally(one, word) for word in words] for one in (desk, juno, bas)]
        assert seen[0] == seen[1] == seen[2]
        assert sum(seen[0]) == STARTERS
        assert seen[0][2] == 0

        # Checked twice shows both; the one who failed it is not overruled by one who did not know.
        row = desk.page.get_by_role("row").filter(has=desk.page.get_by_role("rowheader", name="12", exact=True))
        expect(row).to_contain_text("Not cleared")
        expect(row.locator(".desk-check")).to_have_count(2)
        rows = desk.page.locator(".desk-table tbody tr").all()
        twice = [int(r.locator("th").inner_text()) for r in rows if r.locator(".desk-check").count() == 2]
        assert twice == [11, 12, 13, 14]
        holding = desk.page.locator("section", has=desk.page.get_by_role("heading", name="What holds up the start"))
        expect(holding).to_contain_text("Headset")
        # Wren fell and no start-line check clears that.
        expect(holding.get_by_role("link", name=re.compile("^3 "))).to_be_visible()
        expect(desk.page.get_by_role("heading", name="Time per bike")).to_be_visible()

        # The failed item is an open fault of the bike, until somebody says what was done.
        bas.page.get_by_role("button", name=re.compile("Not cleared")).tap()
        bas.plate("12")
        bas.page.get_by_role("link", name="The bike's own sheet").tap()
        expect(bas.page.get_by_role("heading", name="Open faults")).to_be_visible(timeout=PATIENT)
        bas.page.get_by_role("button", name=re.compile("^Close Headset")).tap()
        bas.page.get_by_label("What was done").fill("adjusted, no play")
        bas.page.get_by_role("button", name="Close the fault").tap()
        expect(bas.page.get_by_role("heading", name="Open faults")).to_have_count(0, timeout=PATIENT)


def test_a_checker_let_in_for_one_event_sees_its_bikes_only_and_records_there(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "the owner's desk", desk=True) as owner:
        page = owner.page
        birch = owner.new_bike("Birch")
        expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        page.goto(day.url + "/device")
        page.get_by_role("button", name="Let somebody in").click(timeout=PATIENT)
        page.get_by_label("Name", exact=True).fill("Nell")
        page.get_by_label("checker", exact=True).check(force=True)
        expect(page.get_by_role("button", name="Make the code")).to_be_disabled()
        page.get_by_label(re.compile("^Three Gaps Day")).check(force=True)
        page.get_by_role("button", name="Make the code").click()
        code = page.locator(".team-code .figure").inner_text().replace(" ", "")

        with hand(browser, day, code, "Nell's phone") as nell:
            page = nell.page
            expect(page.get_by_role("link", name=re.compile("Slate"))).to_be_visible(timeout=PATIENT)
            expect(page.get_by_role("link", name=re.compile("Birch"))).to_have_count(0)
            expect(page.get_by_role("link", name="New bike")).to_have_count(0)
            # What a checker does not record is not offered.
            page.get_by_role("link", name=re.compile("Slate")).tap()
            ways = page.get_by_role("navigation", name="Ways on").get_by_role("link")
            expect(ways).to_have_text(["Check", "Note", "Fault"], timeout=PATIENT)
            page.goto(birch)
            expect(page.get_by_role("heading", name="Not on this phone")).to_be_visible(timeout=PATIENT)
            nell.line()
            page.context.set_offline(True)
            nell.check("2")
            page.get_by_role("button", name="Type a plate").tap()
            page.get_by_label("Plate", exact=True).fill("77")
            page.get_by_role("button", name="Check it all the same").tap()
            page.get_by_role("button", name="Put on the start list").tap()
            page.get_by_label("Rider").fill("Ivo")
            page.get_by_role("button", name="Record", exact=True).tap()
            expect(page.locator(".title-block, main").first).to_contain_text("Ivo", timeout=PATIENT)
            page.context.set_offline(False)
            expect(page.get_by_text("all sent")).to_be_visible(timeout=60_000)

        mine = [json.loads(raw) for raw in day.held()][-2:]
        assert [(e["kind"], e["body"].get("plate")) for e in mine] == [("check", None), ("start", "77")]
        assert mine[0]["body"]["event"] == EVENT
        assert mine[1]["subject"] == f"event/{EVENT}"
        # The desk, which was open before Nell was let in, sees who it was.
        owner.line()
        row = owner.page.get_by_role("row").filter(has=owner.page.get_by_role("rowheader", name="2", exact=True))
        expect(row).to_contain_text("Nell", timeout=PATIENT)


def test_an_unknown_plate_is_checked_matched_changed_and_listed_with_no_formula(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "the desk's phone") as juno:
        page = juno.line().page
        page.get_by_role("button", name="Type a plate").tap()
        page.get_by_label("Plate", exact=True).fill("0 99")
        page.get_by_role("button", name="Check it all the same").tap()
        juno.begin()
        page.get_by_role("button", name="Fail", exact=True).tap()
        page.get_by_label("What is it?").fill("lever open")
        page.get_by_role("button", name="Next", exact=True).tap()
        page.get_by_role("button", name="Whole list").tap()
        while page.locator(".check-pass").count():
            page.locator(".check-pass").first.tap()
        page.get_by_role("button", name="To the verdict").tap()
        juno.record()
        expect(page.get_by_role("heading", name="Checked, not on the list")).to_be_visible(timeout=PATIENT)

        # Put on the list by name, with what a spreadsheet would run as a formula.
        juno.plate("99")
        page.get_by_role("button", name="Put on the start list").tap()
        page.get_by_label("Rider").fill('=HYPERLINK("http://example.org")')
        page.get_by_role("button", name="Record", exact=True).tap()
        expect(page.get_by_text("Plate 99 is on the start list")).to_be_visible(timeout=PATIENT)
        expect(page.locator(".title-main")).to_contain_text("Not cleared")

        # Another plate at the last minute: the check comes along; a taken plate is refused.
        page.get_by_role("button", name="Another plate").tap()
        page.get_by_label("New plate").fill("7")
        expect(page.get_by_text("Plate 7 is on the start list already")).to_be_visible()
        expect(page.get_by_role("button", name="Record", exact=True)).to_be_disabled()
        page.get_by_label("New plate").fill("199")
        page.get_by_role("button", name="Record", exact=True).tap()
        expect(page.get_by_role("heading", name="Plate 199")).to_be_visible(timeout=PATIENT)
        expect(page.locator(".title-main")).to_contain_text("Not cleared")
        expect(page.locator(".checked-here")).to_have_count(1)

        page.set_viewport_size({"width": 1280, "height": 800})
        page.get_by_role("link", name="Three Gaps Day").click()
        with page.expect_download() as saved:
            page.get_by_role("button", name="Save as CSV").click()
        rows = list(csv.DictReader(StringIO(Path(saved.value.path()).read_text(encoding="utf-8-sig"))))
        assert len(rows) == STARTERS + 1
        (mine,) = [r for r in rows if r["Plate"] == "199"]
        assert mine["Rider"].startswith("'=")
        assert mine["Came to"] == "Not fit to ride"
        assert mine["By"] == "Juno"
        assert int(mine["Seconds"]) > 0
        assert re.match(r"\d{4}-\d\d-\d\dT", mine["At"])
        assert "lever open" in mine["Found"]


def table(text: str | bytes, name: str = "starters.csv") -> FilePayload:
    return {"name": name, "mimeType": "text/csv", "buffer": text.encode() if isinstance(text, str) else text}


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("rider,team\nAda,Hill\n", "No column is called"),
        ("plate;name\n101;Ada\n101;Bo\n", "Plate 101 stands in line 2 already"),
        ("plate;name\n0007;Ada\n", "Plate 7 is on the start list already"),
        ("plate;name\n;Ada\n", "No plate for Ada"),
        ("plate;name\n" + "9" * 30 + ";Ada\n", "too long for a plate"),
        ("plate,name\n101,Ada, of the hill\n", "3 cells under 2 headings"),
        ("", "One column only"),
        ("plate\n", "One column only"),
        ("plate;name\n", "nothing under them"),
        ('plate,name\n101,"Ada\n', "quotation mark"),
        (b"PK\x03\x04\0\0\0\0;a;b\n1;2;3", "not a table of text"),
    ],
    ids=["no plates", "twice", "taken", "no plate", "long", "cells", "empty", "one column", "headings only", "quote", "binary"],
)
def test_a_bad_start_list_says_which_line_and_why_and_records_nothing(
    browser: Browser, season: ServedWorkshop, content: str | bytes, said: str, request: pytest.FixtureRequest
):
    page = list_page(browser, season, request)
    before = len(season.held())
    page.set_input_files("input[type=file]", table(content))
    expect(page.get_by_text(re.compile(re.escape(said)))).to_be_visible()
    # Of a plate that stands there twice the first is good; it is offered, and taken only by a touch.
    expect(page.get_by_role("button", name=re.compile("^Take the"))).to_have_count(
        1 if "already" in said and "101" in said else 0
    )
    assert len(season.held()) == before


def list_page(browser: Browser, season: ServedWorkshop, request: pytest.FixtureRequest):
    """The start list's sheet, opened once for all the bad ones."""
    made = getattr(request.module, "_list_page", None)
    if made is None:
        context = browser.new_context(viewport={"width": 390, "height": 844}, locale="en-GB")
        page = Hand(context.new_page(), season.url).pair(season.code, "a list").line().page
        page.get_by_role("link", name="Start list").click()
        expect(page.get_by_role("heading", name="From a table")).to_be_visible(timeout=PATIENT)
        request.module._list_page = made = page  # type: ignore[attr-defined]
    return made


def test_the_good_lines_of_a_list_are_taken_after_they_were_seen(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "a list") as juno:
        page = juno.line().page
        page.get_by_role("link", name="Start list").tap()
        # As a spreadsheet writes it for western Europe: semicolons, Windows-1252, CRLF.
        page.set_input_files(
            "input[type=file]", table("Bib;First name;Last name\r\n201;Zoë;Åkerlund\r\n3;Tam;\r\n".encode("cp1252"))
        )
        expect(page.get_by_text("1 line cannot be taken")).to_be_visible()
        expect(page.get_by_text("201 Zoë Åkerlund")).to_be_visible()
        page.get_by_role("button", name="Take the 1 starter").tap()
        expect(page.get_by_role("heading", name="25 starters")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("link", name=re.compile("^201"))).to_contain_text("Zoë Åkerlund")


@pytest.fixture(scope="module")
def door(browser: Browser, season: ServedWorkshop):
    with phone(browser, season.url) as made:
        yield made


def test_a_label_says_its_plate_and_nothing_else_will_do(door: Phone):
    """What a scanner may hand over: a good label, from whatever address it was printed; and every way it can be wrong."""
    other = EVENT.replace("4be9", "4bea")
    for plate in ("1", "42", "A7", "7/8", "Ö 1"):
        text = door.do("plateCode.labelText", "https://bench.example", EVENT, plate)
        assert door.do("plateCode.readLabel", text, EVENT) == {"plate": plate}
        assert door.do("plateCode.readLabel", text, other) == {"problem": "another-event"}
        for cut in range(len("https://bench.example/lineup/"), len(text)):
            assert "problem" in door.do("plateCode.readLabel", text[:cut], EVENT), text[:cut]
    good = door.do("plateCode.labelText", "https://bench.example", EVENT, "12")
    wrong = {
        good.replace("/plate/12", "/plate/13"): "damaged",
        good.replace("?c=", "?c=0"): "damaged",
        good.replace("/plate/12", "/plate/%FF"): "damaged",
        good.replace(EVENT, other): "damaged",
        "https://bench.example/bike/7": "not-a-label",
        "WIFI:S:hall;T:WPA;P:secret;;": "not-a-label",
        "": "not-a-label",
    }
    for text, problem in wrong.items():
        assert door.do("plateCode.readLabel", text, EVENT) == {"problem": problem}, text


def test_no_table_makes_the_reading_of_a_start_list_fall_over(door: Phone):
    """Whatever the bytes: starters and wrong lines, or a sentence; and no plate is ever given twice."""
    rnd = random.Random(5)
    pieces = [
        "plate",
        "name",
        ";",
        ",",
        "\n",
        '"',
        "7",
        "007",
        "\t",
        "é",
        "\r\n",
        " ",
        "bike",
        "Slate",
        "\ufeff",
        "=1+1",
        "99999",
    ]
    for _ in range(300):
        content = "".join(rnd.choice(pieces) for _ in range(rnd.randrange(60))).encode("utf-8")
        read = door.do("startList", list(content), ["7"])
        if isinstance(read, str):
            assert read.endswith((".", "line 1", "line 2", "line 3")) or "near line" in read, (content, read)
            continue
        plates = [one["plate"] for one in read["starters"]]
        assert len(plates) == len(set(plates))
        assert "7" not in plates
        assert all(one["what"] for one in read["wrong"])
