"""Whether the server is well enough to take and give entries."""

from typing import Any

from anyio import to_thread
from litestar import Request, Response, get

from pinchbolt import __version__
from pinchbolt.api import PROTOCOL
from pinchbolt.api.who import PUBLIC
from pinchbolt.workshop import Workshop


@get("/api/health", opt={"act": PUBLIC})
async def health(request: Request[Any, Any, Any]) -> Response[dict[str, Any]]:
    """Answers only when the log can be read."""
    workshop: Workshop = request.app.state.workshop
    await to_thread.run_sync(workshop.log.top)
    told = {"status": "ok", "version": __version__, "protocol": int(PROTOCOL)}
    return Response(told, headers={"Cache-Control": "no-store"})
