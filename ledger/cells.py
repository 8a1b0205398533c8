"""Cells of CSV that a spreadsheet shows and does not run.

A cell that begins with one of ``= + - @``, a tab or a line's end is taken for a formula by
spreadsheets (OWASP, CSV Injection). An apostrophe before it keeps it a text there; reading it
back takes the apostrophe away again.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["as_csv", "csv_pieces", "plain_cell", "shown_cell"]

# The full-width forms are read as the plain ones in some countries' settings.
_RUNS = re.compile(r"'*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]")


def shown_cell(text: str) -> str:
    """Return a text as a cell that no spreadsheet runs.

    Examples
    --------
    >>> shown_cell("=1+1"), plain_cell(shown_cell("=1+1")), shown_cell("plum")
    ("'=1+1", '=1+1', 'plum')
    """
    return f"'{text}" if _RUNS.match(text) else text


def plain_cell(text: str) -> str:
    """Return the text that `shown_cell` made a cell of."""
    return text[1:] if text.startswith("'") and _RUNS.match(text) else text


def csv_pieces(names: Sequence[str], rows: Iterable[dict[str, Any]]) -> Iterator[str]:
    """Yield records as CSV, some lines at a time, as `as_csv` writes them whole; None is nothing."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(names)
    for number, row in enumerate(rows, 1):
        writer.writerow([_shown(row[name]) for name in names])
        if number % _AT_ONCE == 0:
            yield out.getvalue()
            out.seek(0)
            out.truncate()
    yield out.getvalue()


_AT_ONCE = 500


def as_csv(frame: pd.DataFrame) -> str:
    """Return records as CSV with a header row; numbers stay numbers, texts run nowhere."""
    import pandas as pd

    shown = frame.copy()
    for name in shown.columns:
        if shown[name].dtype.kind not in "iufbM":  # whole numbers among them stay whole
            cells = [_shown(value) for value in shown[name]]
            shown[name] = pd.Series(cells, index=shown.index, dtype=object)
    return str(shown.to_csv(index=False))


def _shown(value: object) -> object:
    return shown_cell(value) if isinstance(value, str) else value
