"""The pictures of docs/guide.md, made anew and held against those in docs/pictures. Those of the walks: test_walkthrough.py."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.building import box
from tests.web.checking import PATIENT
from tests.web.phone import tell
from tests.web.pictures import compare
from tests.web.steady import load_season, no_signal, picture_of, steady, steady_hand
from tests.web.workshop import ServedWorkshop

FERN = "/bike/e7a78a49-c83f-5177-aaf6-4b4938d4f0cd"
SLATE = "/bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
Way = Callable[[Page], None]


@pytest.fixture(scope="module")
def day(web: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkshop]:
    served = ServedWorkshop(load_season(tmp_path_factory.mktemp("guide") / "data"), web, "demo").start()
    yield served
    served.stop()


def named(page: Page) -> None:
    box(page, "Name").fill("Birch")
    box(page, "For").fill("gravel")
    page.get_by_label("Rider").select_option(label="Odile")
    box(page, "Weight goal").fill("9200")
    # Nothing has the focus: what is shown is the sheet.
    page.get_by_role("heading", name="New bike").click()


def example(page: Page) -> None:
    page.get_by_role("button", name="Example").tap()
    expect(page.locator(".working li").first).to_be_visible(timeout=PATIENT)


def worked(page: Page) -> None:
    example(page)
    page.get_by_role("heading", name="How it is worked out").evaluate("(at) => at.scrollIntoView()")


def two_up(page: Page) -> None:
    for _ in range(2):
        page.get_by_role("button", name=re.compile("more$")).first.tap()
    expect(page.get_by_text("2 mm up")).to_be_visible(timeout=PATIENT)
    # The finger is somewhere else.
    page.get_by_role("heading", name="Saddle height").tap()


def chosen(page: Page, cell: str) -> None:
    """Touched where a finger does: on its words."""
    page.locator("label.cell").filter(has_text=re.compile(f"^{cell}")).tap()
    expect(page.get_by_role("radio", name=re.compile(f"^{cell}"))).to_be_checked()


def applied(page: Page) -> None:
    chosen(page, "click wrench, small")
    page.get_by_label("Thread and clamp").select_option("grease on thread")
    box(page, "Applied").fill("7")
    chosen(page, "Yes")
    expect(page.locator(".finding-fine")).to_be_visible(timeout=PATIENT)
    page.get_by_text("Applied", exact=True).evaluate("(at) => at.scrollIntoView({ block: 'center' })")


# name, address, what is there when it is shown, and what is done then
SHEETS: list[tuple[str, str, str, Way | None]] = [
    ("guide-bikes", "/", ".bike-line", None),
    ("guide-new-bike", "/new", "form, .form", named),
    ("guide-calculation", "/bench/torque-adaptor", "input.figure", example),
    ("guide-working", "/bench/torque-adaptor", "input.figure", worked),
    ("guide-build", f"{FERN}/build", ".plan-line", None),
    ("guide-fits", f"{FERN}/fits", ".fit-tally", None),
    ("guide-cut", f"{FERN}/cut/steerer", "svg.drawing", None),
    ("guide-torque", f"{FERN}/torque/saddle%20clamp", "input.figure", applied),
    ("guide-adjust", f"{SLATE}/adjust?setting=saddle_height", "input.figure", two_up),
    ("guide-baselines", f"{SLATE}/baselines", ".step-back", None),
    ("guide-wear", f"{SLATE}/wear", ".wear svg", None),
    ("guide-due", "/due", ".due-row", None),
    ("guide-hand-over", f"{SLATE}/hand-over", "article.hand-over svg", None),
]


def shown(page: Page, address: str, until: str) -> None:
    page.goto(address)
    expect(page.locator(until).first).to_be_visible(timeout=PATIENT)
    page.locator("main").get_by_text("Reading …").first.wait_for(state="hidden", timeout=PATIENT)


class Pictures:
    """All are compared before the test fails, so that one run tells everything."""

    def __init__(self) -> None:
        self.wrong: list[str] = []

    def take(self, name: str, page: Page) -> None:
        try:
            compare(name, picture_of(page))
        except AssertionError as error:
            self.wrong.append(str(error))


def test_the_guide_shows_the_app_as_it_is(browser: Browser, day: ServedWorkshop) -> None:
    pictures = Pictures()
    with steady(browser, day.url) as page:
        page.goto(f"/pair#{day.code}")
        box(page, "This phone is called").fill("the blue phone")
        pictures.take("guide-pair", page)
    with steady_hand(browser, day, "Juno") as page:
        for name, address, until, way in SHEETS:
            shown(page, address, until)
            if way is not None:
                way(page)
            pictures.take(name, page)

        tell(page, 'localStorage.setItem("pinchbolt-language", "de")')
        shown(page, SLATE, ".stands")
        pictures.take("guide-german", page)
        tell(page, 'localStorage.removeItem("pinchbolt-language")')

        shown(page, f"{FERN}/measure?what=saddle_tilt", "input.figure")
        measured_by_phone(page)
        pictures.take("guide-angle", page)

        shown(page, "/device", "main h2")
        expect(page.get_by_text("today 08:40")).to_be_visible(timeout=PATIENT)
        no_signal(page, day)
        noted(page)
        page.get_by_role("link", name="Device", exact=True).tap()
        expect(page.get_by_text("Everything is kept here.")).to_be_visible(timeout=PATIENT)
        pictures.take("guide-sending", page)
    assert pictures.wrong == [], "\n".join(pictures.wrong)


def noted(page: Page) -> None:
    """Something written that has to wait."""
    page.get_by_role("link", name="Bikes", exact=True).tap()
    page.get_by_role("link", name=re.compile("^Slate")).tap()
    page.get_by_role("link", name="Note", exact=True).tap()
    page.locator("textarea").fill("new cleats, worn in by next week")
    page.get_by_role("button", name="Record", exact=True).tap()
    expect(page.get_by_text("1 to send")).to_be_visible(timeout=PATIENT)
    page.get_by_role("status").get_by_role("button", name="Close").tap()


def measured_by_phone(page: Page) -> None:
    """The phone lies on the saddle, as the browser's own tools make it believe."""
    page.context.grant_permissions(["accelerometer", "gyroscope"])
    page.context.new_cdp_session(page).send(
        "DeviceOrientation.setDeviceOrientationOverride", {"alpha": 30, "beta": -2.1, "gamma": 4}
    )
    page.get_by_role("button", name="Measure with the phone").first.tap()
    sheet = page.get_by_role("dialog")
    sheet.get_by_role("button", name="Start").tap()
    expect(sheet.get_by_role("button", name="Read")).to_be_enabled(timeout=PATIENT)
