"""The chain of one device, and nothing but the rules of it: no SQL, no clock.

A place is a number n of the device's own counter, taken by the bytes of one hash. The gaps are what is not held below the
highest n held; the receipt stands just below the first of them.
"""

from msgspec import Struct

from pinchbolt.entries.envelope import NO_PREV, Problem
from pinchbolt.kernel.errors import problem

MOST_MISSING = 100


class Gap(Struct, frozen=True, gc=False):
    """Numbers from `low` to `high`, both included, that are not held."""

    low: int
    high: int


class Around(Struct, frozen=True, gc=False):
    """What is held around a place: the hash at n, the hash at n−1, and the `prev` that the entry at n+1 names."""

    here: str | None
    before: str | None
    named_after: str | None


def fault(n: int, hash: str, prev: str, around: Around) -> Problem | None:
    """Why the entry has no place at n, or None when it has one (or already stands there)."""
    if around.here is not None:
        return None if around.here == hash else problem("n", n, "a number not taken by other bytes of this device")
    before = NO_PREV if n == 1 else around.before
    if before is not None and prev != before:
        return problem("prev", prev, "the hash of entry n−1, " + before)
    if around.named_after is not None and around.named_after != hash:
        return problem("entry", hash, "the bytes that entry n+1 names by their hash, " + around.named_after)
    return None


def gap_left_by(top: int, n: int) -> Gap | None:
    """The gap that opens when n is taken above the highest held `top`."""
    return Gap(top + 1, n - 1) if n > top + 1 else None


def split(gap: Gap, n: int) -> list[Gap]:
    """What is left of `gap` when n inside it is taken."""
    left = [Gap(gap.low, n - 1)] if gap.low < n else []
    right = [Gap(n + 1, gap.high)] if n < gap.high else []
    return left + right


def reached(top: int, first_gap: Gap | None) -> int:
    """The highest n with no gap below it."""
    return top if first_gap is None else first_gap.low - 1


def missing(gaps: list[Gap]) -> list[int]:
    """The lowest missing numbers, at most 100, of gaps in order."""
    numbers: list[int] = []
    for gap in gaps:
        room = MOST_MISSING - len(numbers)
        if room <= 0:
            break
        numbers += range(gap.low, min(gap.high, gap.low + room - 1) + 1)
    return numbers
