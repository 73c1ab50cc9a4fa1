"""A workshop's record from one database into another, empty one, whatever their engines; and whether all of it arrived."""

from collections.abc import Callable, Iterator
from hashlib import sha256
from itertools import islice
from typing import NamedTuple

from pinchbolt.store.appending import receipt
from pinchbolt.store.database import ENTRY_COLUMNS, Connection, Database, Row
from pinchbolt.store.lives import begin_anew
from pinchbolt.store.verifying import verify

AT_ONCE = 1000


class Table(NamedTuple):
    """A table, its columns that are carried over, and the order that is the same in every engine."""

    name: str
    columns: str
    order: str

    def read(self, conn: Connection) -> Iterator[Row]:
        # Older rows of SQLite keep the problems as bytes.
        columns = self.columns.replace("problems", "CAST(problems AS TEXT)")
        return conn.stream(f"SELECT {columns} FROM {self.name} ORDER BY {self.order}")

    def count(self, conn: Connection) -> int:
        row = conn.execute(f"SELECT count(*) FROM {self.name}").fetchone()
        return row[0] if row else 0

    def digest(self, conn: Connection) -> str:
        """One hash over every row."""
        whole = sha256()
        for row in self.read(conn):
            whole.update(repr(row).encode())
        return whole.hexdigest()


ENTRIES = Table("entries", ENTRY_COLUMNS, "seq")
# In an order in which each finds what it refers to.
TABLES = (
    ENTRIES,
    Table("quarantine", "device, n, hash, placed, received_at, problems, bytes", "number"),
    Table("chains", "device, top", "device"),
    Table("gaps", "device, low, high", "device, low"),
    Table("grants", "audience, subject, at", "audience, subject"),
    Table("people", "id, name, role, added_at, forgotten_at", "id"),
    Table(
        "devices",
        "id, name, person, token, paired_at, used_at, revoked_at, unsent, until, revoked_token, event",
        "id",
    ),
    Table("codes", "hash, person, expires_at, until, event", "hash"),
    Table("passphrases", "person, hash, set_at", "person"),
    Table("passkeys", "credential, person, key, uses, added_at", "credential"),
    Table("keys", "device, kid, x, y, enrolled_at, after_n", "device, kid"),
    Table("heads", "device, n, kid, hash, signature, received_at", "device, n, kid"),
)


class NotEmpty(Exception):
    """There is something in the target already; the text names what."""


class Different(Exception):
    """What arrived is not what was sent; the text names the first difference. The target is not to be used."""


class Copied(NamedTuple):
    """How many rows of each table were carried over, all of them found again in the target."""

    counts: dict[str, int]
    devices: int


def copy(source: Database, target: Database, began: Callable[[int], None], moved: Callable[[int], None]) -> Copied:
    """Copy everything, in one transaction of the target, as a new life of the log; then hold the two against each other.

    The source may be in use: what is copied is how it stood at one moment. `began` is told how many rows there are, `moved` of
    each lot. Raises NotEmpty, Different.
    """
    source.migrate()
    target.migrate()
    giving, taking = source.connect(), target.connect()
    try:
        with giving.reading():
            counts = {table.name: table.count(giving) for table in TABLES}
            began(sum(counts.values()))
            with taking.alone():
                _must_be_empty(taking)
                for table in TABLES:
                    _carry(table, giving, taking, moved)
            devices = _compare(giving, taking)
        begin_anew(taking)
        return Copied(counts, devices)
    finally:
        giving.close()
        taking.close()


def _must_be_empty(conn: Connection) -> None:
    for table in TABLES:
        many = table.count(conn)
        if many:
            raise NotEmpty(f"{many} rows in {table.name}")


def _carry(table: Table, giving: Connection, taking: Connection, moved: Callable[[int], None]) -> None:
    marks = ", ".join("?" * len(table.columns.split(",")))
    rows = table.read(giving)
    while lot := list(islice(rows, AT_ONCE)):
        if table is ENTRIES:
            taking.append(lot)  # pyright: ignore[reportArgumentType]
        else:
            taking.executemany(f"INSERT INTO {table.name} ({table.columns}) VALUES ({marks})", lot)
        moved(len(lot))


def _compare(giving: Connection, taking: Connection) -> int:
    """Every row, every chain and every receipt; returns how many devices have one."""
    with taking.reading():
        for table in TABLES:
            if table.digest(giving) != table.digest(taking):
                raise Different(f"the rows of {table.name} differ")
        devices = [device for (device,) in giving.execute("SELECT device FROM chains ORDER BY device").fetchall()]
        for device in devices:
            if receipt(giving, device) != receipt(taking, device):
                raise Different(f"the receipt of device {device} differs")
        for broken in verify(taking):
            raise Different(f"{broken.where}: {broken.what}")
    return len(devices)
