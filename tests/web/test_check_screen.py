"""The check itself: resumed exactly, by keyboard, with photos; the workshop's own checks; the rider's self-check."""

import io
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import PATIENT, Hand, hand
from tests.web.phone import Phone, comes_to, tell
from tests.web.workshop import ServedWorkshop

SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
PLOVER = "bike/6b0f1f0e-5a38-4d0e-9a3e-0f6a6c9a7a03"


@pytest.fixture(scope="module")
def day(web: Path, loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkshop]:
    served = ServedWorkshop(copytree(loaded, tmp_path_factory.mktemp("checks") / "data"), web, "demo").start()
    yield served
    served.stop()


def entries(served: ServedWorkshop, kind: str) -> list[dict[str, Any]]:
    return [e for e in map(json.loads, served.held()) if e["kind"] == kind]


def to_check(at: Hand, check: str) -> Page:
    at.page.goto(f"{at.url}/{SLATE}/checks")
    at.page.locator(f"a[href$='/check/{check}']").click()
    expect(at.page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)
    return at.page


def test_a_check_broken_off_goes_on_at_the_same_item_with_the_same_answers(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "Bas's phone") as bas:
        page = to_check(bas, "pre-event")
        for _ in range(3):
            page.get_by_role("button", name="Pass", exact=True).tap()
        title = page.locator("h1").inner_text()
        page.get_by_role("button", name="Attention").tap()
        page.get_by_label("What is it?").fill("spoke a little loose")
        # The phone goes off: the page is gone at once, and so is the signal.
        bas.page.context.set_offline(True)
        page.close()
        bas.page = bas.page.context.new_page()
        bas.page.goto(f"{bas.url}/{SLATE}/check/pre-event")
        expect(bas.page.locator(".check-asked h1")).to_have_text(title, timeout=PATIENT)
        expect(bas.page.get_by_label("What is it?")).to_have_value("spoke a little loose")
        expect(bas.page.get_by_role("button", name="Attention")).to_have_attribute("aria-pressed", "true")
        expect(bas.page.locator(".check-steps .figure")).to_have_text("4 / 27")
        # Nothing passes by default: what was not answered keeps it open.
        bas.page.get_by_role("button", name="Whole list").tap()
        assert bas.page.locator(".check-pass").count() == 23
        bas.page.get_by_role("button", name="To the verdict").tap()
        expect(bas.page.locator(".check-outcome")).to_contain_text("Not complete")


