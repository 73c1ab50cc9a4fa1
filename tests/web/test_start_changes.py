"""Changes at the start line: a plate taken twice, withdrawn or changed; names of one long word; what a rider is offered."""

import re

from playwright.sync_api import Browser, Locator, expect

from tests.web.checking import EVENT, PATIENT, STARTERS, TALLY, Hand, counts, hand, three_at_the_line
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop


def other_plate(at: Hand, plate: str) -> None:
    at.page.get_by_role("button", name="Another plate").first.tap()
    at.page.get_by_label("New plate").fill(plate)
    at.page.get_by_role("button", name="Record", exact=True).tap()
    expect(at.page.get_by_role("heading", name=f"Plate {plate}")).to_be_visible(timeout=PATIENT)


def test_two_given_one_plate_by_phones_without_a_signal_are_both_there_until_it_is_settled(
    browser: Browser, day: ServedWorkshop
):
    with three_at_the_line(browser, day) as (desk, juno, bas):
        names: list[str] = []
        for one, plate in ((juno, "10"), (bas, "11")):
            one.page.context.set_offline(True)
            one.plate(plate)
            names.append(one.page.locator(".title-cells dd").first.inner_text())
            other_plate(one, "200")
        for one in (juno, bas):
            one.page.context.set_offline(False)
            expect(one.page.get_by_text("all sent")).to_be_visible(timeout=60_000)

        counts(desk, "Undecided", 2)
        counts(desk, "All", STARTERS)
        holding = desk.page.locator("section", has=desk.page.get_by_role("heading", name="What holds up the start"))
        for name in names:
            expect(holding.get_by_role("link", name=re.compile(f"^200 Undecided {re.escape(name)} "))).to_be_visible()

        # Bas's phone stands at the plate, and both are on it.
        expect(bas.page.get_by_text("Plate taken twice")).to_be_visible(timeout=PATIENT)
        expect(bas.page.locator(".in-question")).to_have_count(2)
        moved = bas.page.locator(".in-question strong").first.inner_text()
        other_plate(bas, "201")
        expect(bas.page.locator(".title-cells dd").first).to_have_text(moved)
        expect(bas.page.get_by_text("all sent")).to_be_visible(timeout=60_000)
        expect(desk.page.locator(TALLY).filter(has_text="Undecided")).to_have_count(0, timeout=60_000)
        counts(desk, "All", STARTERS)
        for plate, name in (("201", moved), ("200", next(name for name in names if name != moved))):
            row = desk.page.get_by_role("row").filter(has=desk.page.get_by_role("rowheader", name=plate, exact=True))
            expect(row).to_contain_text(name)


def test_a_plate_withdrawn_or_changed_says_so_and_who_was_withdrawn_starts_after_all(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "the desk's phone") as juno:
        page = juno.line().page
        juno.plate("8")
        name = page.locator(".title-cells dd").first.inner_text()
        page.get_by_role("button", name="Does not start").tap()
        page.get_by_label("Reason").fill("stomach")
        page.get_by_role("dialog").get_by_role("button", name="Does not start").tap()
        juno.plate("9")
        other_plate(juno, "109")
        page.get_by_role("link", name="Three Gaps Day").tap()

        page.get_by_role("button", name="Type a plate").tap()
        page.get_by_label("Plate", exact=True).fill("9")
        expect(page.get_by_text(re.compile("^Now plate 109"))).to_be_visible()
        page.get_by_label("Plate", exact=True).fill("8")
        expect(page.get_by_text(f"Does not start: stomach ({name})")).to_be_visible()
        page.get_by_role("button", name="Open the plate").tap()
        expect(page.locator(".notice")).to_have_text(f"Does not start: stomach ({name})")
        expect(page.get_by_role("link", name=re.compile("^Check it"))).to_have_count(0)
        page.get_by_role("button", name="Let them start after all").tap()
        expect(page.get_by_role("link", name=re.compile("^Check it"))).to_be_visible(timeout=PATIENT)
        expect(page.locator(".title-cells dd").first).to_have_text(name)
        expect(page.locator(".notice")).to_have_count(0)

        page.goto(f"{day.url}/lineup/{EVENT}/plate/9")
        expect(page.locator(".notice")).to_contain_text("Now plate 109", timeout=PATIENT)
        page.get_by_role("link", name="Plate 109").tap()
        expect(page.get_by_role("heading", name="Plate 109")).to_be_visible()


