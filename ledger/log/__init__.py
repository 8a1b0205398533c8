"""The append-only store: hash chained, idempotent, and the only code that touches SQL."""

from ledger.log._backup import backup
from ledger.log._chain import COLUMNS, Head, NewEvent, StoredEvent
from ledger.log._heads import head_file, keep_heads, read_heads
from ledger.log._open import has_book, open_log
from ledger.log._store import Log
from ledger.log._verify import ChainReport, verify
from ledger.log._writing import Writing

__all__ = [
    "COLUMNS",
    "ChainReport",
    "Head",
    "Log",
    "NewEvent",
    "StoredEvent",
    "Writing",
    "backup",
    "has_book",
    "head_file",
    "keep_heads",
    "open_log",
    "read_heads",
    "verify",
]
