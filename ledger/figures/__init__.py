"""Figures: one definition gives the column for all rows and the tree for one.

A formula is plain arithmetic on figures and computes nothing. `Figure.values` works it out for all rows;
`tree` walks the same formula for one row, down to events, published sources and assumptions.
"""

from ledger.figures.figure import EXACT, LESS, MORE, Array, Figure, Opened, total, work
from ledger.figures.leaves import (
    NO_ENTRY,
    assumed,
    at_least_none,
    none_below,
    nothing,
    published,
    said,
    unknown,
    unpriced,
)
from ledger.figures.methods import method
from ledger.figures.node import Node
from ledger.figures.tables import (
    Groups,
    Spans,
    choose,
    if_known,
    in_part,
    known_where,
    solved,
    some_known,
    stacked,
)
from ledger.figures.trees import MARKS, Teller, tree

__all__ = [
    "EXACT",
    "LESS",
    "MARKS",
    "MORE",
    "NO_ENTRY",
    "Array",
    "Figure",
    "Groups",
    "Node",
    "Opened",
    "Spans",
    "Teller",
    "assumed",
    "at_least_none",
    "choose",
    "if_known",
    "in_part",
    "known_where",
    "method",
    "none_below",
    "nothing",
    "published",
    "said",
    "solved",
    "some_known",
    "stacked",
    "total",
    "tree",
    "unknown",
    "unpriced",
    "work",
]
