"""The phone as a tool: its sums against sounds and tracks made here with known answers, and each tool once into its field."""

import math
import re
from collections.abc import Iterator
from pathlib import Path

import numpy
import pytest
from numpy.typing import NDArray
from playwright.sync_api import Page, Playwright, expect
from scipy.io import wavfile

from tests.web.conftest import CHROMIUM
from tests.web.phone import ARGUMENTS, SIZE, Phone
from tests.web.workshop import ServedWorkshop

RATE = 48000
# f = √(T/μ)/2L (OpenStax University Physics 1, 16.3): 1000 N in 260 mm of 2 mm steel, 7850 kg/m³.
SPOKE = math.sqrt(1000 / (7850 * math.pi * 0.001**2)) / (2 * 0.260)


def plucked(hz: float, seconds: float, *, stiff: float = 4e-4, fundamental: float = 1.0) -> NDArray[numpy.float64]:
    """A stiff string plucked at 0.4 of its length. Partials at n·f·√(1+Bn²), strength sin(nπ·0.4)/n (Fletcher and Rossing,
    The Physics of Musical Instruments, 2.7 and 2.18, from memory); the tone is its lowest partial. Noise 40 dB below."""
    t = numpy.arange(int(seconds * RATE)) / RATE
    sound = numpy.random.default_rng(7).normal(0, 0.003, t.size)
    for n in range(1, 9):
        partial = n * hz * math.sqrt((1 + stiff * n * n) / (1 + stiff))
        strength = math.sin(n * math.pi * 0.4) / n * (fundamental if n == 1 else 1)
        sound += 0.3 * strength * numpy.exp(-t * (3 + n)) * numpy.sin(2 * math.pi * partial * t + n)
    return sound


