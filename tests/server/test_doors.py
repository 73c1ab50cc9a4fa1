"""The owner's work: devices seen and shut out, invitations with a time, the passphrase, forgetting and taking out a person."""

import json
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from argon2 import PasswordHasher, extract_parameters
from argon2.exceptions import VerifyMismatchError
from click.testing import CliRunner

from pinchbolt.access import privacy
from pinchbolt.access.passphrases import nobodys
from pinchbolt.cli import main
from pinchbolt.kernel.errors import InputError
from pinchbolt.store import Sight
from pinchbolt.workshop import Workshop
from pinchbolt.writer import batch
from tests.server import hands, running
from tests.server.hands import FERN, describe

PHRASE = "seven greasy sprockets, none alike"
LAPTOP = "d0000000-0000-4000-8000-000000000001"
NEW_PHONE = "d0000000-0000-4000-8000-000000000002"


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, httpx.Client, httpx.Client]]:
    """A running server, the owner's client and Imre's phone."""
    data: Path = tmp_path_factory.mktemp("doors") / "data"
    with Workshop(data) as workshop:
        for id, name, role in ((hands.JUNO, "Juno", "owner"), (hands.IMRE, "Imre", "rider"), (hands.BAS, "Bas", "mechanic")):
            workshop.add_person(id, name, role)
        workshop.passphrases.set(hands.JUNO, PHRASE)
        owner = workshop.people.let_in(hands.JUNO, hands.BENCH, "Bench tablet")[1]
        rider = workshop.people.let_in(hands.IMRE, hands.IMRE_PHONE, "Imre's phone")[1]
    with running.server(data) as served:
        made = [
            httpx.Client(base_url=served.url, headers={**running.PROTOCOL, "Cookie": f"pinchbolt={token}"}, timeout=30)
            for token in (owner, rider)
        ]
        yield served.url, made[0], made[1]
        for client in made:
            client.close()


def shown(owner: httpx.Client, device: str) -> dict[str, object]:
    return next(one for one in owner.get("/api/devices").json() if one["id"] == device)


def test_a_device_is_listed_with_what_it_last_said_waits_on_it(house: tuple[str, httpx.Client, httpx.Client]):
    _, owner, rider = house
    rider.get("/api/sync/pull", headers={"Pinchbolt-Unsent": "7"})
    listed = shown(owner, hands.IMRE_PHONE)
    assert (listed["unsent"], listed["state"], listed["name"]) == (7, "paired", "Imre's phone")
    assert abs(float(str(listed["seen_at"])) - time.time()) < 60
    for nonsense in ("-1", "x", "1e3", "99999999999", ""):
        assert rider.get("/api/me", headers={"Pinchbolt-Unsent": nonsense}).status_code == 200
    assert shown(owner, hands.IMRE_PHONE)["unsent"] == 7


def test_an_invitation_brings_a_link_and_a_code_to_scan(house: tuple[str, httpx.Client, httpx.Client]):
    url, owner, _ = house
    made = owner.post(f"/api/people/{hands.IMRE}/invite", json={"minutes": 60, "days": 3}).json()
    assert made["seconds"] == 3600
    assert made["link"] == f"{url}/pair#{made['code']}"
    assert made["qr"].startswith("data:image/svg+xml")
    paired = running.pair(url, made["code"], NEW_PHONE)
    until = shown(owner, NEW_PHONE)["until"]
    assert abs(float(str(until)) - time.time() - 3 * 86400) < 60
    paired.close()
    for wrong in ({"minutes": 0}, {"minutes": 20000}, {"days": 0}, {"days": 401}, {"bikes": []}):
        assert owner.post(f"/api/people/{hands.IMRE}/invite", json=wrong).status_code == 422, wrong


def test_a_phone_shut_out_learns_it_with_its_next_request_and_not_before_it_pairs_again(
    house: tuple[str, httpx.Client, httpx.Client],
):
    url, owner, rider = house
    assert rider.get("/api/me").status_code == 200
    assert owner.post(f"/api/devices/{hands.IMRE_PHONE}/revoke").status_code == 204
    for address in ("/api/me", "/api/sync/pull", "/api/bikes"):
        answer = rider.get(address)
        assert (answer.status_code, answer.headers["pinchbolt-revoked"]) == (401, "yes"), address
    assert "pinchbolt-revoked" not in running.get(url + "/api/me", headers={"Cookie": "pinchbolt=nonsense"}).headers
    assert shown(owner, hands.IMRE_PHONE)["state"] == "revoked"
    code = owner.post(f"/api/people/{hands.IMRE}/invite").json()["code"]
    again = running.pair(url, code, hands.IMRE_PHONE)
    assert again.get("/api/me").status_code == 200
    again.close()


def test_an_owner_comes_in_by_passphrase_and_nobody_else(house: tuple[str, httpx.Client, httpx.Client]):
    url, _, _ = house
    asked = {"person": "Juno", "passphrase": PHRASE, "device": LAPTOP, "name": "A laptop"}
    with httpx.Client(base_url=url, headers=running.PROTOCOL, timeout=30) as laptop:
        assert laptop.post("/api/login", json={**asked, "passphrase": PHRASE + "!"}).status_code == 403
        assert laptop.post("/api/login", json={**asked, "person": "Bas"}).status_code == 403
        assert laptop.post("/api/login", json=asked).status_code == 200
        assert laptop.get("/api/me").json()["person"] == {"id": hands.JUNO, "name": "Juno", "role": "owner"}
        answers = [laptop.post("/api/login", json={**asked, "passphrase": f"guess number {i}"}) for i in range(4)]
        assert answers[-1].status_code == 429
        assert int(answers[-1].headers["retry-after"]) > 0
        assert all("guess" not in answer.text for answer in answers)


