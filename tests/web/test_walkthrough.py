"""The three uses on the way, walked by real touches as docs/walkthrough.md tells them: counted, timed and pictured."""

import re
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import PATIENT
from tests.web.steady import it_is, load_season, no_signal, signal, steady_hand
from tests.web.walking import Walk
from tests.web.workshop import ServedWorkshop

# Seconds a script may take: generous, on a machine that does four things at once.
MOST_CHECK = 30
MOST_ADJUST = 10
MOST_SELF = 20
SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
WORDS = "saddle up 2 because hips rock"


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return load_season(tmp_path_factory.mktemp("walks") / "data")


@pytest.fixture
def day(web: Path, told: Path, tmp_path: Path) -> Iterator[ServedWorkshop]:
    """The season for one walk alone: what the others record would show."""
    served = ServedWorkshop(copytree(told, tmp_path / "data"), web, "demo").start()
    yield served
    served.stop()


def marked(walk: Walk, button: str, until: int) -> None:
    """The items up to one, each by a touch of its own after the one before has gone."""
    page = walk.page
    place = page.locator(".check-steps .figure")
    at, of = (int(figure) for figure in place.inner_text().split("/"))
    for i in range(at, until + 1):
        expect(place).to_have_text(f"{i} / {of}")
        walk.tap(page.get_by_role("button", name=button, exact=True))


def test_a_bike_is_checked_at_the_start_line(browser: Browser, day: ServedWorkshop) -> None:
    with steady_hand(browser, day, "Bas") as page:
        no_signal(page, day)
        walk = Walk(page, "start line")
        with walk.step("**Line-up**, in the bar at the foot"):
            walk.tap(page.get_by_role("link", name="Line-up", exact=True))
            expect(page.get_by_role("link", name=re.compile("Three Gaps Day"))).to_be_visible(timeout=PATIENT)
        walk.picture("walk-events")
        with walk.step("The event, **Three Gaps Day**"):
            walk.tap(page.get_by_role("link", name=re.compile("Three Gaps Day")))
            expect(page.locator(".plate")).to_have_count(24, timeout=PATIENT)
        walk.picture("walk-line")
        with walk.step("The plate that stands before you, **4**"):
            walk.tap(page.locator("a.plate[href$='/plate/4']"))
            expect(page.get_by_role("heading", name="Plate 4")).to_be_visible(timeout=PATIENT)
        walk.picture("walk-plate")
        with walk.step("**Check it**"):
            walk.tap(page.get_by_role("link", name=re.compile("^Check it")))
            expect(page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)
        walk.picture("walk-item")
        with walk.step("**Pass**, once for each of the 27 items: the next one comes by itself"):
            marked(walk, "Pass", 27)
            expect(page.locator(".check-outcome")).to_be_visible(timeout=PATIENT)
        it_is(page, "08:43")
        walk.picture("walk-outcome")
        with walk.step("**Record the check**: back at the line, ready for the next"):
            walk.tap(page.get_by_role("button", name="Record the check"))
            expect(page.locator("a.plate[href$='/plate/4']")).to_contain_text("Cleared", timeout=PATIENT)
        walk.picture("walk-cleared")
        walk.holds(MOST_CHECK)
        found_wrong(page)


def found_wrong(page: Page) -> None:
    """The next plate: one item fails."""
    walk = Walk(page, "start line, something wrong")
    with walk.step("The next plate, **5**, and **Check it**"):
        walk.tap(page.locator("a.plate[href$='/plate/5']"))
        walk.tap(page.get_by_role("link", name=re.compile("^Check it")))
        expect(page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)
    with walk.step("**Pass** for what is good"):
        while page.locator(".check-asked h1").inner_text() != "Headset":
            at = int(page.locator(".check-steps .figure").inner_text().split("/")[0])
            marked(walk, "Pass", at)
            expect(page.locator(".check-steps .figure")).to_have_text(re.compile(f"^{at + 1} /"))
    with walk.step("**Fail** at the headset, a touch into the line and two words, **Next**"):
        walk.tap(page.get_by_role("button", name="Fail", exact=True))
        walk.tap(page.get_by_label("What is it?"))
        walk.write("it rocks")
        walk.picture("walk-fail")
        walk.tap(page.get_by_role("button", name="Next", exact=True))
        expect(page.locator(".check-asked h1")).not_to_have_text("Headset")
    with walk.step("**Pass** for the rest"):
        marked(walk, "Pass", 27)
        expect(page.locator(".check-outcome")).to_contain_text("Not fit to ride", timeout=PATIENT)
    with walk.step("**Record the check**"):
        walk.tap(page.get_by_role("button", name="Record the check"))
        expect(page.locator("a.plate[href$='/plate/5']")).to_contain_text("Not cleared", timeout=PATIENT)
    walk.picture("walk-not-cleared")
    walk.holds(MOST_CHECK)


