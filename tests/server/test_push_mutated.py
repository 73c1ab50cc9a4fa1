"""Push, given real batches made wrong: every one answered as ours, none with our own mistake, and the record whole after."""

import os
import uuid
from collections import Counter
from pathlib import Path

import httpx

from pinchbolt.workshop import Workshop
from tests.server import hands, mutating, running

COUNT = int(os.environ.get("MUTATED", "2500"))
SEED = 8
# So that no single device is told that it sends too often.
PHONES = 16


def test_mutated_batches(tmp_path: Path, record_property):  # type: ignore[no-untyped-def]
    data = tmp_path / "data"
    tokens: dict[str, str] = {}
    with Workshop(data) as workshop:
        workshop.add_person(hands.JUNO, "Juno", "owner")
        workshop.add_person(hands.IMRE, "Imre", "rider")
        for i in range(PHONES):
            device = str(uuid.UUID(int=(0xA << 124) | (4 << 76) | (8 << 60) | i))
            tokens[device] = workshop.people.let_in(hands.JUNO, device, f"phone {i}")[1]
    with running.server(data) as served:
        clients = [
            (
                httpx.Client(base_url=served.url, headers={**running.PROTOCOL, "Cookie": f"pinchbolt={token}"}, timeout=30),
                device,
            )
            for device, token in tokens.items()
        ]
        seen: Counter[int] = mutating.try_them(
            [(client, mutating.real_batch(device, hands.JUNO)) for client, device in clients], COUNT, SEED
        )
        # The same phones are taken unmutated afterwards: nothing sent before stands in their way for good.
        assert clients[0][0].get("/api/sync/pull").status_code == 200
        for client, _ in clients:
            client.close()
    record_property("statuses", dict(seen))
    assert seen[200] > COUNT / 20, seen
    assert seen[422] > COUNT / 20, seen
    with Workshop(data) as workshop:
        assert [one.where for one in workshop.log.verify()] == []
