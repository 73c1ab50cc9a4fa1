"""A phone for browser tests: a page in a touch context the size of one, and the way to its kernel and store."""

import json
import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

CHROMIUM = os.environ.get("CHROMIUM", "/usr/bin/chromium")
# The same without windows and without a profile on the disk, where that one is here: a new phone costs a quarter in it.
_WINDOWLESS = Path(os.environ.get("WINDOWLESS", "/usr/bin/chromium-headless-shell"))
PAGES = str(_WINDOWLESS) if _WINDOWLESS.exists() else CHROMIUM
# No errands of the browser's own, and nothing that needs a screen.
ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--no-first-run",
    # Letters stand where they do on a phone, and in the same places with windows and without: pictures are compared.
    "--font-render-hinting=none",
]
SIZE = {"width": 390, "height": 844}


def context(browser: Browser, *, workers: bool = False) -> BrowserContext:
    """A phone's browser. `workers` lets the service worker in; replies can only be faked without it."""
    return browser.new_context(
        viewport=SIZE,
        has_touch=True,
        is_mobile=True,
        device_scale_factor=2,
        locale="en-GB",
        service_workers="allow" if workers else "block",
    )


def tell(page: Page, expression: str) -> Any:
    """The value of a JavaScript expression in the page; a promise is waited for.

    The page's policy forbids making script from text, which is how Playwright would do it; the debugger's own way is allowed.
    """
    session = page.context.new_cdp_session(page)
    try:
        told = session.send(
            "Runtime.evaluate",
            {"expression": expression, "awaitPromise": True, "returnByValue": True, "replMode": False},
        )
    finally:
        session.detach()
    if "exceptionDetails" in told:
        thrown = told["exceptionDetails"].get("exception", {})
        raise AssertionError(thrown.get("description") or thrown.get("value") or told["exceptionDetails"]["text"])
    return told["result"].get("value")


def kept(store: str, key: str) -> str:
    """The expression of what the phone keeps in one of its stores; undefined when there is nothing."""
    return (
        "new Promise((done) => { const o = indexedDB.open('pinchbolt'); o.onsuccess = () => {"
        f" const q = o.result.transaction('{store}').objectStore('{store}').get('{key}');"
        " q.onsuccess = () => { o.result.close(); done(q.result); }; }; })"
    )


def comes_to(page: Page, expression: str, wanted: Any, seconds: float = 30) -> None:
    """Waits until the expression's value in the page is the wanted one; the last value seen stands in the error."""
    until = time.monotonic() + seconds
    while (told := tell(page, expression)) != wanted:
        assert time.monotonic() < until, f"{expression} is {told!r}, wanted {wanted!r}"
        page.wait_for_timeout(50)


class Phone:
    """A page at the test door."""

    def __init__(self, page: Page, url: str) -> None:
        self.page = page
        self.url = url

    def open(self) -> "Phone":
        self.page.goto(self.url + "/tests.html")
        self.page.get_by_text("door open").wait_for(timeout=30_000)
        return self

    def do(self, call: str, *arguments: Any) -> Any:
        """Call something behind the door: `do("record.write", draft)`."""
        return tell(self.page, f"door.{call}({', '.join(json.dumps(one) for one in arguments)})")

    def value(self, name: str) -> Any:
        """What a signal behind the door holds."""
        return tell(self.page, f"door.{name}.value")

    def pair(self, code: str, name: str = "a test phone") -> dict[str, Any]:
        return self.do("pair", code, name)

    def sync(self) -> dict[str, Any]:
        """One round of sync, and what the phone says of it."""
        self.do("syncNow")
        return self.value("syncState")

    def waiting(self) -> list[dict[str, Any]]:
        """The entries no receipt covers, in order."""
        return [json.loads(kept["text"]) for kept in self.do("record.unsent")]


@contextmanager
def phone(browser: Browser, url: str) -> Iterator[Phone]:
    made = context(browser)
    try:
        yield Phone(made.new_page(), url).open()
    finally:
        made.close()
