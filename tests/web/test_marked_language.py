"""The made-up language (pwa/tests/marked.ts): every word is marked and two fifths longer. What shows unmarked was said past the
catalogue; what runs over the edge of a 390 px phone has no room for a long language.
"""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import EVENT, PATIENT, Hand, hand
from tests.web.phone import tell
from tests.web.workshop import ROOT, ServedWorkshop

FERN = "bike/e7a78a49-c83f-5177-aaf6-4b4938d4f0cd"
SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"

# Each screen by its address and what shows when it is there.
SCREENS = {
    "/": ".bike-line, .bikes li",
    f"/{FERN}": ".stands",
    f"/{FERN}/log": "main li",
    f"/{SLATE}/checks": ".check-kind",
    f"/{SLATE}/check/pre-event": ".check-do",
    f"/{SLATE}/check/self-check": ".check-do",
    f"/{FERN}/adjust": ".setting",
    f"/{FERN}/baselines": "main h2",
    f"/{FERN}/wear": "main h2",
    f"/{FERN}/build": ".plan-step, .plan-line",
    f"/{FERN}/parts": ".part-slot",
    f"/{FERN}/fits": ".fit-joint",
    f"/{FERN}/weigh": ".swap-idea",
    f"/{FERN}/cut/steerer": ".cut-shut",
    f"/{FERN}/torque": "main .step-title",
    f"/{FERN}/torque/stem%20face%20plate": ".torque-range",
    f"/{FERN}/plan": ".plan-edit-step",
    f"/{FERN}/position": "table",
    f"/{FERN}/hand-over": ".hand-over-part",
    "/due": ".due-row",
    "/due/intervals": ".due-row",
    "/bench": ".drawer-name",
    "/bench/steerer-cut": ".calc-in",
    "/bench/gear-table": ".calc-in",
    "/bench/wear-forecast": ".calc-in",
    "/checks": ".book-line",
    "/lineup": ".event-line",
    f"/lineup/{EVENT}": ".plate, .desk-plate",
    f"/lineup/{EVENT}/plate/3": ".button.main",
    "/device": ".units",
}

SAID = """[...document.querySelectorAll("body *")].filter((one) => one.checkVisibility() || one.matches(".unseen"))
  .flatMap((one) => [
    ...[...one.childNodes].filter((node) => node.nodeType === 3).map((node) => node.data),
    ...["aria-label", "title", "placeholder", "alt"].map((name) => one.getAttribute(name) ?? ""),
  ]).filter((text) => text.trim() !== "")"""

OVER = """[...document.querySelectorAll("main *, header *, footer *")].filter((one) => {
    const box = one.getBoundingClientRect();
    const clipped = one.closest("svg, table, .results-table, .unseen, [hidden], .tabs, .scroll");
    return box.width > 1 && clipped === null && box.right > 391;
  }).map((one) => `${one.className || one.tagName}: ${one.textContent.slice(0, 60)}`)"""

# A word longer than what is meant to hold it.
CUT = """[...document.querySelectorAll("button, a.button, .tally-word, .tab, th, dt, .check-mark")].filter((one) =>
    one.checkVisibility() && one.scrollWidth > one.clientWidth + 2 && !one.closest("svg, .results-table, .scroll, .unseen")
  ).map((one) => `${one.className || one.tagName} ${one.scrollWidth} in ${one.clientWidth}: ${one.textContent.slice(0, 60)}`)"""

# Units, formats, the program's own name, and those of the languages, each in itself.
NO_WORDS = set("pinchbolt json gpx gear table wear forecast rpm mph lbf kgf psi kpa mpa english deutsch".split())  # noqa: SIM905


@pytest.fixture(scope="module")
def juno(browser: Browser, season: ServedWorkshop) -> Iterator[Hand]:
    with hand(browser, season, season.code, "a phone") as made:
        tell(made.page, "localStorage.setItem('pinchbolt-language', 'xx')")
        yield made


def language_kept(page: Page) -> bool:
    """Both files of it: its words, and what puts the kernel's over."""
    kept = tell(
        page, "caches.open('pinchbolt-languages').then((cache) => cache.keys()).then((all) => all.map((one) => one.url))"
    )
    return {re.findall(r"language-(\w+)-", url)[0] for url in kept} == {"xx", "any"}


def typed() -> set[str]:
    """What the demo's people typed."""
    texts = [path.read_text(encoding="utf-8") for path in (ROOT / "demo_data").iterdir()]
    return set(re.findall(r"[a-z]+", " ".join(texts).lower()))