def test_an_adjustment_is_kept_at_the_trackside(browser: Browser, day: ServedWorkshop) -> None:
    with steady_hand(browser, day, "Bas") as page:
        no_signal(page, day)
        walk = Walk(page, "trackside")
        with walk.step("The bike, **Slate**"):
            walk.tap(page.get_by_role("link", name=re.compile("Slate")))
            expect(page.locator("tr", has_text="Saddle height")).to_contain_text("710 mm", timeout=PATIENT)
            expect(page.locator(".nudge")).to_be_attached(timeout=PATIENT)
        walk.picture("walk-bike")
        with walk.step(f"Into the line **Say or type it**: “{WORDS}”"):
            walk.tap(page.get_by_label("Say or type it"))
            walk.write(WORDS)
            expect(page.locator("#say-told")).to_contain_text("710 mm → 712 mm", timeout=PATIENT)
        walk.picture("walk-said")
        with walk.step("The keyboard's own **done**: it is recorded"):
            walk.enter()
            expect(page.locator("tr", has_text="Saddle height")).to_contain_text("712 mm", timeout=PATIENT)
            expect(page.locator(".nudge")).to_contain_text("Saddle height", timeout=PATIENT)
        walk.picture("walk-moved")
        with walk.step("**Log**: it is kept, with its reason, and not yet sent"):
            walk.tap(page.get_by_role("link", name="Log", exact=True))
            expect(page.locator(".log-line").first).to_contain_text("hips rock", timeout=PATIENT)
        walk.picture("walk-log")
        walk.holds(MOST_ADJUST)
        before = len(day.held())
        signal(page, day)
        kept = page.locator(".log-line").first
        expect(kept).to_contain_text("hips rock", timeout=PATIENT)
        expect(kept).not_to_contain_text("not yet sent", timeout=PATIENT)
        assert len(day.held()) == before + 1


def test_the_rider_looks_the_bike_over_between_services(browser: Browser, day: ServedWorkshop) -> None:
    with steady_hand(browser, day, "Odile") as page:
        no_signal(page, day)
        walk = Walk(page, "self-check")
        walk.picture("walk-rider")
        with walk.step("Your bike, **Slate**"):
            walk.tap(page.get_by_role("link", name=re.compile("Slate")))
            expect(page.get_by_role("heading", name="Slate", level=1)).to_be_visible(timeout=PATIENT)
        with walk.step("**Checks**"):
            walk.tap(page.get_by_role("link", name="Checks", exact=True))
            expect(page.locator("a[href$='/check/self-check']")).to_be_visible(timeout=PATIENT)
        walk.picture("walk-rider-checks")
        with walk.step("**Self-check**"):
            walk.tap(page.locator("a[href$='/check/self-check']"))
            expect(page.locator(".self-drawing")).to_be_visible(timeout=PATIENT)
        walk.picture("walk-self-item")
        with walk.step("**Good**, once for each of the 12 items"):
            marked(walk, "Good", 12)
            expect(page.locator(".check-plainly")).to_be_visible(timeout=PATIENT)
            # Twelve looks are no whole check: they do not call the bike fit.
            expect(page.locator(".check-outcome .mark")).to_have_text("Nothing found")
        it_is(page, "08:42")
        walk.picture("walk-self-outcome")
        with walk.step("**Record the check**"):
            walk.tap(page.get_by_role("button", name="Record the check"))
            expect(page.get_by_text("Self-check recorded")).to_be_visible(timeout=PATIENT)
        walk.picture("walk-self-done")
        walk.holds(MOST_SELF)
        # What the rider is told at once when something is wrong; nothing of this is recorded.
        page.goto(f"/{SLATE}/check/self-check")
        expect(page.locator(".self-drawing")).to_be_visible(timeout=PATIENT)
        page.get_by_role("button", name="Wrong", exact=True).tap()
        expect(page.get_by_role("alert")).to_contain_text("Stop. Do not ride it.")
        walk.picture("walk-self-stop")
