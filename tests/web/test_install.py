"""The app on a home screen: what its manifest promises is there, and a track that another app shares comes to a ride."""

import json
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import httpx
from playwright.sync_api import Browser, Page, expect

from tests.web.checking import PATIENT, hand
from tests.web.phone import tell
from tests.web.workshop import ROOT, ServedWorkshop

# Ten points due north, a hundredth of a degree apart: 9 × 1.11195 km by the mean radius of the earth (IUGG).
NORTH = "".join(
    f'<trkpt lat="{47 + i / 100:.2f}" lon="8"><ele>{400 + i}</ele><time>2026-06-11T06:{i * 4:02}:00Z</time></trkpt>'
    for i in range(10)
)
TRACK = f'<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>{NORTH}</trkseg></trk></gpx>'

# What a phone does when a file is shared with the app: a page of it is asked for by POST.
SHARED = """(() => {
  const form = document.createElement("form");
  Object.assign(form, { method: "POST", action: "/share", enctype: "multipart/form-data" });
  const input = Object.assign(document.createElement("input"), { type: "file", name: "file" });
  const held = new DataTransfer();
  held.items.add(new File([CONTENT], NAME));
  input.files = held.files;
  form.append(input);
  document.body.append(form);
  form.submit();
})()"""


def share(page: Page, name: str, content: str) -> None:
    tell(page, SHARED.replace("CONTENT", json.dumps(content)).replace("NAME", json.dumps(name)))
    expect(page.get_by_role("heading", name="A track was shared")).to_be_visible(timeout=PATIENT)


def test_what_the_manifest_promises_is_there(season: ServedWorkshop) -> None:
    page = httpx.get(season.url + "/").text
    address = page.split('rel="manifest" href="')[1].split('"')[0]
    manifest = httpx.get(season.url + address).json()
    assert (manifest["id"], manifest["display"]) == ("/", "standalone")
    for picture in [*manifest["icons"], *manifest["screenshots"], *(one["icons"][0] for one in manifest["shortcuts"])]:
        assert httpx.get(season.url + picture["src"]).headers["Content-Type"] == picture["type"], picture
    assert "maskable" in [one.get("purpose") for one in manifest["icons"]]
    assert [one["url"] for one in manifest["shortcuts"]] == ["/lineup", "/bench", "/due"]
    assert manifest["share_target"]["action"] == "/share"


def test_the_app_goes_over_the_line_packed_and_comes_out_whole(browser: Browser, tmp_path: Path) -> None:
    """What the build packed, a browser unpacks: the same bytes as lie in the folder."""
    subprocess.run([sys.executable, "hatch_build.py"], cwd=ROOT, check=True, capture_output=True)
    folder = ROOT / "server" / "pinchbolt" / "web"
    served = ServedWorkshop(tmp_path / "workshop", folder, "serve").start()
    page = browser.new_page()
    page.goto(served.url)
    files = [one for ending in ("wasm", "bin", "css") for one in sorted(folder.glob(f"assets/*.{ending}"))]
    assert len(files) > 3
    for file in files:
        address = f"/{file.relative_to(folder).as_posix()}"
        told = tell(
            page,
            f"""fetch("{address}").then(async (answer) => [
              answer.headers.get("Content-Encoding"),
              [...new Uint8Array(await crypto.subtle.digest("SHA-256", await answer.arrayBuffer()))],
            ])""",
        )
        assert told[0] in ("br", "gzip"), file
        assert bytes(told[1]) == sha256(file.read_bytes()).digest(), file
    page.close()
    served.stop()


def test_the_manifest_s_pictures_are_the_guide_s() -> None:
    for name, shown in (("bikes", "guide-bikes"), ("calculation", "guide-calculation"), ("line", "walk-line")):
        of_app = (ROOT / "pwa" / "public" / f"shot-{name}.png").read_bytes()
        assert of_app == (ROOT / "docs" / "pictures" / f"{shown}.png").read_bytes(), f"copy {shown}.png to shot-{name}.png"


def test_a_track_shared_without_a_signal_comes_to_a_ride(browser: Browser, season: ServedWorkshop) -> None:
    with hand(browser, season, season.code_for("Juno"), "a phone that is shared with") as new:
        page = new.page
        page.reload()
        tell(page, "navigator.serviceWorker.ready.then(() => null)")
        page.context.set_offline(True)
        share(page, "morning.gpx", TRACK)
        expect(page.get_by_text("10 points")).to_be_visible(timeout=PATIENT)
        page.get_by_label("Which bike was it?").select_option(label="Slate")
        page.get_by_role("button", name="To the ride").tap()
        expect(page.get_by_label("Distance", exact=True)).to_have_value("10", timeout=PATIENT)
        expect(page.get_by_text("10 points")).to_be_visible()
        page.get_by_role("button", name="Record", exact=True).tap()
        expect(page.get_by_text("1 to send")).to_be_visible(timeout=PATIENT)
        # Where it went is kept nowhere.
        assert tell(page, "caches.has('pinchbolt-shared')") is False
        page.context.set_offline(False)


def test_a_file_that_is_no_track_is_said_and_nothing_is_recorded(browser: Browser, season: ServedWorkshop) -> None:
    with hand(browser, season, season.code_for("Bas"), "another phone") as new:
        page = new.page
        page.reload()
        tell(page, "navigator.serviceWorker.ready.then(() => null)")
        share(page, "list.gpx", "<html><body>no</body></html>")
        expect(page.get_by_role("alert")).to_contain_text("list.gpx cannot be read: not a GPX file")
        expect(page.get_by_role("button", name="To the ride")).to_have_count(0)