@pytest.fixture(scope="module")
def page(playwright: Playwright, season: ServedWorkshop, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    wav: Path = tmp_path_factory.mktemp("sound") / "spoke.wav"
    once = numpy.concatenate([numpy.random.default_rng(1).normal(0, 0.001, RATE // 2), plucked(SPOKE, 1.0)])
    wavfile.write(wav, RATE, (numpy.tile(once, 4) * 30000).astype(numpy.int16))
    fakes = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", f"--use-file-for-fake-audio-capture={wav}"]
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=[*ARGUMENTS, *fakes])
    context = browser.new_context(
        viewport=SIZE, has_touch=True, is_mobile=True, locale="en-GB", permissions=["microphone", "geolocation", "accelerometer", "gyroscope"]
    )
    opened = context.new_page()
    opened.set_default_timeout(12_000)
    Phone(opened, season.url).open()
    yield opened
    browser.close()


def test_the_sums_of_the_readings(page: Page, season: ServedWorkshop) -> None:
    door = Phone(page, season.url)
    # A weak lowest partial, as when plucked near an end, must not make it the octave.
    for hz, fundamental in [(SPOKE, 1.0), (231.7, 1.0), (655.2, 1.0), (312.4, 0.35)]:
        tone = door.do("toneOf", plucked(hz, 8192 / RATE, fundamental=fundamental).tolist(), RATE, 100, 1500)
        # 0.3 % of tone is 0.6 % of tension.
        assert tone["hz"] == pytest.approx(hz, rel=0.003)
    noise = numpy.random.default_rng(3).normal(0, 0.2, 8192)
    assert door.do("toneOf", noise.tolist(), RATE, 100, 1500) is None
    assert door.do("tone.mayBeOctave", 800, [300, 500]) is True
    assert door.do("tone.mayBeOctave", 400, [300, 500]) is False

    # The axes of the W3C's DeviceOrientation: the screen's side tipped over (beta beyond 90°) leaves the edge's rise.
    assert door.do("angle.rise", 107) == pytest.approx(73)
    scattered = (2.4 + numpy.random.default_rng(5).normal(0, 0.05, 100)).tolist()
    first = door.do("angle.settled", scattered)
    assert first["still"] is True
    # The mean's error is at least the scatter's, and what a browser holds back comes on top.
    assert 0.05 / 10 < first["error"] < 0.1
    both = door.do("angle.twoWay", first, {"value": -0.8, "error": 0.06, "still": True})
    assert (both["value"], both["offset"]) == (pytest.approx(1.6, abs=0.02), pytest.approx(0.8, abs=0.02))
    assert door.do("angle.settled", numpy.linspace(0, 2, 100).tolist())["still"] is False

    # 7 m/s held, then 3.5 m/s² off: v²/2a = 7 m, whatever the fixes' raster.
    def ride(every: float) -> list[dict[str, float]]:
        times = numpy.arange(0, 14, every)
        return [{"at": t, "speed": max(0.0, min(7.0, 7 - 3.5 * (t - 8.05))), "accuracy": 3} for t in times.tolist()]

    for every in (0.1, 1.0):
        stop = door.do("stopping.stopIn", ride(every))
        assert abs(stop["distance"] - 7) < stop["distancePlusMinus"]
        assert stop["speed"] == pytest.approx(7, abs=stop["speedPlusMinus"])
    # A fix a second, as phones give: the distance must not be offered.
    assert stop["coarse"] is True
    assert door.do("stopping.stopIn", [one | {"accuracy": 40} for one in ride(0.1)]) is None


def test_each_tool_reads_into_its_field(page: Page, season: ServedWorkshop) -> None:
    strangers: list[str] = []
    posted: list[str] = []
    page.on("request", lambda one: strangers.append(one.url) if not one.url.startswith((season.url, "blob:", "data:")) else None)
    page.on("request", lambda one: posted.append(one.url) if one.method != "GET" else None)
    debugger = page.context.new_cdp_session(page)
    sheet = page.get_by_role("dialog")

    def lie(beta: float) -> None:
        debugger.send("DeviceOrientation.setDeviceOrientationOverride", {"alpha": 0, "beta": beta, "gamma": 0})

    def opened(calculation: str, index: int = 0) -> None:
        page.goto(f"{season.url}/bench/{calculation}")
        page.get_by_role("button", name="Measure with the phone").nth(index).click()
        sheet.get_by_role("button", name="Start").click()

    lie(73.4)
    opened("angle-change")
    sheet.get_by_role("button", name="Read here").click()
    lie(-72.2)
    sheet.get_by_role("button", name="Read here").click()
    # (73.4 + 72.2) / 2; the phone's own 0.6° falls out.
    sheet.get_by_role("button", name="Take 72.8").click()
    expect(page.get_by_label("Head angle", exact=True).first).to_have_value(re.compile(r"^72\.80?$"))
    expect(page.get_by_role("button", name=re.compile("± 0.1.*Head angle"))).to_be_visible()

    opened("spoke-tension")
    expect(sheet.get_by_role("status")).to_contain_text(re.compile("[3-5] plucks"))
    sheet.get_by_role("button", name=f"Take {SPOKE:.0f} Hz").click()
    expect(page.get_by_label("Tone", exact=True)).to_have_value(f"{SPOKE:.0f}")

    opened("stopping-check")
    expect(sheet.get_by_text("Empty, dry, level road", exact=False)).to_be_visible()
    page.context.set_geolocation({"latitude": 0, "longitude": 0, "accuracy": 4})
    expect(sheet.get_by_role("status")).to_contain_text("4 m")
    # The browser's fake place has no speed: that must be said, and nothing offered.
    expect(sheet.get_by_role("alert")).to_contain_text("Too poorly known")
    expect(sheet.get_by_role("button", name=re.compile("^Take"))).to_have_count(0)
    sheet.get_by_role("button", name="Close").click()
    speed = page.get_by_label("Speed when the brake went on", exact=True)
    speed.fill("26")
    expect(speed).to_have_value("26")
    assert strangers == []
    assert posted == []
