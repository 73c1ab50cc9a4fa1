"""What surrounds every answer: the protocol's header, the security headers, and the header demanded of what changes things.

It wraps the whole application, so that answers made outside of any route (404, 405) carry the headers too.
"""

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
HSTS = "max-age=31536000"

_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
_RAW = [(name.lower().encode(), value.encode()) for name, value in HEADERS.items()]
_ASKED = PROTOCOL_HEADER.lower().encode()
_WANTED = f"The header {PROTOCOL_HEADER}: {PROTOCOL} is needed to change anything here."


class Frame:
    """The application inside its frame of headers."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        added = list(_RAW)
        if scope["scheme"] == "https":
            added.append((b"strict-transport-security", HSTS.encode()))

        async def framed(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *added]
            await send(message)

        if _must_ask(scope["method"], scope["path"]) and dict(scope["headers"]).get(_ASKED) != PROTOCOL.encode():
            await _refuse(framed)
            return
        await self.app(scope, receive, framed)


def _must_ask(method: str, path: str) -> bool:
    """A page of another site cannot send this header, so what carries it was not tricked out of a browser."""
    if method in _SAFE or not path.startswith("/api/"):
        return False
    # A calculation changes nothing and needs no sign-in.
    return not (method == "POST" and path.startswith("/api/calculations/"))


async def _refuse(send: Send) -> None:
    content = problem.body(400, _WANTED, [])
    await send(
        {
            "type": "http.response.start",
            "status": 400,
            "headers": [
                (b"content-type", problem.MEDIA_TYPE.encode()),
                (b"content-length", str(len(content)).encode()),
                (b"cache-control", b"no-store"),
            ],
        }
    )
    await send({"type": "http.response.body", "body": content, "more_body": False})
