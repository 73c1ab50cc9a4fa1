"""Debian's PostgreSQL, started for the tests: its own folder, a Unix socket and no network, fsync as it comes."""

import os
import secrets
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psycopg

FOLDERS = Path("/usr/lib/postgresql")
# PostgreSQL does not run as root: then as the user that Debian's package makes.
USER = "postgres" if os.getuid() == 0 else None


def programs() -> Path:
    """The folder of initdb and pg_ctl, of the newest version here."""
    found = [p.parent for p in FOLDERS.glob("*/bin/initdb")]
    assert found, f"the tests need Debian's postgresql: there is no initdb under {FOLDERS}"
    return max(found, key=lambda p: int(p.parent.name))


class Cluster:
    """A PostgreSQL server that runs; `database` makes an empty database in it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.data = folder / "data"

    def call(self, program: str, *arguments: str) -> None:
        call = [str(programs() / program), *arguments]
        done = subprocess.run(
            call, user=USER, cwd=self.folder, capture_output=True, text=True, check=False, env={"LC_ALL": "C.UTF-8"}
        )
        log = self.folder / "log"
        assert done.returncode == 0, done.stderr + (log.read_text() if log.exists() else "")

    def start(self) -> None:
        options = f"-c listen_addresses='' -c unix_socket_directories={self.folder} -c max_connections=100"
        self.call("pg_ctl", "start", "-w", "-D", str(self.data), "-l", str(self.folder / "log"), "-o", options)

    def stop(self, mode: str = "fast") -> None:
        self.call("pg_ctl", "stop", "-w", "-m", mode, "-D", str(self.data))

    def url(self, name: str) -> str:
        return f"postgresql://postgres@/{name}?host={self.folder}"

    def database(self, template: str = "template0") -> str:
        """The URL of a new database."""
        name = "workshop_" + secrets.token_hex(6)
        with psycopg.connect(self.url("postgres"), autocommit=True) as conn:
            conn.execute(f"CREATE DATABASE {name} TEMPLATE {template}".encode())
        return self.url(name)


@contextmanager
def cluster() -> Iterator[Cluster]:
    """A server for the length of a block."""
    folder = Path(tempfile.mkdtemp(prefix="pinchbolt-pg-"))
    try:
        if USER is not None:
            shutil.chown(folder, USER)
        made = Cluster(folder)
        made.call(
            "initdb", "-D", str(made.data), "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale", "C.UTF-8", "--no-sync"
        )
        made.start()
        try:
            yield made
        finally:
            made.stop("immediate")
    finally:
        shutil.rmtree(folder)
