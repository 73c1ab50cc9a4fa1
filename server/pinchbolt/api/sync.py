"""Push and pull, as docs/record.md has them."""

import asyncio
from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, get, post
from litestar.params import QueryParameter
from litestar.response.base import ASGIResponse

from pinchbolt.api.coding import PACKS_ITSELF, codings
from pinchbolt.api.throttle import EachThrottle, hold_back
from pinchbolt.api.who import device_of
from pinchbolt.entries.batch import MOST_BATCH_BYTES
from pinchbolt.entries.fields import MOST_WHOLE
from pinchbolt.workshop import Workshop

MOST_PULLED = 1000
USUAL_PULLED = 200
# A phone sends a batch when something was noted; only one gone wild sends a hundred in a second, for a minute.
PUSHES_A_MINUTE = 6000
# Pushes that may wait for the disk before the next is told to come back.
MOST_WAITING = 200
WAITING_SECONDS = 2

_HEADERS = {"Cache-Control": "no-store"}
_MAY_BE_PACKED = {**_HEADERS, "Vary": "Accept-Encoding"}
_PACKED = {**_MAY_BE_PACKED, "Content-Encoding": "gzip"}
_encode = msgspec.json.Encoder().encode


@post("/api/sync/push", opt={"act": "push"}, status_code=200, request_max_body_size=MOST_BATCH_BYTES)
async def push(request: Request[Any, Any, Any]) -> ASGIResponse:
    """Take a batch of entries; answered when it is on the disk."""
    workshop: Workshop = request.app.state.workshop
    hold_back(WAITING_SECONDS if workshop.log.waiting() > MOST_WAITING else 0, "Too many are sending at once.")
    device = device_of(request)
    throttle: EachThrottle = request.app.state.pushes
    hold_back(throttle.wait(device.id), "This device sends too often.")
    pushed = await asyncio.wrap_future(workshop.submit(device, await request.body()))
    return _json(_encode(pushed), _HEADERS)


@get("/api/sync/pull", opt={"act": "pull", PACKS_ITSELF: True})
async def pull(
    request: Request[Any, Any, Any],
    after: Annotated[int, QueryParameter(ge=0, le=MOST_WHOLE)] = 0,
    limit: Annotated[int, QueryParameter(ge=1, le=MOST_PULLED)] = USUAL_PULLED,
) -> ASGIResponse:
    """Entries after a cursor, their bytes as they were written."""
    workshop: Workshop = request.app.state.workshop
    sight = device_of(request).sight()
    if "gzip" in codings(request.headers.get("accept-encoding", "")):
        # Packed there too: it takes milliseconds, in which this loop hears nobody.
        return _json(await to_thread.run_sync(workshop.log.pull_packed, after, limit, sight), _PACKED)
    return _json(await to_thread.run_sync(workshop.log.pull_text, after, limit, sight), _MAY_BE_PACKED)


def _json(content: bytes, headers: dict[str, str]) -> ASGIResponse:
    return ASGIResponse(body=content, media_type="application/json", headers=headers)
