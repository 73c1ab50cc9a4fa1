"""People and devices: tables beside the log. Names live here and nowhere else, so that they can be erased."""

import re
import time
import unicodedata
import uuid
from collections.abc import Callable
from contextlib import suppress
from typing import Literal

from msgspec import Struct

from pinchbolt.access import secrets
from pinchbolt.access.rules import ROLES, sight
from pinchbolt.entries.fields import UUID
from pinchbolt.kernel.errors import InputError, problem, refuse
from pinchbolt.store.database import Connection, Database
from pinchbolt.store.entry_log import received_now
from pinchbolt.store.log import Sight, StoreError
from pinchbolt.store.pool import Pool

MOST_NAME = 80
DAY = 24 * 3600
# How fine the time a device was last seen is kept.
SEEN_SECONDS = 5 * 60
# A phone may lie in a drawer over the winter; browsers keep a cookie 400 days at most.
IDLE_SECONDS = 200 * DAY
TOKEN_SECONDS = 400 * DAY
CODE_SECONDS = 15 * 60


class Person(Struct, frozen=True):
    id: str
    name: str
    role: str


class Device(Struct, frozen=True):
    id: str
    name: str
    person: Person
    # The one event a checker was let in for; None for all.
    event: str | None = None

    def sight(self) -> Sight:
        """What of the log is seen from this device."""
        return sight(self.person.role, self.person.id, self.event)


class Listed(Struct, frozen=True):
    """A device as the owner sees it. Times are seconds since 1970; `unsent` is what the device last said waits on it."""

    id: str
    name: str
    person: str
    state: Literal["paired", "revoked", "unpaired"]
    paired_at: int
    seen_at: int
    unsent: int | None
    until: int | None
    event: str | None


class Recognized(Struct, frozen=True):
    """Whose token it is; `news` when what was kept of the device's last visit is to be brought up to date with `unsent`."""

    device: Device
    unsent: int | None
    news: bool


