"""What a page is given: the data door at one moment, its words, and what its address asks for."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import parse_qsl, urlencode

from dashboard.data import NOW, Data, Moment
from dashboard.words import Words
from ledger.projections import Answer

__all__ = ["Ask", "read_query", "words_of"]


def words_of(data: Data) -> Words:
    """Return the texts and number formats that the household's settings ask for.

    While the book cannot be read they are those that it asked for last.
    """
    return Words(
        data.setting("language", "en"),
        data.setting("measures", "us"),
        data.setting("currency", "USD"),
    )


@dataclass(frozen=True)
class Ask:
    """One drawing of one page.

    Parameters
    ----------
    data : Data
    words : Words
    moment : Moment
        Which moment every answer is of.
    query : mapping of str to str
        What stands behind the question mark of the page's address: filters and choices.
    scheme : {'light', 'dark'}
    path : str
    """

    data: Data
    words: Words
    moment: Moment = NOW
    query: Mapping[str, str] = field(default_factory=dict)
    scheme: str = "light"
    path: str = "/"

    def show(self, name: str, **options: Any) -> Answer:
        """Return the answer to a question at this moment."""
        return self.data.show(name, self.moment, **options)

    @property
    def day(self) -> dt.date:
        """The day that is looked at."""
        return dt.date.fromisoformat(self.moment.as_of) if self.moment.as_of else self.data.today()

    @property
    def is_empty(self) -> bool:
        """Whether nothing has been written down."""
        return self.data.position() == 0

    def link(self, **changed: str | None) -> str:
        """Return this page's address with some choices changed; None takes one away."""
        query = {**self.query, **changed}
        text = urlencode({key: value for key, value in query.items() if value not in (None, "")})
        return f"{self.path}?{text}" if text else self.path

    def wants_all(self, table: str) -> bool:
        """Return whether all rows of a table are asked for: ``rows=shelf,history``, or ``rows=all``."""
        return not {table, "all"}.isdisjoint(self.query.get("rows", "").split(","))

    def link_all(self, table: str) -> str:
        """Return this page's address with all rows of one more table."""
        return self.link(rows=",".join(filter(None, [self.query.get("rows"), table])))


def read_query(search: str | None) -> dict[str, str]:
    """Return what an address asks for, ``?season=2025`` as a dict."""
    return dict(parse_qsl((search or "").lstrip("?")))
