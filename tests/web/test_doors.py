"""The owner lets people in and shuts phones out; a phone shut out keeps what it has not sent and drops the rest."""

import json
import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, CDPSession, Page, Request, expect

from pinchbolt.cli import main
from pinchbolt.workshop import Workshop
from tests.web.phone import Phone, context, phone, tell
from tests.web.workshop import ServedWorkshop

FERN = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"
SLATE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a12"
PATIENT = 20_000


def note(text: str, subject: str = FERN) -> dict[str, object]:
    return {"subject": subject, "kind": "note", "body": {"text": text}}


def kept(one: Phone) -> list[str]:
    """The notes this phone holds, in the order of writing."""
    rows = tell(one.page, "door.database().then((db) => db.getAll('entries'))")
    entries = sorted((json.loads(row["text"]) for row in rows), key=lambda entry: entry["stamp"])
    return [entry["body"]["text"] for entry in entries if entry["kind"] == "note"]


def test_a_phone_shut_out_keeps_its_unsent_work_and_saves_it_to_a_file(
    browser: Browser, mine: Phone, workshop: ServedWorkshop
) -> None:
    mine.do("record.write", [{"subject": FERN, "kind": "describe", "body": {"name": "Fern"}}, note("the owner's own note")])
    mine.sync()
    with phone(browser, workshop.url) as other:
        who = other.pair(workshop.code_for("Bas", "mechanic"), "Bas's phone")
        other.do("record.write", [note("first, sent"), note("second, sent")])
        assert other.sync()["unsent"] == 0
        assert len(kept(other)) == 3
        other.page.route("**/api/**", lambda route: route.abort())
        other.do("record.write", [note("third, not sent"), note("fourth, not sent")])
        assert other.sync()["unsent"] == 2
        revoked = tell(
            mine.page,
            f"fetch('/api/devices/{who['device']['id']}/revoke', {{method: 'POST', headers: {{'Pinchbolt-Protocol': '1'}}}})"
            ".then((answer) => answer.status)",
        )
        assert revoked == 204
        other.page.unroute("**/api/**")
        told = other.sync()
        assert (told["state"], told["unsent"]) == ("signed-out", 2)
        assert "shut out" in told["said"]
        # The last that was sent stays as the link of the chain; everybody's other entries are gone.
        assert kept(other) == ["second, sent", "third, not sent", "fourth, not sent"]
        assert other.value("people") == []
        saved = [json.loads(line) for line in tell(other.page, "door.queueFile().then((file) => file.text())").splitlines()]
        assert [entry["body"]["text"] for entry in saved] == ["third, not sent", "fourth, not sent"]

        other.page.goto(workshop.url + "/device")
        expect(other.page.get_by_text("This phone was shut out of the workshop")).to_be_visible(timeout=PATIENT)
        # Both ways on stand there: the file, and pairing again.
        expect(other.page.get_by_role("link", name="Pair again").first).to_be_visible()
        # Without a signal too, and of bikes it says nothing, not even by its own check.
        other.page.route("**/api/**", lambda route: route.abort())
        for sheet in ("/", "/due", "/lineup", f"/{FERN}", "/lineup/4be9856d-fbaa-570e-82b6-ca80c4d9f186/plate/7"):
            other.page.goto(workshop.url + sheet)
            expect(other.page.get_by_text("2 entries are not sent and are kept here")).to_be_visible(timeout=PATIENT)
            expect(other.page.get_by_text("This phone was shut out of the workshop")).to_have_count(1)
            expect(other.page.locator("main .ruled, main .mark, .title-main .mark")).to_have_count(0)
        other.page.unroute("**/api/**")
        other.page.goto(workshop.url + "/device")
        with other.page.expect_download() as downloading:
            other.page.get_by_role("button", name="Save as a file").click()
        lines = downloading.value.path().read_text().splitlines()
        assert [json.loads(line)["body"]["text"] for line in lines] == ["third, not sent", "fourth, not sent"]

        other.open()
        other.pair(workshop.code_for("Bas"), "Bas's phone")
        assert other.sync()["unsent"] == 0
        assert tell(other.page, "door.database().then((db) => db.get('facts', 'shutOut'))") is False
        assert kept(other) == ["the owner's own note", "first, sent", "second, sent", "third, not sent", "fourth, not sent"]
    assert workshop.broken() == []


