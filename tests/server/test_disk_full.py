"""No room on the disk: nothing is acknowledged that is not kept, reading goes on, and room brings everything back.

The disk is the process's own limit on the size of its files (setrlimit(2), RLIMIT_FSIZE), which anybody may lower and raise
again, in a container as on a bench: a write beyond it fails as one beyond the end of a disk does.
"""

import resource
from pathlib import Path

from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import BENCH, FERN, now

ROOM = 256 * 1024


def test_a_full_disk_takes_nothing_half_and_recovers(tmp_path: Path):
    data = tmp_path / "data"
    with running.server(data) as served:
        client = running.pair(served.url, served.code, BENCH)
        pen = Writer(BENCH, client.get("/api/me").json()["person"]["id"])
        largest = max(file.stat().st_size for file in data.iterdir())
        resource.prlimit(served.process.pid, resource.RLIMIT_FSIZE, (largest + ROOM, resource.RLIM_INFINITY))
        written: list[bytes] = []
        told = 0
        while True:
            written += [pen.write(FERN, "note", {"text": "x" * 4000}, now()) for _ in range(10)]
            answer = client.post("/api/sync/push", content=batch(BENCH, written[told:]))
            if answer.status_code != 200:
                break
            told = answer.json()["receipt"]["n"]
            assert told < 1000, "the limit does not hold"
        assert answer.status_code == 507
        assert answer.headers["content-type"] == "application/problem+json"
        assert "Nothing was taken" in answer.json()["detail"]
        assert told > 0
        # Reading goes on, and shows exactly what was acknowledged.
        held = client.get("/api/sync/pull", params={"limit": 1000}).json()["entries"]
        assert [one["entry"]["n"] for one in held] == list(range(1, told + 1))
        assert client.get("/api/bikes").status_code == 200
        resource.prlimit(served.process.pid, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
        assert running.push(client, batch(BENCH, written[told:]))["receipt"]["n"] == len(written)
        client.close()
    with Workshop(data) as workshop:
        assert [h.raw for h in workshop.log.everything()] == written
        assert list(workshop.verify()) == []
