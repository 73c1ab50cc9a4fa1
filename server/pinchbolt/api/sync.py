"""Push and pull, as docs/record.md has them."""

import asyncio
from typing import Annotated, Any

import msgspec
from anyio import to_thread
from litestar import Request, Response, get, post
from litestar.params import QueryParameter

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

_encode = msgspec.json.Encoder().encode


@post("/api/sync/push", opt={"act": "push"}, status_code=200, request_max_body_size=MOST_BATCH_BYTES)
async def push(request: Request[Any, Any, Any]) -> Response[bytes]:
    """Take a batch of entries; answered when it is on the disk."""
    workshop: Workshop = request.app.state.workshop
    hold_back(WAITING_SECONDS if workshop.log.waiting() > MOST_WAITING else 0, "Too many are sending at once.")
    throttle: EachThrottle = request.app.state.pushes
    hold_back(throttle.wait(device_of(request).id), "This device sends too often.")
    pushed = await asyncio.wrap_future(workshop.submit(device_of(request), await request.body()))
    return _json(_encode(pushed))


@get("/api/sync/pull", opt={"act": "pull"})
async def pull(
    request: Request[Any, Any, Any],
    after: Annotated[int, QueryParameter(ge=0, le=MOST_WHOLE)] = 0,
    limit: Annotated[int, QueryParameter(ge=1, le=MOST_PULLED)] = USUAL_PULLED,
) -> Response[bytes]:
    """Entries after a cursor, their bytes as they were written."""
    workshop: Workshop = request.app.state.workshop
    sight = device_of(request).sight()
    return _json(await to_thread.run_sync(workshop.log.pull_text, after, limit, sight))


def _json(content: bytes) -> Response[bytes]:
    return Response(content, media_type="application/json", headers={"Cache-Control": "no-store"})
