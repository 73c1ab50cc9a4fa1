"""The screens of the checks, the line-up, build and position: no violation axe-core finds, 48 px targets, 7:1 contrast."""

from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.axe import TARGETS, dress, found
from tests.web.checking import EVENT, PATIENT, Hand, hand
from tests.web.phone import tell
from tests.web.workshop import ServedWorkshop

SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
FERN = "bike/e7a78a49-c83f-5177-aaf6-4b4938d4f0cd"
FACE_PLATE = "torque/stem%20face%20plate"


@pytest.fixture(scope="module")
def day(web: Path, loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkshop]:
    served = ServedWorkshop(copytree(loaded, tmp_path_factory.mktemp("axe") / "data"), web, "demo").start()
    yield served
    served.stop()


def go(page: Page, url: str, until: str) -> None:
    page.goto(url)
    expect(page.locator(until).first).to_be_visible(timeout=PATIENT)


def events(page: Page, url: str) -> None:
    go(page, url + "/lineup", ".event-line")


def new_event(page: Page, url: str) -> None:
    events(page, url)
    page.get_by_role("button", name="New event").click()


def line(page: Page, url: str) -> None:
    go(page, f"{url}/lineup/{EVENT}", ".plate, .desk-plate")


def type_plate(page: Page, url: str) -> None:
    line(page, url)
    page.get_by_role("button", name="Type a plate").click()


def scan(page: Page, url: str) -> None:
    line(page, url)
    page.get_by_role("button", name="Scan a plate").click()
    expect(page.get_by_role("dialog").locator(".problem")).to_be_visible(timeout=PATIENT)


def start_list(page: Page, url: str) -> None:
    go(page, f"{url}/lineup/{EVENT}/list", ".starter")
    content = b"plate;name\n300;Ada\n1;Bo\n"
    page.set_input_files("input[type=file]", {"name": "a.csv", "mimeType": "text/csv", "buffer": content})
    expect(page.get_by_text("1 line cannot be taken")).to_be_visible()


def labels(page: Page, url: str) -> None:
    go(page, f"{url}/lineup/{EVENT}/labels", ".label")


def plate(page: Page, url: str) -> None:
    go(page, f"{url}/lineup/{EVENT}/plate/3", ".button.main")


def unknown_plate(page: Page, url: str) -> None:
    go(page, f"{url}/lineup/{EVENT}/plate/777", ".button.main")


def item(page: Page, url: str) -> None:
    go(page, f"{url}/{SLATE}/check/pre-event?event={EVENT}&plate=2", ".check")
    # It goes on where the last screen left it: back to the first item.
    page.get_by_role("button", name="Whole list").click()
    page.locator(".check-open").first.click()
    expect(page.locator(".check-mark-pass")).to_be_visible(timeout=PATIENT)


def item_failed(page: Page, url: str) -> None:
    item(page, url)
    page.get_by_role("button", name="Fail", exact=True).click()
    expect(page.get_by_label("What is it?")).to_be_visible()


def whole_list(page: Page, url: str) -> None:
    item(page, url)
    page.get_by_role("button", name="Whole list").click()


def outcome(page: Page, url: str) -> None:
    whole_list(page, url)
    page.get_by_role("button", name="To the verdict").click()
    expect(page.locator(".check-outcome .mark-large")).to_be_visible(timeout=PATIENT)


def self_check(page: Page, url: str) -> None:
    go(page, f"{url}/{SLATE}/check/self-check", ".self-drawing")


def checks_tab(page: Page, url: str) -> None:
    go(page, f"{url}/{SLATE}/checks", ".trend")


def rider(page: Page, url: str) -> None:
    go(page, f"{url}/{SLATE}/rider", ".let-in")
    page.get_by_role("button", name="Make the code").click()
    expect(page.locator(".let-in .qr")).to_be_visible(timeout=PATIENT)


def book(page: Page, url: str) -> None:
    go(page, f"{url}/checks", ".book-line")


def edit(page: Page, url: str) -> None:
    book(page, url)
    page.get_by_role("button", name="Copy and change Pre-event check").click()
    expect(page.locator(".book-item").first).to_be_visible(timeout=PATIENT)


def edit_item(page: Page, url: str) -> None:
    edit(page, url)
    page.locator(".book-open").nth(2).click()
    expect(page.get_by_role("dialog")).to_be_visible()


SCREENS = [
    events,
    new_event,
    line,
    type_plate,
    scan,
    start_list,
    labels,
    plate,
    unknown_plate,
    item,
    item_failed,
    whole_list,
    outcome,
    self_check,
    checks_tab,
    rider,
    book,
    edit,
    edit_item,
]
DESK_SCREENS = [line, start_list, plate]


def look(at: Hand, screens: list[Any], themes: tuple[str, ...]) -> None:
    wrong: list[str] = []
    for theme in themes:
        for screen in screens:
            screen(at.page, at.url)
            dress(at.page, theme)
            name = f"{screen.__name__} {theme}"
            wrong += [f"{name}: {one}" for one in found(at.page)]
            wrong += [f"{name}: target {one}" for one in tell(at.page, TARGETS)]
    assert wrong == [], "\n".join(wrong)


def test_a_phone_s_screens(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code, "a phone") as juno:
        look(juno, SCREENS, ("sheet",))


def test_a_phone_s_screens_by_night_and_in_the_sun(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Juno"), "a phone at night") as juno:
        look(juno, [line, plate, item_failed, whole_list, outcome, self_check, edit_item], ("night", "sunlight"))


def build_page(path: str, until: str) -> Any:
    def screen(page: Page, url: str) -> None:
        go(page, f"{url}/{FERN}/{path}", until)

    screen.__name__ = path
    return screen


def test_the_build_s_and_the_position_s_sheets(browser: Browser, day: ServedWorkshop):
    weigh, fits, joint = build_page("weigh", ".swap-idea"), build_page("fits", ".fit-joint"), build_page(FACE_PLATE, ".tools")
    steerer, plan, position = (
        build_page(*one) for one in (("cut/steerer", ".cut-shut"), ("plan", ".plan-edit-step"), ("position", ".option"))
    )
    with hand(browser, day, day.code_for("Juno"), "a phone at the stand") as juno:
        look(juno, [weigh, fits, joint], ("sheet", "sunlight"))
        look(juno, [steerer, plan, position], ("night", "sunlight"))


def test_the_desk(browser: Browser, day: ServedWorkshop):
    with hand(browser, day, day.code_for("Juno"), "a desk", desk=True) as juno:
        look(juno, DESK_SCREENS, ("sheet", "night"))
