"""Packed pages of a pull: unpacked by zlib's own reader of gzip (RFC 1952), kept within bounds, packed once for a crowd."""

import gzip
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from pinchbolt.store.packing import PackedPages, ended, pack

ENDING = b'],"next":7,"more":false,"epoch":"6f","top":7}'
LOREM = b",".join(b'{"seq":%d,"entry":{"text":"cables come on day %d"}}' % (i, i * i) for i in range(2000))


@pytest.mark.parametrize("entries", [b"", b"{}", LOREM, bytes(range(256)) * 300], ids=["none", "one", "many", "any bytes"])
def test_a_packed_page_is_what_was_packed(entries: bytes):
    packed = pack(entries)
    for ending in (ENDING, b"]}", b"]" * 65535):
        assert gzip.decompress(ended(packed, ending)) == b'{"entries":[' + entries + ending


def test_a_page_without_entries_is_hardly_larger_packed():
    assert len(ended(pack(b""), ENDING)) <= len(b'{"entries":[' + ENDING) + 28


def test_pages_asked_for_last_are_kept_within_bounds():
    size = len(pack(LOREM).data)
    pages = PackedPages(most=3 * size)
    asked: list[int] = []

    def ask(number: int) -> None:
        def joined() -> bytes:
            asked.append(number)
            return LOREM

        pages.page(("6f", number, number + 1), joined)

    for number in (1, 2, 3, 1, 4, 1, 3, 4, 2, 1):
        ask(number)
    # 4 pushed out 2, which nobody had asked for longest; then 2 pushed out 1.
    assert asked == [1, 2, 3, 4, 2, 1]


def test_another_life_of_the_log_has_other_pages():
    pages = PackedPages()
    first = pages.page(("6f", 0, 10), lambda: b"before")
    second = pages.page(("70", 0, 10), lambda: b"after")
    assert [gzip.decompress(ended(page, b"]")) for page in (first, second)] == [b'{"entries":[before]', b'{"entries":[after]']


def test_a_crowd_that_asks_for_one_page_has_it_packed_once():
    pages = PackedPages()
    all_there = threading.Barrier(8)
    asked: list[int] = []

    def joined() -> bytes:
        asked.append(1)
        return LOREM

    def ask(_: int) -> bytes:
        all_there.wait()
        return pages.page(("6f", 0, 2000), joined).data

    with ThreadPoolExecutor(8) as crowd:
        got = set(crowd.map(ask, range(8)))
    assert (len(asked), len(got)) == (1, 1)
