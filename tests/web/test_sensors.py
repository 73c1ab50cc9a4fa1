"""The phone as a tool, each once into the field it serves: a phone laid down, a spoke plucked, a ride and a stop, all faked at
the browser's own edge, so that the app's whole way from there is gone. The sums themselves: test_sensor_sums.py.
"""

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy
import pytest
from playwright.sync_api import Browser, Page, Playwright, expect
from scipy.io import wavfile

from tests.web.axe import TARGETS, found
from tests.web.checking import hand
from tests.web.phone import ARGUMENTS, CHROMIUM, SIZE, tell
from tests.web.spoke_sound import RATE, SPOKE, plucked
from tests.web.workshop import ServedWorkshop

FERN = "bike/e7a78a49-c83f-5177-aaf6-4b4938d4f0cd"
ENTER = "Measure with the phone"


@pytest.fixture(scope="module")
def listening(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser whose microphone hears a spoke plucked once a second. The windowless one knows no asking for a microphone."""
    wav: Path = tmp_path_factory.mktemp("sound") / "spoke.wav"
    once = numpy.concatenate([numpy.random.default_rng(1).normal(0, 0.001, 3 * RATE // 10), plucked(SPOKE, 0.7)])
    wavfile.write(wav, RATE, (numpy.tile(once, 4) * 30000).astype(numpy.int16))
    fakes = ["--use-fake-device-for-media-stream", f"--use-file-for-fake-audio-capture={wav}"]
    started = playwright.chromium.launch(executable_path=CHROMIUM, args=[*ARGUMENTS, *fakes])
    yield started
    started.close()


@contextmanager
def phone(browser: Browser, *allowed: str, touch: bool = True) -> Iterator[Page]:
    context = browser.new_context(
        viewport=SIZE, has_touch=touch, is_mobile=touch, locale="en-GB", permissions=list(allowed), service_workers="block"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    yield page
    context.close()


class Tool:
    """The sheet of a tool, opened from a field; and the phone in a hand."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.sheet = page.get_by_role("dialog")
        self.edge = page.context.new_cdp_session(page)

    def start(self) -> None:
        self.page.get_by_role("button", name=ENTER).first.click()
        self.sheet.get_by_role("button", name="Start").click()

    def on_bench(self, url: str, calculation: str) -> None:
        self.page.goto(f"{url}/bench/{calculation}")
        self.start()

    def lie(self, beta: float) -> None:
        self.edge.send("DeviceOrientation.setDeviceOrientationOverride", {"alpha": 30, "beta": beta, "gamma": 4})

    def at_speed(self, speed: float) -> None:
        self.edge.send(
            "Emulation.setGeolocationOverride", {"latitude": 0, "longitude": 0, "accuracy": 4, "speed": max(0.0, speed)}
        )


def test_a_laid_phone_measures_the_angle_and_nothing_else_leaves_it(listening: Browser, season: ServedWorkshop) -> None:
    with phone(listening, "accelerometer", "gyroscope") as page:
        strangers: list[str] = []
        page.on("request", lambda one: strangers.append(one.url) if one.method != "GET" else None)
        tool = Tool(page)
        tool.lie(73.4)
        tool.on_bench(season.url, "angle-change")
        expect(tool.sheet.get_by_text("their own jig decides")).to_be_visible()
        expect(tool.sheet.get_by_role("button", name="Read")).to_be_enabled()
        assert found(page) + tell(page, TARGETS) == []
        tool.sheet.get_by_role("button", name="Read").click()
        tool.lie(-72.2)
        tool.sheet.get_by_role("button", name="Read").click()
        # (73.4 + 72.2) / 2; the phone's own 0.6° falls out.
        expect(tool.sheet.get_by_text("Zero taken out: 0.6°")).to_be_visible()
        tool.sheet.get_by_role("button", name="Take 72.8").click()
        expect(page.get_by_label("Head angle", exact=True).first).to_have_value(re.compile(r"^72\.80?$"))
        expect(page.get_by_role("button", name=re.compile("± 0.2.*Head angle"))).to_be_visible()
        assert strangers == []


def test_a_plucked_spoke_and_a_stop_reach_the_bench(listening: Browser, season: ServedWorkshop) -> None:
    with phone(listening, "microphone", "geolocation") as page:
        strangers: list[str] = []
        page.on("request", lambda one: strangers.append(one.url) if not one.url.startswith((season.url, "blob:")) else None)
        page.on("request", lambda one: strangers.append(one.url) if one.method != "GET" else None)
        tool = Tool(page)
        tool.on_bench(season.url, "spoke-tension")
        expect(tool.sheet.get_by_role("status")).to_contain_text(re.compile("[3-5] plucks"))
        tool.sheet.get_by_role("button", name=f"Take {SPOKE:.0f} Hz").click()
        expect(page.get_by_label("Tone", exact=True)).to_have_value(f"{SPOKE:.0f}")

        tool.at_speed(6)
        tool.on_bench(season.url, "stopping-check")
        expect(tool.sheet.get_by_text("never in traffic", exact=False)).to_be_visible()
        expect(tool.sheet.get_by_role("status")).to_contain_text("4 m")
        # Held for four seconds, then 2.4 m/s² off: v²/2a = 7.5 m.
        began = time.monotonic() + 4
        take = tool.sheet.get_by_role("button", name=re.compile("^Take"))
        while take.count() == 0:
            gone = time.monotonic() - began
            assert gone < 15, tool.sheet.inner_text()
            tool.at_speed(6 - 2.4 * max(0, gone))
            page.wait_for_timeout(200)
        # 6 m/s are 21.6 km/h.
        expect(take).to_have_text(re.compile(r"^Take 21\.[4-8] km/h"))
        take.click()
        expect(page.get_by_label("Speed when the brake went on", exact=True)).to_have_value(re.compile(r"^21\.[4-8]$"))
        assert strangers == []


def test_refused_or_not_there_is_said_and_the_figure_typed(listening: Browser, season: ServedWorkshop) -> None:
    with phone(listening) as page:
        tool = Tool(page)
        for calculation in ("spoke-tension", "stopping-check", "angle-change"):
            tool.on_bench(season.url, calculation)
            expect(tool.sheet.get_by_role("alert")).to_contain_text("Not allowed here")
            expect(tool.sheet.get_by_role("button", name=re.compile("^Take"))).to_have_count(0)
        tool.sheet.get_by_role("button", name="Close").click()
        angle = page.get_by_label("Head angle", exact=True).first
        angle.fill("72.5")
        expect(angle).to_have_value("72.5")

    # Allowed, but this phone has no such sensor: it is waited for, then said.
    with phone(listening, "accelerometer", "gyroscope") as page:
        tool = Tool(page)
        tool.on_bench(season.url, "angle-change")
        expect(tool.sheet.get_by_role("alert")).to_contain_text("No readings on this phone")

    # A desk lies still and rides nowhere: only the ear is offered.
    with phone(listening, touch=False) as page:
        page.goto(f"{season.url}/bench/spoke-tension")
        expect(page.get_by_role("button", name=ENTER)).to_have_count(1)
        page.goto(f"{season.url}/bench/angle-change")
        expect(page.get_by_label("Head angle", exact=True).first).to_be_visible()
        expect(page.get_by_role("button", name=ENTER)).to_have_count(0)


def test_one_lever_is_held_against_the_other_and_recorded(listening: Browser, season: ServedWorkshop) -> None:
    with hand(listening, season, season.code, "a phone at the levers") as made:
        page = made.page
        tool = Tool(page)
        tool.lie(0.4)
        page.goto(f"{season.url}/{FERN}/measure?what=lever_angle_left")
        tool.start()
        tool.sheet.get_by_role("button", name="This is level").click()
        tool.lie(8.4)
        tool.sheet.get_by_role("button", name="Read").click()
        tool.sheet.get_by_role("button", name="Keep for the other side").click()
        tool.lie(6.9)
        tool.sheet.get_by_role("button", name="Read").click()
        # 6.9° and 8.4° less the 0.4° of the level place.
        expect(tool.sheet.get_by_text("To the other side").locator("..")).to_contain_text(re.compile("[-−]1\\.5°"))
        tool.sheet.get_by_role("button", name="Take 6.5°").click()
        expect(page.get_by_label("How")).to_have_value("phone, ± 0.2°")
        page.get_by_role("button", name=re.compile("^Record")).click()
        expect(page.get_by_text("Lever angle, left").first).to_be_visible()
