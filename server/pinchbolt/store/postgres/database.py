"""A workshop's record in a PostgreSQL database."""

import logging
import select
import socket
import threading
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlsplit

import psycopg

from pinchbolt.store import migrations
from pinchbolt.store.database import Row, Unsuitable
from pinchbolt.store.log import StoreError
from pinchbolt.store.postgres.connection import CHANNEL, PostgresConnection, open_server

# Processes that start together bring the schema up to date one after the other.
_MIGRATING = 0x50494E43
# How long the listener waits before it calls again, in seconds.
_AGAIN = 2.0

log = logging.getLogger("pinchbolt.store")


class PostgresDatabase:
    """The database at a `postgresql://` URL; it must be there, in UTF-8, and may be empty."""

    def __init__(self, url: str) -> None:
        self._url = url

    @property
    def name(self) -> str:
        parts = urlsplit(self._url)
        return f"postgresql://{parts.netloc.rpartition('@')[2]}{parts.path}"

    @property
    def at_hand(self) -> bool:
        return False

    def exists(self) -> bool:
        with open_server(self._url) as conn:
            return _version(conn) > 0

    def connect(self) -> PostgresConnection:
        return PostgresConnection(self._url)

    def migrate(self) -> None:
        """All steps are one transaction."""
        with open_server(self._url) as conn:
            encoding = conn.info.parameter_status("server_encoding")
            if encoding != "UTF8":
                raise Unsuitable(f"the database is in {encoding}; wanted UTF8 (createdb -E UTF8 -T template0)")
            if _version(conn) == migrations.steps("postgres")[-1][0]:
                return
            with conn.transaction():
                conn.execute("SELECT pg_advisory_xact_lock(%s)", (_MIGRATING,))
                for number, sql in migrations.after(_version(conn), "postgres"):
                    conn.execute(sql.encode())
                    conn.execute("CREATE TABLE IF NOT EXISTS schema_version (number integer PRIMARY KEY)")
                    conn.execute("INSERT INTO schema_version VALUES (%s)", (number,))

    def watch(self, committed: Callable[[], None]) -> Callable[[], None]:
        listening = _Listening(self._url, committed)
        listening.start()
        return listening.stop

    def backup(self, target: Path) -> None:
        raise Unsuitable(
            f"a PostgreSQL database is backed up by its own means: pg_dump --format custom --file {target} URL; photos are in"
            " the folder photos of the data folder. `pinchbolt copy` makes one SQLite file of it"
        )


class _Listening(threading.Thread):
    """Hears of the commits of all processes."""

    def __init__(self, url: str, committed: Callable[[], None]) -> None:
        super().__init__(name="pinchbolt-listening", daemon=True)
        self._url = url
        self._committed = committed
        self._stopped = threading.Event()
        self._bell, self._ring = socket.socketpair()
        self._ready = threading.Event()

    def start(self) -> None:
        super().start()
        # What is committed from here on is heard.
        self._ready.wait(10)

    def stop(self) -> None:
        if self._stopped.is_set():
            return
        self._stopped.set()
        self._ring.send(b"x")
        self.join()
        self._bell.close()
        self._ring.close()

    def run(self) -> None:
        while not self._stopped.is_set():
            try:
                with open_server(self._url) as conn:
                    conn.execute(f"LISTEN {CHANNEL}".encode())
                    self._ready.set()
                    # Something may have been committed while nobody listened.
                    self._committed()
                    while not self._stopped.is_set():
                        select.select([conn, self._bell], [], [])
                        if list(conn.notifies(timeout=0)):
                            self._committed()
            except (psycopg.Error, StoreError) as error:
                log.warning("news of other processes are not heard: %s", error)
                self._ready.set()
                self._stopped.wait(_AGAIN)


def _version(conn: "psycopg.Connection[Row]") -> int:
    """The number of the last step done; 0 for an empty database."""
    found = conn.execute("SELECT to_regclass('schema_version')").fetchone()
    if found is None or found[0] is None:
        return 0
    row = conn.execute("SELECT max(number) FROM schema_version").fetchone()
    return row[0] or 0 if row else 0
