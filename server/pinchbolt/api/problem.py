"""Errors as problem details (RFC 9457): what is the matter, and for inputs field, given and wanted."""

import logging
from typing import Any

import msgspec
from litestar import Request, Response
from litestar.exceptions import HTTPException, ValidationException

from pinchbolt.entries.faults import expected
from pinchbolt.kernel.errors import InputError, problem
from pinchbolt.store import Closed, Full, StoreError

MEDIA_TYPE = "application/problem+json"

TITLES = {
    400: "Not understood",
    401: "Not signed in",
    403: "Not allowed",
    404: "Not found",
    405: "Not done here",
    413: "Too large",
    422: "Not taken",
    429: "Too many",
    500: "Our mistake",
    503: "Not now",
    507: "No room",
}

log = logging.getLogger("pinchbolt.api")


class Refused(Exception):
    """An answer that is a refusal. `detail` is one sentence for the person at the other end."""

    def __init__(
        self,
        status: int,
        detail: str,
        errors: list[dict[str, str]] | None = None,
        headers: dict[str, str] | None = None,
    ) -> None:
        super().__init__(detail)
        self.status = status
        self.detail = detail
        self.errors = errors or []
        self.headers = headers or {}


def body(status: int, detail: str, errors: list[dict[str, str]]) -> bytes:
    """The problem details as JSON."""
    return msgspec.json.encode(
        {"type": "about:blank", "title": TITLES.get(status, "Not done"), "status": status, "detail": detail, "errors": errors}
    )


def response(refused: Refused) -> Response[bytes]:
    return Response(
        body(refused.status, refused.detail, refused.errors),
        status_code=refused.status,
        media_type=MEDIA_TYPE,
        headers={"Cache-Control": "no-store", **refused.headers},
    )


def _refused(_: Request[Any, Any, Any], error: Refused) -> Response[bytes]:
    return response(error)


def _input(_: Request[Any, Any, Any], error: InputError) -> Response[bytes]:
    return response(Refused(422, "Some of what was given cannot be taken.", error.problems))


def _validation(request: Request[Any, Any, Any], error: ValidationException) -> Response[bytes]:
    told: list[Any] = list(error.extra) if isinstance(error.extra, list) else []
    errors = [_asked(request, str(one.get("key", "request")), str(one.get("message", ""))) for one in told]
    return response(Refused(422, "Some of what was asked cannot be taken.", errors))


def _asked(request: Request[Any, Any, Any], name: str, said: str) -> dict[str, str]:
    """msgspec's words on a parameter ("Expected `int`, got `str`") as a problem."""
    wanted = expected(said)
    return problem(name, request.query_params.get(name, "nothing"), wanted)


def _http(request: Request[Any, Any, Any], error: HTTPException) -> Response[bytes]:
    status = error.status_code
    if error.detail == GONE:
        return response(Refused(400, "The client left before its request had come whole."))
    if status >= 500:
        return _unexpected(request, error)
    details = {
        404: "There is nothing at this address.",
        405: "This address does not know the method " + request.method + ".",
        413: "The body is larger than is taken here.",
    }
    headers = {name: value for name, value in (error.headers or {}).items() if name.lower() == "allow"}
    return response(Refused(status, details.get(status, "The request cannot be read."), headers=headers))


def _store(_: Request[Any, Any, Any], error: StoreError) -> Response[bytes]:
    if isinstance(error, Full):
        return response(Refused(507, "The server has no room to write. Nothing was taken; keep what you have."))
    detail = "The server is stopping." if isinstance(error, Closed) else "The server cannot write now."
    return response(Refused(503, detail + " Nothing was taken; try again.", headers={"Retry-After": "5"}))


def _unexpected(request: Request[Any, Any, Any], error: Exception) -> Response[bytes]:
    # The path and the trace go to the log; who asked and what was sent do not, and none of it to the client.
    log.error("unexpected error at %s %s", request.method, request.url.path, exc_info=error)
    return response(Refused(500, "Something went wrong on the server. It was noted there."))


# How Litestar says that a client left while its request was read: a phone out of reach, nobody's error.
GONE = "client disconnected prematurely"

HANDLERS: dict[int | type[Exception], Any] = {
    Refused: _refused,
    InputError: _input,
    StoreError: _store,
    ValidationException: _validation,
    HTTPException: _http,
    Exception: _unexpected,
}
