"""The chain under every disorder: entries shuffled, repeated, left out, cut into any batches."""

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from pinchbolt.store import SqliteLog, chain
from pinchbolt.store.chain import Gap
from tests.server.conftest import give
from tests.server.hands import bench, note, torque

MOST = 12


@st.composite
def deliveries(draw: st.DrawFn) -> tuple[list[int], list[list[int]]]:
    """Which of n = 1..MOST are poison, and batches of numbers in any order, with repeats and gaps."""
    poison = draw(st.lists(st.integers(1, MOST), max_size=3, unique=True))
    batches = draw(st.lists(st.lists(st.integers(1, MOST), min_size=1, max_size=8), max_size=10))
    return poison, batches


def expected(held: set[int]) -> tuple[int, list[int]]:
    """The receipt's n and what is missing, counted on the fingers."""
    n = 0
    while n + 1 in held:
        n += 1
    return n, [i for i in range(n + 1, max(held, default=0)) if i not in held]


@given(deliveries())
@settings(max_examples=120, deadline=None)
def test_any_delivery_ends_in_the_same_chain(delivery: tuple[list[int], list[list[int]]]):
    poison, batches = delivery
    pen = bench()
    entries = {n: torque(pen, "tight") if n in poison else note(pen, f"Note {n}") for n in range(1, MOST + 1)}
    held: set[int] = set()
    with tempfile.TemporaryDirectory() as folder:
        log = SqliteLog(Path(folder) / "log.sqlite3")
        try:
            for numbers in batches:
                pushed = give(log, [entries[n] for n in numbers])
                for n, answer in zip(numbers, pushed.answers, strict=True):
                    assert answer.outcome == ("refused" if n in poison else "known" if n in held else "stored")
                    held.add(n)
                assert (pushed.receipt.n, pushed.receipt.missing) == expected(held)
                assert pushed.receipt == log.receipt(pen.device)
            everything = give(log, [entries[n] for n in range(1, MOST + 1)])
            assert (everything.receipt.n, everything.receipt.missing) == (MOST, [])
            assert {h.raw for h in log.everything()} == {raw for n, raw in entries.items() if n not in poison}
            assert list(log.verify()) == []
        finally:
            log.close()


@given(st.permutations(range(1, 30)), st.integers(0, 29))
def test_gaps_are_what_is_not_held(order: list[int], taken: int):
    """The pure rules against plain sets."""
    top, gaps = 0, list[Gap]()
    held: set[int] = set()
    for n in order[:taken]:
        if n > top:
            opened = chain.gap_left_by(top, n)
            gaps += [opened] if opened else []
            top = n
        else:
            inside = next(g for g in gaps if g.low <= n <= g.high)
            gaps.remove(inside)
            gaps = sorted([*gaps, *chain.split(inside, n)], key=lambda g: g.low)
        held.add(n)
        assert (chain.reached(top, gaps[0] if gaps else None), chain.missing(gaps)) == expected(held)
