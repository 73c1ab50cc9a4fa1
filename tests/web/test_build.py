"""A bike built from an empty record to the hand-over, in a real browser: the server is dead while it is cut and tightened.

Figures: the bar by the position transfer and the cut by the sum are worked out in CPython by the same names; the chain by the
standing approximation of the trade handbook.
"""

import csv
import io
import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdfium2  # pyright: ignore[reportMissingTypeStubs]
import pytest
from playwright.sync_api import Browser, Page, expect

from pinchbolt.kernel.catalogue import find
from tests.web.building import PATIENT, bike, box, choose_file, new_bike, saved
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop

DONE_STEPS = re.compile(r"21/21")

# As a spreadsheet of the continent writes it: semicolons, decimal commas, Western bytes. The bar is for another stem.
PARTS = (Path(__file__).parent / "parts_of_fern.csv").read_text(encoding="utf-8")

OLD = {
    "Bar ahead of the bottom bracket": "463.5",
    "Bar above the bottom bracket": "627",
    "Saddle height on the old bike": "728",
    "Saddle behind the bottom bracket": "212",
    "Saddle tilt": "-1.5",
    "Crank length, old": "172.5",
}
FRAME = {"Stack": "565", "Reach": "382", "Head angle": "71.5"}
STEERER = {
    "Head tube": 148.0,
    "Lower headset stack": 1.0,
    "Upper headset stack": 12.3,
    "Stem height at the steerer": 40.0,
    "Spacers above the stem": 5.0,
    "Steerer as it is": 300.0,
}

# What the browser test does not do by hand, written through the same store: joints, hoses and checks beyond the first.
JOINTS = [
    ("stem to steerer", 5),
    ("steerer plug", 7),
    ("bottom-bracket cups", 35),
    ("crank pinch bolts", 13),
    ("seatpost clamp", 5),
    ("saddle clamp", 9),
    ("cassette lockring", 40),
    ("front caliper", 7),
    ("rear caliper", 7),
    ("front axle", 12),
    ("rear axle", 12),
]


@pytest.fixture
def builder(browser: Browser, workshop: ServedWorkshop) -> Iterator[Page]:
    with new_bike(browser, workshop) as page:
        yield page


def measure(page: Page, label: str, value: str) -> None:
    """Tap the line, type the figure, record it; the line then shows it."""
    line = page.locator(".setting").filter(has=page.get_by_text(label, exact=True))
    line.click()
    sheet = page.get_by_role("dialog")
    sheet.locator(".number-line input").fill(value)
    sheet.get_by_role("button", name="Record").click()
    expect(sheet).to_be_hidden(timeout=PATIENT)
    shown = value.replace("-", "−").removesuffix(".0")
    expect(page.locator(".setting").filter(has=page.get_by_text(label, exact=True))).to_contain_text(shown, timeout=PATIENT)


def open_drawer(page: Page, name: str) -> None:
    drawer = page.locator("details.drawer").filter(has=page.get_by_text(name, exact=True))
    drawer.wait_for(timeout=PATIENT)
    if drawer.get_attribute("open") is None:
        drawer.locator("summary").click()


def cut_it(page: Page, result: str, mass: str | None = None) -> None:
    page.get_by_label(re.compile("^Cautions read")).check()
    page.get_by_role("button", name="It is cut").click()
    sheet = page.get_by_role("dialog")
    box(sheet, "Length as cut").fill(result)
    if mass is not None:
        box(sheet, re.compile("on the scale now")).fill(mass)
    sheet.get_by_role("button", name="Record the cut").click()
    expect(sheet).to_be_hidden(timeout=PATIENT)
    expect(page.get_by_role("heading", name="Cut on record")).to_be_visible(timeout=PATIENT)
    # Read for that cut, not for the next one.
    expect(page.get_by_role("checkbox", checked=True)).to_have_count(0)
    expect(page.get_by_role("button", name="It is cut")).to_be_disabled()


