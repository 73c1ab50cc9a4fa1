"""A real server for browser tests: its own process over its own files, killed and started again at the same address."""

import os
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import httpx

from pinchbolt.workshop import Workshop

ROOT = Path(__file__).parents[2]
LINK = re.compile(r"/pair#(\S+)")


class ServedWorkshop:
    """`start`, `kill` and `start` again: the address and the data stay."""

    def __init__(self, data: Path, web: Path, command: str) -> None:
        self.data = data
        self.web = web
        self.command = command
        self.port = _free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.process: subprocess.Popen[str] | None = None
        # The owner's code; good once.
        self.code = ""

    def _run(self, *arguments: str) -> "subprocess.Popen[str]":
        environ = {k: v for k, v in os.environ.items() if not k.startswith("PINCHBOLT_")}
        environ["PYTHONPATH"] = os.pathsep.join([str(ROOT / "server"), str(ROOT)])
        call = [sys.executable, "-m", "tests.web.serve_door", str(self.web), *arguments, "--data", str(self.data)]
        return subprocess.Popen(call, cwd=ROOT, env=environ, stdout=subprocess.PIPE, text=True)

    def start(self) -> "ServedWorkshop":
        self.process = self._run(self.command, "--port", str(self.port))
        assert self.process.stdout is not None
        for line in self.process.stdout:
            found = LINK.search(line)
            if found:
                self.code = found[1]
                with httpx.Client(transport=httpx.HTTPTransport(retries=20)) as client:
                    client.get(self.url + "/api/health").raise_for_status()
                return self
        raise AssertionError(f"the server ended with {self.process.wait()}")

    def kill(self) -> None:
        """SIGKILL, as when the power goes."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        self._end(signal.SIGTERM)

    def _end(self, how: signal.Signals) -> None:
        if self.process is None:
            return
        if self.process.poll() is None:
            self.process.send_signal(how)
        self.process.wait(timeout=20)
        assert self.process.stdout is not None
        self.process.stdout.close()
        self.process = None

    def code_for(self, person: str, role: str | None = None) -> str:
        """A pairing code for `person`, made by the command line beside the running server."""
        process = self._run("pair", "--person", person, *(["--role", role] if role else []))
        said, _ = process.communicate(timeout=30)
        found = LINK.search(said)
        assert found, said
        return found[1]

    def held(self) -> list[bytes]:
        """The exact bytes of every entry the server holds, in the order of arrival."""
        with Workshop(self.data) as workshop:
            return [held.raw for held in workshop.log.everything()]

    def broken(self) -> list[str]:
        """What walking every chain finds wrong."""
        with Workshop(self.data) as workshop:
            return [f"{one.where}: {one.what}" for one in workshop.log.verify()]


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]
