"""The labels as they come out of a printer: the PDF drawn as a picture, its codes read by a library, its places measured."""

from pathlib import Path
from typing import Any

import pypdfium2  # pyright: ignore[reportMissingTypeStubs]
import pytest
import zxingcpp
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import EVENT, PATIENT, STARTERS, hand
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop

DPI = 200
MM = DPI / 25.4
A4 = (210.0, 297.0)

# Sheet: columns, rows, width and height of a label, left and top margin, gap between columns, the code with its quiet zone; mm.
# The first two are the common label sheets (sizes from memory), centred on the paper.
SHEETS = {
    "24 labels": (3, 8, 70.0, 37.0, 0.0, 0.5, 0.0, 29.0),
    "14 labels": (2, 7, 99.1, 38.1, 4.65, 15.1, 2.5, 29.0),
    "A4, 4 plates": (1, 4, 210.0, 74.2, 0.0, 0.0, 0.0, 60.0),
}


@pytest.fixture(scope="module")
def desk(browser: Browser, season: ServedWorkshop):
    with hand(browser, season, season.code, "the desk", desk=True) as juno:
        page = juno.line().page
        page.get_by_role("link", name="Labels").click()
        expect(page.locator(".label")).to_have_count(STARTERS, timeout=PATIENT)
        yield page


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_printed_code_is_read_and_lies_on_its_label(desk: Page, tmp_path: Path, sheet: str):
    columns, rows, width, height, left, top, gap, code = SHEETS[sheet]
    desk.get_by_role("radio", name=sheet).check()
    desk.pdf(path=tmp_path / "labels.pdf", prefer_css_page_size=True)
    paper = pypdfium2.PdfDocument(tmp_path / "labels.pdf")
    per_sheet = columns * rows
    assert len(paper) == -(-STARTERS // per_sheet), "sheets of paper"
    origin = tell(desk, "location.origin")
    read: list[str] = []
    for number in range(len(paper)):
        page = paper[number]
        assert [round(points / 72 * 25.4) for points in page.get_size()] == list(A4)
        found = zxingcpp.read_barcodes(_drawn(page))
        here = STARTERS - number * per_sheet if number == len(paper) - 1 else per_sheet
        assert len(found) == here
        places: dict[int, tuple[float, float, float]] = {}
        for one in found:
            at = one.position
            size = (at.top_right.x - at.top_left.x) / MM
            places[_plate(one.text)] = (at.top_left.x / MM, at.top_left.y / MM, size)
            read.append(one.text)
        for i, plate in enumerate(sorted(places)):
            x, y, size = places[plate]
            cell_x = left + (i % columns) * (width + gap)
            cell_y = top + (i // columns) * height
            # Four modules of quiet on each side (ISO/IEC 18004), white and on the label: so much less than the drawn square.
            quiet = (code - size) / 2
            assert 2.0 <= quiet <= 8.0
            assert size >= 20, "read from an arm's length"
            assert cell_x - 0.3 <= x - quiet, (plate, "left")
            assert x + size + quiet <= cell_x + width + 0.3, (plate, "right")
            assert cell_y - 0.3 <= y - quiet, (plate, "above")
            assert y + size + quiet <= cell_y + height + 0.3, (plate, "below")
    assert sorted(_plate(text) for text in read) == list(range(1, STARTERS + 1))
    assert all(text.startswith(f"{origin}/lineup/{EVENT}/plate/") for text in read)


def _drawn(page: Any) -> Any:
    """A page of the PDF as a grey picture."""
    return page.render(scale=DPI / 72).to_pil().convert("L")


def _plate(text: str) -> int:
    return int(text.rpartition("/plate/")[2].partition("?")[0])
