"""What cannot be taken: a figure that is none, one that cannot be, and one on record that no calculation takes."""

import json
import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.web.building import PATIENT, box
from tests.web.phone import Phone
from tests.web.workshop import ServedWorkshop

BIKE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"
TOOL = {"subject": "workshop", "kind": "tool-define", "body": {"tool": "click wrench", "most": 25, "accuracy": 4}}
FERN = re.compile("Fern")
PART = "0d5d5b8f-3a11-4c52-9c1e-5d0c1c3e7a0b"


def draft(kind: str, **body: Any) -> dict[str, Any]:
    return {"subject": BIKE, "kind": kind, "body": body}


def part(slot: str, name: str, **more: Any) -> dict[str, Any]:
    return draft("part-fit", part=PART, slot=slot, name=name, **more)


def at(mine: Phone, sheet: str, *drafts: dict[str, Any]) -> Page:
    """The bike's sheet on the phone, after some entries."""
    mine.do("record.write", [draft("describe", name="Fern"), *drafts])
    mine.page.goto(f"{mine.url}/{BIKE}{sheet}")
    return mine.page


HEIGHT = draft("adjust", setting="saddle_height", unit="mm", to=731)


def entered(mine: Phone, sheet: str) -> Page:
    """From the bike to one of its sheets, so that Back has somewhere to lead."""
    page = at(mine, "", HEIGHT)
    expect(page.get_by_role("heading", name=FERN)).to_be_visible(timeout=PATIENT)
    page.locator(f"a[href='/{BIKE}{sheet}']").first.click()
    return page


def bodies(mine: Phone, kind: str) -> list[dict[str, Any]]:
    mine.open()
    return [one["body"] for one in mine.waiting() if one["kind"] == kind] + [
        one["body"] for one in (json.loads(kept["text"]) for kept in mine.do("record.entries", BIKE)) if one["kind"] == kind
    ]


def record(where: Page | Locator) -> Locator:
    return where.get_by_role("button", name="Record", exact=True)


def test_a_torque_out_of_reason_is_refused_at_its_field_and_the_sheet_stays(mine: Phone) -> None:
    page = at(mine, "/torque/stem%20to%20steerer", TOOL)
    page.get_by_role("radio", name=re.compile("click wrench")).check(force=True, timeout=PATIENT)
    box(page, "Note").fill("by hand")
    applied = box(page, "Applied")
    for typed in ("-5", "500", "0"):
        applied.fill(typed)
        expect(page.get_by_text("That cannot be: wanted 0.1 to 250 N·m.")).to_be_visible()
        expect(record(page)).to_be_disabled()
    applied.fill("0.5")
    expect(page.get_by_text("That cannot be")).to_be_hidden()
    applied.fill("5.5 Nm")
    expect(page.get_by_text("That cannot be")).to_be_hidden()
    expect(box(page, "Note")).to_have_value("by hand")
    expect(record(page)).to_be_disabled()
    page.get_by_label("Thread and clamp").select_option("dry or paste")
    expect(record(page)).to_be_enabled()


def test_what_is_marked_and_cannot_be_is_said_by_its_label_at_the_torque(mine: Phone) -> None:
    marked = part("stem", "stem of old", markings={"stem to steerer limit": 900})
    done = draft("torque", joint="stem to steerer", applied=900, low=0, high=900, accuracy=4, condition="dry", tool="a lever")
    page = at(mine, "/torque/stem%20to%20steerer", TOOL, marked, done)
    page.get_by_role("radio", name=re.compile("click wrench")).check(force=True, timeout=PATIENT)
    box(page, "Applied").fill("5")
    expect(page.get_by_text(re.compile("Most allowed: given 900, wanted"))).to_be_visible(timeout=PATIENT)
    page.goto(f"{mine.url}/{BIKE}/torque")
    expect(page.get_by_text(re.compile("Applied.*: given 900, wanted"))).to_be_visible(timeout=PATIENT)


def test_a_goal_no_bike_can_have_is_said_and_set_anew(mine: Phone) -> None:
    page = at(mine, "/weigh", draft("describe", weight_goal=7.5), part("saddle", "saddle A", claimed=190))
    expect(page.get_by_text(re.compile("Goal: given 7.5, wanted"))).to_be_visible(timeout=PATIENT)
    page.get_by_role("button", name="Change the goal").click()
    goal = box(page, "Weight goal")
    goal.fill("7.5")
    expect(page.get_by_text("That cannot be: wanted 100 to 100000 g.")).to_be_visible()
    expect(page.get_by_role("button", name="Set the goal")).to_be_disabled()
    goal.fill("7500")
    page.get_by_role("button", name="Set the goal").click()
    expect(page.locator(".budget-total")).to_contain_text("of 7500 g", timeout=PATIENT)


