"""Letting only so many tries through in a minute: of the whole server, or of each device."""

import time
from collections import deque
from collections.abc import Callable

from pinchbolt.api.problem import Refused


class Throttle:
    """At most `most` tries in any `seconds`; kept for the whole server, since addresses are cheap to change."""

    def __init__(self, most: int, seconds: float = 60.0, clock: Callable[[], float] = time.monotonic) -> None:
        self._most = most
        self._seconds = seconds
        self._clock = clock
        self._tries: deque[float] = deque()

    def wait(self) -> int:
        """Count a try: 0 when it may go on, else the whole seconds to wait (and it does not count)."""
        now = self._clock()
        while self._tries and self._tries[0] <= now - self._seconds:
            self._tries.popleft()
        if len(self._tries) >= self._most:
            return max(1, int(self._tries[0] + self._seconds - now) + 1)
        self._tries.append(now)
        return 0


class EachThrottle:
    """At most `most` tries of each device in any minute; only devices that are let in are counted, so it stays small."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._each: dict[str, Throttle] = {}

    def wait(self, device: str) -> int:
        """As `Throttle.wait`, for this device."""
        return self._each.setdefault(device, Throttle(self._most)).wait()


def hold_back(wait: int, detail: str) -> None:
    """Raises Refused with the seconds to wait, when there are any."""
    if wait > 0:
        raise Refused(429, detail, headers={"Retry-After": str(wait)})
