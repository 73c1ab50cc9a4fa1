"""Part lists as spreadsheets write them: every row is whole, or kept with its reason; nothing is half-imported."""

import csv
import io
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.building import PATIENT, bike, choose_file, new_bike, saved
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop


@pytest.fixture
def builder(browser: Browser, workshop: ServedWorkshop) -> Iterator[Page]:
    with new_bike(browser, workshop) as page:
        yield page


@pytest.fixture(scope="module")
def reader(browser: Browser, web: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """One phone for the lists that are read and never recorded; the next list takes the place of the last."""
    served = ServedWorkshop(tmp_path_factory.mktemp("lists"), web, "serve").start()
    with new_bike(browser, served) as page:
        yield page
    served.stop()


HEAD = "slot,name,claimed\n"


@pytest.mark.parametrize(
    ("content", "good", "said"),
    [
        pytest.param("\ufeffslot,name,claimed\nframe,frame A,1012\n".encode(), 1, [], id="utf-8 with a mark"),
        pytest.param("slot;name;claimed\nframe;Rahmen groß;1012,5\n".encode("utf-16"), 1, ["Rahmen groß"], id="utf-16"),
        pytest.param(
            "slot;name;claimed\nframe;cadre léger;1012,5\n".encode("cp1252"), 1, ["cadre léger", "1012.5 g"], id="western"
        ),
        pytest.param(b"slot\tname\tclaimed\nframe\tframe A\t1.012 kg\nfork\tfork\t374.5 g\n", 2, ["1012 g"], id="tabs, units"),
        pytest.param(b"slot|name|claimed\nframe|frame A|1012\n", 1, [], id="bars"),
        pytest.param((HEAD + 'frame,"frame ""A"", light",980\n').encode(), 1, ['frame "A", light'], id="quotes"),
        pytest.param((HEAD + "stem,a,128\nstem,b,131\nbar,c,228\n").encode(), 1, ["given more than once"], id="a slot twice"),
        pytest.param((HEAD + "stem,a,-128\n").encode(), 0, ["-128 is below nought"], id="negative"),
        pytest.param((HEAD + "stem,a,heavy\n").encode(), 0, ["is not a number"], id="words for a weight"),
        pytest.param((HEAD + 'frame,a,"1,012"\n').encode(), 0, ["may be a thousand or a decimal"], id="thousand or decimal"),
        pytest.param((HEAD + "stem,a,128,5\n").encode(), 0, ["4 cells, but 3 headings"], id="a separator too many"),
        pytest.param(
            (HEAD + "stem,,128\n,a,128\n").encode(), 0, ["No name is given", "No slot is given"], id="no name, no slot"
        ),
        pytest.param((HEAD + "stem,a,128 lb\n").encode(), 0, ["128 lb, wanted g"], id="another unit"),
        pytest.param((HEAD + "stem,a,1e999\n").encode(), 0, ["is not a number"], id="beyond all numbers"),
    ],
)
def test_every_row_is_whole_or_kept_with_its_reason(reader: Page, content: bytes, good: int, said: list[str]) -> None:
    choose_file(reader, "odd.csv", content)
    asked, counted = reader.get_by_role("button", name="Read it so"), reader.locator(".csv-count")
    expect(reader.get_by_text("odd.csv")).to_be_visible()
    # Headings that were read before are not asked about again.
    expect(asked.or_(counted)).to_be_visible()
    if asked.is_visible():
        asked.click()
    expect(counted).to_contain_text(f"{good} good")
    for text in said:
        expect(reader.get_by_text(text).first).to_be_visible()
    # Kept as it is until somebody deals with it: leaving and coming back loses nothing.
    reader.reload()
    expect(reader.locator(".csv-count")).to_contain_text(f"{good} good", timeout=PATIENT)
    reader.get_by_role("button", name="Put the file away").click()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "One column only"),
        (b"slot,name\n", "nothing under them"),
        (b"just a letter to somebody\nand its second line\n", "One column only"),
        (b'slot,name\nframe,"never closed\n', "quotation mark"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR,\x00,\x00", "not a table"),
    ],
)
def test_a_file_that_is_no_table_is_said_to_be_none(reader: Page, content: bytes, said: str) -> None:
    choose_file(reader, "letter.csv", content)
    expect(reader.get_by_role("alert")).to_contain_text(said)
    reader.goto(bike(reader) + "/parts")
    expect(reader.get_by_text("No parts on the list yet")).to_be_visible(timeout=PATIENT)