def test_a_part_s_impossible_weight_is_said_by_the_part_s_name(mine: Phone) -> None:
    page = at(mine, "/weigh", draft("describe", weight_goal=7500), part("saddle", "saddle A", claimed=90000))
    expect(page.get_by_text(re.compile("saddle A, .*given 90000, wanted"))).to_be_visible(timeout=PATIENT)
    expect(box(page, "On the scale")).to_be_visible()


def test_a_chain_that_cannot_be_worked_out_is_said_on_its_card(mine: Phone) -> None:
    rings = [{"kind": "crank-rings", "ring_max": 700}, {"kind": "cassette", "cog_max": 32}]
    page = at(
        mine,
        "/cut/chain",
        part("crank", "crank A", interfaces=rings),
        draft("measure", what="chainstay", value=415, unit="mm"),
    )
    expect(page.get_by_text(re.compile("Biggest chainring: given 700, wanted"))).to_be_visible(timeout=PATIENT)


@pytest.mark.parametrize("typed", ["731x", "118 g", "1.234,5", "-"])
def test_what_is_no_figure_leaves_nothing_older_to_record(mine: Phone, typed: str) -> None:
    page = at(mine, "/measure?what=saddle_height")
    height = box(page, "Saddle height")
    height.fill("725")
    expect(record(page)).to_be_enabled()
    height.fill(typed)
    expect(page.get_by_text(re.compile("Not a number"))).to_be_visible()
    expect(record(page)).to_be_disabled()
    height.fill("731 mm")
    expect(page.get_by_text(re.compile("Not a number"))).to_be_hidden()
    record(page).click()
    expect(page.get_by_role("heading", name="Fern")).to_be_visible(timeout=PATIENT)
    assert [one["value"] for one in bodies(mine, "measure")][:1] == [731]


def test_a_field_that_may_stay_empty_is_not_taken_as_empty_while_something_else_stands_there(mine: Phone) -> None:
    page = at(mine, "/part/new?slot=saddle")
    box(page, "Part").fill("saddle A")
    box(page, "On the scale").fill("187 g")
    box(page, "Pieces").fill("2,5")
    expect(page.get_by_text(re.compile("A whole number is wanted"))).to_be_visible()
    record(page).click()
    expect(page.get_by_role("alert")).to_contain_text("Pieces")
    box(page, "Pieces").fill("2")
    record(page).click()
    expect(page.get_by_text("saddle A").first).to_be_visible(timeout=PATIENT)
    assert [one["count"] for one in bodies(mine, "part-fit")][:1] == [2]


def test_a_calculation_does_not_go_on_with_what_stood_before(mine: Phone, workshop: ServedWorkshop) -> None:
    page = mine.page
    page.goto(workshop.url + "/bench/torque-check")
    page.get_by_role("button", name="Example").click()
    results = page.locator("#results")
    expect(results).to_have_attribute("data-from", re.compile("engine|kept"), timeout=PATIENT)
    # It would stand for itself when left out.
    box(page, "Tool's error").fill("4x")
    expect(page.get_by_text(re.compile("Not a number"))).to_be_visible()
    expect(results).not_to_have_attribute("data-from", re.compile(".*"))
    page.reload()
    expect(box(page, "Tool's error")).to_have_value("4x", timeout=PATIENT)
    box(page, "Tool's error").fill("4 %")
    expect(results).to_have_attribute("data-from", re.compile("engine|kept"), timeout=PATIENT)


TYRE = part("tyre-front", "tyre A", markings={"max_pressure_front": 3.5})


def moved(mine: Phone, setting: str) -> list[float]:
    return [one["to"] for one in reversed(bodies(mine, "adjust")) if one["setting"] == setting]


