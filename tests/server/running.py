"""A real server process over a real database file, for tests and measurements."""

import functools
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx

from tests.server.forking import Forked

SERVER = Path(__file__).parents[2] / "server"
PROTOCOL = {"Pinchbolt-Protocol": "1"}
# One request of nobody's, in the clear: no list of authorities is read for it, and a busy machine has time to answer.
get, post, put = (functools.partial(ask, timeout=30, verify=False) for ask in (httpx.get, httpx.post, httpx.put))


@dataclass
class Running:
    """A server that runs: its address, its process, the owner's pairing code."""

    url: str
    code: str
    process: Forked

    def kill(self) -> None:
        """SIGKILL: no chance to tidy up."""
        self.process.kill()
        self.process.wait()


def popen(*arguments: str) -> "subprocess.Popen[str]":
    """The command line as it is called, Python started for it; what it says can be read."""
    environ = {k: v for k, v in os.environ.items() if not k.startswith("PINCHBOLT_")}
    environ["PYTHONPATH"] = str(SERVER)
    call = [sys.executable, "-W", "error", "-m", "pinchbolt.cli", *arguments]
    return subprocess.Popen(call, env=environ, stdout=subprocess.PIPE, text=True)


def start(data: Path, *options: str, command: str = "serve", log: Path | None = None) -> Running:
    """Start the server on a free port and wait until it answers."""
    process = Forked(command, "--data", str(data), "--port", "0", *options, log=log)
    said = ""
    for line in process.said:
        said += line
        found = re.search(r"(http\S+)/pair#(\S+)", line)
        if found:
            url, code = found.groups()
            until_answers(url)
            return Running(url, code, process)
    raise AssertionError("the server did not start: " + said)


def until_answers(url: str) -> None:
    """A server says where it is a moment before it listens there."""
    with httpx.Client(transport=httpx.HTTPTransport(retries=20, verify=False), timeout=30) as client:
        client.get(url + "/api/health").raise_for_status()


@contextmanager
def server(data: Path, *options: str, command: str = "serve", log: Path | None = None) -> Iterator[Running]:
    """A server for the length of a block."""
    running = start(data, *options, command=command, log=log)
    try:
        yield running
    finally:
        running.process.terminate()
        running.process.wait()


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
