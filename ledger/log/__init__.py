"""The append-only store: hash chained, idempotent, and the only code that touches SQL."""

from ledger.log._backup import backup
from ledger.log._chain import COLUMNS, Head, NewEvent, StoredEvent, chained
from ledger.log._heads import head_file, keep_heads, read_heads
from ledger.log._many import heads_of
from ledger.log._open import forget, has_book, has_kept, open_log
from ledger.log._private import make_file, make_folder, why_not
from ledger.log._restore import Restored, restore
from ledger.log._standing import Standing
from ledger.log._store import Log
from ledger.log._verify import ChainReport, verify
from ledger.log._writing import Writing

__all__ = [
    "COLUMNS",
    "ChainReport",
    "Head",
    "Log",
    "NewEvent",
    "Restored",
    "Standing",
    "StoredEvent",
    "Writing",
    "backup",
    "chained",
    "forget",
    "has_book",
    "has_kept",
    "head_file",
    "heads_of",
    "keep_heads",
    "make_file",
    "make_folder",
    "open_log",
    "read_heads",
    "restore",
    "verify",
    "why_not",
]
