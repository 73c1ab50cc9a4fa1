"""News of the log, told to whoever listens."""

import asyncio
import threading
from concurrent.futures import ThreadPoolExecutor

from pinchbolt.api.live import Live

SECONDS = 30


def seq(number: int) -> bytes:
    return b"event: seq\ndata: %d\n\n" % number


def test_an_answer_that_comes_late_takes_no_news_back():
    """Somebody new asks how far the log reaches and hears it late; what was committed and told meanwhile stands."""
    asked, late = threading.Event(), threading.Event()
    answers = iter([0, 0, 1, 5])

    def top() -> int:
        number = next(answers)
        if number == 1:
            asked.set()
            assert late.wait(SECONDS)
        return number

    async def scene() -> None:
        hub = Live()
        hub.start()
        await hub.follow(top)
        old, new = hub.listen(), hub.listen()
        assert await anext(old) == seq(0)
        first = asyncio.ensure_future(anext(new))
        assert await asyncio.to_thread(asked.wait, SECONDS)
        hub.committed()
        assert await anext(old) == seq(5)
        late.set()
        assert await first == seq(5)
        hub.close()

    # In a thread of its own: the browser's tests leave a loop running in this one.
    with ThreadPoolExecutor(1) as pool:
        pool.submit(lambda: asyncio.run(asyncio.wait_for(scene(), SECONDS))).result()