@pytest.mark.parametrize("fetched_again", [True, False])
def test_a_phone_paired_again_goes_on_after_its_server_went_back_to_a_backup(
    browser: Browser, mine: Phone, workshop: ServedWorkshop, tmp_path: Path, fetched_again: bool
) -> None:
    """Shut out, the phone let its sent entries go; what the server then loses too is lost, and nothing is stuck."""
    with phone(browser, workshop.url) as other:
        who = other.pair(workshop.code_for("Bas", "mechanic"), "Bas's phone")
        other.do("record.write", note("first"))
        other.sync()
        with Workshop(workshop.data) as opened:
            opened.log.backup(tmp_path / "backup")
        other.do("record.write", [note("second"), note("third")])
        assert other.sync()["unsent"] == 0
        with Workshop(workshop.data) as opened:
            opened.people.revoke(who["device"]["id"])
        assert other.sync()["state"] == "signed-out"
        assert kept(other) == ["third"]
        if fetched_again:
            other.pair(workshop.code_for("Bas"), "Bas's phone")
            assert other.sync()["state"] == "idle"
            assert kept(other) == ["first", "second", "third"]
        other.do("record.write", note("fourth"))
        workshop.stop()
        done = CliRunner().invoke(main, ["restore", str(tmp_path / "backup"), "--data", str(workshop.data)])
        assert done.exit_code == 0, done.output
        workshop.start()
        other.pair(workshop.code_for("Bas"), "Bas's phone")
        told = other.sync()
        assert (told["state"], told["unsent"], told["refused"]) == ("idle", 0, []), told["said"]
        other.do("record.write", note("fifth"))
        told = other.sync()
        assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
        stored = ["first", *(["second"] if fetched_again else []), "third", "fourth", "fifth"]
        assert sorted(json.loads(raw)["body"]["text"] for raw in workshop.held()) == sorted(stored)
        assert kept(other) == stored
    assert workshop.broken() == []


def test_the_owner_lets_a_rider_in_and_shuts_the_phone_out_from_the_app(
    browser: Browser, mine: Phone, workshop: ServedWorkshop
) -> None:
    bikes = [{"subject": one, "kind": "describe", "body": {"name": name}} for one, name in ((FERN, "Fern"), (SLATE, "Slate"))]
    mine.do("record.write", bikes)
    mine.sync()
    page = mine.page
    page.goto(workshop.url + "/device")
    page.get_by_role("button", name="Let somebody in").click(timeout=PATIENT)
    page.get_by_label("Name", exact=True).fill("Imre")
    page.get_by_label("Fern").check(timeout=PATIENT)
    page.get_by_role("radio", name="1 hour").check()
    page.get_by_role("button", name="Make the code").click()
    picture = page.get_by_alt_text("QR code of the pairing link")
    expect(picture).to_be_visible(timeout=PATIENT)
    code = page.locator(".team-code .figure").inner_text().replace(" ", "")
    page.get_by_role("button", name="Done").click()

    with phone(browser, workshop.url) as rider:
        assert rider.pair(code, "Imre's phone")["person"]["role"] == "rider"
        mine_again = Phone(page, workshop.url).open()
        mine_again.sync()
        rider.sync()
        rows = tell(rider.page, "door.database().then((db) => db.getAll('entries'))")
        assert {row["subject"] for row in rows} == {FERN}
        rider.page.route("**/api/sync/push", lambda route: route.abort())
        rider.do("record.write", [note("it creaks")])
        rider.sync()
        tell(rider.page, "fetch('/api/me', {headers: {'Pinchbolt-Unsent': '1'}}).then((answer) => answer.status)")

        page.goto(workshop.url + "/device")
        expect(page.get_by_text(re.compile("Imre's phone.*1 entry not sent"))).to_be_visible(timeout=PATIENT)
        page.get_by_role("button", name="Phone lost").click()
        page.get_by_role("button", name="Yes, shut it out").click()
        expect(page.get_by_text("It last said that 1 entry was not sent")).to_be_visible(timeout=PATIENT)
        rider.page.unroute("**/api/sync/push")
        told = rider.sync()
        assert (told["state"], told["unsent"]) == ("signed-out", 1)


