"""The entry log: one small interface (`log.Log`), and SQLite behind it."""

from pinchbolt.store.log import Broken, Closed, Full, Held, Log, Page, Placed, Receipt, Sight, StoreError
from pinchbolt.store.sqlite import SqliteLog

__all__ = ["Broken", "Closed", "Full", "Held", "Log", "Page", "Placed", "Receipt", "Sight", "SqliteLog", "StoreError"]
