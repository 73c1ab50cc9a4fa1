"""Every control in every state, as docs/controls.md shows them: pictures, targets for a glove, axe, long words, large text.

The page is made of the app's own components (pwa/tests/control-groups.tsx) and built for the tests only.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.web.axe import CONTRAST, RULES, TARGETS, THEMES, dress, found
from tests.web.phone import tell
from tests.web.pictures import compare
from tests.web.steady import SETTLED, steady
from tests.web.workshop import ROOT, ServedWorkshop

SOURCE = (ROOT / "pwa" / "tests" / "control-groups.tsx").read_text(encoding="utf-8")
GROUPS = re.findall(r'^  \{ name: "(\w+)", title: ', SOURCE, re.MULTILINE)
OVER = re.findall(r'^  \{ name: "(\w+)", title: "[^"]*", over: true', SOURCE, re.MULTILINE)
ON_THE_PAGE = [name for name in GROUPS if name not in OVER]
# The shapes are the same in the other themes; these show every colour there is.
COLOURED = ("buttons", "touched", "marks", "findings", "tab")

WIDER = """[...document.querySelectorAll("main *")]
  .filter((one) => one.checkVisibility() && !one.closest("svg, .unseen") && one.getBoundingClientRect().right > innerWidth + 1)
  .map((one) => one.outerHTML.slice(0, 120))"""


@pytest.fixture(scope="module")
def served(web: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkshop]:
    workshop = ServedWorkshop(tmp_path_factory.mktemp("controls") / "data", web, "serve").start()
    yield workshop
    workshop.stop()


@pytest.fixture
def page(browser: Browser, served: ServedWorkshop) -> Iterator[Page]:
    with steady(browser, served.url) as made:
        show(made)
        yield made


def show(page: Page, group: str = "") -> None:
    page.goto(f"/controls.html#{group}")
    page.locator(f"#{group or ON_THE_PAGE[0]}").wait_for(state="attached")
    tell(page, SETTLED)


def force(page: Page) -> None:
    """Puts what is shown as touched, and as having the focus, into that state, as the browser's own tools do."""
    tools = page.context.new_cdp_session(page)
    for domain in ("DOM", "CSS"):
        tools.send(f"{domain}.enable")
    root = tools.send("DOM.getDocument")["root"]["nodeId"]

    def put(where: str, states: list[str]) -> None:
        for node in tools.send("DOM.querySelectorAll", {"nodeId": root, "selector": where})["nodeIds"]:
            tools.send("CSS.forcePseudoState", {"nodeId": node, "forcedPseudoClasses": states})

    put("[data-forced=active] button", ["active"])
    put("[data-forced~=focus] :is(button:not(.step), input)", ["focus", "focus-visible"])
    put("[data-forced~=focus] .number-line", ["focus-within"])


def picture(what: Page | Locator) -> bytes:
    return what.screenshot(animations="disabled", caret="hide", scale="css")


def test_the_page_has_the_groups_of_the_document(page: Page):
    shown = page.locator(".control-group").evaluate_all("(all) => all.map((one) => one.id)")
    assert shown == ON_THE_PAGE
    document = (ROOT / "docs" / "controls.md").read_text(encoding="utf-8")
    assert [name for name in GROUPS if f'"pictures/control-{name}.png"' not in document] == []


def test_every_control_looks_as_its_picture(page: Page):
    for theme in THEMES:
        dress(page, theme)
        for name in ON_THE_PAGE if theme == "sheet" else COLOURED:
            # By itself: below others it would begin at a part of a pixel, and change with them.
            show(page, name)
            if name == "touched":
                force(page)
            compare(f"control-{name}" + ("" if theme == "sheet" else f"-{theme}"), picture(page.locator(f"#{name}")))


@pytest.mark.parametrize("name", OVER)
def test_what_lies_over_the_work_looks_as_its_picture(page: Page, name: str):
    show(page, name)
    compare(f"control-{name}", picture(page))


@pytest.mark.parametrize("name", ["", *OVER])
def test_nothing_is_found_in_any_state_and_theme(page: Page, name: str):
    show(page, name)
    for theme in THEMES:
        dress(page, theme)
        assert found(page, RULES if theme == "sheet" else CONTRAST) == [], theme
        assert tell(page, TARGETS) == [], theme


def test_text_twice_as_large_stays_on_the_page(page: Page):
    tell(page, "document.documentElement.style.fontSize = '200%'")
    tell(page, SETTLED)
    assert tell(page, WIDER) == []


@pytest.mark.parametrize("language", ["de", "es", "fr", "xx"])
def test_the_longest_words_stay_on_the_page(browser: Browser, served: ServedWorkshop, language: str):
    with steady(browser, served.url) as page:
        page.add_init_script(f"localStorage.setItem('pinchbolt-language', '{language}')")
        show(page)
        assert tell(page, "document.documentElement.lang") == language
        assert tell(page, WIDER) == []