def by_the_door(page: Page, drafts: list[dict[str, Any]]) -> None:
    """Write the rest of a long day through the app's own store."""
    back = page.url
    subject = bike(page).split("/bike/")[1]
    page.goto(re.sub(r"/bike/.*", "/tests.html", back))
    page.get_by_text("door open").wait_for(timeout=PATIENT)
    made = [{"subject": "bike/" + subject} | draft for draft in drafts]
    tell(page, f"door.record.write({json.dumps(made)}).then((written) => written.length)")
    page.goto(back)


# A check answered through and through, item by item as this bike is asked.
PASSED = """(async (subject, check) => {
  const state = await door.kernel.fold(subject, await door.record.entries(subject));
  const definition = (await door.kernel.checks()).find((one) => one.check === check);
  const { version, title, scope, items } = await door.kernel.prepare(definition, state);
  const answers = items.map((one) => ({ item: one.item, title: one.title, essential: one.essential, mark: "pass" }));
  await door.record.write({ subject, kind: "check", body: { check, version, title, scope, answers } });
})"""


def passed(page: Page, check: str) -> None:
    back = page.url
    subject = "bike/" + bike(page).split("/bike/")[1]
    page.goto(re.sub(r"/bike/.*", "/tests.html", back))
    page.get_by_text("door open").wait_for(timeout=PATIENT)
    tell(page, f"{PASSED}({json.dumps(subject)}, {json.dumps(check)})")
    page.goto(back)


def kinds(workshop: ServedWorkshop) -> list[dict[str, Any]]:
    return [json.loads(raw) for raw in workshop.held()]


