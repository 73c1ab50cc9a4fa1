"""Who is asking: the cookie, the device behind it, and whether its person may do what the route does.

Every route names its act (`opt={"act": ...}`); one that names none is shut to everybody.
"""

from functools import lru_cache
from ipaddress import ip_address
from typing import Any
from urllib.parse import urlsplit

from anyio import to_thread
from litestar.connection import ASGIConnection
from litestar.datastructures import Cookie
from litestar.middleware import ASGIMiddleware
from litestar.types import ASGIApp, Receive, Scope, Send

from pinchbolt.access import rules
from pinchbolt.access.people import TOKEN_SECONDS, Device
from pinchbolt.api.problem import Refused
from pinchbolt.workshop import Workshop

PUBLIC = "public"
SIGNED_IN = "signed-in"

# How many entries wait on the device, as it says itself; and that it was shut out, as the server says.
UNSENT_HEADER = "Pinchbolt-Unsent"
REVOKED_HEADER = "Pinchbolt-Revoked"

COOKIE = "pinchbolt"
SECURE_COOKIE = "__Host-pinchbolt"

# Under what name a request carries the device that was let through.
_DEVICE = "device"

Asking = ASGIConnection[Any, Any, Any, Any]


def is_plain_loopback(connection: Asking) -> bool:
    """Whether this is http to this very machine, the one place where a browser keeps no Secure cookie."""
    return connection.scope["scheme"] == "http" and _is_loopback(connection.headers.get("host", ""))


@lru_cache(maxsize=32)
def _is_loopback(named: str) -> bool:
    """Whether a Host header names this machine. Every request asks, nearly always with the same few names."""
    try:
        host = urlsplit("//" + named).hostname or ""
    except ValueError:
        return False
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def cookie_name(connection: Asking) -> str:
    return COOKIE if is_plain_loopback(connection) else SECURE_COOKIE


class Admission(ASGIMiddleware):
    """Stands before every route, and lets through whom its act allows.

    No guard of Litestar's: for each of those a route is copied at every request, a tenth of what a small one takes.
    """

    async def handle(self, scope: Scope, receive: Receive, send: Send, next_app: ASGIApp) -> None:
        act = scope["route_handler"].opt.get("act")
        if act != PUBLIC:
            device = await _let_through(ASGIConnection(scope), act)
            scope["state"][_DEVICE] = device
        await next_app(scope, receive, send)


async def _let_through(connection: Asking, act: object) -> Device:
    """The device that asks. The database is asked each time, so that a device that is shut out is out at once."""
    token = connection.cookies.get(cookie_name(connection))
    workshop: Workshop = connection.app.state.workshop
    people = workshop.people
    # A thread costs more than the question, where the database is at hand.
    if workshop.database.at_hand:
        found = people.recognize(token, _unsent(connection)) if token else None
    else:
        found = await to_thread.run_sync(people.recognize, token, _unsent(connection)) if token else None
    if found is None:
        if token and await to_thread.run_sync(people.was_shut_out, token):
            raise Refused(401, "This device was shut out of this workshop.", headers={REVOKED_HEADER: "yes"})
        raise Refused(401, "This device is not paired with this workshop, or not any more.")
    if found.news:
        await to_thread.run_sync(people.note, found)
    device = found.device
    if act != SIGNED_IN and not rules.may(device.person.role, str(act)):
        raise Refused(403, f"A {device.person.role} may not do this.")
    return device


def _unsent(connection: Asking) -> int | None:
    """How many entries the device says wait on it; None when it does not say, or nothing that can be believed."""
    said = connection.headers.get(UNSENT_HEADER, "")
    return int(said) if said.isascii() and said.isdigit() and len(said) <= 7 else None


def let_in(request: Asking, token: str) -> Cookie:
    """The cookie of a device just paired."""
    return Cookie(
        key=cookie_name(request),
        value=token,
        max_age=TOKEN_SECONDS,
        path="/",
        httponly=True,
        secure=not is_plain_loopback(request),
        samesite="strict",
    )


def device_of(connection: Asking) -> Device:
    """The device that was admitted."""
    return connection.scope["state"][_DEVICE]
