"""A real server for browser tests: its own process over its own files, killed and started again at the same address."""

import re
import socket
from pathlib import Path

from pinchbolt.workshop import Workshop
from tests.server.forking import Forked
from tests.server.running import until_answers

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
        self.process: Forked | None = None
        # The owner's code; good once.
        self.code = ""

    def _run(self, *arguments: str) -> Forked:
        return Forked(*arguments, "--data", str(self.data), web=self.web)

    def start(self) -> "ServedWorkshop":
        self.process = self._run(self.command, "--port", str(self.port))
        for line in self.process.said:
            found = LINK.search(line)
            if found:
                self.code = found[1]
                until_answers(self.url)
                return self
        raise AssertionError(f"the server ended with {self.process.wait()}")

    def kill(self) -> None:
        """SIGKILL, as when the power goes."""
        if self.process is not None:
            self.process.kill()
            self._gone()

    def stop(self) -> None:
        if self.process is not None:
            self.process.terminate()
            self._gone()

    def _gone(self) -> None:
        assert self.process is not None
        self.process.wait()
        self.process = None

    def code_for(self, person: str, role: str | None = None) -> str:
        """A pairing code for `person`, made by the command line beside the running server."""
        process = self._run("pair", "--person", person, *(["--role", role] if role else []))
        said = process.said.read()
        assert process.wait() == 0, said
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