class People:
    """People, devices, tokens and pairing codes, in the database of the log. Safe to use from any thread."""

    def __init__(self, database: Database) -> None:
        self._pool = Pool(database)
        # Apart, and for reading only: who stands at the door does not wait behind those that write.
        self._door = Pool(database)

    def close(self) -> None:
        self._pool.close()
        self._door.close()

    def everyone(self) -> list[Person]:
        """All people by name."""
        with self._pool.reading() as conn:
            return [Person(*row) for row in conn.execute("SELECT id, name, role FROM people ORDER BY name, id")]

    def person(self, id: str) -> Person | None:
        if not _is_id(id):
            return None
        with self._pool.reading() as conn:
            row = conn.execute("SELECT id, name, role FROM people WHERE id = ?", (id,)).fetchone()
        return Person(*row) if row else None

    def named(self, name: str) -> list[Person]:
        """The people of this name."""
        return [p for p in self.everyone() if p.name == name]

    def add_person(self, name: str, role: str, id: str | None = None) -> Person:
        """Add a person, or bring name and role of a known one up to date. Raises InputError."""
        id = id or str(uuid.uuid4())
        problems = _bad_name("name", name) + _bad_id("person", id)
        if role not in ROLES:
            problems.append(problem("role", role, "one of " + ", ".join(ROLES)))
        if problems:
            raise InputError(problems)
        with self._pool.alone() as conn:
            conn.execute(
                "INSERT INTO people (id, name, role, added_at) VALUES (?, ?, ?, ?)"
                " ON CONFLICT (id) DO UPDATE SET name = excluded.name, role = excluded.role",
                (id, name, role, received_now()),
            )
        return Person(id, name, role)

    def device(self, id: str) -> Device | None:
        """A device with its person, revoked or not."""
        if not _is_id(id):
            return None
        with self._pool.reading() as conn:
            row = conn.execute(_DEVICE + " WHERE d.id = ?", (id,)).fetchone()
        return Device(row[0], row[1], Person(*row[2:5]), row[5]) if row else None

    def devices(self) -> list[tuple[Device, str]]:
        """All devices by person and name, each `paired`, `revoked` or `unpaired`."""
        with self._pool.reading() as conn:
            rows = conn.execute(
                "SELECT d.id, d.name, p.id, p.name, p.role, CASE WHEN d.revoked_at IS NOT NULL THEN 'revoked'"
                " WHEN d.token IS NOT NULL THEN 'paired' ELSE 'unpaired' END"
                " FROM devices d JOIN people p ON p.id = d.person ORDER BY p.name, d.name, d.id"
            ).fetchall()
        return [(Device(row[0], row[1], Person(*row[2:5])), row[5]) for row in rows]

    def listed(self) -> list[Listed]:
        """All devices with when they were last seen and what waits on them, the latest first."""
        with self._pool.reading() as conn:
            rows = conn.execute(
                "SELECT id, name, person, CASE WHEN revoked_at IS NOT NULL THEN 'revoked' WHEN token IS NOT NULL THEN 'paired'"
                " ELSE 'unpaired' END, paired_at, used_at, unsent, until, event"
                " FROM devices ORDER BY used_at DESC, id"
            ).fetchall()
        return [Listed(*row) for row in rows]

    def add_device(self, id: str, name: str, person: str) -> Device:
        """Add a device that has no token: it writes, but cannot sign in until it is paired. Raises InputError."""
        self._check_device(id, name, person)
        with self._pool.alone() as conn:
            _put_device(conn, id, name, person, None)
        return self._known(id)

    def invite(self, person: str, seconds: int = CODE_SECONDS, until: int | None = None, event: str | None = None) -> str:
        """A new pairing code for this person, good once; its device is let in `until` then, seconds since 1970.

        With `event`, the id of an event, its device sees that event and the bikes that start there and nothing else; that is
        for checkers only. Raises InputError.
        """
        known = self.person(person)
        if known is None:
            raise refuse("person", person, "the id of a person known here")
        if event is not None:
            if known.role != "checker":
                raise refuse("event", event, f"nothing for a {known.role}: a checker is let in for an event")
            if not _is_id(event):
                raise refuse("event", event, "a UUID in lower case")
        code = secrets.new_code()
        now = int(time.time())
        with self._pool.alone() as conn:
            conn.execute("DELETE FROM codes WHERE expires_at < ?", (now,))
            conn.execute("DELETE FROM codes WHERE person IN (SELECT id FROM people WHERE forgotten_at IS NOT NULL)")
            conn.execute(
                "INSERT INTO codes (hash, person, expires_at, until, event) VALUES (?, ?, ?, ?, ?)",
                (secrets.hashed(code), person, now + seconds, until, event),
            )
        return code

    def pair(self, code: str, device: str, name: str) -> tuple[Device, str]:
        """Use up a code: the device belongs to its person from now on. Returns it with its new token. Raises InputError."""
        problems = _bad_name("name", name) + _bad_id("device", device)
        if problems:
            raise InputError(problems)
        hashed = secrets.hashed(secrets.read_code(code))

        def used_up(conn: Connection) -> tuple[str, int | None, str | None]:
            row = conn.execute(
                "DELETE FROM codes WHERE hash = ? AND expires_at >= ? RETURNING person, until, event",
                (hashed, int(time.time())),
            ).fetchone()
            if row is None:
                raise refuse("code", "a code", "a pairing code that is known, not used and not older than its time")
            return row[0], row[1], row[2]

        return self._let_in(used_up, device, name)

    def let_in(self, person: str, device: str, name: str) -> tuple[Device, str]:
        """Pair a device with a person who has proven otherwise who they are. Raises InputError."""
        problems = _bad_name("name", name) + _bad_id("device", device)
        if problems:
            raise InputError(problems)
        return self._let_in(lambda _: (person, None, None), device, name)

    def _let_in(
        self, who: Callable[[Connection], tuple[str, int | None, str | None]], device: str, name: str
    ) -> tuple[Device, str]:
        """In one transaction: who it is, and their device with a new token. A refusal uses nothing up."""
        token = secrets.new_token()
        with self._pool.alone() as conn:
            person, until, event = who(conn)
            owner = conn.execute("SELECT person FROM devices WHERE id = ?", (device,)).fetchone()
            if owner is not None and owner[0] != person:
                raise refuse("device", device, "a device that is nobody else's")
            _put_device(conn, device, name, person, secrets.hashed(token))
            conn.execute("UPDATE devices SET until = ?, event = ?, revoked_token = NULL WHERE id = ?", (until, event, device))
        return self._known(device), token

    def authenticate(self, token: str, unsent: int | None = None) -> Device | None:
        """The device this token belongs to, if it may still come in. `unsent` is how many entries it says wait on it."""
        found = self.recognize(token, unsent)
        if found is None:
            return None
        self.note(found)
        return found.device

    def recognize(self, token: str, unsent: int | None = None) -> Recognized | None:
        """As `authenticate`, but only reads."""
        now = int(time.time())
        row = self._door.one(_OF_TOKEN, (secrets.hashed(token),))
        if row is None:
            return None
        id, name, person, person_name, role, paired_at, used_at, revoked_at, until, waits, event = row
        if revoked_at is not None or now > paired_at + TOKEN_SECONDS or now > used_at + IDLE_SECONDS:
            return None
        if until is not None and now > until:
            return None
        told = waits if unsent is None else unsent
        news = now > used_at + SEEN_SECONDS or told != waits
        return Recognized(Device(id, name, Person(person, person_name, role), event), told, news)

    def note(self, found: Recognized) -> None:
        """Keep when a device was last seen and what it said, if that is news."""
        if not found.news:
            return
        # A full disk keeps nobody from reading.
        with suppress(StoreError), self._pool.changing() as conn:
            conn.execute(
                "UPDATE devices SET used_at = ?, unsent = ? WHERE id = ?", (int(time.time()), found.unsent, found.device.id)
            )

    def was_shut_out(self, token: str) -> bool:
        """Whether this token was a device's that was revoked since: it is told so, and drops what it keeps of the record."""
        return self._door.one("SELECT 1 FROM devices WHERE revoked_token = ?", (secrets.hashed(token),)) is not None

    def revoke(self, device: str) -> bool:
        """Shut a device out at once; what it has stored stays. False when it is not known."""
        if not _is_id(device):
            return False
        with self._pool.alone() as conn:
            done = conn.execute(
                "UPDATE devices SET revoked_at = ?, revoked_token = coalesce(token, revoked_token), token = NULL WHERE id = ?",
                (int(time.time()), device),
            ).rowcount
        return done > 0

    def _check_device(self, id: str, name: str, person: str) -> None:
        problems = _bad_name("name", name) + _bad_id("device", id)
        if self.person(person) is None:
            problems.append(problem("person", person, "the id of a person known here"))
        known = self.device(id)
        if known is not None and known.person.id != person:
            problems.append(problem("device", id, "a device that is nobody else's"))
        if problems:
            raise InputError(problems)

    def _known(self, id: str) -> Device:
        found = self.device(id)
        if found is None:
            raise RuntimeError("a device just written is not there")
        return found


