"""The people of the workshop, as far as the asker may know them."""

from typing import Any

from litestar import Request, get

from pinchbolt.access.people import Person
from pinchbolt.access.rules import NAMES
from pinchbolt.api.who import device_of
from pinchbolt.workshop import Workshop


@get("/api/people", opt={"act": "read-people"}, sync_to_thread=False)
def list_people(request: Request[Any, Any, Any]) -> list[Person]:
    """Names and roles."""
    workshop: Workshop = request.app.state.workshop
    asker = device_of(request).person
    known = NAMES.get(asker.role, frozenset())
    return [p for p in workshop.people.everyone() if p.role in known or p.id == asker.id]
