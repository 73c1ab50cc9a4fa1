"""Who may do what: every route and every role by one table, and what each role may write."""

import json
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from pinchbolt.access.rules import ROLES, WRITES, phone_table
from pinchbolt.app import ROUTES
from pinchbolt.entries.bodies import BODIES
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import hands, running
from tests.server.hands import FERN, SLATE, describe, now

WREN = "bike/0e6d0c0e-2c52-5b7e-9a0c-6b2d5e1f3c77"
OTHER_DAY = "event/5d0f1c2e-8a44-4c1e-9d55-0b6a3f6d7e22"

# method, address, what owner, mechanic, checker of all events, rider (Fern is theirs) and nobody get. Fern starts at the
# Three Gaps Day, Slate at another, Wren nowhere.
TABLE = [
    ("GET", "/api/health", 200, 200, 200, 200, 200),
    ("GET", "/api/schema", 200, 200, 200, 200, 200),
    ("GET", "/api/calculations", 200, 200, 200, 200, 200),
    ("GET", "/api/calculations/steerer-cut", 200, 200, 200, 200, 200),
    ("POST", "/api/calculations/steerer-cut", 422, 422, 422, 422, 422),
    ("GET", "/api/me", 200, 200, 200, 200, 401),
    ("POST", "/api/me/key", 422, 422, 422, 422, 401),
    ("GET", "/api/people", 200, 200, 200, 200, 401),
    ("POST", "/api/people", 422, 422, 403, 403, 401),
    ("POST", f"/api/people/{hands.JUNO}/invite", 200, 403, 403, 403, 401),
    ("POST", f"/api/people/{hands.BAS}/invite", 200, 200, 403, 403, 401),
    ("POST", f"/api/people/{hands.ILKA}/invite", 200, 200, 403, 403, 401),
    ("POST", f"/api/people/{hands.IMRE}/invite", 200, 200, 403, 403, 401),
    ("POST", "/api/people/nobody/invite", 404, 404, 403, 403, 401),
    ("GET", "/api/devices", 200, 200, 403, 403, 401),
    ("POST", "/api/devices/nobody/revoke", 404, 404, 403, 403, 401),
    ("POST", f"/api/devices/{hands.BENCH}/revoke", 204, 403, 403, 403, 401),
    ("POST", "/api/login", 422, 422, 422, 422, 422),
    ("POST", "/api/login/passkey/begin", 200, 200, 200, 200, 200),
    ("POST", "/api/login/passkey", 422, 422, 422, 422, 422),
    ("POST", "/api/passkeys/begin", 200, 403, 403, 403, 401),
    ("POST", "/api/passkeys", 422, 403, 403, 403, 401),
    ("GET", f"/api/photos/{'0' * 64}", 404, 404, 404, 404, 401),
    ("PUT", f"/api/photos/{'0' * 64}", 404, 404, 404, 404, 401),
    ("GET", "/api/bikes", 200, 200, 200, 200, 401),
    ("GET", f"/api/bikes/{FERN[5:]}", 200, 200, 200, 200, 401),
    ("GET", f"/api/bikes/{SLATE[5:]}", 200, 200, 200, 404, 401),
    ("GET", f"/api/bikes/{WREN[5:]}", 200, 200, 404, 404, 401),
    ("GET", "/api/bikes/workshop", 404, 404, 404, 404, 401),
    ("GET", "/api/sync/pull", 200, 200, 200, 200, 401),
    ("POST", "/api/sync/push", 422, 422, 422, 422, 401),
    ("POST", "/api/pair", 422, 422, 422, 422, 422),
    ("GET", "/", 200, 200, 200, 200, 200),
    ("GET", "/bikes/anything", 200, 200, 200, 200, 200),
]
# Where a checker let in for the Three Gaps Day alone gets something else than a checker of all events.
OF_ONE_EVENT = {f"/api/bikes/{SLATE[5:]}": 404}
PHONES = {
    "owner": (hands.JUNO, "a0000000-0000-4000-8000-000000000001"),
    "mechanic": (hands.BAS, "a0000000-0000-4000-8000-000000000002"),
    "checker": (hands.ILKA, "a0000000-0000-4000-8000-000000000003"),
    "rider": (hands.IMRE, "a0000000-0000-4000-8000-000000000004"),
}
DAY_CHECKER = ("c1330c1c-7728-58ca-996e-05842018c49e", "a0000000-0000-4000-8000-000000000005")
WHO = [*PHONES, "nobody", "day checker"]


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, httpx.Client]]:
    """A running server with a client for each role, one for nobody, and a checker of one event alone."""
    data: Path = tmp_path_factory.mktemp("house") / "data"
    codes: dict[str, str] = {}
    with Workshop(data) as workshop:
        for role, (person, _) in PHONES.items():
            workshop.add_person(person, role.title(), role)
            codes[role] = workshop.people.invite(person)
        workshop.add_person(hands.ODILE, "Odile", "rider")
        workshop.add_person(DAY_CHECKER[0], "Day checker", "checker")
        codes["day checker"] = workshop.people.invite(DAY_CHECKER[0], event=hands.GAPS_DAY[6:])
        workshop.add_device(hands.BENCH, "Bench tablet", hands.JUNO)
        pen = hands.bench()
        workshop.push(
            hands.BENCH,
            batch(
                hands.BENCH,
                [
                    describe(pen, FERN, "Fern", hands.IMRE),
                    describe(pen, SLATE, "Slate", hands.ODILE),
                    describe(pen, WREN, "Wren", None),
                    pen.write(hands.GAPS_DAY, "start", {"plate": "7", "bike": FERN[5:]}, now()),
                    pen.write(OTHER_DAY, "start", {"plate": "7", "bike": SLATE[5:]}, now()),
                ],
            ),
        )
    with running.server(data) as served:
        phones = {**PHONES, "day checker": DAY_CHECKER}
        clients = {role: running.pair(served.url, codes[role], phone) for role, (_, phone) in phones.items()}
        clients["nobody"] = httpx.Client(base_url=served.url, headers=running.PROTOCOL, timeout=30)
        yield clients
        for client in clients.values():
            client.close()


