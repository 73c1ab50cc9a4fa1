"""From the bytes of one entry to what the server makes of it."""

from collections.abc import Sequence
from hashlib import sha256

import msgspec

from pinchbolt.entries.bodies import BODIES, LOOSE, ONLY_ABOUT, Body, DescribeEvent
from pinchbolt.entries.envelope import (
    MOST_ENTRY_BYTES,
    NO_PREV,
    Arrival,
    Author,
    Envelope,
    Link,
    Problem,
    is_sound,
    read_envelope,
    read_link,
    read_strictly,
)
from pinchbolt.entries.faults import told
from pinchbolt.entries.text import is_plain, text_problems
from pinchbolt.kernel.errors import problem

_UNREADABLE = (msgspec.MsgspecError, UnicodeDecodeError, RecursionError)

_bodies = {kind: msgspec.json.Decoder(body).decode for kind, body in BODIES.items()}
_event_describe = msgspec.json.Decoder(DescribeEvent).decode


def read_entries(entries: Sequence[bytes], author: Author) -> list[Arrival]:
    """Read a batch of `author`. Never raises: what is wrong with an entry stands in its `problems`."""
    # One look at all of them is as quick as one look at one, and most batches are plain.
    plain = is_plain(b"".join(entries))
    arrivals: list[Arrival] = []
    before = NO_PREV
    for raw in entries:
        arrival = _read(raw, author, before, plain or is_plain(raw))
        arrivals.append(arrival)
        before = arrival.hash
    return arrivals


def read_entry(raw: bytes, author: Author) -> Arrival:
    """Read one entry, as `read_entries` does."""
    return _read(raw, author, NO_PREV, is_plain(raw))


def _read(raw: bytes, author: Author, before: str, plain: bool) -> Arrival:
    digest = sha256(raw).hexdigest()
    if len(raw) > MOST_ENTRY_BYTES:
        size = problem("entry", f"{len(raw)} bytes", f"at most {MOST_ENTRY_BYTES} bytes")
        return Arrival(raw, digest, _link(raw, author), None, None, [size])
    try:
        envelope = read_envelope(raw)
        if not is_sound(envelope, author, before):
            read_strictly(raw)
    except _UNREADABLE as error:
        return Arrival(raw, digest, _link(raw, author), None, None, [told(error, raw)])
    problems = _standing(envelope, author)
    body: Body | None = None
    try:
        body = _read_body(envelope)
    except _UNREADABLE as error:
        problems.append(told(error, bytes(envelope.body), "body"))
    if body is None and not problems:
        problems.append(problem("kind", envelope.kind, "one of " + ", ".join(BODIES)))
    if not problems and (not plain or envelope.kind in LOOSE):
        problems += text_problems(msgspec.json.decode(raw))
    link = envelope if envelope.device == author.device else None
    return Arrival(raw, digest, link, envelope, body, problems)


def _read_body(envelope: Envelope) -> Body | None:
    if envelope.kind == "describe" and envelope.subject.startswith("event/"):
        return _event_describe(envelope.body)
    read = _bodies.get(envelope.kind)
    return read(envelope.body) if read is not None else None


def _standing(envelope: Envelope, author: Author) -> list[Problem]:
    """Whether the envelope says the truth about who wrote it and stands on a subject of its kind."""
    problems: list[Problem] = []
    about = ONLY_ABOUT.get(envelope.kind)
    if envelope.device != author.device:
        problems.append(problem("device", envelope.device, "the device that sends it, " + author.device))
    if envelope.by != author.person:
        problems.append(problem("by", envelope.by, "the person this device belongs to, " + author.person))
    if envelope.stamp[-8:] != author.device[:8]:
        problems.append(problem("stamp", envelope.stamp, "a stamp ending in the first 8 digits of the device"))
    if about is not None and not envelope.subject.startswith(about):
        problems.append(problem("subject", envelope.subject, f"{about.rstrip('/')} for the kind {envelope.kind}"))
    return problems


def _link(raw: bytes, author: Author) -> Link | None:
    """The place in the chain of an entry that is otherwise unsound, if that much of it can be read."""
    try:
        link = read_link(raw)
    except _UNREADABLE:
        return None
    return link if link.device == author.device else None
