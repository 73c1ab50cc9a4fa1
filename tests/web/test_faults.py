"""Faults of the world around the queue: a server gone back in time, another version, a browser without its helpers."""

import json
import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Route, expect

from pinchbolt.store.sqlite.restoring import restore
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer, batch
from tests.server.running import PROTOCOL
from tests.server.running import pair as pair_client
from tests.server.running import push as push_as
from tests.sync.phones import workday
from tests.web.phone import Phone, comes_to, context, tell
from tests.web.workshop import ServedWorkshop

PUSH = "**/api/sync/push"
PULL = "**/api/sync/pull**"
BIKE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"
# Resolves when the service worker is in charge of the page.
CONTROLLED = (
    "new Promise((done) => navigator.serviceWorker.controller ? done(null)"
    " : navigator.serviceWorker.addEventListener('controllerchange', () => done(null)))"
)
OTHER_DEVICE = "0b9e3c1a-1111-4222-8333-944445555666"


def note(text: str) -> dict[str, Any]:
    return {"subject": BIKE, "kind": "note", "body": {"text": text}}


def texts(workshop: ServedWorkshop) -> list[str]:
    return [json.loads(raw)["body"].get("text") for raw in workshop.held()]


def test_after_a_restore_the_phone_notices_though_the_new_log_is_already_longer(
    mine: Phone, workshop: ServedWorkshop, tmp_path: Path
) -> None:
    """docs/record.md, "Going back to a backup": the cursor alone would not tell."""
    mine.do("record.write", note("one"))
    mine.sync()
    with Workshop(workshop.data) as opened:
        opened.log.backup(tmp_path / "backup")
    mine.do("record.write", [note("two"), note("three")])
    assert mine.sync()["unsent"] == 0
    workshop.stop()
    restore(tmp_path / "backup", workshop.data / DATABASE)
    workshop.start()
    # Somebody else fills the new log beyond this phone's cursor before it comes by.
    client = pair_client(workshop.url, workshop.code_for("Second", "mechanic"), OTHER_DEVICE)
    pen = Writer(OTHER_DEVICE, client.get("/api/me").json()["person"]["id"])
    push_as(client, batch(OTHER_DEVICE, [pen.write(BIKE, "note", {"text": f"new {i}"}, workday()) for i in range(9)]))
    client.close()
    told = mine.sync()
    assert (told["state"], told["unsent"], told["refused"]) == ("idle", 0, [])
    assert sorted(texts(workshop)) == sorted(["one", "two", "three", *(f"new {i}" for i in range(9))])
    assert len(mine.do("record.entries", BIKE)) == 12
    assert workshop.broken() == []


def test_the_phone_signs_its_chain_and_the_browser_keeps_the_key(mine: Phone, workshop: ServedWorkshop) -> None:
    written = mine.do("record.write", [note("one"), note("two")])
    assert mine.sync()["unsent"] == 0
    with Workshop(workshop.data) as opened:
        keys, heads = opened.keys.everything()
        assert [(h.device, h.head.n) for h in heads] == [(written[0]["device"], 2)]
        assert [(k.device, k.after_n) for k in keys] == [(written[0]["device"], 0)]
        assert list(opened.verify()) == []
    kept = "door.database().then((db) => db.get('facts', 'key'))"
    assert tell(mine.page, f"{kept}.then((key) => key.pair.privateKey.extractable)") is False
    with pytest.raises(AssertionError, match=r"not extractable|InvalidAccessError"):
        tell(mine.page, f"{kept}.then((key) => crypto.subtle.exportKey('jwk', key.pair.privateKey))")


def test_a_server_that_lost_the_key_is_told_it_again(mine: Phone, workshop: ServedWorkshop) -> None:
    mine.do("record.write", note("one"))
    mine.sync()
    conn = sqlite3.connect(workshop.data / DATABASE)
    conn.execute("DELETE FROM heads")
    conn.execute("DELETE FROM keys")
    conn.commit()
    conn.close()
    mine.do("record.write", note("two"))
    assert mine.sync()["unsent"] == 0
    # Opened the next time, it makes the key known again.
    mine.open()
    mine.do("record.write", note("three"))
    assert mine.sync()["unsent"] == 0
    with Workshop(workshop.data) as opened:
        assert [h.head.n for h in opened.keys.everything()[1]] == [3]


def test_a_server_a_version_older_knows_no_keys_and_no_epoch(mine: Phone, workshop: ServedWorkshop) -> None:
    """Neither what this version says more, nor what it hears less, stops the queue."""

    def older(route: Route) -> None:
        if route.request.method == "POST":
            assert "head" not in json.loads(route.request.post_data or "{}")
        reply = route.fetch()
        told = reply.json()
        told.pop("epoch")
        route.fulfill(response=reply, body=json.dumps(told, ensure_ascii=False, separators=(",", ":")))

    def unknown(route: Route) -> None:
        body = json.dumps({"title": "Not found", "status": 404, "detail": "There is nothing at this address.", "errors": []})
        route.fulfill(status=404, headers=PROTOCOL, content_type="application/problem+json", body=body)

    tell(mine.page, "door.database().then((db) => Promise.all([db.delete('facts', 'key'), db.delete('facts', 'pulled')]))")
    mine.page.route("**/api/me/key", unknown)
    mine.page.route(PUSH, older)
    mine.page.route(PULL, older)
    mine.open()
    mine.do("record.write", note("to an older server"))
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    assert texts(workshop) == ["to an older server"]


