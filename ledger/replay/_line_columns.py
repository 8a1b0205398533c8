"""The columns of lines: what came in, what went out, and who worked on it.

A field that no line of a chunk fills is one number for its whole column: most are left empty.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from operator import attrgetter
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.replay._tables import ROLES

if TYPE_CHECKING:
    from ledger.replay._columns import Array, Names
    from ledger.replay.journal import Journal

__all__ = ["KEPT", "take_draws", "take_lines", "take_supplies", "take_work"]

KEPT = ("shelf", "fridge", "freezer", "cellar", None)
"""Where a lot is kept, by code; the last stands for code -1: nobody said."""

_KEPT = {name: code for code, name in enumerate(KEPT[:-1])}
_NAN = float("nan")
_LEFT = 2
"""The field of what a meal left, which goes into the fridge unless it is said otherwise."""

Column = list[Any] | int | float


def take_lines(
    journal: Journal,
    table: str,
    evs: Sequence[int] | Array,
    lines: Sequence[Any],
    names: list[str] | None = None,
    **more: Any,
) -> None:
    """Append lines with the columns that every amount has, and `more`."""
    if not lines:
        return
    items = journal.items.codes(names or _texts(lines, "item"))
    for code in sorted(set(items) - journal.first_amount.keys(), key=items.index):
        line = lines[items.index(code)]
        journal.first_amount[code] = getattr(line, "amount", None) or "1 pt"
    journal.tables[table].extend(
        len(lines),
        {
            "ev": evs,
            "n": [n or 1 for n in map(attrgetter("n"), lines)],
            "item": items,
            "whole": list(map(attrgetter("whole"), lines)),
            "per": _codes(journal.units, lines, "per"),
            "times": _whole(lines, "times"),
            **more,
        },
    )


def take_supplies(
    journal: Journal,
    places: list[int],
    lists: list[list[Any] | None],
    field: int,
    bodies: Sequence[Any],
) -> None:
    """Keep lines that bring something in; `field` is the list they stand in."""
    lines = [line for several in lists if several for line in several]
    if not lines:
        return
    names = _texts(lines, "item")
    if not names:  # what a batch makes is said once, in its body
        names = [b.makes for b, several in zip(bodies, lists, strict=True) for _ in several or ()]
    nowhere = _KEPT["fridge"] if field == _LEFT else -1
    take_lines(
        journal,
        "supplies",
        repeated(places, lists),
        lines,
        names,
        field=field,
        kept=[_KEPT.get(kept, nowhere) for kept in _texts(lines, "kept")] or nowhere,
        money=_numbers(lines, "paid" if hasattr(lines[0], "paid") else "value"),
        trimmed=_whole(lines, "trimmed_whole"),
        jars=_whole(lines, "jars"),
        jar=_codes(journal.items, lines, "jar"),
        lids=_codes(journal.items, lines, "lids"),
        unsealed=_whole(lines, "unsealed"),
        share=_numbers(lines, "share"),
        uses=_numbers(lines, "uses"),
        years=_numbers(lines, "years"),
        for_crop=_codes(journal.items, lines, "for_crop"),
    )


def take_draws(journal: Journal, places: list[int], lists: list[Any], role: str) -> None:
    """Keep lines that take something out, or the one line that a field is."""
    lists = [[one] if one is not None and not isinstance(one, list) else one for one in lists]
    lines = [line for several in lists if several for line in several]
    if lines:
        lot = _codes(journal.lots, lines, "lot")
        evs = repeated(places, lists)
        take_lines(journal, "draws", evs, lines, role=ROLES.index(role), lot=lot)


def take_work(journal: Journal, places: list[int], works: list[Any]) -> None:
    """Keep who worked, and for how long."""
    several = [one for work in works if work for one in work]
    journal.tables["work"].extend(
        len(several),
        {
            "ev": repeated(places, works),
            "person": journal.people.codes([one.person for one in several]),
            "minutes": [float(one.minutes) for one in several],
        },
    )


def repeated(places: Sequence[int], lists: Iterable[list[Any] | None]) -> Array:
    """Return the place of each line's event."""
    return np.repeat(
        np.asarray(places, np.int32), [len(several) if several else 0 for several in lists]
    )


def _texts(lines: Sequence[Any], name: str) -> list[Any]:
    """Return the attribute `name` of every line; none where lines have no such field."""
    return list(map(attrgetter(name), lines)) if hasattr(lines[0], name) else []


def _whole(lines: Sequence[Any], name: str) -> Column:
    values = _texts(lines, name)
    return [value or 0 for value in values] if any(values) else 0


def _numbers(lines: Sequence[Any], name: str) -> Column:
    texts = _texts(lines, name)
    return [_NAN if t is None else float(t) for t in texts] if any(texts) else _NAN


def _codes(names: Names, lines: Sequence[Any], name: str) -> Column:
    texts = _texts(lines, name)
    return names.codes(texts) if any(texts) else -1
