"""Lines along months, weeks or seasons: what is looked at bold, what went before grey, each named at its end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import along, dot, finish, label, line, path, spread, wide

__all__ = ["Line", "lines"]

_FILL = {"s-leaf": "f-leaf", "s-straw": "f-straw", "s-quiet": "f-quiet"}
_NAMED = {"s-leaf": "own", "s-straw": "shop"}


@dataclass(frozen=True)
class Line:
    """One line.

    Attributes
    ----------
    name : str
        Written at its end.
    values : sequence of float or None
        One for each place along the axis; None where nothing is known.
    kind : str
        ``s-leaf``, ``s-straw``, ``s-quiet`` or ``s-rule``, with ``thin``, ``thick`` or ``dash``.
    """

    name: str
    values: Sequence[float | None]
    kind: str


def lines(
    several: Sequence[Line],
    places: Sequence[Sequence[str]],
    said: str,
    *,
    ticks: Sequence[tuple[float, str]],
    unit: str = "",
    note: tuple[int, float, str] | None = None,
    width: float,
    scheme: str,
    height: float = 168,
) -> str:
    """Return lines with their names at their ends.

    Parameters
    ----------
    several : sequence of Line
        What is looked at last, as it is drawn over the others.
    places : sequence of sequence of str
        What each place along the axis is called, long and short.
    said : str
    ticks : sequence of (value, text)
        The lines that are read against, from the least; their range is the drawing's.
    unit : str
        Stands above the ticks.
    note : (place, value, text), optional
        The one figure that is said on the spot.
    width, height : float
        px.
    scheme : {'light', 'dark'}
    """
    base, top = height - 20, 26.0 if unit or note else 12.0
    shown = [one for one in several if any(v is not None for v in one.values)]
    left = max([wide(text, "q") for _, text in ticks], default=0) + 8
    right = max([wide(one.name, _kind(one)) for one in shown], default=0) + 12
    low, high = ticks[0][0], ticks[-1][0]
    step = (width - left - right) / max(1, len(places))

    def x(n: float) -> float:
        return left + (n + 0.5) * step

    def y(value: float) -> float:
        return base - (value - low) / ((high - low) or 1) * (base - top)

    out = []
    for n, (value, text) in enumerate(ticks):
        kind = "axis" if n == 0 and value == 0 else "hair"
        out.append(path(f"M{left:.1f} {y(value):.1f}H{width - right + 4:.1f}", kind))
        out.append(label(left - 6, y(value) + 4, text, "q", "end"))
    if unit:
        out.append(label(0, 10, unit, "q"))
    names = [(x(n), words) for n, words in enumerate(places) if words[0]]
    out.append(along(names, height - 4, left, width - right + 8))
    for one in shown:
        at = [None if v is None else (x(n), y(v)) for n, v in enumerate(one.values)]
        out.append(line(at, one.kind))
    out += _ends(shown, x, y, base, width, right)
    if note is not None:
        place, value, text = note
        half = wide(text, "own") / 2
        at_x = min(max(x(place), left + half), width - right - half)
        out.append(label(at_x, y(value) - 9, text, "own", "middle"))
    return finish(width, height, out, said, scheme)


def _kind(one: Line) -> str:
    return _NAMED.get(one.kind.split()[0], "q")


def _ends(
    shown: Sequence[Line],
    x: Callable[[float], float],
    y: Callable[[float], float],
    base: float,
    width: float,
    right: float,
) -> list[str]:
    """Return the names at the lines' ends, none over another, and the mark of the last one's end."""
    ends = []
    for one in shown:
        n = max(n for n, v in enumerate(one.values) if v is not None)
        ends.append((y(one.values[n]), n, one))
    ends.sort(key=lambda end: end[0])
    heights = spread([at + 4 for at, _, _ in ends], 15, 24, base + 4)
    out = []
    for height, (at, n, one) in zip(heights, ends, strict=True):
        out.append(label(width - right + 10, height, one.name, _kind(one)))
        if one is shown[-1]:
            out.append(dot(x(n), at, 4, _FILL.get(one.kind.split()[0], "f-quiet")))
    return out
