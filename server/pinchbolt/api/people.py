"""The people of the workshop, as far as the asker may know them; and letting a rider or a checker in."""

from typing import Annotated, Any

import msgspec
from litestar import Request, Response, get, post
from litestar.params import FromPath
from msgspec import Meta, Struct

from pinchbolt.access.people import CODE_SECONDS, MOST_NAME, Person
from pinchbolt.access.rules import LETS_IN, NAMES, lets_in
from pinchbolt.api.problem import Refused
from pinchbolt.api.who import device_of
from pinchbolt.entries.faults import told
from pinchbolt.kernel.errors import InputError, refuse
from pinchbolt.workshop import Workshop

MOST_BODY = 4096


class NewPerson(Struct, forbid_unknown_fields=True, frozen=True):
    name: Annotated[str, Meta(min_length=1, max_length=MOST_NAME)]
    role: str


class Invited(Struct, frozen=True):
    """A one-time pairing code and for how many seconds it is good."""

    code: str
    seconds: int


_read = msgspec.json.Decoder(NewPerson).decode


@get("/api/people", opt={"act": "read-people"}, sync_to_thread=False)
def list_people(request: Request[Any, Any, Any]) -> list[Person]:
    """Names and roles."""
    workshop: Workshop = request.app.state.workshop
    asker = device_of(request).person
    known = NAMES.get(asker.role, frozenset())
    return [p for p in workshop.people.everyone() if p.role in known or p.id == asker.id]


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
    made = Invited(workshop.people.invite(id), CODE_SECONDS)
    return Response(made, headers={"Cache-Control": "no-store"})
