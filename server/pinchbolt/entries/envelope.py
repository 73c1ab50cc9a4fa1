"""The eleven fields of an entry, and what the server makes of one that arrived."""

import re

import msgspec
from msgspec import Raw, Struct

from pinchbolt.entries.bodies import Body
from pinchbolt.entries.fields import (
    HASH,
    STAMP,
    SUBJECT,
    TIME,
    UUID,
    UUID_7,
    Count,
    EntryId,
    Hash,
    Place,
    Stamp,
    Subject,
    Time,
    Uuid,
)

NO_PREV = "0" * 64
MOST_ENTRY_BYTES = 64 * 1024

Problem = dict[str, str]


class Envelope(Struct, forbid_unknown_fields=True, frozen=True, gc=False):
    """The shape alone; `is_sound` says whether the texts in it are what they should be."""

    id: str
    subject: str
    kind: str
    noted_at: str
    stamp: str
    device: str
    n: Place
    prev: str
    seen: Count
    by: str
    body: Raw


class StrictEnvelope(Struct, forbid_unknown_fields=True, frozen=True, gc=False):
    """The same with every text's pattern. Reading it takes ten times as long, and says which field is wrong."""

    id: EntryId
    subject: Subject
    kind: str
    noted_at: Time
    stamp: Stamp
    device: Uuid
    n: Place
    prev: Hash
    seen: Count
    by: Uuid
    body: Raw


# All patterns in one: a device sends thousands of entries that are in order, and is asked about each only once.
_SOUND = re.compile(
    "".join(p.removeprefix("^").removesuffix(r"\Z") + " " for p in (UUID_7, SUBJECT, TIME, STAMP, HASH, UUID, UUID))
)


def is_sound(e: Envelope) -> bool:
    """Whether every text of the envelope has the pattern StrictEnvelope gives it."""
    return _SOUND.fullmatch(f"{e.id} {e.subject} {e.noted_at} {e.stamp} {e.prev} {e.device} {e.by} ") is not None


class Link(Struct, frozen=True, gc=False):
    """The part of an envelope that gives an entry its place in the chain; the rest of it may be unsound."""

    id: EntryId
    device: Uuid
    n: Place
    prev: Hash


class Author(Struct, frozen=True, gc=False):
    """Who is at the other end: the authenticated device and its person."""

    device: str
    person: str
    role: str


class Arrival(Struct, frozen=True, gc=False):
    """One entry as it arrived. `link` is None when it cannot be placed in a chain; `problems` say why it is refused."""

    raw: bytes
    hash: str
    link: Envelope | Link | None
    envelope: Envelope | None
    body: Body | None
    problems: list[Problem]


read_link = msgspec.json.Decoder(Link).decode
read_envelope = msgspec.json.Decoder(Envelope).decode
read_strictly = msgspec.json.Decoder(StrictEnvelope).decode