def test_fern_is_built_from_an_empty_record_to_the_hand_over(builder: Page, workshop: ServedWorkshop, tmp_path: Path) -> None:
    page = builder
    at = bike(page)
    expect(page.get_by_text("0/21")).to_be_visible(timeout=PATIENT)

    # Parts: a spreadsheet with one weight below nought. The columns are asked once; the bad row is kept and mended.
    choose_file(page, "parts.csv", PARTS.encode("cp1252"))
    page.get_by_label("On the scale").select_option("weighed")
    page.get_by_role("button", name="Read it so").click()
    expect(page.locator(".csv-count")).to_contain_text("12 good · 1 to mend")
    expect(page.get_by_text("-203,0 is below nought")).to_be_visible()
    page.get_by_role("button", name="Mend Row 7").click()
    box(page.get_by_role("dialog"), "On the scale").fill("203,0")
    page.get_by_role("dialog").get_by_role("button", name="Done").click()
    page.get_by_role("button", name="Record 13 parts").click()
    expect(page.get_by_text("carbon fork A, 45° crown")).to_be_visible(timeout=PATIENT)
    expect(page.locator(".part-line").filter(has_text="carbon all-road frame A")).to_contain_text("1012 g")

    # The bar does not fit the stem: told in the report, on the drawing, before anything is cut.
    page.goto(at + "/fits")
    clash = page.locator(".fit-joint").filter(has_text="Stem and bar")
    expect(clash).to_contain_text("31.8 mm against 35 mm", timeout=PATIENT)
    expect(page.get_by_role("img", name=re.compile("Does not fit: Stem and bar"))).to_be_visible()

    # The old bike's position, once; the frame's; the stem that carries it over.
    page.goto(at + "/position")
    open_drawer(page, "The old bike")
    for label, value in OLD.items():
        measure(page, label, value)
    open_drawer(page, "This frame")
    for label, value in FRAME.items():
        measure(page, label, value)
    answer = find("position-transfer").run(
        {
            "target_bar_x": 463.5,
            "target_bar_y": 627,
            "stack": 565,
            "reach": 382,
            "head_angle": 71.5,
            "headset_covers": [5, 15],
            "stem_lengths": [70, 80, 90, 100, 110, 120],
            "stem_angles": [6, 17],
        }
    )
    outputs: Any = answer["outputs"]
    options: list[dict[str, float]] = outputs["options"]
    best: dict[str, float] = options[0]
    first = page.locator(".option").first
    expect(first).to_contain_text(f"Stem {best['stem_length']:g} mm", timeout=PATIENT)
    expect(first).to_contain_text(f"{round(best['error'], 1):g} mm off")
    page.get_by_role("button", name="Build it like this").click()
    expect(page.get_by_text("on the record")).to_be_visible(timeout=PATIENT)

    # The cut card is shut: the mark is missing, and the bar does not fit.
    page.goto(at + "/cut/steerer")
    for label, length in STEERER.items():
        measure(page, label, str(length))
    expect(page.get_by_text("Does not fit: Stem and bar")).to_be_visible(timeout=PATIENT)
    pieces = sum(STEERER.values()) - STEERER["Steerer as it is"] + best["spacers"]
    page.get_by_role("button", name=re.compile("^Measure by the mark")).click()
    page.get_by_role("dialog").locator(".number-line input").fill(f"{pieces + 0.02:.2f}")
    page.get_by_role("dialog").get_by_role("button", name="Record").click()
    expect(page.get_by_role("dialog")).to_be_hidden(timeout=PATIENT)
    expect(page.get_by_text("Do not cut yet")).to_be_visible()
    expect(page.get_by_text("Measured by one person at one time").first).to_be_visible(timeout=PATIENT)
    expect(page.get_by_role("button", name="It is cut")).to_be_disabled()

    # The bar is swapped for one that fits; the old one stays in the history.
    page.goto(at + "/parts")
    page.get_by_role("link", name=re.compile("carbon bar 420 mm")).click()
    page.get_by_role("button", name="Swap it").click()
    box(page, "Part").fill("carbon bar 420 mm, 31.8 clamp")
    box(page, "On the scale").fill("231")
    page.get_by_role("button", name="+ Bar at the clamp").click()
    box(page, "Diameter").fill("31.8")
    page.get_by_role("button", name="Record the swap").click()
    expect(page.locator(".part-gone")).to_contain_text("swapped for carbon bar 420 mm, 31.8 clamp", timeout=PATIENT)

    # No signal from here: cuts and torques.
    expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
    before = len(workshop.held())
    workshop.kill()
    page.goto(at + "/cut/steerer")
    number = page.locator(".cut-number output")
    expect(number).to_be_visible(timeout=PATIENT)
    longer = pieces + 0.02 - 3
    up = math.ceil(round(longer * 10, 6)) / 10
    assert up > longer
    expect(number).to_have_text(f"{up:g} mm")
    cut_it(page, f"{up:g}", "341.5")
    expect(page.locator(".cut-made")).to_contain_text("341.5 g")
    expect(page.locator(".told").get_by_role("button", name="Undo")).to_be_hidden()

    page.goto(at + "/cut/chain")
    measure_chain(page)
    cut_it(page, "112")

    page.goto(at + "/torque/stem%20face%20plate")
    expect(page.locator(".torque-range-figure")).to_contain_text("4–5")
    expect(page.locator(".torque-range")).to_contain_text("alloy stem 100 mm")
    page.get_by_role("button", name="Add a tool").click()
    tool = page.get_by_role("dialog")
    box(tool, "Name of the tool").fill("click wrench, small")
    box(tool, "Most on its scale").fill("15")
    tool.get_by_role("button", name="Done").click()
    # Typing into the sheet before the dialog is gone would reach the dialog.
    expect(tool).to_be_hidden(timeout=PATIENT)
    applied = box(page, "Applied")
    applied.fill("5.5")
    expect(page.locator(".finding-stop").first).to_be_visible(timeout=PATIENT)
    applied.fill("2.5")
    expect(page.get_by_text("Outside this tool: good from 3 to 15 N·m")).to_be_visible(timeout=PATIENT)
    applied.fill("4.5")
    expect(page.locator(".finding-fine")).to_be_visible(timeout=PATIENT)
    # How thread and clamp are is said by who sees them, never beforehand.
    expect(page.get_by_text("The figure stands for: carbon paste on carbon")).to_be_visible()
    expect(page.get_by_role("button", name="Record", exact=True)).to_be_disabled()
    thread = page.get_by_label("Thread and clamp")
    expect(thread).to_have_value("")
    thread.select_option("dry")
    expect(page.get_by_text("Another condition changes the clamping force")).to_be_visible()
    thread.select_option("carbon paste on carbon")
    page.get_by_label("Yes", exact=True).check()
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.locator(".plan-line").filter(has_text="Stem face plate")).to_contain_text("4.5 N·m", timeout=PATIENT)
    expect(page.get_by_text(re.compile(r"\d+ to send"))).to_be_visible()

    # The signal is back.
    workshop.start()
    page.reload()
    expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
    sent = kinds(workshop)[before:]
    assert [one["body"]["result"] for one in sent if one["kind"] == "cut"] == [up, 112]
    assert [one["body"] for one in sent if one["kind"] == "tool-define"] == [
        {"tool": "click wrench, small", "most": 15, "accuracy": 4}
    ]
    torque = next(one["body"] for one in sent if one["kind"] == "torque")
    assert (torque["low"], torque["high"], torque["usual"], torque["painted"]) == (4, 5, False, True)

    # The rest of the day, then the bike as a whole.
    joints = [{"kind": "torque", "body": {"joint": j, "applied": v, "usual": True, "accuracy": 4}} for j, v in JOINTS]
    hoses = [
        {"kind": "cut", "body": {"what": h, "planned": 700, "result": 700, "unit": "mm"}} for h in ("hose-front", "hose-rear")
    ]
    by_the_door(page, [*joints, *hoses, {"kind": "service", "body": {"job": "gears set"}}])
    page.goto(at + "/position")
    for label, value in (("Bar ahead, Built", "464"), ("Bar above, Built", "626")):
        built(page, label, value)
    for label, value in (("Saddle height, Built", "731"), ("Saddle setback, Built", "212"), ("Saddle tilt, Built", "-1.5")):
        built(page, label, value)
    expect(page.locator(".held-worst")).to_contain_text("Not where it was wanted", timeout=PATIENT)
    built(page, "Saddle height, Built", "728")
    expect(page.locator(".held-worst")).to_contain_text("Within tolerance", timeout=PATIENT)
    page.get_by_role("button", name="Freeze as the baseline").click()
    expect(page.get_by_text("Last baseline")).to_be_visible(timeout=PATIENT)
    page.goto(at + "/weigh")
    page.get_by_role("button", name=re.compile("^The whole bike")).click()
    box(page, "On the scale").fill("8230")
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.locator(".weigh-line").last).to_contain_text("8230 g", timeout=PATIENT)
    expect(page.get_by_text("chain, 12-speed").first).to_be_visible()  # a part not weighed is named beside the total
    expect(page.get_by_text("Not weighed, only claimed:")).to_be_visible()
    passed(page, "pre-event")
    passed(page, "hand-over")

    page.goto(at + "/build")
    expect(page.get_by_text(DONE_STEPS)).to_be_visible(timeout=PATIENT)
    hand_over(page, at, tmp_path)