def test_a_passphrase_is_long_and_an_owner_s_and_kept_as_argon2id_only(workshop: Workshop):
    for person, phrase, field in ((hands.JUNO, "too short", "passphrase"), (hands.BAS, PHRASE, "person")):
        with pytest.raises(InputError) as refused:
            workshop.passphrases.set(person, phrase)
        assert [p["field"] for p in refused.value.problems] == [field]
    workshop.passphrases.set(hands.JUNO, PHRASE)
    content = b"".join(file.read_bytes() for file in workshop.data.iterdir() if file.is_file())
    assert PHRASE.encode() not in content
    assert b"$argon2id$" in content
    assert workshop.passphrases.owner_of("Juno", PHRASE) == hands.JUNO
    assert workshop.passphrases.clear(hands.JUNO)
    assert workshop.passphrases.owner_of("Juno", PHRASE) is None


def test_where_there_is_no_passphrase_as_much_work_is_done():
    hasher = PasswordHasher()
    nobody = nobodys(hasher)
    assert extract_parameters(nobody) == extract_parameters(hasher.hash(PHRASE))
    # Worked out to the end and found unlike: a hash that cannot be read would be refused at once, as InvalidHashError.
    with pytest.raises(VerifyMismatchError):
        hasher.verify(nobody, PHRASE)


def test_access_with_an_end_ends(workshop: Workshop):
    people = workshop.people
    _, token = people.pair(people.invite(hands.BAS, until=int(time.time()) - 1), hands.BAS_PHONE, "x")
    assert people.authenticate(token) is None
    _, token = people.pair(people.invite(hands.BAS), hands.BAS_PHONE, "x")
    assert people.authenticate(token) is not None, "paired anew without an end"


def test_sessions_end_when_idle_and_for_good(workshop: Workshop, monkeypatch: pytest.MonkeyPatch):
    people = workshop.people
    _, token = people.pair(people.invite(hands.BAS), hands.BAS_PHONE, "x")
    began = time.time()
    day = 86400
    for days, lets_in in ((199, True), (398, True), (401, False)):
        monkeypatch.setattr(time, "time", lambda days=days: began + days * day)
        assert (people.authenticate(token) is not None) == lets_in, days
    monkeypatch.setattr(time, "time", lambda: began)
    _, token = people.pair(people.invite(hands.BAS), hands.BAS_PHONE, "x")
    monkeypatch.setattr(time, "time", lambda: began + 201 * day)
    assert people.authenticate(token) is None, "not used for 200 days"


def with_a_note_by(workshop: Workshop) -> None:
    workshop.push(hands.BENCH, batch(hands.BENCH, [describe(hands.bench(), FERN, "Fern", hands.IMRE)]))


def test_a_forgotten_person_s_name_is_gone_from_the_files_and_the_record_stays_whole(workshop: Workshop):
    workshop.people.add_person("Ymkje Quillfeather", "rider", hands.IMRE)
    workshop.people.add_device(hands.IMRE_PHONE, "Quillfeather's phone", hands.IMRE)
    with_a_note_by(workshop)
    _, token = workshop.people.pair(workshop.people.invite(hands.IMRE), hands.IMRE_PHONE, "Quillfeather's phone")
    done = CliRunner().invoke(main, ["forget", hands.IMRE, "--yes", "--data", str(workshop.data)])
    assert done.exit_code == 0, done.output
    assert workshop.people.authenticate(token) is None
    person = workshop.people.person(hands.IMRE)
    assert person is not None
    assert (person.name, person.id) == (privacy.FORGOTTEN, hands.IMRE)
    for file in workshop.data.rglob("*"):
        if file.is_file():
            assert b"Quillfeather" not in file.read_bytes(), file
    assert list(workshop.log.verify()) == []
    assert workshop.bikes(Sight(None))[0]["rider"] == hands.IMRE


def test_the_last_owner_is_not_forgotten(workshop: Workshop):
    with pytest.raises(InputError, match="last owner"):
        privacy.forget(workshop.database, hands.JUNO)


def test_what_is_held_about_a_person_can_be_taken_out(workshop: Workshop):
    with_a_note_by(workshop)
    done = CliRunner().invoke(main, ["export-person", "Imre", "--data", str(workshop.data)])
    told = json.loads(done.output)
    assert told["person"]["name"] == "Imre"
    assert [d["name"] for d in told["devices"]] == ["Imre's phone"]
    assert [e["entry"]["subject"] for e in told["entries"]] == [FERN]
    assert "token" not in done.output
    other = CliRunner().invoke(main, ["export-person", "Odile", "--data", str(workshop.data)])
    assert json.loads(other.output)["entries"] == []


def test_names_nobody_heard_of_for_long_go_by_themselves(workshop: Workshop):
    with_a_note_by(workshop)
    in_a_year = time.time() + 365 * 86400
    assert privacy.stale(workshop.database, 0, in_a_year) == [], "nothing goes unless a time is set"
    assert privacy.stale(workshop.database, 400, in_a_year) == []
    assert privacy.forget_stale(workshop.database, 300, in_a_year) == 3
    roles = {p.role for p in workshop.people.everyone() if p.name != privacy.FORGOTTEN}
    assert roles == {"owner", "mechanic"}
