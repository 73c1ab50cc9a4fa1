"""What a rider or a checker may not record is not offered to them: they see it, and why nothing in it can be touched."""

import pytest
from playwright.sync_api import Browser, expect

from tests.web.checking import PATIENT, hand
from tests.web.workshop import ServedWorkshop

SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
NOTICE = "the workshop's people record here"
# What could be touched and records something: everything but the ways, the tab of what waits and what only unfolds.
TOUCHED = "main :is(button, input, select, textarea):enabled"
SHEETS = [
    "position",
    "parts",
    "fits",
    "weigh",
    "torque",
    "torque/stem%20face%20plate",
    "cut/steerer",
    "part/new",
    "import",
    "plan",
]


@pytest.mark.parametrize(("who", "sheets"), [("Odile", SHEETS), ("checker", SHEETS[:3])])
def test_the_build_and_the_position_are_to_look_at(
    browser: Browser, season: ServedWorkshop, who: str, sheets: list[str]
) -> None:
    code = season.code_for("Odile") if who == "Odile" else season.code_for("Pia", "checker")
    with hand(browser, season, code, f"the phone of a {who}") as other:
        page = other.page
        page.context.set_offline(True)
        for sheet in sheets:
            page.goto(f"{season.url}/{SLATE}/{sheet}")
            expect(page.get_by_text(NOTICE)).to_be_visible(timeout=PATIENT)
            page.locator("main").get_by_text("Reading …").first.wait_for(state="hidden", timeout=PATIENT)
            expect(page.locator(TOUCHED)).to_have_count(0)
            expect(page.locator(".foot-act")).to_have_count(0)
        page.goto(f"{season.url}/{SLATE}/build")
        expect(page.get_by_text("steps done")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("link", name="The workshop's plan")).to_have_count(0)
        # What only shows stays everybody's.
        page.goto(f"{season.url}/{SLATE}/hand-over")
        expect(page.get_by_role("button", name="Print the sheet")).to_be_enabled(timeout=PATIENT)
        page.goto(f"{season.url}/{SLATE}")
        expect(page.get_by_role("link", name="Note", exact=True)).to_be_visible(timeout=PATIENT)
        for refused in ("Measure", "Freeze", "Decide"):
            expect(page.locator("main").get_by_text(refused, exact=True)).to_have_count(0)


def test_the_workshop_s_own_people_touch_it_all(browser: Browser, season: ServedWorkshop) -> None:
    with hand(browser, season, season.code_for("Bas"), "Bas's phone") as bas:
        page = bas.page
        page.goto(f"{season.url}/{SLATE}/weigh")
        expect(page.locator(TOUCHED).first).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text(NOTICE)).to_have_count(0)
