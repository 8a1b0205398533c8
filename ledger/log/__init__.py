"""The append-only store: hash chained, idempotent, and the only code that touches SQL."""

from ledger.log._chain import COLUMNS, Head, NewEvent, StoredEvent
from ledger.log._open import open_log
from ledger.log._store import Log
from ledger.log._writing import Writing

__all__ = [
    "COLUMNS",
    "Head",
    "Log",
    "NewEvent",
    "StoredEvent",
    "Writing",
    "open_log",
]
