"""Letting an owner's new machine in by their passphrase, when one is set."""

from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, Response, post
from msgspec import Meta, Struct

from pinchbolt.access.passphrases import MOST
from pinchbolt.access.people import MOST_NAME
from pinchbolt.api.pair import MOST_BODY, me_of
from pinchbolt.api.problem import Refused
from pinchbolt.api.throttle import Throttle
from pinchbolt.api.who import PUBLIC, let_in
from pinchbolt.kernel.errors import InputError, problem
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
    wait = throttle.wait()
    if wait > 0:
        raise Refused(429, "Too many tries. Wait a little.", headers={"Retry-After": str(wait)})
    try:
        asked = _read(await request.body())
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        # What was typed is a secret, however wrong: nothing of it is said back.
        wanted = "person, passphrase, device and name as texts"
        raise InputError([problem("request", "something else", wanted)]) from None
    workshop: Workshop = request.app.state.workshop
    owner = await to_thread.run_sync(workshop.passphrases.owner_of, asked.person, asked.passphrase)
    if owner is None:
        raise Refused(403, "That is not the name and passphrase of an owner here.")
    device, token = workshop.people.let_in(owner, asked.device, asked.name)
    return Response(me_of(request, device), cookies=[let_in(request, token)], headers={"Cache-Control": "no-store"})