def measure_chain(page: Page) -> None:
    """The first route from the numbers on the record, the second by wrapping the chain."""
    page.get_by_role("button", name=re.compile("^Measure by the calculation")).click()
    page.get_by_role("dialog").locator(".number-line input").fill("112")
    page.get_by_role("dialog").get_by_role("button", name="Record").click()
    expect(page.get_by_role("dialog")).to_be_hidden(timeout=PATIENT)
    page.get_by_role("button", name=re.compile("^Measure by wrapping")).click()
    page.get_by_role("dialog").locator(".number-line input").fill("112")
    page.get_by_role("dialog").get_by_role("button", name="Record").click()
    expect(page.get_by_role("dialog")).to_be_hidden(timeout=PATIENT)
    expect(page.locator(".cut-number output")).to_have_text("112 pitches", timeout=PATIENT)


def built(page: Page, label: str, value: str) -> None:
    page.get_by_role("button", name=label).click()
    sheet = page.get_by_role("dialog")
    sheet.locator(".number-line input").fill(value)
    sheet.get_by_role("button", name="Record").click()
    expect(sheet).to_be_hidden(timeout=PATIENT)


def margin(file: Path) -> float:
    """Millimetres from the left edge of the first page to the first ink."""
    sheet = pypdfium2.PdfDocument(file)[0].render(scale=300 / 72).to_pil().convert("L")
    ink = sheet.point(lambda grey: 255 * (grey < 200)).getbbox()
    assert ink
    return ink[0] / 300 * 25.4


