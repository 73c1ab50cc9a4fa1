"""One browser a process, for whatever test wants a page."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Playwright, expect, sync_playwright

from tests.web.phone import ARGUMENTS, CHROMIUM, PAGES

# Few tests and long ones: begun first, that no process is left with one of them at the end.
LONG = ("tests/sync", "tests/soak", "tests/web")

# In milliseconds: what is expected comes at once on an idle machine, and late on one with four busy processes.
expect.set_options(timeout=20_000)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    items.sort(key=lambda item: not item.nodeid.startswith(LONG))


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    started = playwright.chromium.launch(executable_path=PAGES, args=ARGUMENTS)
    yield started
    started.close()


@pytest.fixture(scope="session")
def whole_browser(playwright: Playwright, browser: Browser) -> Iterator[Browser]:
    """The browser with all that stands around a page; without windows it has no permission to show notices."""
    if PAGES == CHROMIUM:
        yield browser
        return
    started = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
    yield started
    started.close()