@pytest.mark.parametrize("role", WHO)
def test_every_route_for_every_role(house: dict[str, httpx.Client], role: str):
    for row in TABLE:
        if role == "day checker" and row[6] != 401:
            continue  # open to all: who asks plays no part, and tries at the door are counted
        answer = house[role].request(row[0], row[1], content=b"{}" if row[0] in ("POST", "PUT") else None)
        assert answer.status_code == due(role, row), (role, row[:2], answer.text)
        assert answer.headers["pinchbolt-protocol"] == "1"


def due(role: str, row: tuple[str, str, int, int, int, int, int]) -> int:
    """The status the table says."""
    if role == "day checker":
        return OF_ONE_EVENT.get(row[1], due("checker", row))
    return row[2:][WHO.index(role)]


def test_every_route_is_in_the_table():
    addresses = [row[1].split("/") for row in TABLE] + [["", "api", "live"]]
    for route in ROUTES:
        for path in route.paths:
            parts = path.split("/")
            assert any(
                len(parts) == len(a) and all(p == q or "{" in p for p, q in zip(parts, a, strict=True)) for a in addresses
            ) or path in ("/", "/{path:path}"), path


def test_the_table_printed():
    """For whoever wants to read it: `pytest -s -k table_printed`."""
    print(f"\n{'':62}" + "".join(f"{one:>12}" for one in WHO))
    for row in TABLE:
        assert len(row) == 7
        print(f"{row[0]:7}{row[1][:54]:55}" + "".join(f"{due(one, row):>12}" for one in WHO))


def test_a_route_that_names_no_act_is_shut():
    assert all(route.opt.get("act") for route in ROUTES)


def test_a_rider_sees_their_own_bike_and_not_the_others(house: dict[str, httpx.Client]):
    assert [b["name"] for b in house["rider"].get("/api/bikes").json()] == ["Fern"]
    assert [b["name"] for b in house["owner"].get("/api/bikes").json()] == ["Fern", "Slate", "Wren"]
    pulled = house["rider"].get("/api/sync/pull").json()["entries"]
    assert {e["entry"]["subject"] for e in pulled} == {FERN}


