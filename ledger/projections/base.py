"""What a projection is: one question, its columns described beside the code that makes them.

From the description follow ``show``, ``--json``, ``--csv``, the docs and the table on a page.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.figures import Node

if TYPE_CHECKING:
    import pandas as pd


__all__ = [
    "Answer",
    "Assumption",
    "Column",
    "Compared",
    "Node",
    "Option",
    "Projection",
    "cells_of",
]


@dataclass(frozen=True)
class Column:
    """A column of an answer.

    Parameters
    ----------
    name : str
        Its name in the DataFrame, in JSON and in CSV; a dot stands for a nested object.
    label : str
        Its heading for people.
    unit : str
        ``money``, ``g``, ``ml``, ``day``, ``jars``, ... ; '' for words.
    meaning : str
        One sentence; says what null stands for.
    main : bool
        Whether a narrow table shows it.
    rare : bool
        Whether a narrow table shows it only where some record has it.
    measures : tuple of {'us', 'uk', 'metric'}
        Measures of the household in which a narrow table shows it; none: in all.
    bound : {'', '≥', '≤'}
        What the figure is in a record that is ``at_least``, as a price is not known: a cost is
        that much or more, what was saved that much or less. A record with ``bounds`` names its
        own: by column, one of these, or ``≈`` where the figure may be more or less.
    """

    name: str
    label: str
    unit: str
    meaning: str
    main: bool = False
    bound: str = ""
    rare: bool = False
    measures: tuple[str, ...] = ()

    def is_shown(self, measures: str) -> bool:
        """Tell whether a narrow table shows it to a household with such measures."""
        return self.main and (not self.measures or measures in self.measures)

    def mark(self, record: Mapping[str, Any]) -> str:
        """Return the bound that stands before this figure in a record."""
        if record.get("bounds") is not None:
            return str(record["bounds"].get(self.name, ""))
        is_bound = self.bound and record.get("at_least") and record.get(self.name) is not None
        return self.bound if is_bound else ""


@dataclass(frozen=True)
class Option:
    """An option of a question beyond as_of and known_at."""

    name: str
    help: str
    example: str
    kind: str = "text"
    choices: tuple[str, ...] = ()


@dataclass
class Answer:
    """An answer: its records, column by column, with their description, totals and assumptions."""

    name: str
    as_of: str
    known_at: str | None
    currency: str
    columns: tuple[Column, ...]
    cells: dict[str, Sequence[Any]]
    totals: dict[str, Any] = field(default_factory=dict)
    assumptions: list[Assumption] = field(default_factory=list)

    @property
    def cautions(self) -> list[Assumption]:
        """What is said before the answer and apart from it: somebody could be hurt."""
        return [one for one in self.assumptions if one.stands_first]

    @property
    def footnotes(self) -> list[Assumption]:
        """What is said after the answer."""
        return [one for one in self.assumptions if not one.stands_first]

    @cached_property
    def frame(self) -> pd.DataFrame:
        """The records as a DataFrame of objects, so that nothing guesses what they are."""
        import numpy as np
        import pandas as pd

        # one by one, as a cell may hold a list
        return pd.DataFrame(
            {name: np.fromiter(cells, object, len(cells)) for name, cells in self.cells.items()},
            dtype=object,
        )

    @property
    def count(self) -> int:
        """How many records there are."""
        return max(map(len, self.cells.values()), default=0)

    @property
    def is_empty(self) -> bool:
        """Whether there is no record."""
        return not self.count

    def says(self, column: str) -> bool:
        """Tell whether any record knows a column's value."""
        return any(_plain(cell) is not None for cell in self.cells[column])

    @cached_property
    def _known(self) -> dict[str, Sequence[Any]]:
        """Columns without NaN and NumPy's numbers: they are asked for again and again."""
        return {}

    def column(self, name: str) -> Sequence[Any]:
        """Return a column's cells; what is not known is None."""
        if name not in self._known:
            self._known[name] = _plain_column(self.cells[name])
        return self._known[name]

    def _columns(self, at: Sequence[int] | None = None) -> dict[str, Sequence[Any]]:
        """Return all columns so; only the cells at some places, where those are named."""
        if at is None:
            return {name: self.column(name) for name in self.cells}
        return {name: _plain_column([cells[i] for i in at]) for name, cells in self.cells.items()}

    def rows(self, at: Sequence[int] | None = None) -> list[dict[str, Any]]:
        """Return the records by the names of the columns; what is not known is None.

        Parameters
        ----------
        at : sequence of int, optional
            Only these, by their places: of a thousand most pages show a few.
        """
        return _rows_of(self._columns(at))

    def each_row(self) -> Iterator[dict[str, Any]]:
        """Yield the records one by one, as `rows` returns them."""
        columns = self._columns()
        for row in zip(*columns.values(), strict=True):
            yield dict(zip(columns, row, strict=True))

    def records(self, at: Sequence[int] | None = None) -> list[dict[str, Any]]:
        """Return the records with nested objects; what is not known is None. `at` as in `rows`.

        All of them are made once: who asks must not change them.
        """
        return list(self._nested) if at is None else self._nest_some(at)

    @cached_property
    def _nested(self) -> list[dict[str, Any]]:
        return self._nest_some(None)

    def _nest_some(self, at: Sequence[int] | None) -> list[dict[str, Any]]:
        columns: dict[str, Sequence[Any]] = {}
        groups: dict[str, dict[str, Sequence[Any]]] = {}
        for name, cells in self._columns(at).items():
            head, _, rest = name.partition(".")
            if rest:
                groups.setdefault(head, {})[rest] = cells
                columns.setdefault(head, ())
            else:
                columns[head] = cells
        columns.update({head: _rows_of(parts) for head, parts in groups.items()})
        return _rows_of(columns)

    def to_dict(self, *, streamed: bool = False) -> dict[str, Any]:
        """Return the whole answer as in ``--json``; `streamed`, records are made as they are read."""
        return {
            "name": self.name,
            "as_of": self.as_of,
            "known_at": self.known_at,
            "currency": self.currency,
            "units": {c.name: c.unit for c in self.columns if c.unit},
            "records": _Records(self) if streamed else self.records(),
            "totals": self.totals,
            "assumptions": [
                {"id": a.id, "text": a.text, "events": list(a.events)} for a in self.assumptions
            ],
        }


