"""A real server process over a real database file, for tests and measurements."""

import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

import httpx

SERVER = Path(__file__).parents[2] / "server"
PROTOCOL = {"Pinchbolt-Protocol": "1"}


@dataclass
class Running:
    """A server that runs: its address, its process, the owner's pairing code."""

    url: str
    code: str
    process: "subprocess.Popen[str]"

    def kill(self) -> None:
        """SIGKILL: no chance to tidy up."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()


def popen(*arguments: str, stderr: IO[str] | None = None) -> "subprocess.Popen[str]":
    """The command line in a process of its own; what it says can be read."""
    environ = {k: v for k, v in os.environ.items() if not k.startswith("PINCHBOLT_")}
    environ["PYTHONPATH"] = str(SERVER)
    call = [sys.executable, "-W", "error", "-m", "pinchbolt.cli", *arguments]
    return subprocess.Popen(call, env=environ, stdout=subprocess.PIPE, stderr=stderr, text=True)


def start(data: Path, *options: str, command: str = "serve", stderr: IO[str] | None = None) -> Running:
    """Start the server on a free port and wait until it answers."""
    process = popen(command, "--data", str(data), "--port", "0", *options, stderr=stderr)
    assert process.stdout is not None
    said = ""
    for line in process.stdout:
        said += line
        found = re.search(r"(http\S+)/pair#(\S+)", line)
        if found:
            url, code = found.groups()
            with httpx.Client(transport=httpx.HTTPTransport(retries=20)) as client:
                client.get(url + "/api/health").raise_for_status()
            return Running(url, code, process)
    raise AssertionError("the server did not start: " + said)


@contextmanager
def server(data: Path, *options: str, command: str = "serve", stderr: IO[str] | None = None) -> Iterator[Running]:
    """A server for the length of a block."""
    running = start(data, *options, command=command, stderr=stderr)
    try:
        yield running
    finally:
        if running.process.poll() is None:
            running.process.terminate()
            running.process.wait(timeout=20)
        assert running.process.stdout is not None
        running.process.stdout.close()


def pair(url: str, code: str, device: str, name: str = "a phone") -> httpx.Client:
    """Pair a device; the client holds its cookie."""
    client = httpx.Client(base_url=url, headers=PROTOCOL, timeout=30)
    answer = client.post("/api/pair", json={"code": code, "device": device, "name": name})
    assert answer.status_code == 200, answer.text
    return client


def push(client: httpx.Client, body: bytes) -> dict[str, Any]:
    answer = client.post("/api/sync/push", content=body)
    assert answer.status_code == 200, answer.text
    return json.loads(answer.content)
