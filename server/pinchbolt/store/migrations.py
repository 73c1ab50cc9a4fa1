"""The schema as numbered steps, one small SQL file each, in a folder an engine; a database knows the number of its last one."""

from importlib import resources


class TooNew(Exception):
    """The database was written by a later version of the program."""


def steps(engine: str = "sqlite") -> list[tuple[int, str]]:
    """Every migration of an engine as its number and its SQL, in order."""
    folder = resources.files("pinchbolt.store") / engine / "migrations"
    files = [f for f in folder.iterdir() if f.name.endswith(".sql")]
    return sorted((int(f.name[:4]), f.read_text(encoding="utf-8")) for f in files)


def after(version: int, engine: str) -> list[tuple[int, str]]:
    """The steps a database at `version` still needs. Raises TooNew."""
    known = steps(engine)
    if version > known[-1][0]:
        raise TooNew(f"the database is at schema {version}, this program knows up to {known[-1][0]}")
    return [step for step in known if step[0] > version]
