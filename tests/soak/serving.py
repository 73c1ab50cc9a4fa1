"""A server in a process of its own that starts at once: forked from one that has everything loaded, killed as any other."""

import logging
import os
from multiprocessing.process import BaseProcess
from pathlib import Path

import uvicorn

from pinchbolt.app import create_app
from pinchbolt.settings import read_settings
from tests.server.forking import FORKING


def serve(data: str, port: int) -> None:
    """What `pinchbolt serve` does, without its words."""
    logging.disable(logging.WARNING)
    settings = read_settings({}, {"data": data, "port": str(port)})
    uvicorn.run(create_app(settings), host=settings.host, port=port, log_level="critical")


def start(data: Path, port: int) -> BaseProcess:
    process = FORKING.Process(target=serve, args=(str(data), port), daemon=True)
    process.start()
    return process


def kill(process: BaseProcess) -> None:
    """SIGKILL, and wait until it is gone."""
    process.kill()
    process.join()
    assert process.exitcode == -9, f"the server ended by itself with {process.exitcode} (process {os.getpid()})"
    process.close()