def hand_over(page: Page, at: str, tmp_path: Path) -> None:
    page.goto(at + "/hand-over")
    sheet = page.locator("article.hand-over")
    for text in ("Fern", "carbon fork A, 45° crown", "341.5 g", "Stem face plate", "4.5 N·m", "8230 g", "Next due"):
        expect(sheet).to_contain_text(text, timeout=PATIENT)
    # On paper: only the sheet, on A4 and on Letter (ISO 216; ANSI/ASME Y14.1), in points.
    for paper, wide in (("A4", 595), ("Letter", 612)):
        page.pdf(path=tmp_path / f"{paper}.pdf", format=paper)
        box = re.search(rb"/MediaBox \[0 0 ([\d.]+)", (tmp_path / f"{paper}.pdf").read_bytes())
        assert box
        assert abs(float(box[1]) - wide) < 2
        assert margin(tmp_path / f"{paper}.pdf") == pytest.approx(14, abs=0.5)
    page.emulate_media(media="print")
    expect(page.locator(".page-foot")).to_be_hidden()
    expect(page.get_by_role("button", name="Print the sheet")).to_be_hidden()
    page.emulate_media(media="screen")

    name, text = saved(page, "Parts, CSV")
    assert name.startswith("fern-parts-")
    rows = list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))))
    assert {row["slot"]: row["weighed"] for row in rows}["fork"] == "341.5"
    assert next(row for row in rows if row["slot"] == "stem")["face_plate_limit"] == "5"
    name, text = saved(page, "Torques, CSV")
    assert (
        next(r for r in csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))) if r["joint"] == "stem face plate")["applied"]
        == "4.5"
    )
    name, text = saved(page, "Entries, JSON Lines")
    lines = [json.loads(line) for line in text.splitlines()]
    assert all(set(line) == {"seq", "received_at", "entry"} for line in lines)
    assert {line["entry"]["kind"] for line in lines} >= {"part-fit", "cut", "torque", "baseline", "check"}
    name, text = saved(page, "Sheet as a file")
    assert name.endswith(".html")
    assert "<script" not in text
    assert "341.5 g" in text


def test_an_overruled_cut_stands_in_plain_sight_and_is_superseded_not_undone(builder: Page) -> None:
    page = builder
    page.goto(bike(page) + "/cut/seatpost")
    page.get_by_role("button", name="Overrule the card").click()
    sheet = page.get_by_role("dialog")
    box(sheet, "Marked at").fill("300")
    box(sheet, "Length as cut").fill("301")
    record = sheet.get_by_role("button", name="Record, overruled")
    expect(record).to_be_disabled()
    box(sheet, "Why it is right all the same").fill("replacement cut to the old post, laid beside it")
    record.click()
    expect(page.locator(".cut-overruled")).to_contain_text("laid beside it", timeout=PATIENT)
    page.get_by_role("button", name="Overrule the card").click()
    box(sheet, "Marked at").fill("290")
    box(sheet, "Length as cut").fill("290")
    box(sheet, "Why it is right all the same").fill("still too long")
    sheet.get_by_role("button", name="Record, overruled").click()
    expect(page.locator(".cut-superseded")).to_contain_text("301 mm", timeout=PATIENT)
    page.goto(bike(page) + "/hand-over")
    expect(page.locator("article.hand-over")).to_contain_text("Card overruled: still too long", timeout=PATIENT)
