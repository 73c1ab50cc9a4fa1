"""What a bike is called, whose it is and what it should weigh, changed later; and how the log tells of it."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.building import box
from tests.web.checking import PATIENT, Hand, hand
from tests.web.phone import Phone
from tests.web.test_in_use import entries, last, subject
from tests.web.workshop import ServedWorkshop


@pytest.fixture
def owner(browser: Browser, workshop: ServedWorkshop) -> Iterator[Hand]:
    with hand(browser, workshop, workshop.code, "the owner's phone") as made:
        yield made


def named_only(page: Page) -> None:
    """A bike as "Your first record" leaves it."""
    page.get_by_role("link", name="New bike").tap()
    box(page, "Name").fill("Plover")
    page.get_by_role("button", name="Record", exact=True).tap()
    expect(page.get_by_role("heading", name="Plover", level=1)).to_be_visible(timeout=PATIENT)


def cell(page: Page, label: str) -> str:
    return page.locator(".title-cells > div", has=page.get_by_text(label, exact=True)).locator("dd").inner_text()


def test_a_bike_that_had_only_a_name_gets_the_rest_later_without_a_signal(owner: Hand) -> None:
    page = owner.page
    named_only(page)
    assert (cell(page, "Rider"), cell(page, "For")) == ("–", "–")
    page.context.set_offline(True)
    page.get_by_role("link", name="Bike details").tap()
    expect(box(page, "Name")).to_have_value("Plover", timeout=PATIENT)
    expect(page.get_by_role("button", name="Record", exact=True)).to_be_disabled()
    box(page, "For").fill("gravel")
    page.locator("label.cell", has_text="Owner").tap()
    box(page, "Weight goal").fill("8400")
    page.get_by_role("button", name="Record", exact=True).tap()
    expect(page.get_by_role("heading", name="Plover", level=1)).to_be_visible(timeout=PATIENT)
    expect(page.locator(".title-cells")).to_contain_text("gravel")
    assert cell(page, "Rider") == "Owner"
    # Only what was changed, so that nobody's name for it is in question.
    body = last(page)["body"]
    assert sorted(body) == ["rider", "use", "weight_goal"]
    page.get_by_role("link", name="Bike details").tap()
    box(page, "For").fill(" ")
    page.get_by_role("button", name="Record", exact=True).tap()
    expect(page.locator(".title-cells")).not_to_contain_text("gravel", timeout=PATIENT)
    assert last(page)["body"] == {"use": None}
    page.get_by_role("link", name="Bike details").tap()
    box(page, "Name").fill("")
    expect(page.get_by_role("button", name="Record", exact=True)).to_be_disabled()
    page.context.set_offline(False)


def test_the_goal_is_changed_at_the_weigh_in(owner: Hand) -> None:
    page = owner.page
    named_only(page)
    at = subject(page)
    page.goto(f"{owner.url}/{at}/weigh")
    box(page, "Weight goal").fill("8400")
    page.get_by_role("button", name="Set the goal").tap()
    change = page.get_by_role("button", name="Change the goal")
    change.tap(timeout=PATIENT)
    sheet = page.get_by_role("dialog")
    expect(box(sheet, "Weight goal")).to_have_value(re.compile("^8.?400$"))
    box(sheet, "Weight goal").fill("7500")
    sheet.get_by_role("button", name="Set the goal").tap()
    expect(sheet).to_be_hidden(timeout=PATIENT)
    expect(page.get_by_text("7500 g")).to_be_visible()
    assert [one["body"].get("weight_goal") for one in entries(page, at)] == [None, 8400, 7500]


def test_a_rider_is_not_offered_what_the_workshop_writes(browser: Browser, season: ServedWorkshop) -> None:
    with hand(browser, season, season.code_for("Odile"), "Odile's phone") as rider:
        page = rider.page
        page.locator(".bike-line").first.tap()
        expect(page.locator(".stands")).to_be_visible(timeout=PATIENT)
        expect(page.get_by_role("link", name="Bike details")).to_have_count(0)
        page.goto(f"{rider.url}/{subject(page)}/details")
        expect(box(page, "Name")).to_be_disabled(timeout=PATIENT)


def fields(page: Page, line: str) -> list[tuple[str, str]]:
    """What an entry of the log says of itself when it is opened."""
    page.locator(".log-line", has_text=line).first.tap()
    sheet = page.get_by_role("dialog")
    told = sheet.locator(".told-fields > div").all()
    found = [(one.locator("dt").inner_text(), one.locator("dd").inner_text()) for one in told]
    sheet.get_by_role("button", name="Close").tap()
    return found


def test_the_log_calls_a_weighing_a_weighing_and_a_part_by_its_name(mine: Phone) -> None:
    page = mine.page
    about = "bike/6b0f1f0e-5a38-4d0e-9a3e-0f6a6c9a7a01"
    part = "0c6a58a5-0a6e-4e2b-8a53-0d0c7b1f7b02"
    drafts = [
        ("describe", {"name": "Plover", "weight_goal": 7500}),
        ("part-fit", {"part": part, "slot": "saddle", "name": "old leather", "claimed": 310}),
        ("weigh", {"part": part, "mass": 317.5}),
        ("weigh", {"mass": 8120}),
        ("torque", {"joint": "saddle clamp", "applied": 9, "low": 8, "high": 10, "accuracy": 4, "painted": True}),
        ("part-remove", {"part": part, "reason": "too hard"}),
        ("describe", {"weight_goal": None}),
    ]
    mine.do("record.write", [{"subject": about, "kind": kind, "body": body} for kind, body in drafts])
    page.goto(f"{mine.url}/{about}/log")
    lines = page.locator(".log-text")
    expect(lines).to_have_count(len(drafts), timeout=PATIENT)
    said = [line.split("\n")[0] for line in lines.all_inner_texts()]
    assert said[0] == "Described Weight goal: –"
    assert said[1] == "Removed old leather: too hard"
    assert said[3:5] == ["Weighed Whole bike: 8120 g", "Weighed old leather: 317.5 g"]
    assert said[6] == "Described Plover, Weight goal: 7500 g"
    assert fields(page, "old leather: 317.5")[:2] == [("Part", "old leather"), ("On the scale", "317.5 g")]
    assert fields(page, "Plover")[:2] == [("Name", "Plover"), ("Weight goal", "7500 g")]
    torque = dict(fields(page, "Saddle clamp"))
    assert (torque["Applied"], torque["At most"], torque["Paint mark"]) == ("9 N·m", "10 N·m", "Yes")
    assert not [value for line in ("Removed", "Fitted", "Weighed") for _, value in fields(page, line) if part in value]
