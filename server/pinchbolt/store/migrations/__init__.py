"""The schema as numbered steps, one small SQL file each; a database knows the number of its last one (`user_version`)."""

import sqlite3
from importlib import resources


class TooNew(Exception):
    """The database was written by a later version of the program."""


def steps() -> list[tuple[int, str]]:
    """Every migration as its number and its SQL, in order."""
    files = [f for f in resources.files(__package__ or __name__).iterdir() if f.name.endswith(".sql")]
    return sorted((int(f.name[:4]), f.read_text(encoding="utf-8")) for f in files)


def migrate(conn: sqlite3.Connection) -> None:
    """Bring the database up to the last step. Each step and its number are one transaction."""
    known = steps()
    (version,) = conn.execute("PRAGMA user_version").fetchone()
    if version > known[-1][0]:
        raise TooNew(f"the database is at schema {version}, this program knows up to {known[-1][0]}")
    for number, sql in known:
        if number > version:
            conn.executescript(f"BEGIN IMMEDIATE;\n{sql}\nPRAGMA user_version = {number};\nCOMMIT;")
