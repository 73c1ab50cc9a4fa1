"""What surrounds every answer: the protocol's header, the security headers, a number to find it by in the log, and what is
demanded of a request that changes things: the protocol's header, and not to come from another site's page.

It wraps the whole application, so that answers made outside of any route (404, 405) carry the headers too.
"""

import logging
import secrets
import time
from itertools import count

from litestar.types import ASGIApp, Message, Receive, Scope, Send

from pinchbolt.api import PROTOCOL, PROTOCOL_HEADER, problem

CSP = (
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; "
    "connect-src 'self'; worker-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'"
)
# Used on the phone: camera for photos and codes, microphone for spoke tones, position for rides, motion for angles.
PERMISSIONS = (
    "camera=(self), microphone=(self), geolocation=(self), accelerometer=(self), gyroscope=(self), "
    "autoplay=(), display-capture=(), fullscreen=(), hid=(), magnetometer=(), midi=(), payment=(), "
    "serial=(), usb=(), xr-spatial-tracking=()"
)
HEADERS = {
    PROTOCOL_HEADER: PROTOCOL,
    "Content-Security-Policy": CSP,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": PERMISSIONS,
}
REQUEST_HEADER = "Pinchbolt-Request"
HSTS = "max-age=31536000"

log = logging.getLogger("pinchbolt.requests")

_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
_RAW = [(name.lower().encode(), value.encode()) for name, value in HEADERS.items()]
_ASKED = PROTOCOL_HEADER.lower().encode()
_OTHER = f"This server speaks version {PROTOCOL} of the protocol, what asks another version. Bring the older one up to date."
_WANTED = f"The header {PROTOCOL_HEADER}: {PROTOCOL} is needed to change anything here."


class Frame:
    """The application inside its frame of headers."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app
        # Two runs of the server share no number.
        self._run = secrets.token_hex(4)
        self._numbers = count(1)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        added = list(_RAW)
        if scope["scheme"] == "https":
            added.append((b"strict-transport-security", HSTS.encode()))

        async def framed(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"] = [*message["headers"], *added]
            await send(message)

        status = 500
        began = time.monotonic()
        number = f"{self._run}{next(self._numbers):08x}"
        added.append((REQUEST_HEADER.lower().encode(), number.encode()))
        refusal = _refusal(scope["method"], scope["path"], dict(scope["headers"]))
        try:
            if refusal is None:
                await self.app(scope, receive, framed)
            else:
                await _refuse(framed, *refusal)
        finally:
            if log.isEnabledFor(logging.INFO):
                # The route's shape, never the address itself: that may name a person's bike.
                told = {"method": scope["method"], "route": str(scope.get("path_template", "")), "status": status}
                log.info(
                    "request", extra={"told": {"request": number, **told, "ms": round((time.monotonic() - began) * 1000, 1)}}
                )


def _refusal(method: str, path: str, headers: dict[bytes, bytes]) -> tuple[int, str] | None:
    """Why this request is not even looked at: status and sentence."""
    if not _must_ask(method, path):
        return None
    asked = headers.get(_ASKED)
    if asked is not None and asked != PROTOCOL.encode():
        return 400, _OTHER
    if asked is None:
        return 400, _WANTED
    if not _from_here(headers):
        return 403, "A page of another site may not change anything here."
    return None


def _from_here(headers: dict[bytes, bytes]) -> bool:
    """Whether the browser says that our own page asks; who is no browser says nothing of the kind."""
    site = headers.get(b"sec-fetch-site")
    if site is not None:
        return site in (b"same-origin", b"none")
    origin = headers.get(b"origin")
    return origin is None or origin.partition(b"://")[2] == headers.get(b"host", b"")


def _must_ask(method: str, path: str) -> bool:
    """A page of another site cannot send this header, so what carries it was not tricked out of a browser."""
    if method in _SAFE or not path.startswith("/api/"):
        return False
    # A calculation changes nothing and needs no sign-in.
    return not (method == "POST" and path.startswith("/api/calculations/"))


async def _refuse(send: Send, status: int, detail: str) -> None:
    content = problem.body(status, detail, [])
    await send(
        {
            "type": "http.response.start",
            "status": status,
            "headers": [
                (b"content-type", problem.MEDIA_TYPE.encode()),
                (b"content-length", str(len(content)).encode()),
                (b"cache-control", b"no-store"),
            ],
        }
    )
    await send({"type": "http.response.body", "body": content, "more_body": False})
