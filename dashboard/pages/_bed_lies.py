"""Beds on the plan where the household put them; those without a place stay strips, with the way to put them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.beds import Bed
from dashboard.drawings.plan import LaidBed, LaidCrop, plan
from dashboard.elements import dcc
from dashboard.parts import icon
from dashboard.parts.drawings import drawing
from ledger.errors import InputError
from ledger.kinds.bed_plan import Lie, read_plan

__all__ = ["drawn_beds", "lies_of", "way"]

_BAR_M = {"metric": 5.0}
_FEET_20_M = 6.096

Ways = Mapping[tuple[str, str], float]
"""Metres of row by crop and bed, where they are known."""


def lies_of(ask: Ask, on: dt.date | None = None) -> dict[str, Lie]:
    """Return where the beds lie as it held on a day, by name in small letters; none where nobody said."""
    text = ask.data.book.catalogue().setting("bed_plan", on.isoformat() if on else None)
    try:
        return {one.bed.lower(): one for one in read_plan(text)} if text else {}
    except InputError:  # written by another version
        return {}


def drawn_beds(
    ask: Ask,
    key: str,
    made: Sequence[Bed],
    said: str,
    strips: Callable[[Sequence[Bed], float], str],
    table: Any,
    *,
    rows: Ways | None = None,
    on: dt.date | None = None,
    desk: float = 540.0,
) -> list[Any]:
    """Return the drawings of beds: those with a place as they lie, the others as strips.

    Parameters
    ----------
    ask : Ask
    key : str
        Name of the drawing on its page.
    made : sequence of Bed
        Ground in m2.
    said : str
    strips : callable
        ``strips(beds, width)`` draws those without a place.
    table : component
        The numbers.
    rows : mapping, optional
    on : date, optional
        Whose places count; default: today's.
    desk : float
        px.
    """
    lies = lies_of(ask, on)
    laid = [bed for bed in made if bed.name.lower() in lies]
    rest = [bed for bed in made if bed.name.lower() not in lies]
    out = []
    if laid:
        beds = [_laid(bed, lies[bed.name.lower()], rows or {}) for bed in laid]
        metres = _BAR_M.get(ask.words.measures, _FEET_20_M)
        bar_of = (
            metres,
            ask.words("beds.bar_m" if ask.words.measures == "metric" else "beds.bar_ft"),
        )

        def lying(width: float) -> str:
            return plan(beds, said, bar_of=bar_of, width=width, scheme=ask.scheme)

        if rest:
            out.append(drawing(ask, key, lying, said, desk=desk))
        else:
            out.append(drawing(ask, key, lying, said, table, under=way(ask), desk=desk))
    if rest:
        name, lay = f"{key}-strips" if laid else key, lambda width: strips(rest, width)
        out.append(drawing(ask, name, lay, said, table, under=way(ask), desk=desk))
    return out


def _laid(bed: Bed, lie: Lie, rows: Ways) -> LaidBed:
    crops = [
        LaidCrop(name, said, ground, rows.get((name, bed.name))) for name, said, ground in bed.crops
    ]
    return LaidBed(
        bed.name, lie.x_m, lie.y_m, lie.length_m, lie.width_m, lie.turned, crops, bed.note, bed.free
    )


def way(ask: Ask) -> Any:
    """Return the way to where the beds are put."""
    return dcc.Link(
        [ask.words("beds.put"), icon("next", small=True)], href="/beds", className="tap"
    )