def test_a_setting_that_cannot_be_is_refused_and_a_leap_is_asked_about(mine: Phone) -> None:
    page = at(mine, "/adjust?setting=saddle_height", HEIGHT)
    to = box(page, "To")
    for typed in ("2731", "-99"):
        to.fill(typed)
        expect(page.get_by_text("That cannot be: wanted 200 to 1200 mm.")).to_be_visible(timeout=PATIENT)
        expect(record(page)).to_be_disabled()
    to.fill("580")
    record(page).click()
    asked = page.get_by_role("dialog")
    expect(asked).to_contain_text("From 731 mm to 580 mm in one go.", timeout=PATIENT)
    asked.get_by_role("button", name="Correct it").click()
    expect(asked).to_be_hidden()
    record(page).click()
    asked.get_by_role("button", name="It is so").click()
    expect(page.get_by_role("heading", name="Fern")).to_be_visible(timeout=PATIENT)
    assert sorted(set(moved(mine, "saddle_height"))) == [580, 731]


def test_a_pressure_above_the_tyre_s_marking_stops_before_it_is_recorded(mine: Phone) -> None:
    page = at(mine, "/adjust?setting=pressure_front", TYRE)
    box(page, "To").fill("3.6")
    record(page).click()
    asked = page.get_by_role("dialog")
    expect(asked).to_contain_text("On the bike at most 3.5 bar is marked, and this is 3.6 bar.", timeout=PATIENT)
    expect(asked.locator(".level-stop")).to_be_visible()
    asked.get_by_role("button", name="Correct it").click()
    box(page, "To").fill("3.5")
    record(page).click()
    expect(page.get_by_role("heading", name="Fern")).to_be_visible(timeout=PATIENT)
    assert set(moved(mine, "pressure_front")) == {3.5}


def test_a_leap_in_one_line_is_asked_about_and_what_cannot_be_is_not_taken(mine: Phone) -> None:
    page = at(mine, "", HEIGHT)
    page.locator("#say").fill("saddle up 2000")
    record(page).click()
    asked = page.get_by_role("dialog")
    expect(asked).to_contain_text("2731 mm is not possible: from 200 to 1200 mm.", timeout=PATIENT)
    expect(asked.get_by_role("button", name="It is so")).to_be_hidden()
    asked.get_by_role("button", name="Correct it").click()
    page.locator("#say").fill("saddle up 2")
    record(page).click()
    expect(page.locator(".nudge input")).to_have_value("733", timeout=PATIENT)
    assert set(moved(mine, "saddle_height")) == {731, 733}


def test_a_check_takes_no_value_that_cannot_be(mine: Phone) -> None:
    page = at(mine, "/check/pre-event", TYRE)
    value = box(page, "Measured")
    later = page.get_by_role("button", name=re.compile("Later|Next"))
    while not value.is_visible():
        page.locator(".check-mark-pass").wait_for(timeout=PATIENT)
        if not value.is_visible():
            later.click()
    where = page.locator("h1").inner_text()
    value.fill("-99")
    expect(page.get_by_text(re.compile("That cannot be"))).to_be_visible()
    # It does not go on as if nothing stood there.
    page.locator(".check-mark-pass").click()
    expect(page.locator("h1")).to_have_text(where)
    value.fill("2.4")
    expect(page.get_by_text(re.compile("That cannot be"))).to_be_hidden()


def test_a_cut_shorter_than_its_mark_is_said_before_it_is_recorded(mine: Phone) -> None:
    routes = [draft("measure", what=f"cut_chain_{one}", value=112, unit="pitches") for one in ("first", "second")]
    page = at(mine, "/cut/chain", *routes)
    page.get_by_label(re.compile("^Cautions read")).check(timeout=PATIENT)
    page.get_by_role("button", name="It is cut").click()
    sheet = page.get_by_role("dialog")
    box(sheet, "Length as cut").fill("110")
    expect(sheet.locator(".finding-stop")).to_contain_text("2 pitches shorter than its mark")
    box(sheet, "Length as cut").fill("112")
    expect(sheet.locator(".finding-stop")).to_be_hidden()


def test_a_tool_whose_least_is_above_its_most_is_no_tool(mine: Phone) -> None:
    page = at(mine, "/torque/stem%20to%20steerer")
    page.get_by_role("button", name="Add a tool").click(timeout=PATIENT)
    sheet = page.get_by_role("dialog")
    box(sheet, "Name of the tool").fill("click wrench")
    box(sheet, "Most on its scale").fill("15")
    box(sheet, "Least on its scale").fill("20")
    expect(sheet.get_by_text("The least is above the most.")).to_be_visible()
    expect(sheet.get_by_role("button", name="Done")).to_be_disabled()
    box(sheet, "Least on its scale").fill("3")
    expect(sheet.get_by_role("button", name="Done")).to_be_enabled()