def test_a_checker_let_in_for_an_event_sees_it_and_its_bikes_and_nothing_else(house: dict[str, httpx.Client]):
    assert [b["name"] for b in house["checker"].get("/api/bikes").json()] == ["Fern", "Slate"]
    mine = house["day checker"]
    assert [b["name"] for b in mine.get("/api/bikes").json()] == ["Fern"]
    pulled = mine.get("/api/sync/pull").json()["entries"]
    assert {e["entry"]["subject"] for e in pulled} == {FERN, hands.GAPS_DAY}
    names = {p["name"] for p in mine.get("/api/people").json()}
    assert names == {"Owner", "Mechanic", "Checker", "Rider", "Day checker"}, "not Odile, who starts elsewhere"
    assert mine.get("/api/me").json()["device"]["event"] == hands.GAPS_DAY[6:]
    owner = house["owner"]
    refused = owner.post(f"/api/people/{hands.IMRE}/invite", json={"event": hands.GAPS_DAY[6:]})
    assert (refused.status_code, refused.json()["errors"][0]["field"]) == (422, "event")
    listed = next(one for one in owner.get("/api/devices").json() if one["id"] == DAY_CHECKER[1])
    assert listed["event"] == hands.GAPS_DAY[6:]


def test_a_checker_changes_plates_of_their_event_and_lets_in_no_bike_they_do_not_see(workshop: Workshop):
    pen = hands.bench()
    entries = [
        describe(pen, FERN, "Fern", hands.IMRE),
        describe(pen, WREN, "Wren", None),
        pen.write(hands.GAPS_DAY, "start", {"plate": "7", "bike": FERN[5:]}, now()),
        pen.write(OTHER_DAY, "start", {"plate": "8", "bike": SLATE[5:]}, now()),
    ]
    workshop.push(hands.BENCH, batch(hands.BENCH, entries))
    workshop.people.pair(workshop.people.invite(hands.ILKA, event=hands.GAPS_DAY[6:]), hands.ILKA_PHONE, "Ilka's phone")

    def writes(kind: str, body: dict[str, object], subject: str) -> tuple[str, list[str]]:
        return write(workshop, hands.ILKA_PHONE, hands.ILKA, kind, body, subject)

    assert writes("start", {"plate": "70", "bike": FERN[5:], "was": "7"}, hands.GAPS_DAY) == ("stored", [])
    assert writes("withdraw", {"plate": "7"}, hands.GAPS_DAY) == ("stored", [])
    assert writes("start", {"plate": "71", "name": "Ada"}, hands.GAPS_DAY) == ("stored", [])
    assert writes("start", {"plate": "72", "bike": WREN[5:]}, hands.GAPS_DAY) == ("refused", ["body.bike"])
    assert writes("start", {"plate": "9"}, OTHER_DAY) == ("refused", ["subject"])
    assert writes("note", {"text": "x"}, SLATE) == ("refused", ["subject"])
    assert writes("describe", {"name": "mine"}, hands.GAPS_DAY) == ("refused", ["kind"])
    ilka = workshop.people.device(hands.ILKA_PHONE)
    assert ilka is not None
    assert not workshop.log.sees(ilka.sight(), WREN)
    assert write(workshop, hands.IMRE_PHONE, hands.IMRE, "start", {"plate": "1"}, hands.GAPS_DAY)[0] == "refused"


def test_a_rider_knows_the_workshop_s_people_and_themselves(house: dict[str, httpx.Client]):
    assert {p["name"] for p in house["rider"].get("/api/people").json()} == {
        "Owner",
        "Mechanic",
        "Checker",
        "Rider",
        "Day checker",
    }
    assert "Odile" in {p["name"] for p in house["mechanic"].get("/api/people").json()}


def test_every_role_and_kind_is_in_the_table():
    assert set(WRITES) == set(ROLES)
    assert all(kinds <= set(BODIES) for kinds in WRITES.values())


def write(workshop: Workshop, device: str, person: str, kind: str, body: dict[str, object], subject: str = FERN):
    receipt = workshop.log.receipt(device)
    pen = Writer(device, person)
    pen.n, pen.prev = receipt.n, receipt.hash
    answer = workshop.push(device, batch(device, [pen.write(subject, kind, body, now())]))["answers"][0]
    return answer["outcome"], [e["field"] for e in answer.get("errors", [])]