_DEVICE = "SELECT d.id, d.name, p.id, p.name, p.role, d.event FROM devices d JOIN people p ON p.id = d.person"
_OF_TOKEN = (
    "SELECT d.id, d.name, p.id, p.name, p.role, d.paired_at, d.used_at, d.revoked_at, d.until, d.unsent, d.event"
    " FROM devices d JOIN people p ON p.id = d.person WHERE d.token = ?"
)


def _bad_name(field: str, name: str) -> list[dict[str, str]]:
    sound = (
        0 < len(name.strip()) <= len(name) <= MOST_NAME
        and not any(unicodedata.category(c) in ("Cc", "Cs") for c in name)
        and unicodedata.is_normalized("NFC", name)
    )
    return [] if sound else [problem(field, ascii(name), f"a name of 1 to {MOST_NAME} letters")]


def _put_device(conn: Connection, id: str, name: str, person: str, token: str | None) -> None:
    now = int(time.time())
    conn.execute(
        "INSERT INTO devices (id, name, person, token, paired_at, used_at) VALUES (?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (id) DO UPDATE SET name = excluded.name, token = coalesce(excluded.token, devices.token),"
        " paired_at = excluded.paired_at, used_at = excluded.used_at,"
        " revoked_at = CASE WHEN excluded.token IS NULL THEN devices.revoked_at END",
        (id, name, person, token, now, now),
    )


def _is_id(id: str) -> bool:
    return re.match(UUID, id) is not None


def _bad_id(field: str, id: str) -> list[dict[str, str]]:
    return [] if _is_id(id) else [problem(field, id, "a UUID in lower case")]
