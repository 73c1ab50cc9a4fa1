"""Server-sent events: there is a new seq, come and pull."""

import asyncio
import logging
from collections.abc import AsyncIterator, Callable
from typing import Any

from anyio import to_thread
from litestar import Request, get
from litestar.response import Stream

from pinchbolt.store import StoreError

# Often enough that no proxy takes the line for dead.
BREATH_SECONDS = 20.0
# A thousand listeners that were told of every commit would take more of the processor than the commits.
PAUSE_SECONDS = 1.0
MOST_TOLD_A_SECOND = 200

log = logging.getLogger("pinchbolt.api")


class Live:
    """Tells listeners that something was committed. `committed` may be called from any thread.

    What comes after a while of quiet is told at once; while much comes, the newest is told once a second, and less often to
    many: whoever is told pulls. The log is asked once for all listeners, and once by each as it comes.
    """

    def __init__(self) -> None:
        self._loop: asyncio.AbstractEventLoop | None = None
        self._top: Callable[[], int] = lambda: 0
        self._news: asyncio.Event = asyncio.Event()
        self._seq = 0
        self._told_at = -PAUSE_SECONDS
        self._telling: asyncio.Task[None] | None = None
        self._again = False
        self._listening = 0
        self._breathing: asyncio.Task[None] | None = None
        self._open = True

    def start(self) -> None:
        """The loop listeners run in is the running one."""
        self._loop = asyncio.get_running_loop()

    async def follow(self, top: Callable[[], int]) -> None:
        """Whom to ask for the highest seq."""
        self._top = top
        await self._ask()
        self._breathing = asyncio.create_task(self._breathe())

    def committed(self) -> None:
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._heard)

    def close(self) -> None:
        """Send every listener home."""
        self._open = False
        for task in (self._telling, self._breathing):
            if task is not None:
                task.cancel()
        self._wake()

    def _heard(self) -> None:
        self._again = True
        if self._open and (self._telling is None or self._telling.done()):
            self._telling = asyncio.create_task(self._tell())

    async def _tell(self) -> None:
        loop = asyncio.get_running_loop()
        while self._again:
            pause = max(PAUSE_SECONDS, self._listening / MOST_TOLD_A_SECOND)
            await asyncio.sleep(max(0.0, self._told_at + pause - loop.time()))
            # What is committed from here on is told the next time.
            self._again = False
            try:
                await self._ask()
            except StoreError:
                log.exception("how far the log reaches could not be told")
            self._told_at = loop.time()
            self._wake()

    async def _ask(self) -> None:
        # Of two that ask at once the one answered last may have been told less.
        top = await to_thread.run_sync(self._top)
        self._seq = max(self._seq, top)

    async def _breathe(self) -> None:
        # One clock for all: a timer for each would cost more than the news.
        while True:
            await asyncio.sleep(BREATH_SECONDS)
            self._wake()

    def _wake(self) -> None:
        # Whoever waits holds the old event; the next news gets a new one.
        self._news.set()
        self._news = asyncio.Event()

    async def listen(self) -> AsyncIterator[bytes]:
        """The seq now, and again each time it has grown; a comment when nothing happens for long."""
        told = -1
        self._listening += 1
        try:
            # Who comes new hears how it stands, though the next telling may still be pausing.
            await self._ask()
            while self._open:
                news, seq = self._news, self._seq
                if seq > told:
                    told = seq
                    yield b"event: seq\ndata: %d\n\n" % seq
                else:
                    yield b": still here\n\n"
                await news.wait()
        finally:
            self._listening -= 1


@get("/api/live", opt={"act": "read-live"}, sync_to_thread=False)
def live(request: Request[Any, Any, Any]) -> Stream:
    """The stream of news."""
    hub: Live = request.app.state.live
    return Stream(
        hub.listen(),
        media_type="text/event-stream",
        headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
    )
