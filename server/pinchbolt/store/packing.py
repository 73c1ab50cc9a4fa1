"""Pages of a pull, packed as every browser unpacks them: gzip (RFC 1952) around deflate (RFC 1951).

Packing a page takes several times as long as reading it, and the entries of a full page never change. So they are packed
once, as a piece of a deflate stream that ends at a whole byte, and kept for the next who asks. What stands before and behind
them goes as it is, in stored blocks of the same stream.
"""

import threading
import zlib
from collections import OrderedDict
from collections.abc import Callable

from msgspec import Struct

from pinchbolt.store.pulling import OPENING

# Half the time of zlib's usual level, for pages a twentieth larger.
LEVEL = 5
MOST_KEPT_BYTES = 16 * 1024 * 1024

# RFC 1952, 2.3: magic, deflate, no flags, no time, no extra flags, of no known system.
_HEAD = b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\xff"


class Packed(Struct, frozen=True, gc=False):
    """The entries of a page in the middle of a gzip stream; `check` (CRC-32) and `size` are of what was packed until there."""

    data: bytes
    check: int
    size: int


# epoch, after, to
Place = tuple[str, int, int]


class PackedPages:
    """The full pages packed so far, those asked for last. Safe to use from any thread."""

    def __init__(self, most: int = MOST_KEPT_BYTES) -> None:
        self._most = most
        self._kept: OrderedDict[Place, Packed] = OrderedDict()
        self._bytes = 0
        self._gate = threading.Lock()
        self._packing = threading.Lock()

    def page(self, place: Place, joined: Callable[[], bytes]) -> Packed:
        """The full page at `place`; its entries are asked of `joined` when it is not kept."""
        found = self._look(place)
        if found is not None:
            return found
        # One at a time: a crowd that asks for the same page waits for the first, and has it then.
        with self._packing:
            return self._look(place) or self._keep(place, pack(joined()))

    def _look(self, place: Place) -> Packed | None:
        with self._gate:
            found = self._kept.get(place)
            if found is not None:
                self._kept.move_to_end(place)
            return found

    def _keep(self, place: Place, packed: Packed) -> Packed:
        with self._gate:
            self._kept[place] = packed
            self._bytes += len(packed.data)
            while self._bytes > self._most:
                _, gone = self._kept.popitem(last=False)
                self._bytes -= len(gone.data)
        return packed


def pack(entries: bytes) -> Packed:
    """The beginning of a page, up to and with its `entries`."""
    data = _HEAD + _stored(OPENING)
    if entries:
        packer = zlib.compressobj(LEVEL, zlib.DEFLATED, -zlib.MAX_WBITS)
        data = b"".join((data, packer.compress(entries), packer.flush(zlib.Z_FULL_FLUSH)))
    return Packed(data, zlib.crc32(entries, zlib.crc32(OPENING)), len(OPENING) + len(entries))


def ended(packed: Packed, ending: bytes) -> bytes:
    """The whole page: `ending` behind its entries, and what closes the stream."""
    check = zlib.crc32(ending, packed.check)
    size = (packed.size + len(ending)) & 0xFFFFFFFF
    return b"".join((packed.data, _stored(ending, last=True), check.to_bytes(4, "little"), size.to_bytes(4, "little")))


def _stored(plain: bytes, last: bool = False) -> bytes:
    """A block that packs nothing (RFC 1951, 3.2.4), at a whole byte of the stream. At most 65 535 bytes."""
    size = len(plain)
    return bytes((last,)) + size.to_bytes(2, "little") + (size ^ 0xFFFF).to_bytes(2, "little") + plain
