"""The first record on a new phone: a minute, and it stands in the workshop's log. How a thing is measured, with a drawing."""

import json

from playwright.sync_api import Browser, expect

from tests.web.checking import PATIENT, hand
from tests.web.phone import comes_to, kept
from tests.web.workshop import ServedWorkshop

# Letting the phone in counts too: its name, Pair, the way in, the bike's name, Next, six keys of the pad, Record.
MOST_TOUCHES = 13


def test_a_new_owner_has_a_record_within_a_minutes_touches(browser: Browser, workshop: ServedWorkshop) -> None:
    with hand(browser, workshop, workshop.code, "the owner's phone") as new:
        page = new.page
        new.touches = 2
        new.tap(page.get_by_role("link", name="Your first record"))
        expect(page.get_by_text("Step 1 of 3")).to_be_visible(timeout=PATIENT)
        go_on = page.get_by_role("button", name="Next", exact=True)
        expect(go_on).to_be_disabled()
        name = page.get_by_label("Name")
        new.tap(name)
        name.fill("Plover")
        new.tap(go_on)
        expect(page.get_by_text("Step 2 of 3")).to_be_visible()
        # Where and how, before the figure is asked for.
        expect(page.get_by_role("img", name="Where “Saddle height” is measured")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("Bottom-bracket centre to the saddle's top")).to_be_visible()
        new.tap(page.get_by_label("Saddle height", exact=True))
        for key in "731":
            new.tap(page.get_by_role("button", name=key, exact=True))
        new.tap(page.get_by_role("button", name="Done", exact=True))
        new.tap(page.get_by_role("button", name="Record", exact=True))
        expect(page.get_by_text("Step 3 of 3")).to_be_visible()
        expect(page.locator(".first-done")).to_contain_text("731 mm")
        assert new.touches <= MOST_TOUCHES, new.touches
        comes_to(page, "document.querySelector('.tab, .sync-tab')?.textContent?.includes('all sent') ?? false", True)
        held = [json.loads(raw) for raw in workshop.held()]
        assert [(one["kind"], one["body"]) for one in held] == [
            ("describe", {"name": "Plover"}),
            ("adjust", {"setting": "saddle_height", "unit": "mm", "to": 731}),
        ]
        assert held[0]["subject"] == held[1]["subject"]
        new.tap(page.get_by_role("link", name="To Plover"))
        expect(page.get_by_role("img", name="Saddle height 731 mm")).to_be_visible(timeout=PATIENT)
        # The offer has done its work.
        page.get_by_role("link", name="Bikes", exact=True).first.click()
        expect(page.get_by_role("link", name="Plover")).to_be_visible()
        expect(page.get_by_role("link", name="Your first record")).to_have_count(0)


def test_a_phone_let_into_a_workshop_with_bikes_begins_with_one_of_them_without_a_signal(
    browser: Browser, season: ServedWorkshop
) -> None:
    with hand(browser, season, season.code_for("Juno"), "a second phone") as new:
        page = new.page
        page.context.set_offline(True)
        page.get_by_role("link", name="Your first record").tap()
        page.get_by_label("Which bike?").select_option(label="Slate", timeout=PATIENT)
        page.get_by_role("button", name="Next", exact=True).tap()
        # The bike has a height already: it is shown, and the record says what it was changed from.
        expect(page.get_by_text("Last time")).to_be_visible(timeout=PATIENT)
        page.get_by_role("button", name="Saddle height: more").tap()
        page.get_by_role("button", name="Record", exact=True).tap()
        expect(page.get_by_text("There is no signal now")).to_be_visible()
        expect(page.get_by_text("2 to send").or_(page.get_by_text("1 to send"))).to_be_visible()
        page.get_by_role("button", name="Undo").tap()
        expect(page.get_by_text("2 to send")).to_be_visible()
        page.context.set_offline(False)


def test_who_puts_it_off_is_not_asked_again(browser: Browser, workshop: ServedWorkshop) -> None:
    with hand(browser, workshop, workshop.code, "the owner's phone") as new:
        page = new.page
        page.get_by_role("button", name="Not now").tap()
        expect(page.get_by_role("link", name="Your first record")).to_have_count(0)
        # Gone from the sheet before it is kept: a page torn away in that instant would ask again.
        comes_to(page, kept("keep", "first-offer-put-off"), True)
        page.reload()
        expect(page.get_by_role("link", name="New bike")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("Begin with New bike")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("link", name="Your first record")).to_have_count(0)


def test_a_rider_is_offered_it_for_the_bikes_they_see_and_an_empty_list_offers_nothing(
    browser: Browser, workshop: ServedWorkshop
) -> None:
    with hand(browser, workshop, workshop.code_for("Wim", "rider"), "a rider's phone") as new:
        expect(new.page.get_by_text("The workshop says which are yours to see")).to_be_visible(timeout=PATIENT)
        expect(new.page.get_by_role("link", name="Your first record")).to_have_count(0)
