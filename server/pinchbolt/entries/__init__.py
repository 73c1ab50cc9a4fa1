"""Entries as docs/record.md defines them: read from the bytes a device wrote, never written again."""

from pinchbolt.entries.batch import Batch, read_batch
from pinchbolt.entries.envelope import NO_PREV, Arrival, Author
from pinchbolt.entries.reading import read_entries, read_entry

__all__ = ["NO_PREV", "Arrival", "Author", "Batch", "read_batch", "read_entries", "read_entry"]