def show(page: Page, address: str, until: str) -> None:
    page.goto(address)
    expect(page.locator(until).first).to_be_visible(timeout=PATIENT)
    page.wait_for_timeout(100)


def test_main_screens_say_nothing_past_the_catalogue_and_hold_long_words(juno: Hand) -> None:
    people = typed() | NO_WORDS
    wrong: list[str] = []
    for path, until in SCREENS.items():
        show(juno.page, juno.url + path, until)
        for text in tell(juno.page, SAID):
            plain = [one for one in re.findall(r"(?<![\w.])[A-Za-z]{3,}(?![\w.])", text) if one.lower() not in people]
            if plain:
                wrong.append(f"{path}: {plain} in {text[:90]!r}")
        wrong += [f"{path}: over the edge: {one}" for one in tell(juno.page, OVER)]
        wrong += [f"{path}: cut off: {one}" for one in tell(juno.page, CUT)]
    wrong += [] if language_kept(juno.page) else ["the language is not kept for working without a network"]
    juno.page.context.set_offline(True)
    show(juno.page, juno.url + "/", SCREENS["/"])
    juno.page.context.set_offline(False)
    wrong += [] if "ö" in juno.page.locator("h1").inner_text() else ["without a network it falls back to English"]
    assert wrong == [], f"{len(wrong)}\n" + "\n".join(dict.fromkeys(wrong))


def test_a_unit_s_symbol_is_the_same_in_every_language_and_its_word_is_not(juno: Hand) -> None:
    """`bar` is the kernel's word for a handlebar, too."""
    show(juno.page, f"{juno.url}/{SLATE}/adjust", ".setting")
    everything = " ".join(juno.page.locator(".setting").all_inner_texts())
    assert re.search(r"\d bar\b", everything), everything
    assert "turns" not in everything


# Text that is twice as large, by the person's own setting; the sheet is laid out anew before it is measured.
TWICE = "document.documentElement.style.fontSize = '200%'"

# Nothing beyond the edge, no foot that leaves no room for the work, and no word broken where there is no place to.
CROWDED = """[
    ...(document.documentElement.scrollWidth > 390 ? [`the sheet is ${document.documentElement.scrollWidth} wide`] : []),
    ...[...document.querySelectorAll(".page-foot, .check-foot")].filter((one) =>
      getComputedStyle(one).position !== "static" && one.offsetHeight > 0.4 * innerHeight
    ).map((one) => `the foot takes ${one.offsetHeight} of ${innerHeight}`),
    ...[...document.querySelectorAll("main *, header *, footer *, .page-foot *")].filter((one) => {
      const box = one.getBoundingClientRect();
      return box.width > 1 && box.right > 391 && !one.closest("svg, .results-table, .unseen, .scroll, dialog");
    }).slice(0, 3).map((one) => `beyond the edge: ${one.className || one.tagName}: ${one.textContent.slice(0, 40)}`),
  ]"""

# A short word whose letters stand on two lines, though it has no hyphen to be parted at.
BROKEN = """[...document.querySelectorAll("main *, header *, .page-foot *, .check-foot *")].filter((one) =>
    one.checkVisibility() && !one.closest("svg, .results-table, .unseen, dialog")
  ).flatMap((one) => [...one.childNodes].filter((node) => node.nodeType === 3).flatMap((node) =>
    [...node.data.matchAll(/[\\p{L}]{4,12}/gu)].flatMap((word) => {
      const range = document.createRange();
      range.setStart(node, word.index);
      range.setEnd(node, word.index + word[0].length);
      const tops = new Set([...range.getClientRects()].filter((box) => box.width > 1).map((box) => Math.round(box.top)));
      const parted = getComputedStyle(one).hyphens === "auto";
      return tops.size > 1 && !parted ? [`${one.className || one.tagName}: ${word[0]}`] : [];
    })))"""


def test_french_at_twice_the_size_stays_on_the_sheet(browser: Browser, season: ServedWorkshop) -> None:
    with hand(browser, season, season.code_for("Juno"), "un téléphone") as made:
        tell(made.page, "localStorage.setItem('pinchbolt-language', 'fr')")
        wrong: list[str] = []
        for path, until in SCREENS.items():
            show(made.page, made.url + path, until)
            tell(made.page, TWICE)
            made.page.wait_for_timeout(100)
            wrong += [f"{path}: {one}" for one in tell(made.page, CROWDED)]
            wrong += [f"{path}: cut off: {one}" for one in tell(made.page, CUT)]
            wrong += [f"{path}: broken: {one}" for one in tell(made.page, BROKEN)]
        assert wrong == [], f"{len(wrong)}\n" + "\n".join(dict.fromkeys(wrong))
