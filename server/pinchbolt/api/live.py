"""Server-sent events: there is a new seq, come and pull."""

import asyncio
from collections.abc import AsyncIterator
from typing import Any

from anyio import to_thread
from litestar import Request, get
from litestar.response import Stream

from pinchbolt.workshop import Workshop

# Often enough that no proxy takes the line for dead.
BREATH_SECONDS = 20.0


class Live:
    """Tells listeners that something was committed. `committed` may be called from any thread."""

    def __init__(self) -> None:
        self._loop: asyncio.AbstractEventLoop | None = None
        self._news: asyncio.Event = asyncio.Event()
        self._open = True

    def start(self) -> None:
        """The loop listeners run in is the running one."""
        self._loop = asyncio.get_running_loop()

    def committed(self) -> None:
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._tell)

    def close(self) -> None:
        """Send every listener home."""
        self._open = False
        self._tell()

    def _tell(self) -> None:
        # Whoever waits holds the old event; the next news gets a new one.
        self._news.set()
        self._news = asyncio.Event()

    async def listen(self, workshop: Workshop) -> AsyncIterator[bytes]:
        """The seq now, and again each time it has grown; a comment when nothing happens for long."""
        told = -1
        while self._open:
            news = self._news
            seq = await to_thread.run_sync(workshop.log.top)
            if seq > told:
                told = seq
                yield b"event: seq\ndata: %d\n\n" % seq
            else:
                yield b": still here\n\n"
            try:
                await asyncio.wait_for(news.wait(), BREATH_SECONDS)
            except TimeoutError:
                continue


@get("/api/live", opt={"act": "read-live"}, sync_to_thread=False)
def live(request: Request[Any, Any, Any]) -> Stream:
    """The stream of news."""
    hub: Live = request.app.state.live
    return Stream(
        hub.listen(request.app.state.workshop),
        media_type="text/event-stream",
        headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
    )