_AS_THEY_ARE = frozenset((str, int, bool, list, tuple, dict, type(None)))
"""Types of cells in which nothing is to be made plain."""
_NUMBERS = frozenset((float, int, bool, type(None)))


def _plain_column(cells: Sequence[Any]) -> Sequence[Any]:
    types = set(map(type, cells))
    if types <= _AS_THEY_ARE:
        return cells
    if types <= _NUMBERS and not math.isnan(sum(filter(None, cells))):
        return cells
    if types <= _AS_THEY_ARE | {float}:
        return [None if isinstance(cell, float) and math.isnan(cell) else cell for cell in cells]
    return [_plain(cell) for cell in cells]


class _Records(list[dict[str, Any]]):
    """The records of an answer, each made when its turn comes; for an encoder that reads them once."""

    def __init__(self, answer: Answer) -> None:
        super().__init__()
        self._answer = answer

    def __len__(self) -> int:
        return self._answer.count

    def __bool__(self) -> bool:
        return bool(self._answer.count)

    def __iter__(self) -> Iterator[dict[str, Any]]:
        return (_nest(row.items()) for row in self._answer.each_row())


def _plain(value: Any) -> Any:
    if isinstance(value, float) and math.isnan(value):
        return None
    if hasattr(value, "item"):
        return value.item()
    return value


def _rows_of(columns: Mapping[str, Sequence[Any]]) -> list[dict[str, Any]]:
    names = tuple(columns)
    return [dict(zip(names, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def cells_of(
    columns: tuple[Column, ...], records: list[dict[str, Any]]
) -> dict[str, Sequence[Any]]:
    """Return records (flat, by column name) as columns; absent values are None."""
    return {c.name: [record.get(c.name) for record in records] for c in columns}


@dataclass(frozen=True)
class Compared:
    """How two answers of one question are set beside each other (`ledger.questions.compared.compare`).

    Parameters
    ----------
    key : str
        The column that names a thing; records of one name are added up.
    amount : tuple of str
        Columns of its amount, the first that both answers know being taken.
    value : str
        The column of its value, in money; price is value by amount.
    what : str
        The id of what the values are.
    price : str
        What value by amount is called.
    unit : str, optional
        The column that names the amount's unit, where the description of the column does not.
    rows : callable, optional
        ``rows(answer)`` gives the records to compare, where they are not the answer's own; one that
        has figures of several records names in `addresses`, by column, which address and figure
        each is, and in `bounds` what is a bound.
    """

    key: str
    amount: tuple[str, ...]
    value: str
    what: str
    price: str = "price"
    unit: str | None = None
    rows: Callable[[Answer], list[dict[str, Any]]] | None = None


@dataclass(frozen=True)
class Projection:
    """One question.

    Parameters
    ----------
    name : str
        Its name on the command line.
    title, question : str
        For people.
    columns : tuple of Column
    build : callable
        ``build(state, **options) -> Answer``.
    why : callable
        ``why(state, key, field, **options) -> Node``; `key` is what follows ``name/`` in an address.
    options : tuple of Option
    variants : mapping of str to tuple of Column
        Columns of the answer under a flag, by the flag's option name (``--paths``: ``paths``).
    below : callable, optional
        ``below(answer)`` gives the lines that a terminal shows under each record, where a table
        would be too narrow for them.
    compared : Compared, optional
        What ``--against`` compares; without it the question cannot be set against another date.
    dated : str
        The column of a record's day, where records grow by the year: of many, a terminal shows the
        newest season.
    """

    name: str
    title: str
    question: str
    columns: tuple[Column, ...]
    build: Callable[..., Answer]
    why: Callable[..., Node] | None = None
    options: tuple[Option, ...] = ()
    variants: Mapping[str, tuple[Column, ...]] = field(default_factory=dict)
    below: Callable[[Answer], list[list[str]]] | None = None
    compared: Compared | None = None
    dated: str = ""


def _nest(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for name, value in pairs:
        at, *path = name.split(".")
        if not path:
            out[at] = value
            continue
        out.setdefault(at, {})[".".join(path)] = value
    return out
