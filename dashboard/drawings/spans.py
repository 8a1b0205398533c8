"""Spans of time below each other: from when to when, by month, each with its name and its last day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import (
    TWO_LINES,
    along,
    bar,
    beside,
    dot,
    finish,
    is_long,
    label,
    named,
    path,
    wide,
)

__all__ = ["Span", "spans"]


@dataclass(frozen=True)
class Span:
    """One row.

    Attributes
    ----------
    name, text : str
        What it is, and what is said of it at the right; nothing of nothing.
    parts : sequence of (from, to, kind)
        Where it lies, 0 to 1 of the whole; kind a fill of the marks.
    ring : float, optional
        Where more of it comes.
    looks : bool
        Whether it is to be looked at.
    """

    name: str
    text: str
    parts: Sequence[tuple[float, float, str]]
    ring: float | None = None
    looks: bool = False


def spans(
    rows: Sequence[Span],
    months: Sequence[tuple[float, Sequence[str]]],
    said: str,
    *,
    width: float,
    scheme: str,
    now: tuple[float, str] | None = None,
    tall: float = 24,
) -> str:
    """Return the spans under their months.

    Parameters
    ----------
    rows : sequence of Span
    months : sequence of (where, words)
        Where each begins, 0 to 1, and what it is called, the long word first.
    said : str
    width, tall : float
        px, of the whole and of a row.
    scheme : {'light', 'dark'}
    now : (where, text), optional
        The day that is looked at.
    """
    names = [one.name for one in rows]
    left = beside(names, 0.34 * width) + 10
    tall = max(tall, TWO_LINES) if is_long(names, left - 8) else tall
    right = max((wide(one.text, "b") for one in rows), default=0)
    right += 10 if right else 2
    room, head = width - left - right, 20.0
    base = head + len(rows) * tall

    def x(at: float) -> float:
        return left + min(max(at, 0.0), 1.0) * room

    out = [path(f"M{x(at):.1f} {head:g}V{base:g}", "hair") for at, _ in months]
    step = months[1][0] - months[0][0] if len(months) > 1 else 0.0
    names = [(x(at + step / 2), words) for at, words in months]
    out.append(along(names, 12, left, width - right))
    for n, one in enumerate(rows):
        y = head + n * tall
        out.append(named(y + 16, one.name, left - 8, "look" if one.looks else ""))
        ends = [end for _, end, _ in one.parts]
        if one.ring is not None and ends:
            out.append(path(f"M{x(max(ends)):.1f} {y + 12:g}H{x(one.ring) - 4:.1f}", "hair dash"))
        for start, end, kind in one.parts:
            out.append(bar(x(start), y + 6, max(2.0, x(end) - x(start)), tall - 12, kind))
        if one.ring is not None:
            out.append(dot(x(one.ring), y + 12, 4, "ring"))
        out.append(label(width, y + 16, one.text, "look" if one.looks else "b", "end"))
    if now is not None:
        at = x(now[0])
        out.append(path(f"M{at:.1f} {head - 2:g}V{base:g}", "line s-damson"))
    return finish(width, base + 2, out, said, scheme)
