"""A bike in use, on the app as it is shipped: Slate's and Wren's stories without a server, and a day's work at the track."""

import json
import re
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar
from playwright.sync_api import Browser, Page, expect

from tests.web.phone import context, tell
from tests.web.test_files import HILLS, track
from tests.web.workshop import ServedWorkshop

PATIENT = 20_000
QUICK = 3.0
"""Seconds for "saddle up 2": what one has between two laps."""

# A microphone that hears what it is told to, as the phone's own speech recognition would give it.
EARS = """
globalThis.SpeechRecognition = class {
  start() {
    setTimeout(() => {
      const final = [{ transcript: "saddle down to" }];
      final.isFinal = true;
      this.onresult({ results: [final] });
      this.onend();
    }, 30);
  }
  abort() { this.onend(); }
};
"""

# What the phone would show outside the app: its badge, and its notices.
TOLD = """
globalThis.told = { badge: 0, notices: [] };
Object.assign(Navigator.prototype, {
  setAppBadge: async (count) => { told.badge = count; },
  clearAppBadge: async () => { told.badge = 0; },
});
ServiceWorkerRegistration.prototype.showNotification = async (title, { body, tag }) => {
  told.notices.push([title, body, tag]);
};
"""


@pytest.fixture(scope="module")
def day(whole_browser: Browser, season: ServedWorkshop) -> Iterator[Page]:
    """A paired phone that has everything; then the server is gone for the rest of the day."""
    made = context(whole_browser, workers=True)
    made.add_init_script(EARS)
    made.add_init_script(TOLD)
    made.grant_permissions(["notifications"])
    page = made.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(f"{season.url}/pair#{season.code}")
    page.get_by_label("This phone is called").fill("the trackside phone")
    page.get_by_role("button", name="Pair", exact=True).click()
    expect(page.get_by_role("link", name=re.compile("Slate"))).to_be_visible(timeout=PATIENT)
    tell(page, "navigator.serviceWorker.ready.then(() => null)")
    expect(page.get_by_text("all sent")).to_be_visible(timeout=PATIENT)
    season.kill()
    yield page
    made.close()
    assert wrong == []


def to(page: Page, season: ServedWorkshop, bike: str, sheet: str = "") -> None:
    """From the list of bikes to one of its sheets."""
    page.goto(season.url + "/")
    page.get_by_role("link", name=re.compile(bike)).first.click()
    expect(page.get_by_role("heading", name=bike, level=1)).to_be_visible(timeout=PATIENT)
    if sheet:
        page.goto(page.url + sheet)
    page.locator("main").get_by_text("Reading …").first.wait_for(state="hidden", timeout=PATIENT)


def subject(page: Page) -> str:
    found = re.search(r"/(bike/[0-9a-f-]{36})", page.url)
    assert found
    return found[1]


def entries(page: Page, about: str) -> list[dict[str, Any]]:
    """What the phone holds of a subject, read from its own database."""
    opening = "new Promise((r) => { const o = indexedDB.open('pinchbolt'); o.onsuccess = () => r(o.result); })"
    read = (
        f"const q = db.transaction('entries').objectStore('entries').index('subject').getAll('{about}');"
        "q.onsuccess = () => { db.close(); r(q.result.map((row) => row.text)); };"
    )
    texts = tell(page, f"{opening}.then((db) => new Promise((r) => {{ {read} }}))")
    return sorted((json.loads(text) for text in texts), key=lambda e: e["stamp"])


def last(page: Page) -> dict[str, Any]:
    return entries(page, subject(page))[-1]


def test_slate_tells_its_story_without_a_server(day: Page, season: ServedWorkshop) -> None:
    """Chain near its limit, saddle moved twice this month, a question between two phones: decided."""
    to(day, season, "Slate")
    main = day.locator("main")
    expect(main.get_by_text("Ride with care")).to_be_visible()
    due = main.locator(".due", has_text="Chain")
    expect(due).to_contain_text("0.454 %, limit 0.5 %")
    expect(due.locator(".due-left")).to_have_text(re.compile(r"\d+ km\s*left"))
    saddle = main.locator("tr", has_text="Saddle height")
    expect(saddle).to_contain_text("706")
    expect(saddle).to_contain_text("710 mm")
    expect(saddle).to_contain_text("+4")
    expect(day.locator("svg.drawing").first).to_contain_text("+4")

    day.get_by_role("link", name="Saddle height").click()
    drawing = day.get_by_role("img", name=re.compile("Saddle height over the season"))
    expect(drawing).to_have_attribute("aria-label", re.compile("from 706 mm to 710 mm in 2 moves"))
    expect(day.get_by_text("hips rock less")).to_be_visible()

    to(day, season, "Slate")
    day.get_by_role("button", name="Decide").click()
    day.get_by_role("dialog").get_by_role("radio", name="2.2 bar, Bas").check()
    day.get_by_role("dialog").get_by_label("Reason").fill("asked the rider")
    day.get_by_role("dialog").get_by_role("button", name="Decide").click()
    expect(day.get_by_text("Open questions")).to_be_hidden()
    expect(main.locator("tr", has_text="Pressure, front")).to_contain_text("2.2 bar")
    day.get_by_role("link", name="Log", exact=True).click()
    expect(day.locator(".log-line").first).to_contain_text("asked the rider")


