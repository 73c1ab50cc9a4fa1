"""The hands at the bench: a new bike on a phone, its fields, a file given to it."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Download, Locator, Page, expect

from tests.web.phone import context, tell
from tests.web.workshop import ServedWorkshop

PATIENT = 20_000


@contextmanager
def new_bike(browser: Browser, workshop: ServedWorkshop) -> Iterator[Page]:
    """The owner's phone at an empty workshop, under the service worker, with a bike called Fern and nothing else."""
    made = context(browser, workers=True)
    page = made.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(f"{workshop.url}/pair#{workshop.code}")
    box(page, "This phone is called").fill("the bench phone")
    page.get_by_role("button", name="Pair", exact=True).click()
    expect(page.get_by_text("No bikes yet")).to_be_visible(timeout=PATIENT)
    page.goto(workshop.url + "/new")
    box(page, "Name").fill("Fern")
    box(page, "Weight goal").fill("8400")
    page.get_by_role("button", name="Record").click()
    page.get_by_role("link", name="Build", exact=True).click()
    expect(page.get_by_role("heading", name="What comes next")).to_be_visible(timeout=PATIENT)
    tell(page, "navigator.serviceWorker.ready.then(() => null)")
    try:
        yield page
    finally:
        made.close()
    assert wrong == []


def box(where: Page | Locator, label: str | re.Pattern[str]) -> Locator:
    """The field to type in; its steppers bear its name too."""
    return where.get_by_role("textbox", name=re.compile("^" + label) if isinstance(label, str) else label)


def bike(page: Page) -> str:
    """The address of the bike the page is at."""
    found = re.match(r"(.*/bike/[0-9a-f-]+)", page.url)
    assert found
    return found[1]


def choose_file(page: Page, name: str, content: bytes) -> None:
    page.goto(bike(page) + "/import")
    chooser = page.locator("input[type=file]")
    chooser.wait_for(state="attached", timeout=PATIENT)
    chooser.set_input_files({"name": name, "mimeType": "text/csv", "buffer": content})


def saved(page: Page, button: str) -> tuple[str, str]:
    """The name and the text of what a button hands out. There is no sharing in the test's browser: it is saved."""
    with page.expect_download() as waiting:
        page.get_by_role("button", name=button).click()
    given: Download = waiting.value
    return given.suggested_filename, Path(given.path()).read_text(encoding="utf-8")
