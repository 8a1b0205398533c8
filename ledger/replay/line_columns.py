"""The columns of lines: what came in, what went out, and who worked on it.

A field that no line of a chunk fills is one number for its whole column: most are left empty.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain
from operator import attrgetter
from typing import TYPE_CHECKING, Any, cast

import numpy as np

from ledger.amounts import is_counted, parse_amount
from ledger.reference.crossing import MEASURES
from ledger.replay.tables import ROLES
from ledger.replay.ways import COUNTED, FIRST_VERSION

if TYPE_CHECKING:
    from ledger.replay.columns import Array, Names
    from ledger.replay.journal import Journal

__all__ = [
    "KEPT",
    "filled",
    "repeated",
    "take_draws",
    "take_lids",
    "take_lines",
    "take_supplies",
    "take_targets",
    "take_work",
]

KEPT = ("shelf", "fridge", "freezer", "cellar", None)
"""Where a lot is kept, by code; the last stands for code -1: nobody said."""

_KEPT = {name: code for code, name in enumerate(KEPT[:-1])}
_NAN = float("nan")
_MEASURE = {name: code for code, name in enumerate(MEASURES)}
_RANK = {"supplies": 7}
"""Place of a table's lines in the order of rule 4 within an event; a draw's is that of its role."""

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
    ways = _ways(journal, items, lines, "")
    _note_first(journal, items, evs, lines, ways, _RANK.get(table, more.get("role", 0)))
    journal.tables[table].extend(
        len(lines),
        {
            "ev": evs,
            "n": filled(lines, "n", 1),
            "item": items,
            "whole": list(map(attrgetter("whole"), lines)),
            "way": ways,
            "times": _whole(lines, "times"),
            **more,
        },
    )


def _ways(journal: Journal, items: list[int], lines: Sequence[Any], prefix: str) -> Array:
    """Return the number of the way in which each line, or the part `prefix` of it, was said."""
    measures, units = _texts(lines, f"{prefix}measure"), _texts(lines, f"{prefix}per")
    if not any(measures):
        units_typed = journal.units.codes(units) if any(units) else -1
        return journal.ways.codes(items, FIRST_VERSION, units_typed)
    codes = [_code(one, unit) for one, unit in zip(measures, units, strict=True)]
    typed = [
        unit or (measure if code == COUNTED else None)
        for measure, unit, code in zip(measures, units, codes, strict=True)
    ]
    return journal.ways.codes(items, codes, journal.units.codes(typed))


def _code(measure: str | None, unit: str | None) -> int:
    """Return the code of a measure: of a count in a counted unit that of its unit."""
    if measure is None:
        return FIRST_VERSION
    if measure == "count" and unit is not None and is_counted(unit):
        return COUNTED
    return _MEASURE.get(measure, COUNTED)


def _note_first(
    journal: Journal,
    items: list[int],
    evs: Sequence[int] | Array,
    lines: Sequence[Any],
    ways: Array,
    rank: int,
) -> None:
    """Remember how each item was first said, in the order of the log and, in an event, of rule 4."""
    first = journal.first_said
    for code in set(items) - journal.said_before:
        at = items.index(code)
        key = int(evs[at]) << 3 | rank
        if code not in first or key < first[code][0]:
            text = getattr(lines[at], "amount", None) or "1 pt"
            first[code] = key, int(ways[at]), text


def take_supplies(
    journal: Journal,
    places: list[int],
    lists: list[list[Any] | None],
    field: int,
    bodies: Sequence[Any],
) -> None:
    """Keep lines that bring something in; `field` is the list they stand in."""
    lines = _joined(lists)
    if not lines:
        return
    names = _texts(lines, "item")
    if not names:  # what a batch makes is said once, in its body
        names = [b.makes for b, several in zip(bodies, lists, strict=True) for _ in several or ()]
    kept, nowhere = _texts(lines, "kept"), _KEPT["fridge"] if field == _LEFT else -1
    take_lines(
        journal,
        "supplies",
        repeated(places, lists),
        lines,
        names,
        field=field,
        kept=[_KEPT.get(one, nowhere) for one in kept] if any(kept) else nowhere,
        money=_numbers(lines, "paid" if hasattr(lines[0], "paid") else "value"),
        trimmed=_whole(lines, "trimmed_whole"),
        trimmed_way=_trimmed_ways(journal, lines),
        trimmed_times=_whole(lines, "trimmed_times"),
        jars=_whole(lines, "jars"),
        jar=_codes(journal.items, lines, "jar"),
        lids=_codes(journal.items, lines, "lids"),
        unsealed=_whole(lines, "unsealed"),
        share=_numbers(lines, "share"),
        uses=_numbers(lines, "uses"),
        years=_numbers(lines, "years"),
        for_crop=_codes(journal.items, lines, "for_crop"),
    )


def _trimmed_ways(journal: Journal, lines: Sequence[Any]) -> Column | Array:
    """Return how what was trimmed was said; -1 where nothing was.

    Where that is not said it is in the whole units in which its line is stored.
    """
    if not any(_texts(lines, "trimmed_whole")):
        return -1
    out = np.full(len(lines), -1, np.int64)
    for i, line in enumerate(lines):
        if line.trimmed_whole:
            measure, unit = line.trimmed_measure, line.trimmed_per
            if measure is None:
                measure = line.measure
                unit = line.per if _code(measure, line.per) == COUNTED else None
            code = _code(measure, unit)
            unit = unit or (measure if code == COUNTED else None)
            out[i] = journal.ways.code(
                journal.items.code(line.item), code, journal.units.code(unit)
            )
    return out


def take_lids(journal: Journal, first: dict[str, int]) -> None:
    """Remember that lids were counted, as every jar took one; `first` is when each was used first."""
    for lids, place in first.items():
        code = journal.items.code(lids)
        way, key = journal.ways.code(code, _MEASURE["count"]), place << 3 | ROLES.index("lids")
        if code not in journal.first_said or key < journal.first_said[code][0]:
            journal.first_said[code] = key, way, "1"


def take_targets(journal: Journal, bodies: Sequence[dict[str, Any]]) -> None:
    """Remember how targets were said: what is wanted may be of a strand that nothing came to yet."""
    for body in bodies:
        measure = body.get("measure")
        if measure is None or body.get("item") is None:
            continue
        item, code = journal.items.code(body["item"]), _code(measure, None)
        unit = journal.units.code(measure) if code == COUNTED else -1
        journal.ways.code(item, code, unit)
        if measure == "volume":
            typed = parse_amount(body["amount"]).unit
            journal.ways.code(item, code, journal.units.code(typed))


def take_draws(journal: Journal, places: list[int], lists: list[Any], role: str) -> None:
    """Keep lines that take something out, or the one line that a field is."""
    if not {list, type(None)}.issuperset(map(type, lists)):
        lists = [None if one is None else [one] for one in lists]
    lines = _joined(lists)
    if lines:
        lot = _codes(journal.lots, lines, "lot")
        evs = repeated(places, lists)
        take_lines(journal, "draws", evs, lines, role=ROLES.index(role), lot=lot)


def take_work(journal: Journal, places: list[int], works: list[Any]) -> None:
    """Keep who worked, and for how long."""
    several = _joined(works)
    journal.tables["work"].extend(
        len(several),
        {
            "ev": repeated(places, works),
            "person": journal.people.codes([one.person for one in several]),
            "minutes": [float(one.minutes) for one in several],
        },
    )


def repeated(places: Sequence[int], lists: Sequence[list[Any] | None]) -> Array:
    """Return the place of each line's event."""
    whole = [several or [] for several in lists] if None in lists else lists
    return np.repeat(np.asarray(places, np.int32), list(map(len, cast("list[list[Any]]", whole))))


def _joined(lists: Iterable[list[Any] | None]) -> list[Any]:
    return list(chain.from_iterable(filter(None, lists)))


def _texts(lines: Sequence[Any], name: str) -> list[Any]:
    """Return the attribute `name` of every line; none where lines have no such field."""
    return list(map(attrgetter(name), lines)) if hasattr(lines[0], name) else []


def _whole(lines: Sequence[Any], name: str) -> Column:
    return filled(lines, name, 0)


def filled(lines: Sequence[Any], name: str, none: float) -> Column:
    """Return the number `name` of every line or body; `none` where it is not said, or 0."""
    values = _texts(lines, name)
    if not any(values):
        return none
    return values if all(values) else [value or none for value in values]


def _numbers(lines: Sequence[Any], name: str) -> Column:
    texts = _texts(lines, name)
    return [_NAN if t is None else float(t) for t in texts] if any(texts) else _NAN


def _codes(names: Names, lines: Sequence[Any], name: str) -> Column:
    texts = _texts(lines, name)
    return names.codes(texts) if any(texts) else -1
