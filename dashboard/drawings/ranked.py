"""Bars below each other, each with its name and its figure, and a mark that it is read against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import bar, beside, finish, label, named, path, wide

__all__ = ["Bar", "ranked"]


@dataclass(frozen=True)
class Bar:
    """One bar.

    Attributes
    ----------
    name, text : str
        What it is, and its figure in words.
    value : float
        How long it is; below 0 it goes back from the line.
    mark : float, optional
        What it is read against: an upright stroke.
    looks : bool
        Whether it is to be looked at: outlined in damson, not filled.
    """

    name: str
    text: str
    value: float
    mark: float | None = None
    looks: bool = False


def ranked(
    rows: Sequence[Bar],
    said: str,
    *,
    mark: str = "",
    width: float,
    scheme: str,
    tall: float = 29,
) -> str:
    """Return the bars, to one scale that begins at 0.

    Parameters
    ----------
    rows : sequence of Bar
        In their order.
    said : str
    mark : str
        What the upright strokes are called.
    width, tall : float
        px, of the whole and of a row.
    scheme : {'light', 'dark'}
    """
    marks = [one.mark for one in rows if one.mark is not None]
    low = min([0.0, *(one.value for one in rows)])
    high = max([0.0, *(one.value for one in rows), *marks])
    left = beside((one.name for one in rows), 0.45 * width) + 8
    right = max((wide(one.text, "b") for one in rows), default=0) + 10
    k = max(1.0, width - left - right) / ((high - low) or 1)
    head = 20.0 if marks and mark else 4.0

    def x(value: float) -> float:
        return left + (value - low) * k

    out = [_head(x, marks, mark, width)] if marks and mark else []
    out.append(path(f"M{x(0):.1f} {head:g}V{head + len(rows) * tall:.1f}", "hair"))
    for n, one in enumerate(rows):
        y = head + n * tall
        start, end = sorted((x(0), x(one.value)))
        kind = "back" if one.looks else "f-leaf"
        out.append(named(y + 19, one.name, left - 8))
        out.append(bar(start, y + 7, max(1.0, end - start) if one.value else 0, tall - 13, kind))
        if one.mark is not None:
            out.append(path(f"M{x(one.mark):.1f} {y + 4:.1f}v{tall - 7:g}", "line s-ink"))
        out.append(label(width, y + 19, one.text, "look" if one.looks else "b", "end"))
    return finish(width, head + len(rows) * tall + 2, out, said, scheme)


def _head(x: object, marks: Sequence[float], mark: str, width: float) -> str:
    """Return the name of the strokes: over them where all stand at one place, else with one before it."""
    if len(set(marks)) > 1 or not callable(x):
        return path("M3 2v12", "line s-ink") + label(10, 12, mark, "q")
    half = wide(mark, "q") / 2
    return label(min(max(x(marks[0]), half), width - half), 12, mark, "q", "middle")