def test_wren_after_its_fall_is_not_cleared_and_says_why(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Wren")
    main = day.locator("main")
    expect(main.get_by_text("Not fit to ride").first).to_be_visible()
    expect(main.get_by_text("After a fall, not cleared.").first).to_be_visible()
    expect(main.get_by_text("Score on the left of the carbon bar").first).to_be_visible()
    expect(main.get_by_text("a full check after a fall, by a qualified mechanic")).to_be_visible()
    day.get_by_role("link", name="Log", exact=True).click()
    day.get_by_label("Find in the log").fill("wet leaves")
    expect(day.locator(".log-line")).to_have_count(1)
    expect(day.locator(".log-line")).to_contain_text("went down")
    day.get_by_label("Find in the log").fill("hanger")
    expect(day.get_by_text("Hanger bent inwards, drivetrain: Straightened, spread 2 mm")).to_be_visible()


def test_saddle_up_2_takes_two_touches_and_less_than_three_seconds(
    day: Page, season: ServedWorkshop, capsys: pytest.CaptureFixture[str]
) -> None:
    to(day, season, "Slate")
    line = day.get_by_label("Say or type it")
    began = time.perf_counter()
    line.tap()
    day.keyboard.type("saddle up 2")
    day.keyboard.press("Enter")  # the second touch: the keyboard's own "done"
    expect(day.get_by_role("status").filter(has_text="712 mm")).to_be_visible()
    took = time.perf_counter() - began
    with capsys.disabled():
        print(f'\n"saddle up 2": 2 touches and the words, {took:.2f} s')
    assert took < QUICK, f"{took:.2f} s"
    body = last(day)["body"]
    assert (body["setting"], body["from"], body["to"], body["unit"]) == ("saddle_height", 710, 712, "mm")
    day.get_by_role("button", name="Undo").click()
    # The row may still show what stood before: only the word says that the voiding entry is kept.
    expect(day.get_by_role("status").filter(has_text="Taken back")).to_be_visible()
    assert last(day)["kind"] == "void"
    expect(day.locator("tr", has_text="Saddle height")).to_contain_text("710 mm")


def test_what_is_said_is_shown_before_it_is_recorded(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate")
    before = len(entries(day, subject(day)))
    day.get_by_role("button", name="Say it").tap()
    expect(day.locator("#say-told")).to_contain_text("710 mm → 708 mm")
    assert len(entries(day, subject(day))) == before
    day.locator(".say").get_by_role("button", name="Record").tap()
    expect(day.locator("tr", has_text="Saddle height")).to_contain_text("708 mm")
    day.get_by_label("Say or type it").fill("lever in 2")
    expect(day.locator("#say-told")).to_contain_text("Lever reach, left, Lever reach, right")
    expect(day.locator(".say").get_by_role("button", name="Record")).to_be_disabled()


def test_the_setting_moved_last_is_moved_again_by_its_stepper(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate")
    nudge = day.locator(".nudge")
    before = last(day)["body"]
    nudge.get_by_role("button", name=re.compile("more$")).tap()
    nudge.get_by_role("button", name=re.compile("Record")).tap()
    expect(day.get_by_role("status").filter(has_text="→")).to_be_visible()
    body = last(day)["body"]
    assert (body["setting"], body["from"], body["to"]) == (before["setting"], before["to"], before["to"] + 1)


def test_stepping_back_lists_the_turns_first_and_brings_the_baseline_back(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/baselines")
    saddle = day.locator(".step-back", has_text="Saddle height")
    expect(saddle).to_contain_text(re.compile(r"\d+ mm down"))
    expect(day.locator(".step-back", has_text="Lever reach, left")).to_contain_text("4 mm out")
    record = day.get_by_role("button", name=re.compile("steps? back"))
    expect(record).to_be_disabled()
    saddle.get_by_role("checkbox").check()
    expect(record).to_have_text("Record 1 step back")
    day.get_by_role("button", name="All of them").click()
    record.click()
    expect(day.get_by_text("Nothing moved.")).to_be_visible(timeout=PATIENT)
    about = subject(day)
    frozen: dict[str, float] = {}
    now: dict[str, float] = {}
    for entry in entries(day, about):
        if entry["kind"] == "adjust":
            now[entry["body"]["setting"]] = entry["body"]["to"]
        elif entry["kind"] == "baseline":
            frozen = dict(now)
    assert {name: now[name] for name in frozen} == frozen


def test_two_days_side_by_side(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/baselines")
    expect(day.get_by_text(re.compile(r"Ridden in between: \d+ km"))).to_be_visible()
    day.get_by_label("From", exact=True).fill("2020-01-01")
    expect(day.get_by_text("Nothing was on record by then.")).to_be_visible()
    day.get_by_label("To", exact=True).fill("2019-01-01")
    expect(day.get_by_text("The first day is after the second.")).to_be_visible()


def test_a_ride_is_read_from_a_gpx_file_and_only_its_sums_are_kept(day: Page, season: ServedWorkshop, tmp_path: Path) -> None:
    file = tmp_path / "home.gpx"
    file.write_text(track(HILLS))
    to(day, season, "Fern", "/ride")
    day.locator("input[type=file]").set_input_files(file)
    expect(day.get_by_text("120 points")).to_be_visible()
    day.get_by_role("button", name="Record", exact=True).click()
    expect(day.get_by_role("heading", name="Fern", level=1)).to_be_visible()
    body = last(day)["body"]
    assert body["source"] == "GPX"
    assert body["km"] > 50
    assert set(body) <= {"km", "hours", "climb", "source"}, "where it went is nobody's business"


def test_a_reading_that_cannot_be_true_is_asked_about_before_it_is_recorded(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/measure?what=chain_elongation")
    value = day.locator("input.figure").first
    value.fill("0.2")
    record = day.get_by_role("button", name="Record", exact=True)
    about = subject(day)
    before = len(entries(day, about))
    record.click()
    asked = day.get_by_role("dialog")
    expect(asked).to_contain_text("It cannot grow shorter with use: 0.454 %")
    assert len(entries(day, about)) == before
    asked.get_by_role("button", name="Correct it").click()
    value.fill("0.47")
    record.click()
    expect(day.get_by_role("heading", name="Slate", level=1)).to_be_visible()
    body = last(day)["body"]
    assert (body["value"], body["unit"]) == (0.47, "%")
    chain = next(e for e in entries(day, about) if e["kind"] == "part-fit" and e["body"]["slot"] == "chain")
    assert body["part"] == chain["body"]["part"], "a reading belongs to the part that is on"


def test_the_forecast_has_its_span_and_its_plot(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/wear")
    pads = day.locator(".wear", has_text="Pads, front")
    expect(pads).to_contain_text(re.compile(r"\d+ km to go"), timeout=PATIENT)
    expect(pads.locator("svg.drawing")).to_contain_text(re.compile(r"\d+ \(\d+ – \d+\)"))
    expect(day.locator(".wear", has_text="Rotor, rear")).to_contain_text("Not measured yet.")


def test_a_wheel_moved_to_another_bike_keeps_its_kilometres(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/parts")
    day.get_by_role("link", name=re.compile("alloy wheel, rear")).click()
    run = day.get_by_text(re.compile(r"^[\d,]+ km in all")).first
    expect(run).to_be_visible(timeout=PATIENT)
    km = run.inner_text().split(" km")[0]
    day.get_by_role("link", name="Move to another bike").click()
    day.get_by_label("To which bike").select_option(label="Wren")
    day.get_by_role("button", name="Move to another bike").click()
    expect(day.get_by_role("heading", name="Wren", level=1)).to_be_visible()
    day.goto(day.url + "/parts")
    day.get_by_role("link", name=re.compile("alloy wheel, rear")).click()
    expect(day.get_by_text(re.compile(rf"^{km} km in all"))).to_be_visible(timeout=PATIENT)
    expect(day.get_by_text(f"Slate: {km} km")).to_be_visible()
    expect(day.get_by_text("Wren: 0 km")).to_be_visible()


def test_due_across_the_bikes_what_stops_a_ride_first(day: Page, season: ServedWorkshop) -> None:
    day.goto(season.url + "/due")
    rows = day.locator(".due-row")
    expect(rows.first).to_contain_text("Wren · Check after a fall", timeout=PATIENT)
    rows.first.click()
    expect(day.get_by_role("dialog")).to_contain_text("What stops a ride cannot be put off.")
    day.get_by_role("dialog").get_by_role("button", name="Close").click()
    sealant = rows.filter(has_text="Sealant topped up").first
    sealant.click()
    answer = day.get_by_role("dialog")
    answer.get_by_label("Why it can wait").fill("it is not ridden")
    answer.get_by_role("button", name="Put off").click()
    expect(answer).to_be_hidden()
    expect(rows.filter(has_text="Sealant topped up").first).to_contain_text("it is not ridden")
    day.get_by_role("radio", name="Put off").check()
    expect(rows).to_have_count(1)


def test_an_interval_of_the_workshops_own_counts_on_every_bike(day: Page, season: ServedWorkshop) -> None:
    day.goto(season.url + "/due/intervals")
    expect(day.locator(".due-row", has_text="Sealant topped up")).to_contain_text("common practice", timeout=PATIENT)
    day.get_by_role("button", name="Another job").click()
    sheet = day.get_by_role("dialog")
    sheet.get_by_label("Job").fill("Wash and wax")
    days = sheet.locator(".number", has_text="Days")
    days.get_by_role("button", name=re.compile("more$")).click()
    sheet.get_by_role("button", name="Record").click()
    expect(day.locator(".due-row", has_text="Wash and wax")).to_contain_text("90 d")
    day.goto(season.url + "/due")
    expect(day.locator(".due-row", has_text="Slate · Wash and wax")).to_be_visible(timeout=PATIENT)


def test_the_calendar_takes_what_is_due(day: Page, season: ServedWorkshop) -> None:
    day.goto(season.url + "/due")
    expect(day.locator(".due-row").first).to_be_visible(timeout=PATIENT)
    # A phone would open its share sheet; here the file is saved.
    tell(day, "Object.defineProperty(navigator, 'canShare', { value: () => false }) && null")
    with day.expect_download() as coming:
        day.get_by_role("button", name="As a calendar file").click()
    read = Calendar.from_ical(Path(coming.value.path()).read_bytes())
    assert any("Slate: Chain" in str(e["summary"]) for e in read.walk("VEVENT"))


def shown_outside(page: Page, what: str) -> Any:
    return tell(page, f"told.{what}")


def until_shown(page: Page, what: str, wanted: Any) -> None:
    deadline = time.monotonic() + PATIENT / 1000
    while shown_outside(page, what) != wanted and time.monotonic() < deadline:
        page.wait_for_timeout(50)
    assert shown_outside(page, what) == wanted


def test_a_stop_is_told_outside_the_app_and_the_badge_counts_it_and_what_is_unsent(day: Page, season: ServedWorkshop) -> None:
    """Asked for by a touch; what was known when the app was opened is on its sheets and not told again."""
    day.goto(season.url + "/due")
    day.get_by_role("button", name="Tell me while the app is open").tap()
    expect(day.get_by_role("button", name="Stop telling me")).to_be_visible()
    unsent = int(re.sub(r"\D", "", day.get_by_text(re.compile(r"\d+ to send")).first.inner_text()))
    until_shown(day, "badge", unsent + 1)  # Wren is not cleared
    assert shown_outside(day, "notices") == []
    day.get_by_role("link", name="Bikes", exact=True).first.tap()
    day.get_by_role("link", name=re.compile("Slate")).first.tap()
    day.get_by_role("link", name="Fault", exact=True).tap()
    day.get_by_label("What is wrong").fill("crack at the left dropout")
    day.get_by_role("radio", name="Stops it").check()
    day.get_by_role("button", name="Record", exact=True).tap()
    expect(day.get_by_text("Not fit to ride").first).to_be_visible(timeout=PATIENT)
    until_shown(day, "badge", unsent + 3)  # one more to send, one more that must not be ridden
    [[title, body, tag]] = shown_outside(day, "notices")
    assert title == "Slate"
    assert "crack at the left dropout" in body
    assert tag == subject(day)


def test_a_fall_is_recorded_without_a_distance(day: Page, season: ServedWorkshop) -> None:
    to(day, season, "Slate", "/ride")
    button = day.get_by_role("button", name="Record", exact=True)
    expect(button).to_be_disabled()
    day.get_by_role("group", name=re.compile("Did it go down")).get_by_label("Yes").check(force=True)
    expect(button).to_be_enabled()
    button.click()
    expect(day.get_by_text("Fall recorded")).to_be_visible()
    written = last(day)
    assert (written["kind"], written["body"]["km"], written["body"]["fall"]) == ("ride", 0, True)
    expect(day.locator("main").get_by_text("After a fall, not cleared.").first).to_be_visible()
    day.get_by_role("link", name="Log", exact=True).click()
    expect(day.locator(".log-line").first).to_contain_text("went down")
    expect(day.locator(".log-line").first).not_to_contain_text("0 km")
