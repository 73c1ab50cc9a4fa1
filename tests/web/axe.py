"""What axe-core finds on a page, and what is too small for a finger.

axe-core 4.14 (MPL-2.0) runs the rules of WCAG 2.2; `color-contrast-enhanced` is its rule for success criterion 1.4.6 (7:1).
"""

import json
import re
from typing import Any

from playwright.sync_api import Page

from tests.web.phone import tell
from tests.web.workshop import ROOT

AXE = ROOT / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
LEAST = 48
THEMES = ("sheet", "night", "sunlight")
RULES: dict[str, Any] = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]},
    "rules": {"color-contrast-enhanced": {"enabled": True}, "region": {"enabled": False}},
    "resultTypes": ["violations"],
}
CONTRAST: dict[str, Any] = {
    "runOnly": {"type": "rule", "values": ["color-contrast", "color-contrast-enhanced"]},
    "resultTypes": ["violations"],
}

# What a finger aims at: a tick's whole label; behind an open sheet nothing. What only a screen reader finds has no size.
TARGETS = """[...document.querySelectorAll("a[href], button, select, input, textarea, label.file, label.cell")]
  .filter((one) => one.checkVisibility() && !one.matches(".skip, .unseen, label.cell input") && !one.closest("[inert]"))
  .filter((one) => document.querySelector("dialog:modal") === null || one.closest("dialog:modal") !== null)
  .map((one) => ({ one, aimed: one.matches("[type=checkbox]") ? one.closest("label") ?? one : one }))
  .map(({ one, aimed }) => ({ what: one.outerHTML.slice(0, 120), box: aimed.getBoundingClientRect() }))
  .filter(({ box }) => box.width > 1 && (box.width < LEAST - 0.5 || box.height < LEAST - 0.5))
  .map(({ what, box }) => `${Math.round(box.width)}×${Math.round(box.height)} ${what}`)""".replace("LEAST", str(LEAST))


def found(page: Page, rules: dict[str, Any] = RULES) -> list[str]:
    """What axe finds, a line each. Put in by the debugger's own way: the app's policy stays as it is."""
    # The fixed foot hides what can be scrolled out from under it; the rule would take that for small targets.
    foot = "document.querySelectorAll('.page-foot, .check-foot, .desk-side').forEach((e) => { e.style.position = 'static'; })"
    tell(page, foot)
    if not tell(page, "'axe' in globalThis"):
        tell(page, AXE.read_text(encoding="utf-8") + "; null")
    told: dict[str, Any] = tell(page, f"axe.run(document, {json.dumps(rules)})")
    return [
        f"{v['id']}: {n['html'][:150]} | {re.sub(r'[^ -~]+', ' ', n.get('failureSummary') or '')[:250]}"
        for v in told["violations"]
        for n in v["nodes"]
    ]


def dress(page: Page, theme: str) -> None:
    tell(page, f"document.documentElement.setAttribute('data-theme', {json.dumps(theme)})")
