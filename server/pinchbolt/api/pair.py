"""Pairing a device with a one-time code, and who it then is."""

from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, Response, delete, get, post
from msgspec import Meta, Struct

from pinchbolt import __version__
from pinchbolt.access.people import Device
from pinchbolt.api import PROTOCOL
from pinchbolt.api.throttle import Throttle, hold_back
from pinchbolt.api.who import PUBLIC, SIGNED_IN, device_of, let_in
from pinchbolt.entries.faults import told
from pinchbolt.entries.signing import Jwk
from pinchbolt.kernel.errors import InputError
from pinchbolt.workshop import Workshop

# A code has 60 bits; a few tries a minute make guessing hopeless and leave room for a mistyped one.
TRIES_A_MINUTE = 10
MOST_BODY = 4096


class Pairing(Struct, forbid_unknown_fields=True, frozen=True):
    code: Annotated[str, Meta(min_length=1, max_length=64)]
    device: Annotated[str, Meta(max_length=36)]
    name: Annotated[str, Meta(max_length=200)]


_read = msgspec.json.Decoder(Pairing).decode
_read_key = msgspec.json.Decoder(Jwk).decode


@post("/api/pair", opt={"act": PUBLIC}, status_code=200, request_max_body_size=MOST_BODY)
async def pair(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """Use up a pairing code; the answer sets the device's cookie."""
    throttle: Throttle = request.app.state.pairing
    hold_back(throttle.wait(), "Too many codes were tried. Wait a little.")
    body = await request.body()
    try:
        pairing = _read(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        fault = told(error, body)
        # A code is a secret until it is used: it is not sent back, however wrong the rest.
        raise InputError([{**fault, "given": "a text"} if fault["field"] in ("code", "entry") else fault]) from None
    workshop: Workshop = request.app.state.workshop
    return welcome(request, *await to_thread.run_sync(workshop.people.pair, pairing.code, pairing.device, pairing.name))


@get("/api/me", opt={"act": SIGNED_IN}, sync_to_thread=False)
def me(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """The device that asks, its person, and this server."""
    return Response(me_of(request, device_of(request)), headers={"Cache-Control": "no-store"})


@post("/api/me/key", opt={"act": SIGNED_IN}, status_code=200, request_max_body_size=MOST_BODY)
async def enrol(request: Request[Any, Any, Any]) -> Response[dict[str, str]]:
    """Make this device's public key known; it signs the heads of its chain from now on."""
    body = await request.body()
    try:
        jwk = _read_key(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise InputError([told(error, body)]) from None
    workshop: Workshop = request.app.state.workshop
    return Response({"kid": workshop.keys.enrol(device_of(request).id, jwk)}, headers={"Cache-Control": "no-store"})


@delete("/api/me", opt={"act": SIGNED_IN}, status_code=204, sync_to_thread=False)
def leave(request: Request[Any, Any, Any]) -> None:
    """Sign this device out: its token is good for nothing from now on."""
    workshop: Workshop = request.app.state.workshop
    workshop.people.revoke(device_of(request).id)


def welcome(request: Request[Any, Any, Any], device: Device, token: str) -> Response[dict[str, Any]]:
    """The answer to a device that was just let in; it sets the device's cookie."""
    return Response(me_of(request, device), cookies=[let_in(request, token)], headers={"Cache-Control": "no-store"})


def me_of(request: Request[Any, Any, Any], device: Device) -> dict[str, Any]:
    """The device, its person, and this server."""
    person = device.person
    return {
        "device": {"id": device.id, "name": device.name, "event": device.event},
        "person": {"id": person.id, "name": person.name, "role": person.role},
        "server": {"version": __version__, "protocol": int(PROTOCOL), "workshop": request.app.state.settings.workshop},
    }
