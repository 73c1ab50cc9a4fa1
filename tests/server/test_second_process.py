"""A command beside a running server: both have the file open, and nothing that was acknowledged is lost."""

import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

from pinchbolt.writer import Writer, batch
from tests.server.running import SERVER, pair, push, server, start

DEVICE = "0b9e3c1a-1111-4222-8333-944445555666"
BIKE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"


def another_process(data: Path) -> str:
    """A command that opens the log, reads it and closes it again."""
    call = [sys.executable, "-m", "pinchbolt.cli", "export", "--data", str(data)]
    return subprocess.run(call, env={"PYTHONPATH": str(SERVER)}, capture_output=True, text=True, check=True).stdout


def test_what_is_acknowledged_after_another_process_looked_survives_a_kill(tmp_path: Path) -> None:
    data = tmp_path / "workshop"
    running = start(data)
    client = pair(running.url, running.code, DEVICE)
    pen = Writer(DEVICE, client.get("/api/me").json()["person"]["id"])
    for text in ("before", "after", "and after that"):
        answer = push(client, batch(DEVICE, [pen.write(BIKE, "note", {"text": text}, datetime.now(UTC))]))
        assert answer["answers"][0]["outcome"] == "stored"
        assert f'"{text}"' in another_process(data)
    client.close()
    running.kill()
    with server(data):
        assert len(another_process(data).splitlines()) == 3
