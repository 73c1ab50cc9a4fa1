"""A label under a camera, with no signal: the reader that is part of the app, and codes that are not labels."""

import io
from pathlib import Path

import pytest
import segno
from PIL import Image
from playwright.sync_api import Browser, Playwright, expect

from tests.web.checking import EVENT, PATIENT, hand
from tests.web.phone import ARGUMENTS, CHROMIUM, phone, tell
from tests.web.workshop import ServedWorkshop

# ISO/IEC 18004: a reader needs four modules of quiet around the code.
QUIET = 4
OTHER = EVENT.replace("4be9", "4bea")


def film(text: str, file: Path) -> Path:
    """What a camera sees that looks at the code of `text`: a film of one picture, for Chromium's false camera."""
    code = io.BytesIO()
    segno.make(text, error="m").save(code, kind="png", scale=8, border=QUIET)
    sheet = Image.new("RGB", (640, 480), "white")
    picture = Image.open(code).convert("RGB")
    picture.thumbnail((440, 440))
    sheet.paste(picture.rotate(4, fillcolor="white", expand=True), (90, 10))
    shot = io.BytesIO()
    sheet.save(shot, "JPEG", quality=90)
    file.write_bytes(shot.getvalue() * 30)
    return file


@pytest.fixture(scope="module")
def label(browser: Browser, season: ServedWorkshop) -> str:
    """What the app prints in the code of plate 17."""
    with phone(browser, season.url) as door:
        return door.do("plateCode.labelText", "https://bench.example", EVENT, "17")


def test_what_a_code_says_at_this_event(browser: Browser, season: ServedWorkshop, label: str):
    with phone(browser, season.url) as door:

        def read(text: str) -> dict[str, str]:
            return door.do("plateCode.readLabel", text, EVENT)

        assert read(label) == {"plate": "17"}
        # Where the server stood when it was printed does not matter.
        assert read(label.replace("bench.example", "192.0.2.7:8443")) == {"plate": "17"}
        assert read(door.do("plateCode.labelText", "https://bench.example", OTHER, "17")) == {"problem": "another-event"}
        # The letters belong to event and plate together: neither can be exchanged alone.
        assert read(label.replace(EVENT, OTHER)) == {"problem": "damaged"}
        assert read(label.replace("/17?", "/71?")) == {"problem": "damaged"}
        assert read(label[:-2]) == {"problem": "damaged"}
        assert read("https://bench.example/lineup/tyres") == {"problem": "damaged"}
        assert read("https://bench.example/tyres") == {"problem": "not-a-label"}


@pytest.mark.parametrize(("cut", "said"), [(0, None), (2, "damaged")], ids=["label", "cut"])
def test_a_code_before_the_camera_without_a_signal(
    playwright: Playwright, season: ServedWorkshop, tmp_path: Path, label: str, cut: int, said: str | None
):
    shown = label[: len(label) - cut]
    camera = [
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={film(shown, tmp_path / 'camera.mjpeg')}",
    ]
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=[*ARGUMENTS, *camera])
    with hand(browser, season, season.code_for("Bas"), "a phone with a camera") as bas:
        page = bas.line().page
        # On a phone without a reader of its own the app's is fetched while there is a signal, and kept.
        tell(
            page,
            """(async () => {
              const cache = await caches.open("pinchbolt-reader");
              for (let i = 0; i < 400 && !(await cache.keys())[0]; i += 1) await new Promise((go) => setTimeout(go, 50));
              if (!(await cache.keys())[0]) throw new Error("the reader is not kept");
            })()""",
        )
        page.context.set_offline(True)
        page.reload()
        page.get_by_role("button", name="Scan a plate").tap()
        if said is None:
            expect(page.get_by_role("heading", name="Plate 17")).to_be_visible(timeout=PATIENT)
        else:
            expect(page.get_by_role("alert")).to_contain_text(said, timeout=PATIENT)
            page.get_by_role("dialog").get_by_role("button", name="Type a plate").tap()
            expect(page.get_by_label("Plate", exact=True)).to_be_visible()
    browser.close()
