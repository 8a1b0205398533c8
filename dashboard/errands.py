"""What is ticked on the household's shopping list: kept beside the book, for every phone that opens it.

Ticks are no events: nothing happened yet. They live in a small file of the user's data folder, named by
the book; what was bought is written down as a purchase, which takes its things off the list.
"""

from __future__ import annotations

import hashlib
import json
import threading
from pathlib import Path

from platformdirs import user_data_path

from dashboard.data import Data
from ledger.files import whole_file

__all__ = ["Errands"]

_MOST = 500


def _mark(*said: str) -> str:
    return hashlib.sha256("\n".join(said).encode("utf-8", "surrogateescape")).hexdigest()[:16]


class Errands:
    """Ticks of one book's list.

    Parameters
    ----------
    file : Path
    """

    def __init__(self, file: Path) -> None:
        self.file = file
        self._turn = threading.Lock()

    @classmethod
    def of(cls, data: Data) -> Errands:
        """Return those of a book: its first entry and its place name it, as a copy of it is a book of its own."""
        log = data.book.log
        first = str(next((row[1] for chunk in log.read() for row in chunk), "empty"))
        place = str(log.path.resolve()) if log.path is not None else log.name
        folder = user_data_path("croftbook", appauthor=False)
        return cls(folder / f"shopping-{_mark(first, place)}.json")

    def ticked(self) -> list[str]:
        """Return what is in the basket, by item."""
        try:
            said = json.loads(self.file.read_text("utf-8"))
        except (OSError, ValueError):
            return []
        return [str(one) for one in said.get("ticked", ())] if isinstance(said, dict) else []

    def tick(self, item: str) -> list[str]:
        """Put an item into the basket, or take it out; return what is in it."""
        with self._turn:
            now = self.ticked()
            now = [one for one in now if one != item] if item in now else [*now, item][-_MOST:]
            self._keep(now)
            return now

    def put(self, item: str, *, is_in: bool) -> None:
        """Put an item into the basket or take it out, wherever it is now: said twice, it is done once."""
        with self._turn:
            others = [one for one in self.ticked() if one != item]
            self._keep([*others, item][-_MOST:] if is_in else others)

    def empty(self, items: list[str]) -> None:
        """Take items out of the basket: they were bought."""
        with self._turn:
            self._keep([one for one in self.ticked() if one not in items])

    def _keep(self, ticked: list[str]) -> None:
        self.file.parent.mkdir(parents=True, exist_ok=True)
        with whole_file(self.file) as part:
            part.write(json.dumps({"ticked": ticked}).encode())