def test_an_app_of_another_protocol_is_told_to_be_brought_up_to_date(mine: Phone, workshop: ServedWorkshop) -> None:
    def from_the_future(route: Route) -> None:
        route.continue_(headers={**route.request.headers, "pinchbolt-protocol": "2"})

    written = mine.do("record.write", note("by a later app"))
    mine.page.route(PUSH, from_the_future)
    told = mine.sync()
    assert told["unsent"] == 1
    assert "version" in told["said"]
    assert mine.waiting() == written
    mine.page.unroute(PUSH)
    assert mine.sync()["unsent"] == 0


def test_a_server_of_a_later_protocol_makes_the_app_ask_for_its_update(mine: Phone) -> None:
    written = mine.do("record.write", note("kept"))

    def later(route: Route) -> None:
        route.fulfill(status=200, headers={"Pinchbolt-Protocol": "2"}, content_type="application/json", body='{"answers": 1}')

    mine.page.route(PUSH, later)
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("trouble", 1)
    assert "newer version" in told["said"]
    assert mine.waiting() == written


def test_a_refused_entry_is_offered_again_when_the_phone_is_opened(mine: Phone, workshop: ServedWorkshop) -> None:
    """What the server of the day does not know, the one of tomorrow does; here the refusal is taken back by hand."""
    bad = {"subject": BIKE, "kind": "weigh", "body": {"mass": "light"}}
    mine.do("record.write", [note("before"), bad, note("after")])
    assert [one["entry"]["kind"] for one in mine.sync()["refused"]] == ["weigh"]
    sent: list[int] = []

    def counted(route: Route) -> None:
        sent.extend(entry["n"] for entry in json.loads(route.request.post_data or "{}")["entries"])
        route.continue_()

    mine.page.route(PUSH, counted)
    mine.open()
    told = mine.sync()
    assert sent == [2]
    assert (told["unsent"], len(told["refused"])) == (0, 1)
    assert workshop.broken() == []


def test_without_background_sync_the_queue_goes_out_when_the_page_wakes(browser: Browser, workshop: ServedWorkshop) -> None:
    made = context(browser)
    made.add_init_script("delete globalThis.SyncManager; delete ServiceWorkerRegistration.prototype.sync;")
    page = Phone(made.new_page(), workshop.url).open()
    page.pair(workshop.code)
    page.do("startSync")
    page.sync()
    made.set_offline(True)
    page.do("record.write", note("written in a tunnel"))
    page.page.wait_for_timeout(300)
    assert page.value("syncState")["unsent"] == 1
    made.set_offline(False)
    comes_to(page.page, "door.syncState.value.unsent", 0)
    assert texts(workshop) == ["written in a tunnel"]
    made.close()


AWAY = "new Promise((d) => { const r = indexedDB.deleteDatabase('pinchbolt'); r.onsuccess = r.onblocked = () => d(1); })"

FIRST_SHAPE = """
new Promise((done, failed) => {
  const opening = indexedDB.open("pinchbolt", 1);
  opening.onupgradeneeded = () => {
    const db = opening.result;
    const entries = db.createObjectStore("entries", { keyPath: "id" });
    entries.createIndex("subject", "subject");
    entries.createIndex("waiting", "waiting");
    entries.createIndex("own", ["device", "n"]);
    db.createObjectStore("refused", { keyPath: "id" });
    db.createObjectStore("facts");
    db.createObjectStore("keep");
  };
  opening.onerror = () => failed(opening.error);
  opening.onsuccess = () => {
    const db = opening.result;
    const { rows, facts } = KEPT;
    const tx = db.transaction(["entries", "facts"], "readwrite");
    for (const row of rows) tx.objectStore("entries").put(row);
    for (const [name, value] of Object.entries(facts)) tx.objectStore("facts").put(value, name);
    tx.oncomplete = () => { db.close(); done(rows.length); };
  };
})
"""


def test_a_queue_in_the_first_shape_of_the_database_is_carried_on(mine: Phone, workshop: ServedWorkshop) -> None:
    """The shape as it was released first, written by hand here so that no later change of the app can bend it."""
    written = mine.do("record.write", [note("from before the update"), note("and another")])
    facts = ("device", "identity", "people", "pen", "pulled")
    read = f"Promise.all({json.dumps(facts)}.map((name) => db.get('facts', name)))"
    rows, values = tell(mine.page, f"door.database().then((db) => Promise.all([db.getAll('entries'), {read}]))")
    kept = {"rows": rows, "facts": {n: v for n, v in zip(facts, values, strict=True) if v is not None}}
    mine.page.goto(workshop.url + "/manifest.webmanifest")
    tell(mine.page, AWAY)
    assert tell(mine.page, FIRST_SHAPE.replace("KEPT", json.dumps(kept))) == 2
    mine.open()
    assert mine.waiting() == written
    told = mine.sync()
    assert (told["state"], told["unsent"]) == ("idle", 0), told["said"]
    assert texts(workshop) == ["from before the update", "and another"]


