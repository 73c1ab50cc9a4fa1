"""People, devices and entries for the tests: the invented workshop's bench, written with the pen any client may use."""

from datetime import UTC, datetime, timedelta
from itertools import count

from pinchbolt.entries import Author
from pinchbolt.writer import Writer

JUNO = "e9684bdb-d8de-5f36-852b-b2ad11f54aa4"
BAS = "9f6e4bb4-0ce4-5efc-ba7c-96561c0901ac"
IMRE = "437c30cb-d27a-53f6-a4df-bd27cd7c5792"
ODILE = "4161b9c0-af00-59ce-a140-29fcd87d8be0"
ILKA = "c1330c1c-7728-58ca-996e-05842018c49d"

BENCH = "6ef87f49-0b11-5efa-80a9-8a7bd12e0d77"
BAS_PHONE = "c731d8a8-6891-58de-816b-b78737b029de"
IMRE_PHONE = "4e136651-a71e-556b-b692-0d4fa16b10ec"
ODILE_PHONE = "71ba80fc-92a5-534e-8178-e0e36dc41047"
ILKA_PHONE = "0c2f4f0e-41cb-5d8c-9d10-3a3f6f1f5a11"

FERN = "bike/e7a78a49-c83f-5177-aaf6-4b4938d4f0cd"
SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"
GAPS_DAY = "event/5d0f1c2e-8a44-4c1e-9d55-0b6a3f6d7e21"

BENCH_AUTHOR = Author(BENCH, JUNO, "owner")

_minutes = count()


def bench() -> Writer:
    """The bench tablet's pen, from its first entry."""
    return Writer(BENCH, JUNO)


def now() -> datetime:
    """A later minute each time it is asked."""
    return datetime(2026, 5, 3, 9, 0, tzinfo=UTC) + timedelta(minutes=next(_minutes))


def note(pen: Writer, text: str = "Cables come on Thursday.", subject: str = FERN) -> bytes:
    return pen.write(subject, "note", {"text": text}, now())


def torque(pen: Writer, applied: object = 5.2, subject: str = FERN) -> bytes:
    """The stem's face plate."""
    return pen.write(subject, "torque", {"joint": "stem_face_plate", "applied": applied, "low": 4, "high": 6}, now())


def describe(pen: Writer, subject: str, name: str, rider: str | None) -> bytes:
    return pen.write(subject, "describe", {"name": name, "use": "all-road", "rider": rider}, now())