def test_a_name_of_one_long_word_stays_on_the_sheet(browser: Browser, day: ServedWorkshop):
    """The way back stays within reach, and a code can be read and done with."""
    long = "Ueberlandfahrtsveranstaltung" * 4
    with hand(browser, day, day.code, "a phone") as owner:
        page = owner.page

        def within(*all_of: Locator) -> None:
            for one in all_of:
                box = one.bounding_box()
                assert box is not None
                assert box["x"] >= 0
                assert box["x"] + box["width"] <= 390
            assert tell(page, "document.documentElement.scrollWidth") <= 390, page.url

        page.goto(day.url + "/lineup")
        page.get_by_role("button", name="New event").tap()
        page.get_by_label("Name", exact=True).fill(long)
        page.get_by_role("dialog").get_by_role("button", name="Record").tap()
        undo = page.get_by_role("button", name="Undo")
        expect(undo).to_be_visible(timeout=PATIENT)
        within(undo)
        page.get_by_role("button", name="One more starter").tap()
        page.get_by_label("Plate", exact=True).fill("1")
        page.get_by_label("Rider").fill(long)
        page.get_by_role("dialog").get_by_role("button", name="Record").tap()
        starter = page.locator("a.starter")
        within(starter)
        starter.tap()
        expect(page.get_by_role("heading", name="Plate 1", exact=True)).to_be_visible(timeout=PATIENT)
        within()
        page.get_by_role("navigation").get_by_role("link", name=long).tap()
        expect(page.locator(".plate")).to_be_visible(timeout=PATIENT)
        within()
        page.goto(day.url + "/lineup")
        expect(page.get_by_role("link", name=re.compile(long))).to_be_visible(timeout=PATIENT)
        within()

        page.goto(day.url + "/device")
        page.get_by_role("button", name="Let somebody in").tap(timeout=PATIENT)
        page.get_by_label("Name", exact=True).fill(long[:80])
        page.get_by_label("checker", exact=True).check(force=True)
        within()
        page.get_by_label(re.compile("^Three Gaps Day")).check(force=True)
        page.get_by_role("button", name="Make the code").tap()
        within(page.locator(".team-code .figure"), page.get_by_role("button", name="Done"))


def test_a_rider_s_line_up_and_bike_offer_nothing_a_rider_cannot_do(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "the owner's desk", desk=True) as owner:
        page = owner.page
        birch = owner.new_bike("Birch")
        line = page.get_by_label("Say or type it")
        line.fill("saddle height 700")
        line.press("Enter")
        expect(page.get_by_role("heading", name="Settings")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        page.goto(day.url + "/device")
        page.get_by_role("button", name="Let somebody in").click(timeout=PATIENT)
        page.get_by_label("Name", exact=True).fill("Nell")
        page.get_by_label("rider", exact=True).check(force=True)
        page.get_by_label("Birch").check(force=True)
        page.get_by_role("button", name="Make the code").click()
        code = page.locator(".team-code .figure").inner_text().replace(" ", "")
    with hand(browser, day, code, "Nell's phone") as nell:
        page = nell.page
        page.goto(birch)
        expect(page.get_by_role("heading", name="Birch")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("heading", name="Why")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("heading", name="Settings")).to_have_count(0)
        page.goto(day.url + "/lineup")
        expect(page.get_by_text("No event here yet.")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("Make one")).to_have_count(0)
