"""The eleven fields of an entry, and what the server makes of one that arrived."""

import re
from functools import lru_cache

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


# What each entry has of its own, in one pattern: its id, its time, its stamp.
_OWN = re.compile("".join(p.removeprefix("^").removesuffix(r"\Z") + " " for p in (UUID_7, TIME, STAMP)))
_is_hash = re.compile(HASH).match
_is_uuid = re.compile(UUID).match


@lru_cache(maxsize=1024)
def _is_subject(subject: str) -> bool:
    return re.match(SUBJECT, subject) is not None


def is_sound(e: Envelope, author: Author, before: str) -> bool:
    """Whether every text of the envelope has the pattern StrictEnvelope gives it.

    What is known to have it is only compared: the author's own ids, and `before`, the hash of the entry before it in the batch.
    """
    return (
        _OWN.fullmatch(f"{e.id} {e.noted_at} {e.stamp} ") is not None
        and _is_subject(e.subject)
        and (e.prev == before or _is_hash(e.prev) is not None)
        and (e.device == author.device or _is_uuid(e.device) is not None)
        and (e.by == author.person or _is_uuid(e.by) is not None)
    )


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
