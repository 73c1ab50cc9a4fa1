"""A question nobody decided: its figure is marked, and who sets it anew is told beforehand that this settles it."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import PATIENT
from tests.web.phone import Phone, phone
from tests.web.workshop import ServedWorkshop

BIKE = "bike/6b0f1f0e-5a38-4d0e-9a3e-0f6a6c9a7a05"
SETTLES = "An open question: 714 mm (Owner) against 707 mm (Bas). What you record here settles it."


def saddle(to: float) -> dict[str, Any]:
    return {"subject": BIKE, "kind": "adjust", "body": {"setting": "saddle_height", "unit": "mm", "to": to}}


@pytest.fixture
def asked(browser: Browser, workshop: ServedWorkshop, mine: Phone) -> Iterator[Page]:
    """The owner set 714 and Bas 707, neither knowing of the other."""
    mine.do("record.write", [{"subject": BIKE, "kind": "describe", "body": {"name": "Plover"}}, saddle(710)])
    mine.do("record.write", [{"subject": BIKE, "kind": "baseline", "body": {"name": "as built"}}])
    mine.sync()
    with phone(browser, workshop.url) as bas:
        bas.pair(workshop.code_for("Bas", "mechanic"))
        bas.sync()
        bas.page.context.set_offline(True)
        mine.do("record.write", [saddle(714)])
        mine.sync()
        bas.do("record.write", [saddle(707)])
        bas.page.context.set_offline(False)
        bas.sync()
        mine.sync()
        mine.page.goto(f"{mine.url}/{BIKE}")
        expect(mine.page.get_by_text("Open questions")).to_be_visible(timeout=PATIENT)
        yield mine.page


def test_a_figure_with_an_open_question_is_marked_and_setting_it_says_what_that_settles(asked: Page, mine: Phone) -> None:
    page = asked
    expect(page.locator("svg.drawing").first).to_contain_text("707?")
    expect(page.locator("tr", has_text="Saddle height")).to_contain_text("open question")
    # At the stepper of the setting moved last, in the line, and on the sheet of its own.
    expect(page.locator(".nudge")).to_contain_text(SETTLES)
    page.get_by_label("Say or type it").fill("saddle height 705")
    expect(page.locator(".say")).to_contain_text(SETTLES, timeout=PATIENT)
    page.goto(f"{mine.url}/{BIKE}/adjust?setting=saddle_height")
    expect(page.locator(".move")).to_contain_text(SETTLES, timeout=PATIENT)
    page.goto(f"{mine.url}/{BIKE}/adjust?setting=saddle_tilt")
    expect(page.locator(".move")).to_be_visible(timeout=PATIENT)
    expect(page.locator(".move")).not_to_contain_text("open question")

    mine.open()
    mine.do("record.write", [saddle(705)])
    page.goto(f"{mine.url}/{BIKE}")
    expect(page.locator("tr", has_text="Saddle height")).to_contain_text("705 mm", timeout=PATIENT)
    expect(page.get_by_text("open question")).to_have_count(0)
