"""The sheets of a bike in use, of what is due, of the bench and of this device in three themes: nothing axe-core finds.

The light sheet is held to every rule; night and sunlight change colours and rules only, so they are held to contrast (7:1) and
the size of targets. Checks, line-up, build and position are looked at in test_accessible.py.
"""

import re
import time
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.axe import CONTRAST, RULES, TARGETS, THEMES, dress, found
from tests.web.checking import PATIENT, hand
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop

SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
Way = Callable[[Page], None]


def asked(page: Page) -> None:
    expect(page.get_by_role("dialog")).to_be_visible(timeout=PATIENT)


def press(name: str) -> Way:
    """A sheet that opens over the page at a button."""

    def way(page: Page) -> None:
        page.get_by_role("button", name=re.compile(name)).first.click()
        asked(page)

    return way


def tap(where: str) -> Way:
    def way(page: Page) -> None:
        page.locator(where).first.click()
        asked(page)

    return way


def said(page: Page) -> None:
    """Something typed that is understood, and something that is not."""
    page.get_by_label("Say or type it").fill("lever in 2")
    expect(page.locator("#say-told")).to_contain_text("Lever reach")


def doubted(page: Page) -> None:
    page.locator("input.figure").first.fill("0.2")
    page.get_by_role("button", name="Record", exact=True).click()
    asked(page)


def chosen(page: Page) -> None:
    page.get_by_label("Which bike?").select_option(label="Slate")
    page.get_by_role("button", name="Next", exact=True).click()
    expect(page.locator(".how-to svg")).to_be_visible(timeout=PATIENT)


def filtered(page: Page) -> None:
    page.get_by_label("Find in the log").fill("no such thing")
    expect(page.locator(".log-line")).to_have_count(0)


def worked(page: Page) -> None:
    page.get_by_role("button", name=re.compile("xample")).first.click()
    expect(page.locator(".working li").first).to_be_visible(timeout=PATIENT)


# name, address, what is there when it is read, and what is done then
SHEETS: list[tuple[str, str, str, Way | None]] = [
    ("bikes", "/", ".bikes-count", None),
    ("new bike", "/new", "form, .form", None),
    ("first record", "/first", "select", None),
    ("first record, how", "/first", "select", chosen),
    ("bike now", f"/{SLATE}", ".stands", None),
    ("said", f"/{SLATE}", ".say", said),
    ("question", f"/{SLATE}", ".stands", press("^Decide")),
    ("freeze", f"/{SLATE}", ".stands", press("^Freeze")),
    ("adjust", f"/{SLATE}/adjust?setting=saddle_height", "input.figure", None),
    ("measure", f"/{SLATE}/measure?what=chain_elongation", "input.figure", None),
    ("doubt", f"/{SLATE}/measure?what=chain_elongation", "input.figure", doubted),
    ("ride", f"/{SLATE}/ride", "input.figure", None),
    ("note", f"/{SLATE}/note", "textarea", None),
    ("fault", f"/{SLATE}/fault", "textarea", None),
    ("baselines", f"/{SLATE}/baselines", "main table, main .empty, main input", None),
    ("season", f"/{SLATE}/season/saddle_height", "svg.drawing", None),
    ("wear", f"/{SLATE}/wear", ".wear svg", None),
    ("log", f"/{SLATE}/log", ".log-line", None),
    ("log, nothing found", f"/{SLATE}/log", ".log-line", filtered),
    ("log entry", f"/{SLATE}/log", ".log-line", tap(".log-line")),
    ("due", "/due", ".due-row", None),
    ("due, put off", "/due", ".due-row", tap(".due-row:has-text('Sealant')")),
    ("intervals", "/due/intervals", ".due-row", None),
    ("interval", "/due/intervals", ".due-row", tap(".due-row")),
    ("bench", "/bench", "main details", None),
    ("calculation", "/bench/sealant", "input.figure", worked),
    ("device", "/device", "main h2", None),
    ("no such sheet", "/nowhere", "main", None),
]


def test_every_sheet_in_three_themes(browser: Browser, season: ServedWorkshop, capsys: pytest.CaptureFixture[str]) -> None:
    wrong: list[str] = []
    table: list[str] = []
    began = time.perf_counter()
    with hand(browser, season, season.code, "a phone in the sun") as juno:
        page = juno.page
        for name, address, until, way in SHEETS:
            page.goto(season.url + address)
            expect(page.locator(until).first).to_be_visible(timeout=PATIENT)
            page.locator("main").get_by_text("Reading …").first.wait_for(state="hidden", timeout=PATIENT)
            if way is not None:
                way(page)
            cells: list[str] = []
            for theme in THEMES:
                dress(page, theme)
                bad = found(page, RULES if theme == "sheet" else CONTRAST)
                bad += [f"target {one}" for one in tell(page, TARGETS)]
                wrong += [f"{name}, {theme}: {one}" for one in bad]
                cells.append(str(len(bad)))
            table.append(f"{name:20}" + "".join(f"{cell:>10}" for cell in cells))
    with capsys.disabled():
        print(f"\n{'found':20}" + "".join(f"{theme:>10}" for theme in THEMES))
        print("\n".join(table))
        print(f"{len(SHEETS)} sheets, {len(THEMES)} themes, {time.perf_counter() - began:.0f} s")
    assert wrong == [], "\n".join(wrong)