def test_a_first_fetch_broken_off_goes_on_where_it_was(mine: Phone, workshop: ServedWorkshop) -> None:
    client = pair_client(workshop.url, workshop.code_for("Second", "mechanic"), OTHER_DEVICE)
    pen = Writer(OTHER_DEVICE, client.get("/api/me").json()["person"]["id"])
    many = [pen.write(BIKE, "note", {"text": f"page after page {i}"}, workday()) for i in range(1300)]
    for at in range(0, len(many), 400):
        push_as(client, batch(OTHER_DEVICE, many[at : at + 400]))
    client.close()
    asked: list[int] = []

    def one_page_an_hour(route: Route) -> None:
        asked.append(int(route.request.url.split("after=")[1].split("&")[0]))
        if len(asked) % 2 == 0:
            route.abort("connectionreset")
        else:
            route.continue_()

    mine.page.route(PULL, one_page_an_hour)
    told = mine.sync()
    assert told["state"] == "offline"
    # What came is there to be read.
    assert len(mine.do("record.entries", BIKE)) == 250
    while mine.sync()["state"] != "idle":
        assert len(asked) < 12
    assert len(mine.do("record.entries", BIKE)) == 1300
    # No page that was saved is asked for again.
    assert asked == sorted(asked)
    assert len([after for after in asked if after == 0]) == 1


def test_a_full_phone_says_so_and_loses_nothing_that_waits(browser: Browser, workshop: ServedWorkshop) -> None:
    made = context(browser)
    page = made.new_page()
    session = made.new_cdp_session(page)
    # Before the first write: the browser remembers for a while how much room it saw.
    session.send("Storage.overrideQuotaForOrigin", {"origin": workshop.url, "quotaSize": 2_000_000})
    full = Phone(page, workshop.url).open()
    full.pair(workshop.code)
    full.sync()
    written = full.do("record.write", note("written while there was room"))
    with pytest.raises(AssertionError, match="Quota"):
        full.do("record.write", [note("x" * 7_900)] * 400)
    assert full.waiting() == written
    assert full.sync()["unsent"] == 0
    session.send("Storage.overrideQuotaForOrigin", {"origin": workshop.url})
    # The entries that could not be saved took no number: the chain has no gap.
    more = full.do("record.write", [note("y" * 7_900)] * 400)
    assert [more[0]["n"], more[-1]["n"]] == [2, 401]
    assert full.sync()["unsent"] == 0
    assert len(workshop.held()) == 401
    assert workshop.broken() == []
    made.close()


def test_a_new_version_is_offered_and_never_taken_under_the_hands(
    browser: Browser, web: Path, workshop: ServedWorkshop, tmp_path: Path
) -> None:
    """Two builds at one address: the second differs in its service worker, as any new build does."""
    workshop.stop()
    workshop.web = tmp_path / "web"
    shutil.copytree(web, workshop.web)
    workshop.start()
    made = context(browser, workers=True)
    page = made.new_page()
    page.goto(workshop.url + "/")
    tell(page, "navigator.serviceWorker.ready.then(() => null)")
    tell(page, CONTROLLED)
    tell(page, "void (globalThis.untouched = true)")
    worker = workshop.web / "sw.js"
    worker.write_text(worker.read_text(encoding="utf-8") + "\n// the next build\n", encoding="utf-8")
    tell(page, "navigator.serviceWorker.ready.then((r) => r.update()).then(() => null)")
    waits = "navigator.serviceWorker.ready.then((r) => r.waiting !== null)"
    # The new version is there and waits.
    comes_to(page, waits, True)
    assert tell(page, "globalThis.untouched") is True
    made.close()


STORAGE = """
globalThis.persistAsked = 0;
StorageManager.prototype.persisted = () => Promise.resolve(false);
StorageManager.prototype.persist = () => { globalThis.persistAsked += 1; return Promise.resolve(false); };
StorageManager.prototype.estimate = () => Promise.resolve({ usage: 850, quota: 1000 });
"""


def test_the_browser_is_asked_to_keep_what_is_unsent_and_the_person_told_early(
    browser: Browser, workshop: ServedWorkshop
) -> None:
    made = context(browser)
    made.add_init_script(STORAGE)
    door = Phone(made.new_page(), workshop.url).open()
    door.pair(workshop.code)
    door.sync()
    app = made.new_page()
    app.goto(workshop.url + "/device")
    expect(app.get_by_role("button", name="Send now")).to_be_visible()
    # With nothing of the person's own at stake nothing is asked.
    assert tell(app, "persistAsked") == 0
    made.route(PUSH, lambda route: route.abort("connectionreset"))
    door.do("record.write", note("kept nowhere but here"))
    expect(app.get_by_text("The browser may clear what is not sent")).to_be_visible()
    expect(app.get_by_text("running out of room")).to_be_visible()
    assert tell(app, "persistAsked") == 1
    expect(app.get_by_role("button", name="Save as a file")).to_be_visible()
    made.close()
