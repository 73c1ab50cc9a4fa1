"""The bench's drawings: each calculation's own example drawn in the app, with nothing broken, told in words, figures apart."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from pinchbolt.kernel.catalogue import all_calculations
from tests.web.phone import context, tell
from tests.web.workshop import ServedWorkshop

PATIENT = 20_000
LEGIBLE = 4.5
"""Least contrast of text, WCAG 2.2, success criterion 1.4.3."""

# Texts with their boxes in the drawing's own units, trimmed of the line's leading, and their colour; the sheet they stand on.
LOOK = """(() => {
  const svg = document.querySelector("svg.drawing");
  const rgb = (css) => css.match(/[\\d.]+/g).slice(0, 3).map(Number);
  return {
    says: svg.getAttribute("aria-label"),
    text: svg.outerHTML,
    width: svg.viewBox.baseVal.width,
    height: svg.viewBox.baseVal.height,
    sheet: rgb(getComputedStyle(document.documentElement).backgroundColor),
    texts: [...svg.querySelectorAll("text")].filter((one) => one.textContent.trim() !== "").map((one) => {
      const box = one.getBBox();
      return { text: one.textContent, left: box.x, right: box.x + box.width, top: box.y + 4, bottom: box.y + box.height - 4,
               ink: rgb(getComputedStyle(one).fill) };
    }),
  };
})()"""


@pytest.fixture(scope="module")
def bench(browser: Browser, season: ServedWorkshop) -> Iterator[Page]:
    made = context(browser)
    yield made.new_page()
    made.close()


def sound(look: dict[str, Any]) -> None:
    assert look["says"], "no words for those who cannot see the drawing"
    for wrong in ("NaN", "undefined", "Infinity", "null", "[object"):
        assert wrong not in look["text"], wrong


def apart(look: dict[str, Any]) -> None:
    texts = look["texts"]
    for i, one in enumerate(texts):
        assert one["left"] >= -4, one
        assert one["right"] <= look["width"] + 4, one
        assert one["top"] >= -4, one
        assert one["bottom"] <= look["height"] + 4, one
        for other in texts[i + 1 :]:
            across = min(one["right"], other["right"]) - max(one["left"], other["left"])
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            assert across <= 1 or down <= 1, f"{one['text']!r} runs into {other['text']!r}"


def brightness(colour: list[float]) -> float:
    """Relative luminance, WCAG 2.2."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (part / 255 for part in colour)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def legible(look: dict[str, Any]) -> None:
    for one in look["texts"]:
        dark, light = sorted((brightness(one["ink"]), brightness(look["sheet"])))
        assert (light + 0.05) / (dark + 0.05) >= LEGIBLE, one


@pytest.mark.parametrize("calculation", [one.id for one in all_calculations()])
def test_the_example_is_drawn_sound_apart_and_legible(bench: Page, season: ServedWorkshop, calculation: str) -> None:
    bench.goto(f"{season.url}/bench/{calculation}")
    drawing = bench.locator("svg.drawing")
    # As it opens, with defaults only: that must not break either.
    expect(drawing).to_be_visible(timeout=PATIENT)
    bare = tell(bench, LOOK)
    sound(bare)
    bench.get_by_role("button", name="Example").click()
    expect(drawing).not_to_have_attribute("aria-label", bare["says"], timeout=PATIENT)
    bench.wait_for_timeout(150)
    look = tell(bench, LOOK)
    sound(look)
    apart(look)
    for theme in ("sheet", "night", "sunlight"):
        tell(bench, f"document.documentElement.dataset.theme = '{theme}'")
        legible(tell(bench, LOOK))