def test_an_owner_comes_in_by_passphrase(browser: Browser, workshop: ServedWorkshop) -> None:
    phrase = "seven greasy sprockets, none alike"
    with Workshop(workshop.data) as opened:
        owner = next(one for one in opened.people.everyone() if one.role == "owner")
        opened.passphrases.set(owner.id, phrase)
    made = context(browser)
    try:
        page = made.new_page()
        page.goto(workshop.url + "/pair")
        page.get_by_role("button", name="I am the owner and have a passphrase").click(timeout=PATIENT)
        page.get_by_label("This phone is called").fill("a new laptop")
        page.get_by_label("Owner's name").fill(owner.name)
        for typed in ("not the passphrase", phrase):
            page.get_by_label("Passphrase").fill(typed)
            page.get_by_role("button", name="Pair", exact=True).click()
            if typed != phrase:
                expect(page.get_by_role("alert")).to_contain_text("not, or no longer, good", timeout=PATIENT)
        expect(page).to_have_url(workshop.url + "/", timeout=PATIENT)
    finally:
        made.close()


def authenticator(page: Page) -> tuple[CDPSession, str]:
    """Chromium's virtual authenticator (DevTools Protocol, domain WebAuthn), whose person is always there and verified."""
    session = page.context.new_cdp_session(page)
    session.send("WebAuthn.enable")
    options = {
        "protocol": "ctap2",
        "transport": "internal",
        "hasResidentKey": True,
        "hasUserVerification": True,
        "isUserVerified": True,
        "automaticPresenceSimulation": True,
    }
    made = session.send("WebAuthn.addVirtualAuthenticator", {"options": options})
    return session, str(made["authenticatorId"])


def test_an_owner_comes_in_by_passkey(browser: Browser, workshop: ServedWorkshop) -> None:
    # A passkey is bound to a name; figures have none.
    url = workshop.url.replace("127.0.0.1", "localhost")
    first, second = context(browser), context(browser)
    try:
        page = first.new_page()
        keys, id = authenticator(page)
        page.goto(f"{url}/pair#{workshop.code}")
        page.get_by_label("This phone is called").fill("the owner's phone")
        page.get_by_role("button", name="Pair", exact=True).click()
        expect(page).to_have_url(url + "/", timeout=PATIENT)
        page.goto(url + "/device")
        page.get_by_role("button", name="Make a passkey").click(timeout=PATIENT)
        expect(page.get_by_text("The passkey is kept")).to_be_visible(timeout=PATIENT)
        (credential,) = keys.send("WebAuthn.getCredentials", {"authenticatorId": id})["credentials"]

        page = second.new_page()
        keys, id = authenticator(page)
        page.goto(url + "/pair")
        page.get_by_label("This phone is called").fill("a new laptop")
        keys.send("WebAuthn.setUserVerified", {"authenticatorId": id, "isUserVerified": False})
        keys.send("WebAuthn.addCredential", {"authenticatorId": id, "credential": credential})
        page.get_by_role("button", name="I am the owner and have a passkey").click()
        expect(page.get_by_role("alert")).to_contain_text("No passkey was given", timeout=PATIENT)
        keys.send("WebAuthn.setUserVerified", {"authenticatorId": id, "isUserVerified": True})
        page.get_by_role("button", name="I am the owner and have a passkey").click()
        expect(page).to_have_url(url + "/", timeout=PATIENT)
        me = tell(page, "fetch('/api/me').then((answer) => answer.json())")
        assert (me["person"]["role"], me["device"]["name"]) == ("owner", "a new laptop")
    finally:
        first.close()
        second.close()


def test_nothing_is_ever_asked_of_a_third_party(browser: Browser, season: ServedWorkshop) -> None:
    """Every screen's requests, service worker's too, go to the workshop's own server."""
    asked: list[str] = []
    made = context(browser, workers=True)
    try:
        made.on("request", lambda request: asked.append(_url(request)))
        page: Page = made.new_page()
        page.goto(f"{season.url}/pair#{season.code_for('Juno')}")
        page.get_by_label("This phone is called").fill("a phone that looks around", timeout=PATIENT)
        page.get_by_role("button", name="Pair").click()
        page.locator("a[href^='/bike']").first.wait_for(timeout=PATIENT)
        bike = page.locator("a[href^='/bike']").first.get_attribute("href") or "/"
        for place in ("/", bike, "/lineup", "/bench", "/due", "/device", "/pair"):
            page.goto(season.url + place)
            page.wait_for_timeout(400)
    finally:
        made.close()
    own = urlsplit(season.url).netloc
    assert len([one for one in asked if urlsplit(one).netloc == own]) > 20
    assert [
        one for one in asked if urlsplit(one).scheme in ("http", "https", "ws", "wss") and urlsplit(one).netloc != own
    ] == []


def _url(request: Request) -> str:
    return request.url
