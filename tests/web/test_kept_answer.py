"""A sheet of the bench opens with the answer it was left with while the engine still begins: the kernel's own, of the same
inputs and the same kernel, and no other. The engine is held back by holding back its script."""

from playwright.sync_api import Browser, Page, Route, expect

from pinchbolt.kernel.catalogue import find
from tests.web.phone import context, tell
from tests.web.workshop import ServedWorkshop

CUT = find("steerer-cut")
SHEET = "/bench/steerer-cut"
KEPT = """(() => { const kept = JSON.parse(localStorage.getItem('pinchbolt-sheet')); const change = CHANGE;
  if (kept && change) localStorage.setItem('pinchbolt-sheet', JSON.stringify(change(kept))); return kept; })()"""


def kept(page: Page, change: str = "null") -> dict[str, object] | None:
    """What is kept of the sheet last worked at; `change` is a function over it."""
    return tell(page, KEPT.replace("CHANGE", f"({change})"))


def test_a_sheet_opens_with_the_kernels_answer_to_its_inputs_before_the_engine_runs(
    browser: Browser, workshop: ServedWorkshop
) -> None:
    made = context(browser)
    page = made.new_page()
    held: list[Route] = []
    results = page.locator("#results")
    page.goto(workshop.url + SHEET)
    page.get_by_role("button", name="Example").click()
    expect(results.locator(".figure").first).to_be_visible(timeout=20_000)
    shown = results.inner_text()
    while kept(page) is None:
        page.wait_for_timeout(50)
    outputs = (kept(page) or {})["last"]["answer"]["outputs"]  # type: ignore[index]
    assert outputs == CUT.run(CUT.example)["outputs"]

    def hold(route: Route) -> None:
        held.append(route)

    made.route("**/assets/worker-*.js", hold)
    page.goto(workshop.url + SHEET)
    expect(results).to_have_attribute("data-from", "kept")
    assert results.inner_text() == shown
    # Other inputs have no answer until the engine gives one.
    page.get_by_role("button", name="Empty").click()
    expect(results.locator(".figure")).to_have_count(0)
    page.get_by_role("button", name="Example").click()
    expect(results).to_have_attribute("data-from", "kept")
    # Then the engine comes to it itself, and what it says is what stands.
    kept(page, "(one) => ({ ...one, last: { ...one.last, answer: { ...one.last.answer, outputs: {} } } })")
    for route in held:
        route.continue_()
    expect(results).to_have_attribute("data-from", "engine")
    assert results.inner_text() == shown

    held.clear()
    while (kept(page) or {})["last"]["answer"]["outputs"] != outputs:  # type: ignore[index]
        page.wait_for_timeout(50)
    kept(page, "(one) => ({ ...one, by: 'another kernel' })")
    page.goto(workshop.url + SHEET)
    expect(page.get_by_role("textbox").first).not_to_have_value("", timeout=20_000)
    expect(results).to_be_visible()
    expect(results.locator(".figure")).to_have_count(0)
    made.close()
