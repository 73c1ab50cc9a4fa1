"""The hands at a start line: opening the app as somebody, going to a plate, answering a check."""

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.web.phone import SIZE, comes_to, kept, tell
from tests.web.workshop import ServedWorkshop

PATIENT = 30_000
EVENT = "4be9856d-fbaa-570e-82b6-ca80c4d9f186"
STARTERS = 24
# Whether a page of the record is stored.
FETCHED = kept("facts", "pulled") + ".then((pulled) => pulled !== undefined)"
DESK = {"width": 1280, "height": 800}
TALLY = ".tally button"


class Hand:
    """Somebody with a phone (or at the desk). `tap` counts the touches."""

    def __init__(self, page: Page, url: str) -> None:
        self.page = page
        self.url = url
        self.touches = 0

    def pair(self, code: str, name: str) -> "Hand":
        self.page.goto(f"{self.url}/pair#{code}")
        self.page.get_by_label("This phone is called").fill(name)
        self.page.get_by_role("button", name="Pair", exact=True).click()
        expect(self.page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        # So it says before anything has come over, too; and no more from the first page to the last.
        comes_to(self.page, FETCHED, True)
        expect(self.page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
        # The whole app is on the phone: from here on it needs no network.
        tell(self.page, "navigator.serviceWorker.ready.then(() => null)")
        return self

    def new_bike(self, name: str) -> str:
        """Made with no more than its name; the address of its sheet."""
        self.page.goto(self.url + "/new")
        self.page.get_by_role("textbox", name="Name", exact=True).fill(name)
        self.page.get_by_role("button", name="Record").click()
        expect(self.page.get_by_role("heading", name=name)).to_be_visible(timeout=PATIENT)
        return self.page.url

    def line(self) -> "Hand":
        """To the start line, through the bottom bar, without loading the page anew."""
        self.page.get_by_role("link", name="Line-up", exact=True).first.click()
        self.page.get_by_role("link", name=re.compile("Three Gaps Day")).click()
        expect(self.page.locator(".plate, .desk-plate").first).to_be_visible(timeout=PATIENT)
        return self

    def tap(self, target: Any) -> None:
        self.touches += 1
        target.tap()

    def plate(self, plate: str) -> None:
        self.tap(self.page.locator(f"a.plate[href$='/plate/{plate}']"))

    def begin(self) -> None:
        self.tap(self.page.get_by_role("link", name=re.compile("^Check it")))
        expect(self.page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)

    def pass_all(self) -> None:
        """Every item by a touch of its own, as a hand does it."""
        page = self.page
        items = int(page.locator(".check-steps .figure").inner_text().split("/")[1])
        for i in range(items):
            expect(page.locator(".check-steps .figure")).to_have_text(f"{i + 1} / {items}")
            self.tap(page.get_by_role("button", name="Pass", exact=True))
        self.record()

    def pass_on_list(self) -> None:
        """On the whole list, each item by a touch of its own; no touch passes two."""
        page = self.page
        self.tap(page.get_by_role("button", name="Whole list"))
        open_ones = page.locator(".check-pass")
        expect(open_ones.first).to_be_visible(timeout=PATIENT)
        for left in range(open_ones.count(), 0, -1):
            self.tap(open_ones.first)
            expect(open_ones).to_have_count(left - 1)
        self.tap(page.get_by_role("button", name="To the verdict"))
        self.record()

    def record(self) -> None:
        button = self.page.get_by_role("button", name="Record the check")
        expect(button).to_be_enabled(timeout=PATIENT)
        self.tap(button)
        expect(self.page.locator(".plate, .desk-plate, .stands, .past-check").first).to_be_visible(timeout=PATIENT)

    def check(self, plate: str, fail: str | None = None) -> None:
        """A whole check of a plate, its items clicked by script, as fast as the app goes on. `fail` is an item's title."""
        self.plate(plate)
        self.begin()
        tell(
            self.page,
            f"""(async () => {{
              const failing = {json.dumps(fail)};
              const head = () => document.querySelector(".check-asked h1")?.textContent;
              const until = async (done) => {{
                for (let i = 0; i < 2000 && !done(); i += 1) await new Promise((go) => setTimeout(go, 4));
                if (!done()) throw new Error("the check does not go on at " + head());
              }};
              while (head() !== undefined) {{
                const title = head();
                if (title === failing) {{
                  document.querySelector(".check-mark-fail").click();
                  await until(() => document.querySelector(".check-mark-fail").getAttribute("aria-pressed") === "true");
                  document.querySelector(".check-steps button:last-child").click();
                }} else document.querySelector(".check-mark-pass").click();
                await until(() => head() !== title);
              }}
            }})()""",
        )
        self.record()


@contextmanager
def hand(browser: Browser, served: ServedWorkshop, code: str, name: str, **options: Any) -> Iterator[Hand]:
    """A paired phone under the app as it is shipped; nothing may go wrong in its page."""
    desk = options.pop("desk", False)
    shape: dict[str, Any] = {"viewport": DESK} if desk else {"viewport": SIZE, "has_touch": True, "is_mobile": True}
    made: BrowserContext = browser.new_context(**{"locale": "en-GB", **shape, **options})
    wrong: list[str] = []
    page = made.new_page()
    page.on("pageerror", lambda error: wrong.append(str(error)))
    try:
        yield Hand(page, served.url).pair(code, name)
    finally:
        made.close()
    assert wrong == []


@contextmanager
def three_at_the_line(browser: Browser, served: ServedWorkshop) -> Iterator[tuple[Hand, Hand, Hand]]:
    """The desk, Juno and Bas, each before the line of the event."""
    with (
        hand(browser, served, served.code, "the desk", desk=True) as desk,
        hand(browser, served, served.code_for("Juno"), "Juno's phone") as juno,
        hand(browser, served, served.code_for("Bas"), "Bas's phone") as bas,
    ):
        for one in (desk, juno, bas):
            one.line()
        yield desk, juno, bas


def tally(at: Hand, word: str) -> int:
    cell = at.page.locator(TALLY).filter(has_text=re.compile(f"{word}$"))
    return int(cell.locator(".figure").inner_text())


def counts(at: Hand, word: str, number: int) -> None:
    """The tally says so, as soon as the fold is done."""
    cell = at.page.locator(TALLY).filter(has_text=re.compile(f"{word}$"))
    expect(cell.locator(".figure")).to_have_text(str(number), timeout=60_000)
