"""Tables that only grow: named numpy columns, appended to in chunks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Names", "Table"]

Array = NDArray[Any]


class Table:
    """Columns of equal length that are appended to and read as arrays.

    Parameters
    ----------
    dtypes : mapping of str to dtype
        The columns and what they hold.
    """

    def __init__(self, dtypes: Mapping[str, Any]) -> None:
        self.dtypes = dict(dtypes)
        self._size = 0
        self._room = 0
        self._data: dict[str, Array] = {name: np.empty(0, dt) for name, dt in dtypes.items()}

    def __len__(self) -> int:
        return self._size

    def __getitem__(self, name: str) -> Array:
        """Return the column `name`, shape (rows,)."""
        return self._data[name][: self._size]

    def copy(self) -> Table:
        """Return a table that grows on its own from here."""
        other = Table(self.dtypes)
        other.extend(self._size, {name: self[name] for name in self.dtypes})
        return other

    def hold(self, rows: int, columns: Mapping[str, Array]) -> None:
        """Take arrays as the columns of an empty table; they are copied when it grows."""
        self._data, self._size, self._room = dict(columns), rows, rows

    def extend(self, rows: int, columns: Mapping[str, Sequence[Any] | Array | int | float]) -> None:
        """Append `rows` rows; a scalar fills its column."""
        if not rows:
            return
        end = self._size + rows
        if end > self._room:
            self._room = max(end, self._room + self._room // 2, 64)
            for name, old in self._data.items():
                new = np.empty(self._room, old.dtype)
                new[: self._size] = old[: self._size]
                self._data[name] = new
        for name, data in self._data.items():
            column = columns[name]
            if isinstance(column, list):  # a third quicker than a list into a slice
                column = np.fromiter(column, data.dtype, rows)
            data[self._size : end] = column
        self._size = end


class Names:
    """Texts numbered in order of first sight."""

    def __init__(self) -> None:
        self.texts: list[str] = []
        self._codes: dict[str | None, int] = {None: -1}

    def __len__(self) -> int:
        return len(self.texts)

    def copy(self) -> Names:
        """Return names that grow on their own from here."""
        other = Names()
        other.texts, other._codes = self.texts.copy(), self._codes.copy()
        return other

    def code(self, text: str | None) -> int:
        """Return the number of `text`; -1 stands for None."""
        code = self._codes.get(text)
        if code is None:
            assert text is not None
            code = self._codes[text] = len(self.texts)
            self.texts.append(text)
        return code

    def codes(self, texts: Sequence[str | None]) -> list[int]:
        """Return the numbers of many texts."""
        try:
            return list(map(self._codes.__getitem__, texts))
        except KeyError:
            return [self.code(text) for text in texts]

    def find(self, text: str) -> int | None:
        """Return the number of `text`, or None where it was never seen."""
        return self._codes.get(text)
