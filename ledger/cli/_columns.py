"""How wide the columns of a table are: words stay whole, and what is too long for a column stands beneath its row."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from rich.table import Table

__all__ = ["column_widths", "part_of_table"]


def column_widths(rows: Sequence[Sequence[str]], stays: Sequence[bool], width: int) -> list[int]:
    """Return how wide columns are, in characters, so that they fit and words stay whole as long as they can.

    Parameters
    ----------
    rows : sequence of sequences of str
        Heads and cells.
    stays : sequence of bool
        Which columns are never narrower than their longest word.
    width : int
        Of the whole, a blank between columns counted in.
    """
    columns = list(zip(*rows, strict=True))
    wanted = [max(len(line) for cell in column for line in cell.split("\n")) for column in columns]
    words = [
        max((len(w) for cell in column for w in cell.split()), default=1) for column in columns
    ]
    room = width - len(columns)
    bare = [word if stay else 1 for word, stay in zip(words, stays, strict=True)]
    for floor in (words, bare):
        while sum(wanted) > room:
            spare = [wide - least for wide, least in zip(wanted, floor, strict=True)]
            if max(spare, default=0) <= 0:
                break
            widest = max(range(len(wanted)), key=lambda at: (spare[at] > 0, wanted[at]))
            wanted[widest] -= 1
    return wanted


def part_of_table(
    columns: Iterable[tuple[str, int, bool]], rows: Sequence[Sequence[str]], *, has_head: bool
) -> Table:
    """Return some rows of a table whose columns are so wide: head, width, and whether it holds numbers, of each."""
    from rich.table import Table

    table = Table(
        box=None, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold", collapse_padding=True,
        show_header=has_head,
    )  # fmt: skip
    for head, width, is_number in columns:
        table.add_column(
            head, justify="right" if is_number else "left", overflow="fold", width=width,
            style="dim" if head == "#" else "",
        )  # fmt: skip
    for cells in rows:
        table.add_row(*cells)
    return table
