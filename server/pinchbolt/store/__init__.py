"""The entry log: one interface (`log.Log`), its rules written once (`entry_log`), and the engines they run over."""

from pinchbolt.store.database import Unsuitable
from pinchbolt.store.log import Broken, Closed, Full, Held, Log, Page, Placed, Receipt, Sight, StoreError
from pinchbolt.store.sqlite import SqliteLog

__all__ = [
    "Broken",
    "Closed",
    "Full",
    "Held",
    "Log",
    "Page",
    "Placed",
    "Receipt",
    "Sight",
    "SqliteLog",
    "StoreError",
    "Unsuitable",
]
