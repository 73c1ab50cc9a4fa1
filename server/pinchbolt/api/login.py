"""Letting an owner's new machine in by their passphrase, when one is set."""

from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, Response, post
from msgspec import Meta, Struct

from pinchbolt.access.passphrases import MOST
from pinchbolt.access.people import MOST_NAME
from pinchbolt.api.pair import MOST_BODY, welcome
from pinchbolt.api.problem import Refused
from pinchbolt.api.secret import read_secret
from pinchbolt.api.throttle import Throttle, hold_back
from pinchbolt.api.who import PUBLIC
from pinchbolt.workshop import Workshop

TRIES_A_MINUTE = 5


class Login(Struct, forbid_unknown_fields=True, frozen=True):
    person: Annotated[str, Meta(min_length=1, max_length=MOST_NAME)]
    passphrase: Annotated[str, Meta(min_length=1, max_length=MOST)]
    device: Annotated[str, Meta(max_length=36)]
    name: Annotated[str, Meta(max_length=200)]


_read = msgspec.json.Decoder(Login).decode


@post("/api/login", opt={"act": PUBLIC}, status_code=200, request_max_body_size=MOST_BODY)
async def login(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """Pair this device with the owner of that name; the answer sets the device's cookie."""
    throttle: Throttle = request.app.state.logins
    hold_back(throttle.wait(), "Too many tries. Wait a little.")
    asked = read_secret(_read, await request.body(), "person, passphrase, device and name as texts")
    workshop: Workshop = request.app.state.workshop
    owner = await to_thread.run_sync(workshop.passphrases.owner_of, asked.person, asked.passphrase)
    if owner is None:
        raise Refused(403, "That is not the name and passphrase of an owner here.")
    return welcome(request, *await to_thread.run_sync(workshop.people.let_in, owner, asked.device, asked.name))
