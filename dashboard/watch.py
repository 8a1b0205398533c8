"""The daily check of the book on disk, and what the pages say while it fails."""

from __future__ import annotations

import logging
import threading
import time

from ledger.book import Book
from ledger.errors import LedgerError

__all__ = ["Watch"]

_log = logging.getLogger("croftbook.dashboard")
_DAY_S = 24 * 3600.0
_FIRST_S = 2.0


class Watch:
    """Checks a book in a thread of its own, and keeps what it found.

    Parameters
    ----------
    book : Book
    every_s : float
        Seconds from one check to the next.
    """

    def __init__(self, book: Book, every_s: float = _DAY_S) -> None:
        self._book = book
        self._every_s = every_s
        self._found: list[str] = []
        self._looked = -1
        self._at_end: list[str] = []

    def start(self) -> None:
        """Begin to check, shortly after the start and then daily."""
        threading.Thread(target=self._run, daemon=True, name="daily check").start()

    def _run(self) -> None:
        time.sleep(_FIRST_S)
        while True:
            self.check()
            time.sleep(self._every_s)

    def check(self) -> list[str]:
        """Read the whole book, and return what is wrong with it, a sentence each."""
        try:
            self._found = self._book.faults()
        except LedgerError as error:
            self._found = [str(error)]
        except Exception:  # the pages go on; the next check comes
            _log.exception("daily check")
        for fault in self._found:
            _log.error("daily check: %s", fault)
        return self._found

    def trouble(self, mark: int) -> list[str]:
        """Return what is wrong: by the last check, and by a look at the end as it is now.

        Parameters
        ----------
        mark : int
            Stays the same as long as the book does; then the end is not looked at again.
        """
        if mark != self._looked or self._at_end:
            self._looked = mark
            try:
                self._at_end = self._book.warnings()
            except LedgerError as error:
                self._at_end = [str(error)]
        return list(dict.fromkeys([*self._at_end, *self._found]))
