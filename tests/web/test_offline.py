"""The day without a network: opened once, then the server is dead, and the work goes on."""

import json
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from pinchbolt.kernel.catalogue import find
from tests.web.phone import context, tell
from tests.web.workshop import ServedWorkshop

SLATE = re.compile("Slate")
PATIENT = 20_000

# What the tab at the edge says at the moment a record is told.
BESIDE = """void (() => {
  globalThis.beside = [];
  new MutationObserver(() => {
    if (document.querySelector(".told")?.textContent) beside.push(document.querySelector(".sync-tab")?.textContent);
  }).observe(document, { subtree: true, childList: true, characterData: true });
})()"""

# Everything the tab at the edge has said since the page was opened.
SAYS = """
globalThis.said = new Set();
new MutationObserver(() => {
  for (const tab of document.querySelectorAll(".sync-tab")) said.add(tab.textContent);
}).observe(document, { subtree: true, childList: true, characterData: true });
"""


@pytest.fixture
def phone_page(browser: Browser, season: ServedWorkshop) -> Iterator[Page]:
    """A phone under the service worker, on the app as it is shipped: its policy holds, nothing is let through."""
    made = context(browser, workers=True)
    page = made.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    yield page
    made.close()
    assert wrong == []


def pair(page: Page, season: ServedWorkshop, code: str) -> None:
    page.goto(f"{season.url}/pair#{code}")
    page.get_by_label("This phone is called").fill("the bench phone")
    page.get_by_role("button", name="Pair", exact=True).click()
    expect(page.get_by_role("link", name=SLATE)).to_be_visible(timeout=PATIENT)


def kept_for_offline(page: Page) -> None:
    """The service worker has everything and is in charge."""
    tell(page, "navigator.serviceWorker.ready.then(() => null)")
    expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)


def to_bike(page: Page, season: ServedWorkshop) -> None:
    page.goto(season.url + "/")
    page.get_by_role("link", name=SLATE).click()


def test_a_day_at_the_trackside_without_a_signal(browser: Browser, phone_page: Page, season: ServedWorkshop) -> None:
    page = phone_page
    pair(page, season, season.code)
    kept_for_offline(page)
    before = len(season.held())
    season.kill()

    # From cold, with nothing to ask: the calculation, against CPython.
    page.goto(season.url + "/bench/steerer-cut")
    page.get_by_role("button", name="Example").click()
    calculation = find("steerer-cut")
    answer = calculation.run(calculation.example)
    cut = next(o for o in calculation.outputs if o.kind == "number")
    results = page.locator("#results")
    expect(results).to_contain_text(cut.label, timeout=PATIENT)
    value = answer["outputs"][cut.name]
    expect(results).to_contain_text(f"{value:.{cut.digits or 0}f}".rstrip("0").rstrip(".") if cut.digits else str(round(value)))

    # A check, as far as it goes.
    to_bike(page, season)
    page.get_by_role("link", name="Check", exact=True).click()
    page.locator("a[href*='/check/pre-event']").click()
    record = page.get_by_role("button", name="Record the check")
    page.get_by_role("button", name="Pass", exact=True).click()
    for _ in range(80):
        if record.is_visible():
            break
        page.get_by_role("button", name=re.compile("^(Later|Next)")).click()
    expect(page.get_by_text("Not complete").first).to_be_visible()
    record.click()

    # An adjustment.
    page.get_by_role("link", name="Adjust", exact=True).click()
    page.get_by_role("button", name=re.compile("^Saddle tilt")).click()
    page.get_by_role("button", name=re.compile("more", re.IGNORECASE)).first.click()
    page.get_by_role("button", name=re.compile("more", re.IGNORECASE)).first.click()
    tell(page, BESIDE)
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.get_by_text("2 to send")).to_be_visible(timeout=PATIENT)
    # When it is told that it is recorded, it is counted among what waits.
    assert tell(page, "beside[0]") == "2 to send no signal"
    page.add_init_script(SAYS)
    page.reload()
    expect(page.get_by_text("2 to send")).to_be_visible(timeout=PATIENT)
    # Not for a moment does a page that opens say that all is sent.
    said = tell(page, "[...said]")
    assert "2 to send" in " ".join(said)
    assert "all sent" not in " ".join(said)

    # The server comes back; both are there, and a second phone sees them.
    season.start()
    page.reload()
    expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
    kinds = [json.loads(raw)["kind"] for raw in season.held()[before:]]
    assert kinds == ["check", "adjust"]
    assert season.broken() == []
    other = context(browser, workers=True)
    second = other.new_page()
    pair(second, season, season.code_for("Bas"))
    second.get_by_role("link", name=SLATE).click()
    second.get_by_role("link", name="Log", exact=True).click()
    expect(second.get_by_text(re.compile("Saddle tilt")).first).to_be_visible(timeout=PATIENT)
    other.close()
