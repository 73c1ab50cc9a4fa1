"""The workshop's devices: whose, when last seen, what waits on them; and shutting one out."""

from typing import Any

from litestar import Request, Response, get, post
from litestar.params import FromPath

from pinchbolt.access.people import Listed
from pinchbolt.access.rules import lets_in
from pinchbolt.api.problem import Refused
from pinchbolt.api.who import device_of
from pinchbolt.workshop import Workshop


@get("/api/devices", opt={"act": "read-devices"}, sync_to_thread=False)
def list_devices(request: Request[Any, Any, Any]) -> Response[list[Listed]]:
    """The devices of everybody the asker may let in, and the asker's own."""
    workshop: Workshop = request.app.state.workshop
    asker = device_of(request).person
    shown = {p.id for p in workshop.people.everyone() if lets_in(asker.role, p.role)} | {asker.id}
    found = [one for one in workshop.people.listed() if one.person in shown]
    return Response(found, headers={"Cache-Control": "no-store"})


@post("/api/devices/{id:str}/revoke", opt={"act": "revoke"}, status_code=204, sync_to_thread=False)
def revoke_device(id: FromPath[str], request: Request[Any, Any, Any]) -> None:
    """Shut a device out; it learns so with its next request."""
    workshop: Workshop = request.app.state.workshop
    asker = device_of(request).person
    device = workshop.people.device(id)
    if device is None:
        raise Refused(404, "There is no such device.")
    if not lets_in(asker.role, device.person.role) and device.person.id != asker.id:
        raise Refused(403, f"A {asker.role} may not shut a {device.person.role}'s device out.")
    workshop.people.revoke(id)
