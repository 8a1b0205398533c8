"""How wide the columns of a table are: words whole where they can be, the rest of the room to long texts."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.table import Table

__all__ = ["broken", "part_of_table", "widths_of"]

_HEAD = 6
"""A heading is not broken into less than so many characters while a word can give way."""
_LONG = 10
"""A word of more characters is broken before others."""
_HYPHEN = re.compile(r"(?<=\w-)(?=\w)")
"""Where a word may be broken."""


def widths_of(
    columns: Sequence[Sequence[str]], room: int, whole: Collection[int] = ()
) -> list[int]:
    """Return the width of each column, which together fill at most `room` characters.

    Where there is room, a column is as wide as its longest line. Else none is narrower than its
    longest word, and what is left goes to those that would be wider, the narrowest of them first. Where
    even the words find no room, headings are broken first, long words next.

    Parameters
    ----------
    columns : sequence of sequence of str
        The texts of each column, its heading first.
    room : int
    whole : collection of int
        Columns that are never broken, as days are not, by their place.

    Examples
    --------
    >>> widths_of([["Was", "frozen pepper"], ["Wo", "Gefrierschrank"]], 22)
    [8, 14]
    >>> widths_of([["Was", "frozen pepper"], ["Wo", "Gefrierschrank"]], 40)
    [13, 14]
    >>> widths_of([["Gehalten", "3"], ["Wo", "Gefrierschrank"]], 20)
    [6, 14]
    """
    wanted = [_widest(one, str.splitlines) for one in columns]
    if sum(wanted) <= room:
        return wanted
    out = [_widest(one, _words) for one in columns]
    heads = [min(_widest(one[:1], _words), _HEAD) for one in columns]
    below = [max(_widest(one[1:], _words), head) for one, head in zip(columns, heads, strict=True)]
    for least in (below, [min(width, _LONG) for width in below], [1] * len(below)):
        _narrow(out, [out[at] if at in whole else one for at, one in enumerate(least)], room)
    left = room - sum(out)
    while left > 0:
        short = [at for at, width in enumerate(out) if width < wanted[at]]
        if not short:
            break
        out[min(short, key=lambda one: out[one])] += 1
        left -= 1
    return out


def broken(text: str, width: int) -> str:
    """Return a text whose words that are too long are broken behind a hyphen, where they have one."""
    return " ".join(
        word if len(word) <= width else _HYPHEN.sub("\n", word) for word in text.split(" ")
    )


def _words(text: str) -> list[str]:
    return [part for word in text.split() for part in _HYPHEN.split(word)]


def _widest(texts: Sequence[str], parts: Callable[[str], list[str]]) -> int:
    return max((len(part) for text in texts for part in parts(text)), default=0)


def _narrow(widths: list[int], least: Sequence[int], room: int) -> None:
    """Narrow the widest columns until all find room, or none is wider than the least it may be."""
    while sum(widths) > room:
        wide = [at for at, width in enumerate(widths) if width > least[at]]
        if not wide:
            return
        widths[max(wide, key=lambda one: widths[one])] -= 1


def part_of_table(
    columns: Iterable[tuple[str, int, bool]], rows: Sequence[Sequence[str]], *, has_head: bool
) -> Table:
    """Return some rows of a table whose columns are so wide: head, width, and whether it holds numbers, of each."""
    from rich.table import Table

    table = Table(
        box=None, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold", collapse_padding=True,
        show_header=has_head,
    )  # fmt: skip
    widths = []
    for head, width, is_number in columns:
        widths.append(width)
        table.add_column(
            head, justify="right" if is_number else "left", overflow="fold", width=width,
            style="dim" if head == "#" else "",
        )  # fmt: skip
    for cells in rows:
        table.add_row(*(broken(text, width) for text, width in zip(cells, widths, strict=True)))
    return table
