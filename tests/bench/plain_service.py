"""The baseline for single entries: the least a service can be that keeps what it answers for.

Litestar with one route and uvicorn as Pinchbolt runs it; one thread that writes and group commit; SQLite with
synchronous=FULL and one table. It reads nothing of what it is sent, asks nobody who they are, and answers after the commit.

    python -m tests.bench.plain_service FILE
"""

import asyncio
import queue
import socket
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Generator
from concurrent.futures import Future
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

import uvicorn
from litestar import Litestar, Request, Response, post

ROOT = Path(__file__).parents[2]
MOST_IN_GROUP = 64


class Served(NamedTuple):
    """The service as it runs: its address, and the number of its process."""

    url: str
    process: int


class Table:
    """A table of bytes in plain SQLite, and the thread that writes it."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._waiting: queue.SimpleQueue[tuple[bytes, Future[int]]] = queue.SimpleQueue()
        threading.Thread(target=self._run, daemon=True).start()

    def put(self, body: bytes) -> "Future[int]":
        future: Future[int] = Future()
        self._waiting.put((body, future))
        return future

    def _run(self) -> None:
        conn = sqlite3.connect(self._file, isolation_level=None)
        conn.execute("PRAGMA journal_mode = WAL")
        conn.execute("PRAGMA synchronous = FULL")
        conn.execute("CREATE TABLE IF NOT EXISTS raw (seq INTEGER PRIMARY KEY, bytes BLOB NOT NULL)")
        while True:
            group = [self._waiting.get()]
            while len(group) < MOST_IN_GROUP and not self._waiting.empty():
                group.append(self._waiting.get())
            conn.execute("BEGIN IMMEDIATE")
            seqs = [conn.execute("INSERT INTO raw (bytes) VALUES (?)", (body,)).lastrowid or 0 for body, _ in group]
            conn.execute("COMMIT")
            for (_, future), seq in zip(group, seqs, strict=True):
                future.set_result(seq)


def main() -> None:
    table = Table(sys.argv[1])

    @post("/push", status_code=200)
    async def push(request: Request[Any, Any, Any]) -> Response[bytes]:
        seq = await asyncio.wrap_future(table.put(await request.body()))
        return Response(b'{"seq":%d}' % seq, media_type="application/json")

    @post("/drop", status_code=200)
    async def drop(request: Request[Any, Any, Any]) -> Response[bytes]:
        """Nothing is kept: what receiving and answering cost by themselves."""
        return Response(b'{"seq":%d}' % len(await request.body()), media_type="application/json")

    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    bound.bind(("127.0.0.1", 0))
    print(f"http://127.0.0.1:{bound.getsockname()[1]}", flush=True)
    app = Litestar([push, drop], openapi_config=None, logging_config=None)
    uvicorn.Server(uvicorn.Config(app, access_log=False, log_config=None, server_header=False)).run(sockets=[bound])


@contextmanager
def served(file: Path) -> Generator[Served]:
    """The service in a process of its own, for the length of a block."""
    call = [sys.executable, "-m", "tests.bench.plain_service", str(file)]
    process = subprocess.Popen(call, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    try:
        yield Served(process.stdout.readline().strip(), process.pid)
    finally:
        process.terminate()
        process.wait(timeout=20)
        process.stdout.close()


if __name__ == "__main__":
    main()
