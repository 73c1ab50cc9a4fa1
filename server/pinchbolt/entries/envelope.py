"""The eleven fields of an entry, and what the server makes of one that arrived."""

import msgspec
from msgspec import Raw, Struct

from pinchbolt.entries.bodies import Body
from pinchbolt.entries.fields import Count, EntryId, Hash, Place, Stamp, Subject, Time, Uuid

NO_PREV = "0" * 64
MOST_ENTRY_BYTES = 64 * 1024

Problem = dict[str, str]


class Envelope(Struct, forbid_unknown_fields=True, frozen=True, gc=False):
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
