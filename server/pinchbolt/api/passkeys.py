"""Passkeys: making one for the owner who asks, and letting the owner's new machine in by one."""

from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, Response, post
from msgspec import Meta, Struct

from pinchbolt.api.pair import welcome
from pinchbolt.api.problem import Refused
from pinchbolt.api.secret import read_secret
from pinchbolt.api.throttle import Throttle, hold_back
from pinchbolt.api.who import PUBLIC, device_of
from pinchbolt.workshop import Workshop

MOST_BODY = 16 * 1024
# A signature is not guessed; this keeps the door from being leant on. One way in takes two.
TRIES_A_MINUTE = 30
NOT_KEPT = {"Cache-Control": "no-store"}


class Made(Struct, forbid_unknown_fields=True, frozen=True):
    """What the browser made, as its `toJSON()` says it."""

    credential: dict[str, Any]


class Shown(Struct, forbid_unknown_fields=True, frozen=True):
    """What the browser signed, and the machine that is to be let in."""

    credential: dict[str, Any]
    device: Annotated[str, Meta(max_length=36)]
    name: Annotated[str, Meta(max_length=200)]


_read_made = msgspec.json.Decoder(Made).decode
_read_shown = msgspec.json.Decoder(Shown).decode


@post("/api/passkeys/begin", opt={"act": "add-passkey"}, status_code=200, request_max_body_size=MOST_BODY)
async def begin_adding(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """The options for making a passkey."""
    workshop: Workshop = request.app.state.workshop
    owner = device_of(request).person
    return Response(await to_thread.run_sync(workshop.passkeys.begin_adding, owner, _host(request)), headers=NOT_KEPT)


@post("/api/passkeys", opt={"act": "add-passkey"}, status_code=204, request_max_body_size=MOST_BODY)
async def add(request: Request[Any, Any, Any]) -> None:
    """Keep a passkey for the owner who asks."""
    workshop: Workshop = request.app.state.workshop
    made = read_secret(_read_made, await request.body(), "credential as an object")
    owner = device_of(request).person
    await to_thread.run_sync(workshop.passkeys.add, owner, made.credential, _host(request), _origin(request))


@post("/api/login/passkey/begin", opt={"act": PUBLIC}, status_code=200, request_max_body_size=MOST_BODY)
async def begin_login(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """The options for showing a passkey."""
    _slowed(request)
    workshop: Workshop = request.app.state.workshop
    return Response(await to_thread.run_sync(workshop.passkeys.begin_login, _host(request)), headers=NOT_KEPT)


@post("/api/login/passkey", opt={"act": PUBLIC}, status_code=200, request_max_body_size=MOST_BODY)
async def login(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """Pair this device with the owner whose passkey was shown; the answer sets the device's cookie."""
    _slowed(request)
    asked = read_secret(_read_shown, await request.body(), "credential as an object, device and name as texts")
    workshop: Workshop = request.app.state.workshop
    host, origin = _host(request), _origin(request)
    owner = await to_thread.run_sync(workshop.passkeys.owner_of, asked.credential, host, origin)
    if owner is None:
        raise Refused(403, "That is not the passkey of an owner here.")
    return welcome(request, *await to_thread.run_sync(workshop.people.let_in, owner, asked.device, asked.name))


def _host(request: Request[Any, Any, Any]) -> str:
    return request.url.hostname or ""


def _origin(request: Request[Any, Any, Any]) -> str:
    return f"{request.url.scheme}://{request.url.netloc}"


def _slowed(request: Request[Any, Any, Any]) -> None:
    throttle: Throttle = request.app.state.passkeys
    hold_back(throttle.wait(), "Too many tries. Wait a little.")
