"""A push: the exact bytes of each entry are cut out of the body as they stand."""

from typing import Annotated

import msgspec
from msgspec import Meta, Raw, Struct

from pinchbolt.entries.faults import told
from pinchbolt.entries.fields import Uuid
from pinchbolt.entries.signing import Head
from pinchbolt.kernel.errors import InputError

MOST_ENTRIES = 500
MOST_BATCH_BYTES = 4 * 1024 * 1024


class Batch(Struct, forbid_unknown_fields=True, frozen=True, gc=False):
    device: Uuid
    entries: Annotated[list[Raw], Meta(max_length=MOST_ENTRIES)]
    head: Head | None = None


_read = msgspec.json.Decoder(Batch).decode


def read_batch(body: bytes) -> Batch:
    """Read the body of a push. Raises InputError when it is not one; the entries themselves are not looked at yet."""
    try:
        return _read(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise InputError([told(error, body)]) from None
