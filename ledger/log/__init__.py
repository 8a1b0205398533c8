"""The append-only store: hash chained, idempotent, and the only code that touches SQL."""

from typing import TYPE_CHECKING, Any

from ledger.log._chain import BARE, COLUMNS, Head, NewEvent, StoredEvent, chained
from ledger.log._heads import head_file, keep_heads, read_heads
from ledger.log._open import forget, has_book, has_kept, open_log
from ledger.log._private import make_file, make_folder, why_not
from ledger.log._standing import Standing
from ledger.log._store import Log
from ledger.log._writing import Writing

if TYPE_CHECKING:
    from ledger.log._backup import backup
    from ledger.log._many import heads_of
    from ledger.log._restore import Restored, restore
    from ledger.log._schema import EVENTS, LAYOUT, TRIGGERS, TYPES, Column
    from ledger.log._verify import ChainReport, verify

__all__ = [
    "BARE",
    "COLUMNS",
    "EVENTS",
    "LAYOUT",
    "TRIGGERS",
    "TYPES",
    "ChainReport",
    "Column",
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

_LATER = {
    "ChainReport": "_verify",
    "Column": "_schema",
    "EVENTS": "_schema",
    "LAYOUT": "_schema",
    "TRIGGERS": "_schema",
    "TYPES": "_schema",
    "Restored": "_restore",
    "backup": "_backup",
    "heads_of": "_many",
    "restore": "_restore",
    "verify": "_verify",
}
"""What few commands need, and where it is: imported when it is asked for."""


def __getattr__(name: str) -> Any:
    """Import what few commands need when it is first asked for."""
    if name not in _LATER:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f"ledger.log.{_LATER[name]}"), name)