def test_a_failed_check_that_is_undone_takes_its_faults_along(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "a phone that errs") as bas:
        page = to_check(bas, "after-fall")
        page.get_by_role("button", name="Fail", exact=True).tap()
        page.get_by_label("What is it?").fill("not this bike at all")
        page.get_by_role("button", name="Next", exact=True).tap()
        page.get_by_role("button", name="Whole list").tap()
        page.get_by_role("button", name="To the verdict").tap()
        bas.record()
        page.get_by_role("button", name="Undo").tap()
        expect(page.get_by_text("Taken back")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        (fault,) = [e for e in entries(day, "fault") if "not this bike at all" in e["body"]["what"]]
        void = {e["body"]["entry"] for e in entries(day, "void")}
        assert {fault["id"], fault["body"]["check"]} <= void


def test_after_a_fail_the_photo_is_in_sight_above_the_marks(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "a small phone") as bas:
        page = to_check(bas, "pre-event")
        page.get_by_role("button", name="Whole list").tap()
        page.locator(".check-open").nth(1).tap()
        page.get_by_role("button", name="Fail", exact=True).tap()
        photo = page.locator(".shots .button.file").last
        expect(photo).to_be_visible()
        foot = page.locator(".check-foot").bounding_box()
        assert foot is not None

        def above() -> bool:
            box = photo.bounding_box()
            return box is not None and box["y"] >= 0 and box["y"] + box["height"] <= foot["y"]

        comes_true(page, above)


def comes_true(page: Page, what: Callable[[], bool]) -> None:
    for _ in range(100):
        if what():
            return
        page.wait_for_timeout(50)
    raise AssertionError("it does not come true")


def with_place() -> bytes:
    """A photo that says where it was taken, and with what."""
    exif = Image.Exif()
    exif[0x0110] = "a phone of some make"
    exif.get_ifd(0x8825)[1] = "N"
    made = io.BytesIO()
    Image.effect_mandelbrot((2400, 1800), (-2, -1.5, 1, 1.5), 60).convert("RGB").save(made, "JPEG", exif=exif)
    return made.getvalue()


def test_a_fail_takes_a_photo_that_follows_the_entries_and_tells_no_place(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "another phone") as bas:
        page = to_check(bas, "after-fall")
        bas.page.context.set_offline(True)
        page.get_by_role("button", name="Fail", exact=True).tap()
        page.get_by_label("What is it?").fill("crack at the crown")
        page.set_input_files("input[type=file]", {"name": "crown.jpg", "mimeType": "image/jpeg", "buffer": with_place()})
        expect(page.get_by_role("img", name=re.compile("^Photo"))).to_be_visible(timeout=PATIENT)
        page.get_by_role("button", name="Whole list").tap()
        page.get_by_role("button", name="To the verdict").tap()
        page.get_by_role("button", name="Record the check").tap()
        expect(page.get_by_text("Not fit to ride").first).to_be_visible(timeout=PATIENT)
        expect(page.get_by_text("3 to send")).to_be_visible(timeout=PATIENT)
        # The photos' way is blocked: the entries go all the same.
        page.context.route("**/api/photos/*", lambda route: route.abort())
        bas.page.context.set_offline(False)
        expect(page.get_by_text("all sent")).to_be_visible(timeout=60_000)
        photo = entries(day, "photo")[-1]
        fault = entries(day, "fault")[-1]
        assert fault["body"]["level"] == "stop"
        assert "crack at the crown" in fault["body"]["what"]
        assert fault["body"]["check"] == photo["body"]["about"] == entries(day, "check")[-1]["id"]
        page.get_by_role("link", name="Device").tap()
        expect(page.get_by_text("1 photo waits to be sent")).to_be_visible(timeout=PATIENT)
        page.context.unroute("**/api/photos/*")
        page.reload()
        address = f"/api/photos/{photo['body']['sha256']}"
        # A page that opens has not counted its photos yet: that the server has it is what counts.
        comes_to(page, f"fetch('{address}').then((answer) => answer.ok)", True, 60)
        got = page.request.get(day.url + address)
        assert got.ok
        expect(page.get_by_text("1 photo waits to be sent")).to_have_count(0, timeout=PATIENT)
        picture = Image.open(io.BytesIO(got.body()))
        assert max(picture.size) == 1600
        assert (photo["body"]["width"], photo["body"]["height"]) == picture.size
        assert dict(picture.getexif()) == {}


def test_the_workshop_copies_a_check_offline_and_an_answered_one_keeps_its_version(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Juno"), "Juno's phone") as juno:
        page = juno.page
        page.goto(f"{day.url}/checks")
        expect(page.get_by_role("button", name="Copy and change Self-check")).to_be_visible(timeout=PATIENT)
        page.context.set_offline(True)
        page.get_by_role("button", name="Copy and change Self-check").tap()
        page.get_by_label("Name", exact=True).fill("Before the rain")
        page.get_by_role("button", name="One more item").tap()
        page.get_by_label("Title", exact=True).fill("Mudguards")
        page.get_by_label("Area", exact=True).fill("frame")
        page.get_by_label("What to do").fill("Shake them.")
        expect(page.get_by_text("Mudguards: what passes is missing")).to_be_attached()
        page.get_by_label("Passes when").fill("They hold.")
        page.get_by_role("button", name="Done", exact=True).tap()
        page.get_by_role("button", name="Record version 1").tap()
        expect(page.get_by_role("link", name=re.compile("Before the rain"))).to_contain_text("13 items", timeout=PATIENT)

        to_check(juno, "self-check")
        page.goto(f"{day.url}/{SLATE}/checks")
        page.get_by_role("link", name=re.compile("Before the rain")).tap()
        page.get_by_role("button", name="Whole list").tap()
        while page.locator(".check-pass").count():
            page.locator(".check-pass").first.tap()
        page.get_by_role("button", name="To the verdict").tap()
        page.get_by_role("button", name="Record the check").tap()
        expect(page.get_by_text("Before the rain recorded")).to_be_visible(timeout=PATIENT)

        # A second version asks less; what was answered is still told as it was asked.
        page.goto(f"{day.url}/checks")
        page.get_by_role("link", name=re.compile("Before the rain")).tap()
        page.get_by_role("button", name=re.compile("Mudguards$")).first.tap()
        page.get_by_role("button", name="Take away").tap()
        page.get_by_role("button", name="Record version 2").tap()
        expect(page.get_by_role("link", name=re.compile("Before the rain"))).to_contain_text(
            "version 2 · 12 items", timeout=PATIENT
        )
        page.context.set_offline(False)
        expect(page.get_by_text("all sent")).to_be_visible(timeout=60_000)
        defined = entries(day, "check-define")
        assert [d["body"]["version"] for d in defined] == [1, 2]
        answered = [c for c in entries(day, "check") if c["body"]["check"] == defined[0]["body"]["check"]][-1]
        assert answered["body"]["version"] == 1
        assert answered["body"]["answers"][-1]["title"] == "Mudguards"


def test_a_mechanic_lets_the_rider_s_phone_in_and_sees_the_self_check(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "Bas's desk", desk=True) as bas:
        bas.page.goto(f"{day.url}/{SLATE}/rider")
        bas.page.get_by_role("button", name="Make the code").click()
        expect(bas.page.get_by_role("img", name="QR code that lets the rider's phone in")).to_be_visible(timeout=PATIENT)
        code = bas.page.locator(".let-in-link").inner_text().split("#")[1]
        with hand(browser, day, code, "Odile's phone") as odile:
            page = odile.page
            expect(page.locator(".bike-line")).to_have_count(1, timeout=PATIENT)
            page.get_by_role("link", name=re.compile("Slate")).tap()
            page.get_by_role("link", name="Checks", exact=True).tap()
            expect(page.locator(".check-kind").first).to_be_visible(timeout=PATIENT)
            assert all("/check/" in str(a.get_attribute("href")) for a in page.locator(".check-kind").all())
            assert page.locator("a[href$='/check/pre-event']").count() == 0
            page.locator("a[href$='/check/self-check']").tap()
            expect(page.locator(".self-drawing")).to_be_visible(timeout=PATIENT)
            while page.locator(".check-asked h1").inner_text() != "Front brake":
                before = page.locator(".check-asked h1").inner_text()
                page.get_by_role("button", name="Good", exact=True).tap()
                expect(page.locator(".check-asked h1")).not_to_have_text(before)
            page.get_by_role("button", name="Wrong", exact=True).tap()
            expect(page.get_by_role("alert")).to_contain_text("Stop. Do not ride it.")
            page.get_by_role("button", name="Whole list").tap()
            while page.locator(".check-pass").count():
                page.locator(".check-pass").first.tap()
            page.get_by_role("button", name="To the verdict").tap()
            expect(page.locator(".check-plainly")).to_have_text("Stop. Do not ride it. Take it to a mechanic.")
            page.get_by_role("button", name="Record the check").tap()
            expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        bas.page.goto(f"{day.url}/{SLATE}/checks")
        trend = bas.page.locator("section", has=bas.page.get_by_role("heading", name="The rider's own checks"))
        expect(trend).to_contain_text("Front brake: 1 of the last", timeout=PATIENT)


def focus(page: Page, wanted: str) -> None:
    """Tab until what has the focus is called `wanted`."""
    for _ in range(120):
        page.keyboard.press("Tab")
        name = tell(
            page, "(document.activeElement.ariaLabel ?? document.activeElement.innerText ?? '').replaceAll(/\\s+/g, ' ').trim()"
        )
        if re.search(wanted, name):
            return
    raise AssertionError(f"the focus never comes to {wanted}")


def test_a_whole_check_by_keyboard_alone(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Bas"), "the bench's keyboard", desk=True) as bas:
        page = bas.page
        focus(page, "^Line-up$")
        page.keyboard.press("Enter")
        expect(page.get_by_role("link", name=re.compile("Three Gaps Day"))).to_be_visible(timeout=PATIENT)
        focus(page, "^Three Gaps Day")
        page.keyboard.press("Enter")
        expect(page.locator(".desk-plate").first).to_be_visible(timeout=PATIENT)
        focus(page, "^20$")
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="Plate 20")).to_be_visible(timeout=PATIENT)
        focus(page, "^Check it")
        page.keyboard.press("Enter")
        expect(page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)
        for i in range(27):
            expect(page.locator(".check-steps .figure")).to_have_text(f"{i + 1} / 27")
            focus(page, "^Pass$")
            page.keyboard.press("Enter")
        expect(page.get_by_role("button", name="Record the check")).to_be_enabled(timeout=PATIENT)
        focus(page, "^Record the check$")
        page.keyboard.press("Enter")
        row = page.locator(".desk-table tr", has=page.get_by_role("rowheader", name="20", exact=True))
        expect(row).to_contain_text("Cleared", timeout=PATIENT)


def test_on_a_phone_on_its_side_the_answers_stay_in_reach(browser: Browser, day: ServedWorkshop):
    """The item is read on the left and scrolls; what the thumb needs stands on the right and stays."""
    with hand(browser, day, day.code_for("Bas"), "a phone on its side") as bas:
        bas.page.set_viewport_size({"width": 740, "height": 330})
        page = to_check(bas, "pre-event")
        page.get_by_role("button", name="Fail", exact=True).tap()
        reached = [page.get_by_role("button", name=name, exact=True) for name in ("Pass", "Attention", "Fail", "Next")]
        for down in (0, 400):
            page.mouse.wheel(0, down)
            for button in reached:
                expect(button).to_be_in_viewport(ratio=1)
        for button in reached:
            box = button.bounding_box()
            assert box is not None
            assert box["x"] > 740 / 2
            assert box["height"] >= 48
        assert tell(page, "document.documentElement.scrollWidth") <= 740


def self_checked(phone: Phone, unsure: str = "") -> Page:
    """Plover's self-check answered with Good, up to the verdict; one item may be answered with Not sure."""
    page = phone.page
    page.goto(f"{phone.url}/{PLOVER}/check/self-check")
    expect(page.locator(".self-drawing")).to_be_visible(timeout=PATIENT)
    heading = page.locator(".check-asked h1")
    while unsure:
        before = heading.inner_text()
        if before == unsure:
            page.get_by_role("button", name="Not sure", exact=True).tap()
            break
        page.get_by_role("button", name="Good", exact=True).tap()
        expect(heading).not_to_have_text(before)
    page.get_by_role("button", name="Whole list").tap()
    while page.locator(".check-pass").count():
        page.locator(".check-pass").first.tap()
    page.get_by_role("button", name="To the verdict").tap()
    expect(page.locator(".check-plainly")).to_be_visible(timeout=PATIENT)
    return page


def test_a_rider_who_is_not_sure_of_what_is_essential_is_not_told_to_ride(mine: Phone) -> None:
    mine.do("record.write", [{"subject": PLOVER, "kind": "describe", "body": {"name": "Plover"}}])
    page = self_checked(mine, unsure="Front brake")
    expect(page.locator(".check-plainly")).to_have_text("Do not ride it until a mechanic has looked.")
    outcome = page.locator(".check-outcome")
    expect(outcome).to_contain_text("Front brake")
    for never in ("Ride with care", "Ride gently"):
        expect(outcome).not_to_contain_text(never)


def test_nothing_found_on_a_bike_that_is_not_fit_does_not_let_it_be_ridden(mine: Phone) -> None:
    drafts: list[tuple[str, dict[str, Any]]] = [("describe", {"name": "Plover"}), ("ride", {"km": 12, "fall": True})]
    mine.do("record.write", [{"subject": PLOVER, "kind": kind, "body": body} for kind, body in drafts])
    page = self_checked(mine)
    expect(page.locator(".check-plainly")).to_have_text("This bike is not fit to ride: After a fall, not cleared.")
    outcome = page.locator(".check-outcome")
    expect(outcome.locator(".mark").first).to_have_text("Not fit to ride")
    expect(outcome).not_to_contain_text("nothing that stops you")
