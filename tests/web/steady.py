"""What makes two pictures of one screen the same: a day that stands still, the season as it was on it, nothing that moves."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from pinchbolt import demo
from pinchbolt.workshop import Workshop
from tests.web.checking import PATIENT, Hand
from tests.web.phone import SIZE, tell
from tests.web.workshop import ServedWorkshop

# The season is told up to this day, and the phone believes it to be this minute.
DAY = datetime(2026, 6, 12, tzinfo=UTC)
NOW = "2026-06-12T08:40:00Z"

# The page's clock stands still until it is told another minute. The server's own is the real one: it is kept from the page,
# which would say that one of them is wrong.
CLOCK = """
{
  const real = Date;
  let now = real.parse("NOW");
  globalThis.itIs = (iso) => { now = real.parse(iso); };
  globalThis.Date = class extends real {
    constructor(...told) { if (told.length === 0) super(now); else super(...told); }
    static now() { return now; }
  };
  const get = Headers.prototype.get;
  Headers.prototype.get = function (name) { return name === "Date" ? null : get.call(this, name); };
}
""".replace("NOW", NOW)

# The fonts are there, nothing has changed on the sheet for a moment, and what changed before has been drawn.
SETTLED = """document.fonts.ready.then(() => new Promise((go) => {
  const drawn = () => { watching.disconnect(); requestAnimationFrame(() => requestAnimationFrame(() => go(null))); };
  let quiet = setTimeout(drawn, QUIET);
  const watching = new MutationObserver(() => { clearTimeout(quiet); quiet = setTimeout(drawn, QUIET); });
  watching.observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
}))""".replace("QUIET", "150")


def load_season(data: Path) -> Path:
    """The invented workshop's record, as it was on that day."""
    with Workshop(data) as workshop:
        demo.load(workshop, DAY)
    return data


@contextmanager
def steady(browser: Browser, url: str, language: str = "en-GB") -> Iterator[Page]:
    """A phone whose pages look the same on every day; nothing may go wrong in them."""
    made = browser.new_context(
        viewport={"width": SIZE["width"], "height": SIZE["height"]},
        device_scale_factor=1,
        has_touch=True,
        is_mobile=True,
        locale=language,
        timezone_id="UTC",
        color_scheme="light",
        reduced_motion="reduce",
        base_url=url,
    )
    made.add_init_script(CLOCK)
    wrong: list[str] = []
    page = made.new_page()
    page.on("pageerror", lambda error: wrong.append(str(error)))
    try:
        yield page
    finally:
        made.close()
    assert wrong == []


@contextmanager
def steady_hand(browser: Browser, served: ServedWorkshop, person: str) -> Iterator[Page]:
    """Such a phone, paired as somebody's, with everything on it."""
    with steady(browser, served.url) as page:
        Hand(page, served.url).pair(served.code_for(person), f"{person}'s phone")
        page.get_by_role("status").get_by_role("button", name="Close").tap()
        yield page


def no_signal(page: Page, served: ServedWorkshop) -> None:
    """Out of reach. The server is gone as well: what it was saying just then would still be heard.

    Each further try fails at once, so that no picture falls into one.
    """
    served.kill()
    page.context.set_offline(True)
    tell(page, "globalThis.fetch = async () => { throw new TypeError('no network'); }; null")
    expect(page.get_by_text("no signal")).to_be_visible(timeout=PATIENT)


def signal(page: Page, served: ServedWorkshop) -> None:
    """Within reach again; the page is opened anew."""
    served.start()
    page.context.set_offline(False)
    page.reload()


def it_is(page: Page, minute: str) -> None:
    """The page's clock, told a minute of the day: `it_is(page, "08:55")`. Opened anew, a page is at the first one again."""
    tell(page, f'itIs("{NOW[:11]}{minute}:00Z")')


def picture_of(page: Page) -> bytes:
    """What the phone shows, once it is all there."""
    for still in ("Reading …", "Getting the bench ready …"):
        page.get_by_text(still).first.wait_for(state="hidden", timeout=PATIENT)
    tell(page, SETTLED)
    return page.screenshot(animations="disabled", caret="hide", scale="css")
