"""The command line in a process of its own that starts at once: forked from one that has loaded all, and killed as any other.

What a process is there for stays: its own id, its own memory, its own files, its own end. Only the libraries are not loaded
anew for each. Starting Python for a command is tried where it is what is tried: tests/server/test_lan.py and others there.
"""

import functools
import importlib
import multiprocessing
import os
import sys
import warnings
from collections.abc import Sequence
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import IO

from pinchbolt import cli
from pinchbolt.api.web import FOLDER
from pinchbolt.app import create_app
from pinchbolt.commands import serve

FORKING = multiprocessing.get_context("forkserver")
# Each process that tests has one such server, whoever asks first: it loads what anybody's processes need.
FORKING.set_forkserver_preload([__name__, "tests.soak.serving"])
# What a server loads only when it runs, and the command that makes codes.
for name in ("uvicorn.loops.auto", "uvicorn.protocols.http.auto", "uvicorn.lifespan.on", "pinchbolt.commands.people"):
    importlib.import_module(name)


class Forked:
    """One command, running; `said` is what it prints, and the file `log` is for its standard error."""

    def __init__(self, *arguments: str, web: Path = FOLDER, log: Path | None = None) -> None:
        said, saying = FORKING.Pipe(duplex=False)
        self._process: BaseProcess = FORKING.Process(target=_command, args=(arguments, web, log, saying), daemon=True)
        self._process.start()
        saying.close()
        self.said: IO[str] = os.fdopen(os.dup(said.fileno()), encoding="utf-8")
        said.close()

    @property
    def pid(self) -> int:
        assert self._process.pid is not None
        return self._process.pid

    def kill(self) -> None:
        """SIGKILL: no chance to tidy up."""
        self._process.kill()

    def terminate(self) -> None:
        """SIGTERM, as from whoever stops a service."""
        self._process.terminate()

    def wait(self, seconds: float = 60) -> int:
        """Until it is gone; its exit code, a signal's number being negative."""
        self._process.join(seconds)
        assert self._process.exitcode is not None, "it does not end"
        self.said.close()
        return self._process.exitcode


def _command(arguments: Sequence[str], web: Path, log: Path | None, saying: Connection) -> None:
    os.dup2(saying.fileno(), sys.stdout.fileno())
    saying.close()
    if log is not None:
        with log.open("ab") as file:
            os.dup2(file.fileno(), sys.stderr.fileno())
    for name in [name for name in os.environ if name.startswith("PINCHBOLT_")]:
        del os.environ[name]
    warnings.simplefilter("error")
    serve.create_app = functools.partial(create_app, web_folder=web)
    cli.main(list(arguments), prog_name="pinchbolt")