def test_columns_are_asked_once_and_kept_for_the_next_file(builder: Page) -> None:
    choose_file(builder, "one.csv", b"Wo,Was,Gramm\nframe,frame A,1012.5\n")
    expect(builder.get_by_text("One column must be the slot and one the name")).to_be_visible()
    builder.get_by_label("Wo", exact=True).select_option("slot")
    builder.get_by_label("Was", exact=True).select_option("name")
    builder.get_by_label("Gramm", exact=True).select_option("claimed")
    builder.get_by_role("button", name="Read it so").click()
    builder.get_by_role("button", name="Record 1 part").click()
    expect(builder.get_by_text("frame A")).to_be_visible(timeout=PATIENT)
    choose_file(builder, "two.csv", b"Wo,Was,Gramm\nfork,fork A,374.5\nframe,frame B,980.5\n")
    expect(builder.locator(".csv-count")).to_contain_text("1 good · 1 to mend", timeout=PATIENT)
    expect(builder.get_by_text("has “frame A” on the bike")).to_be_visible()
    builder.get_by_role("button", name="Record 1 part").click()
    expect(builder.locator(".csv-count")).to_contain_text("0 good · 1 to mend", timeout=PATIENT)
    builder.get_by_label("Yes", exact=True).check()
    builder.get_by_role("button", name="Record 1 part").click()
    expect(builder.locator(".part-gone")).to_contain_text("frame A", timeout=PATIENT)


def long_list(rows: int) -> bytes:
    return (HEAD + "".join(f"shelf {i},part {i},{100 + i % 400}.5\n" for i in range(rows))).encode()


# The phone refuses to save once so many entries are in: its storage is full.
FULL_AFTER = """(most) => {
  const add = IDBObjectStore.prototype.add;
  let left = most;
  IDBObjectStore.prototype.add = function (...row) {
    if (this.name === "entries" && left-- <= 0) throw new DOMException("No room left on the phone.", "QuotaExceededError");
    return add.apply(this, row);
  };
}"""

# How often the page had a turn for anything else (a touch) while rows were recorded.
COUNT_TURNS = """(() => {
  window.turns = 0;
  const turn = () => {
    if (document.querySelector(".csv-progress")) window.turns += 1;
    setTimeout(turn, 0);
  };
  turn();
})()"""
TURNS = 20


def test_ten_thousand_rows_do_not_hang(builder: Page) -> None:
    choose_file(builder, "stock.csv", long_list(9_999) + b"shelf 0,again,-1\n")
    builder.get_by_role("button", name="Read it so").click()
    expect(builder.locator(".csv-count")).to_contain_text("9998 good · 2 to mend", timeout=PATIENT)
    # The sheet still answers at once.
    builder.get_by_role("button", name="Mend Row 2", exact=True).click(timeout=5_000)
    expect(builder.get_by_role("dialog")).to_be_visible(timeout=5_000)
    builder.get_by_role("dialog").get_by_role("button", name="Close").click()
    # Recorded, with the progress shown and turns left for a touch.
    tell(builder, COUNT_TURNS)
    builder.get_by_role("button", name="Record 9998 parts").click()
    expect(builder.locator(".csv-progress progress")).to_be_visible()
    expect(builder.locator(".csv-progress")).to_contain_text("of 9998")
    expect(builder.locator(".csv-progress")).to_be_hidden(timeout=90_000)
    assert tell(builder, "window.turns") >= TURNS
    expect(builder.locator(".csv-count")).to_contain_text("0 good · 2 to mend", timeout=60_000)


def test_a_phone_that_is_full_midway_keeps_the_rest_and_says_so(builder: Page, workshop: ServedWorkshop) -> None:
    choose_file(builder, "stock.csv", long_list(900))
    builder.get_by_role("button", name="Read it so").click()
    tell(builder, f"({FULL_AFTER})(450)")
    builder.get_by_role("button", name="Record 900 parts").click()
    # Two turns of two hundred are whole; nothing of the third is.
    told = builder.get_by_role("alert")
    expect(told).to_contain_text("400 parts are on the record. The phone could not save the other 500", timeout=PATIENT)
    expect(told).to_contain_text("No room left on the phone.")
    expect(builder.locator(".csv-count")).to_contain_text("500 good · 0 to mend", timeout=PATIENT)
    # Closed and opened again: the rest is still there, and goes on the record once there is room.
    builder.reload()
    builder.get_by_role("button", name="Record 500 parts").click(timeout=PATIENT)
    expect(builder.get_by_text("500 parts taken in")).to_be_visible(timeout=PATIENT)
    expect(builder.get_by_text("all sent")).to_be_visible(timeout=60_000)
    fitted = [entry["body"] for entry in map(json.loads, workshop.held()) if entry["kind"] == "part-fit"]
    assert sorted(body["slot"] for body in fitted) == sorted(f"shelf-{i}" for i in range(900))


def test_a_cell_that_would_be_a_formula_is_defused(builder: Page) -> None:
    choose_file(builder, "parts.csv", (HEAD + '"=1+1","@SUM(A1)",100\nstem,"-2+3 stem",128\n').encode())
    builder.get_by_role("button", name="Read it so").click()
    builder.get_by_role("button", name="Record 2 parts").click()
    expect(builder.get_by_text("-2+3 stem")).to_be_visible(timeout=PATIENT)
    builder.goto(bike(builder) + "/hand-over")
    _, text = saved(builder, "Parts, CSV")
    cells = [cell for row in csv.reader(io.StringIO(text.removeprefix("\ufeff"))) for cell in row]
    assert [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")] == []
    assert "'@SUM(A1)" in cells
