"""Back closes what lies over the work before it leaves the page."""

import re

from playwright.sync_api import Page, expect

from tests.web.building import PATIENT, box
from tests.web.phone import Phone, comes_to
from tests.web.test_figures import BIKE, FERN, at, draft, entered, part, record


def back_leads_to_the_bike(page: Page) -> None:
    """Nothing is left in the history that Back would have to get past."""
    comes_to(page, "history.state", None)
    page.go_back()
    expect(page.get_by_role("heading", name=FERN)).to_be_visible(timeout=PATIENT)
    assert page.url.endswith(BIKE)


def test_back_closes_the_pad_and_then_leaves_the_page(mine: Phone) -> None:
    page = entered(mine, "/ride")
    box(page, "Note").fill("two laps")
    for _ in range(2):
        box(page, "Distance").click()
        pad = page.get_by_role("dialog")
        pad.get_by_role("button", name="4", exact=True).click()
        page.go_back()
        expect(pad).to_be_hidden()
    expect(box(page, "Note")).to_have_value("two laps")
    # Closed by itself, it leaves nothing behind that Back would have to get past.
    box(page, "Distance").click()
    pad.get_by_role("button", name="4", exact=True).click()
    pad.get_by_role("button", name="Done").click()
    expect(pad).to_be_hidden()
    expect(box(page, "Distance")).to_have_value("4")
    back_leads_to_the_bike(page)


def test_back_closes_the_pad_over_a_sheet_and_then_the_sheet(mine: Phone) -> None:
    page = at(mine, "/torque/stem%20to%20steerer")
    page.get_by_role("button", name="Add a tool").click(timeout=PATIENT)
    sheets = page.locator("dialog[open]")
    box(sheets.first, "Name of the tool").fill("click wrench")
    box(sheets.first, "Most on its scale").click()
    expect(sheets).to_have_count(2)
    page.go_back()
    expect(sheets).to_have_count(1)
    expect(box(sheets.first, "Name of the tool")).to_have_value("click wrench")
    page.go_back()
    expect(sheets).to_have_count(0)
    assert page.url.endswith("/torque/stem%20to%20steerer")


def test_closing_one_and_opening_the_next_at_once_confuses_nothing(mine: Phone) -> None:
    page = entered(mine, "/ride")
    field, pad = box(page, "Distance"), page.get_by_role("dialog")
    field.click()
    for _ in range(4):
        # In one go, as fast as the page itself can.
        pad.get_by_role("button", name="Done").evaluate(
            "(done, field) => { done.click(); field.click(); }", field.element_handle()
        )
        expect(pad).to_have_count(1)
    page.wait_for_timeout(700)
    expect(pad).to_be_visible()
    page.go_back()
    expect(pad).to_be_hidden()
    back_leads_to_the_bike(page)


def test_opened_anew_with_a_sheet_over_it_the_page_has_none_and_back_leaves_it(mine: Phone) -> None:
    page = entered(mine, "/ride")
    box(page, "Distance").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    page.reload()
    expect(box(page, "Distance")).to_be_visible(timeout=PATIENT)
    back_leads_to_the_bike(page)


def test_a_link_in_a_sheet_leads_on_and_back_again(mine: Phone) -> None:
    worn = draft("measure", what="chain_elongation", value=0.4, unit="%")
    page = at(mine, "/measure?what=chain_elongation", part("chain", "chain A"), draft("ride", km=400), worn)
    box(page, "Chain elongation").fill("0.1")
    record(page).click()
    page.get_by_role("dialog").get_by_role("link", name="To the parts").click(timeout=PATIENT)
    expect(page.get_by_role("link", name=re.compile("chain A"))).to_be_visible(timeout=PATIENT)
    page.go_back()
    expect(record(page)).to_be_visible(timeout=PATIENT)
    comes_to(page, "history.state", None)
    expect(page.get_by_role("dialog")).to_be_hidden()


def test_recorded_after_a_question_the_form_is_behind_nobody(mine: Phone) -> None:
    page = entered(mine, "/adjust")
    page.get_by_role("button", name=re.compile("^Saddle height [–\\d]")).click(timeout=PATIENT)
    box(page, "To").fill("580")
    record(page).click()
    page.get_by_role("dialog").get_by_role("button", name="It is so").click(timeout=PATIENT)
    expect(page.locator(".told")).to_be_visible(timeout=PATIENT)
    assert page.url.endswith(BIKE)
    page.go_back()
    expect(record(page)).to_be_hidden()
    assert page.url.endswith(BIKE)