@pytest.mark.parametrize(
    ("kind", "body", "outcome", "fields"),
    [
        ("ride", {"km": 60}, "stored", []),
        ("note", {"text": "It creaks."}, "stored", []),
        ("adjust", {"setting": "saddle_height", "unit": "mm", "to": 731}, "stored", []),
        ("check", {"check": "self-check", "version": 1, "answers": []}, "stored", []),
        ("check", {"check": "pre-event", "version": 1, "answers": []}, "refused", ["body.check"]),
        ("check", {"check": "pre-event", "version": 99, "scope": "part", "answers": []}, "refused", ["body.check"]),
        ("check", {"check": "after-fall", "version": 99, "scope": "part", "answers": []}, "refused", ["body.check"]),
        ("check", {"check": "my own", "version": 1, "scope": "whole", "answers": []}, "refused", ["body.scope"]),
        ("check", {"check": "my own", "version": 1, "answers": []}, "refused", ["body.scope"]),
        ("torque", {"joint": "stem", "applied": 5}, "refused", ["kind"]),
        ("describe", {"rider": hands.IMRE}, "refused", ["kind"]),
        ("fault-close", {"fault": hands.IMRE, "done": "fine"}, "refused", ["kind"]),
        ("decide", {"question": "x", "chosen": hands.IMRE, "reason": "x"}, "refused", ["kind"]),
    ],
)
def test_what_a_rider_writes(workshop: Workshop, kind: str, body: dict[str, object], outcome: str, fields: list[str]):
    workshop.push(hands.BENCH, batch(hands.BENCH, [describe(hands.bench(), FERN, "Fern", hands.IMRE)]))
    assert write(workshop, hands.IMRE_PHONE, hands.IMRE, kind, body) == (outcome, fields)


def test_a_rider_cannot_take_somebody_else_s_bike(workshop: Workshop):
    workshop.push(hands.BENCH, batch(hands.BENCH, [describe(hands.bench(), SLATE, "Slate", hands.ODILE)]))
    assert write(workshop, hands.IMRE_PHONE, hands.IMRE, "ride", {"km": 1}, SLATE) == ("refused", ["subject"])
    assert write(workshop, hands.IMRE_PHONE, hands.IMRE, "ride", {"km": 1}, "workshop") == ("refused", ["subject"])


def test_a_fall_is_not_cleared_by_a_checker(workshop: Workshop):
    pen = hands.bench()
    start = pen.write(hands.GAPS_DAY, "start", {"plate": "7", "bike": FERN[5:]}, now())
    workshop.push(hands.BENCH, batch(hands.BENCH, [describe(pen, FERN, "Fern", hands.IMRE), start]))
    good: dict[str, object] = {"check": "pre-event", "version": 1, "answers": []}
    assert write(workshop, hands.ILKA_PHONE, hands.ILKA, "check", good) == ("stored", [])
    fall: dict[str, object] = {"check": "after-fall", "version": 1, "answers": []}
    assert write(workshop, hands.ILKA_PHONE, hands.ILKA, "check", fall) == ("refused", ["body.check"])


def test_a_pairing_code_is_good_once_and_a_token_until_revoked(workshop: Workshop):
    people = workshop.people
    code = people.invite(hands.BAS)
    device, token = people.pair(code.lower(), hands.BAS_PHONE, "Bas's phone")
    assert device.person.name == "Bas"
    assert people.authenticate(token) == device
    with pytest.raises(Exception, match="pairing code"):
        people.pair(code, hands.BAS_PHONE, "Bas's phone")
    _, newer = people.pair(people.invite(hands.BAS), hands.BAS_PHONE, "Bas's phone")
    assert people.authenticate(token) is None
    people.revoke(hands.BAS_PHONE)
    assert people.authenticate(newer) is None


def test_a_code_does_not_outlive_its_time_nor_pair_another_s_device(workshop: Workshop):
    people = workshop.people
    with pytest.raises(Exception, match="pairing code"):
        people.pair(people.invite(hands.BAS, seconds=-1), hands.BAS_PHONE, "x")
    with pytest.raises(Exception, match="nobody else"):
        people.pair(people.invite(hands.BAS), hands.IMRE_PHONE, "x")


def test_the_database_keeps_no_secret_and_is_the_owner_s_alone(workshop: Workshop):
    code = workshop.people.invite(hands.BAS)
    _, token = workshop.people.pair(workshop.people.invite(hands.BAS), hands.BAS_PHONE, "x")
    for file in workshop.data.iterdir():
        assert file.stat().st_mode & 0o077 == 0, file
        content = file.read_bytes()
        assert token.encode() not in content
        assert code.encode() not in content


def test_the_phone_has_the_same_table_of_who_writes_what():
    """Made by `python -m pinchbolt.access.rules > pwa/src/rights.json`."""
    held = Path(__file__).parents[2] / "pwa" / "src" / "rights.json"
    assert json.loads(held.read_text(encoding="utf-8")) == phone_table()
