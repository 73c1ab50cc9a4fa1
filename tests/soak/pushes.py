"""Mutated batches against the whole application, without a network between: as many as the time allows.

Run as `python -m tests.soak.pushes COUNT SECONDS SEED`; the last line is the statuses as JSON.
"""

import asyncio
import json
import random
import sys
import tempfile
import time
import uuid
from collections import Counter
from pathlib import Path
from typing import Any

from pinchbolt.app import create_app
from pinchbolt.settings import read_settings
from pinchbolt.workshop import Workshop
from tests.server import hands, mutating

# Enough that none is told that it sends too often.
PHONES = 64


class Asked:
    """One request to an ASGI application, and what came back."""

    def __init__(self, body: bytes) -> None:
        self._body = body
        self.status = 0
        self.content = b""

    async def receive(self) -> dict[str, Any]:
        return {"type": "http.request", "body": self._body, "more_body": False}

    async def send(self, message: Any) -> None:
        if message["type"] == "http.response.start":
            self.status = message["status"]
        elif message["type"] == "http.response.body":
            self.content += message.get("body", b"")


def scope(token: str, length: int) -> dict[str, Any]:
    headers = {"host": "127.0.0.1", "cookie": f"pinchbolt={token}", "pinchbolt-protocol": "1", "content-length": str(length)}
    return {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "POST",
        "scheme": "http",
        "path": "/api/sync/push",
        "raw_path": b"/api/sync/push",
        "query_string": b"",
        "root_path": "",
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 80),
        "state": {},
    }


async def push_them(data: Path, phones: list[tuple[str, str]], count: int, seconds: float, seed: int) -> Counter[int]:
    """Start the application, send, stop it. An answer that is not ours, or our own mistake, is an AssertionError."""
    app: Any = create_app(read_settings({}, {"data": str(data)}))
    events: asyncio.Queue[dict[str, Any]] = asyncio.Queue()
    started: asyncio.Queue[dict[str, Any]] = asyncio.Queue()
    life = asyncio.create_task(app({"type": "lifespan", "asgi": {"version": "3.0"}, "state": {}}, events.get, started.put))
    await events.put({"type": "lifespan.startup"})
    assert (await started.get())["type"] == "lifespan.startup.complete"
    chance = random.Random(seed)
    whole = {device: mutating.real_batch(device, hands.JUNO) for device, _ in phones}
    seen: Counter[int] = Counter()
    end = time.monotonic() + seconds
    for i in range(count):
        device, token = phones[i % len(phones)]
        body = mutating.mutated(whole[device], chance)
        asked = Asked(body)
        await app(scope(token, len(body)), asked.receive, asked.send)
        seen[asked.status] += 1
        assert asked.status in (200, 413, 422), (asked.status, asked.content, body)
        json.loads(asked.content)
        if time.monotonic() > end:
            break
    await events.put({"type": "lifespan.shutdown"})
    await life
    return seen


def main(count: int, seconds: float, seed: int) -> Counter[int]:
    with tempfile.TemporaryDirectory(prefix="pinchbolt-pushes-") as folder:
        data = Path(folder) / "data"
        phones: list[tuple[str, str]] = []
        with Workshop(data) as workshop:
            workshop.add_person(hands.JUNO, "Juno", "owner")
            workshop.add_person(hands.IMRE, "Imre", "rider")
            for i in range(PHONES):
                device = str(uuid.UUID(int=(0xA << 124) | (4 << 76) | (8 << 60) | i))
                phones.append((device, workshop.people.let_in(hands.JUNO, device, f"phone {i}")[1]))
        seen = asyncio.run(push_them(data, phones, count, seconds, seed))
        with Workshop(data) as workshop:
            broken = list(workshop.log.verify())
            assert broken == [], broken
    return seen


if __name__ == "__main__":
    print(json.dumps(main(int(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]))))
