"""What a book knows of its items, settings, recipes, jars and entries: one fold for door and replay.

- ``items``: names that mean one thing, and facts, the newest word winning field by field.
- ``settings``: each holding from its day on.
- ``entries``: an event with all that correct or strike it.
- ``jars``: which jars, lids and labels batches have had.
- ``kept``: the rows that say how settings stand, in a file.
- ``catalogue``: all of it as the door needs it, kept up to date with the log. Replay folds the same
  `Items` and `Settings` for a moment of its own.

Imports nothing of the log, the door or replay.
"""

from ledger.known.catalogue import OF_SETTINGS, Catalogue
from ledger.known.entries import Entries, Reader, Row
from ledger.known.items import Items
from ledger.known.jars import Batches, Label
from ledger.known.kept import KeptRows
from ledger.known.settings import Settings

__all__ = [
    "OF_SETTINGS",
    "Batches",
    "Catalogue",
    "Entries",
    "Items",
    "KeptRows",
    "Label",
    "Reader",
    "Row",
    "Settings",
]
