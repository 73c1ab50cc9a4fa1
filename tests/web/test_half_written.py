"""A form half written is there when one comes back, and gone once it is on record."""

from playwright.sync_api import expect

from tests.web.building import PATIENT, box
from tests.web.phone import Phone, comes_to, kept
from tests.web.test_figures import BIKE, FERN, at, bodies, entered, record


def test_a_half_written_fault_survives_leaving_and_opening_anew(mine: Phone) -> None:
    page = entered(mine, "/fault")
    what = box(page, "What")
    what.fill("spoke loose, drive side")
    page.get_by_role("radio").first.check(force=True)
    page.go_back()
    expect(page.get_by_role("heading", name=FERN)).to_be_visible(timeout=PATIENT)
    page.reload()
    page.locator(f"a[href='/{BIKE}/fault']").first.click(timeout=PATIENT)
    expect(what).to_have_value("spoke loose, drive side", timeout=PATIENT)
    record(page).click()
    expect(page.get_by_role("heading", name=FERN)).to_be_visible(timeout=PATIENT)
    page.locator(f"a[href='/{BIKE}/fault']").first.click()
    expect(what).to_have_value("")
    page.reload()
    expect(what).to_have_value("", timeout=PATIENT)
    assert {one["what"] for one in bodies(mine, "fault")} == {"spoke loose, drive side"}


def test_a_half_written_note_and_part_survive_opening_anew(mine: Phone) -> None:
    page = at(mine, "/note")
    box(page, "What is to be kept").fill("ask about the bars")
    page.goto(f"{mine.url}/{BIKE}/part/new?slot=saddle")
    box(page, "Part").fill("saddle A")
    box(page, "Claimed mass").fill("190")
    page.reload()
    expect(box(page, "Part")).to_have_value("saddle A", timeout=PATIENT)
    expect(box(page, "Claimed mass")).to_have_value("190")
    record(page).click()
    page.wait_for_url("**/parts", timeout=PATIENT)
    comes_to(page, kept("keep", f"form part {BIKE} new new saddle"), None)
    page.goto(f"{mine.url}/{BIKE}/part/new?slot=saddle")
    expect(box(page, "Part")).to_have_value("", timeout=PATIENT)
    page.goto(f"{mine.url}/{BIKE}/note")
    expect(box(page, "What is to be kept")).to_have_value("ask about the bars", timeout=PATIENT)
