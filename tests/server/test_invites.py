"""Letting riders and checkers in: a mechanic makes the code, the rider's phone sees the rider's bikes only."""

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from pinchbolt.workshop import Workshop
from pinchbolt.writer import batch
from tests.server import hands, running
from tests.server.hands import FERN, SLATE, describe

PHONE = "c0000000-0000-4000-8000-00000000000{}"


@pytest.fixture
def house(tmp_path: Path) -> Iterator[tuple[str, dict[str, httpx.Client]]]:
    codes: dict[str, str] = {}
    with Workshop(tmp_path / "data") as workshop:
        for id, name, role in ((hands.JUNO, "Juno", "owner"), (hands.BAS, "Bas", "mechanic"), (hands.IMRE, "Imre", "rider")):
            workshop.add_person(id, name, role)
            codes[role] = workshop.people.invite(id)
        workshop.add_device(hands.BENCH, "Bench tablet", hands.JUNO)
        pen = hands.bench()
        entries = [describe(pen, FERN, "Fern", hands.IMRE), describe(pen, SLATE, "Slate", None)]
        workshop.push(hands.BENCH, batch(hands.BENCH, entries))
    with running.server(tmp_path / "data") as served:
        clients = {
            role: running.pair(served.url, codes[role], PHONE.format(i)) for i, role in enumerate(codes) if role != "rider"
        }
        yield served.url, clients
        for client in clients.values():
            client.close()


def test_a_mechanic_lets_a_rider_in_who_sees_their_bike_only(house: tuple[str, dict[str, httpx.Client]]):
    url, clients = house
    made = clients["mechanic"].post(f"/api/people/{hands.IMRE}/invite")
    assert made.headers["cache-control"] == "no-store"
    rider = running.pair(url, made.json()["code"], PHONE.format(7), "Imre's phone")
    assert rider.get("/api/me").json()["person"]["role"] == "rider"
    assert [b["name"] for b in rider.get("/api/bikes").json()] == ["Fern"]
    rider.close()
    again = running.post(url + "/api/pair", headers=running.PROTOCOL, json={
        "code": made.json()["code"], "device": PHONE.format(8), "name": "another",
    })  # fmt: skip
    assert again.status_code == 422, "a code is good once"


def test_a_mechanic_adds_a_rider_and_nobody_above_themselves(house: tuple[str, dict[str, httpx.Client]]):
    _, clients = house
    added = clients["mechanic"].post("/api/people", json={"name": "Suvi", "role": "rider"})
    assert added.status_code == 201
    assert clients["mechanic"].post(f"/api/people/{added.json()['id']}/invite").status_code == 200
    for role in ("owner", "mechanic", "somebody"):
        refused = clients["mechanic"].post("/api/people", json={"name": "Pell", "role": role})
        assert (refused.status_code, refused.json()["errors"][0]["field"]) == (422, "role")
    assert clients["owner"].post("/api/people", json={"name": "Pell", "role": "mechanic"}).status_code == 201
    for body in (b"", b"[]", b'{"name": "", "role": "rider"}', b'{"name": "x", "role": "rider", "id": "mine"}', b"\xff"):
        assert clients["owner"].post("/api/people", content=body).status_code == 422
