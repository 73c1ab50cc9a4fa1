"""The people of the workshop, as far as the asker may know them; and letting a rider or a checker in."""

import time
from typing import Annotated, Any

import msgspec
import segno
from litestar import Request, Response, get, post
from litestar.params import FromPath
from msgspec import Meta, Struct

from pinchbolt.access.people import CODE_SECONDS, DAY, MOST_NAME, Person
from pinchbolt.access.rules import LETS_IN, NAMES, lets_in
from pinchbolt.api.problem import Refused
from pinchbolt.api.who import device_of
from pinchbolt.entries.faults import told
from pinchbolt.entries.fields import Uuid
from pinchbolt.kernel.errors import InputError, refuse
from pinchbolt.workshop import Workshop

MOST_BODY = 4096


class NewPerson(Struct, forbid_unknown_fields=True, frozen=True):
    name: Annotated[str, Meta(min_length=1, max_length=MOST_NAME)]
    role: str


class Invitation(Struct, forbid_unknown_fields=True, frozen=True):
    """For how many minutes the code is good, after how many days the device it lets in is shut out again by itself, and for a
    checker the one event they see; without it they see all.
    """

    minutes: Annotated[int, Meta(ge=1, le=7 * 24 * 60)] = CODE_SECONDS // 60
    days: Annotated[int, Meta(ge=1, le=400)] | None = None
    event: Uuid | None = None


class Invited(Struct, frozen=True):
    """A one-time pairing code, for how many seconds it is good, its link, and that as a QR code (a data: address of an SVG)."""

    code: str
    seconds: int
    link: str
    qr: str


_read = msgspec.json.Decoder(NewPerson).decode
_read_invitation = msgspec.json.Decoder(Invitation).decode


@get("/api/people", opt={"act": "read-people"}, sync_to_thread=True)
def list_people(request: Request[Any, Any, Any]) -> list[Person]:
    """Names and roles. A checker let in for one event knows of the riders those only who start there."""
    workshop: Workshop = request.app.state.workshop
    device = device_of(request)
    asker = device.person
    known = NAMES.get(asker.role, frozenset())
    found = [p for p in workshop.people.everyone() if p.role in known or p.id == asker.id]
    if device.sight().audience is None or device.event is None:
        return found
    starting = workshop.riders_of(device.event)
    return [p for p in found if p.role != "rider" or p.id in starting]


@post("/api/people", opt={"act": "add-person"}, status_code=201, request_max_body_size=MOST_BODY)
async def add_person(request: Request[Any, Any, Any]) -> Person:
    """Add a person of a role the asker may let in."""
    body = await request.body()
    try:
        asked = _read(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise InputError([told(error, body)]) from None
    role = device_of(request).person.role
    if not lets_in(role, asked.role):
        raise refuse("role", asked.role, "one of " + ", ".join(sorted(LETS_IN.get(role, frozenset()))))
    workshop: Workshop = request.app.state.workshop
    return workshop.people.add_person(asked.name, asked.role)


@post("/api/people/{id:str}/invite", opt={"act": "invite"}, status_code=200, request_max_body_size=MOST_BODY)
async def invite(id: FromPath[str], request: Request[Any, Any, Any]) -> Response[Invited]:
    """A pairing code for this person. Whoever holds it comes in as them, so nobody gives one for a person above themselves."""
    workshop: Workshop = request.app.state.workshop
    asker = device_of(request).person
    person = workshop.people.person(id)
    if person is None:
        raise Refused(404, "There is no such person.")
    if not lets_in(asker.role, person.role) and person.id != asker.id:
        raise Refused(403, f"A {asker.role} may not let a {person.role} in.")
    body = await request.body()
    try:
        asked = _read_invitation(body) if body else Invitation()
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise InputError([told(error, body)]) from None
    seconds = asked.minutes * 60
    until = None if asked.days is None else int(time.time()) + asked.days * DAY
    code = workshop.people.invite(id, seconds, until, asked.event)
    # The code stands behind #, so that it is never sent in a request line nor logged.
    link = f"{request.url.scheme}://{request.url.netloc}/pair#{code}"
    made = Invited(code, seconds, link, segno.make(link, error="m").svg_data_uri(scale=4, light="#fff"))
    return Response(made, headers={"Cache-Control": "no-store"})
