"""The year as a strip of an almanac: what was picked week by week, before last year's, and today in it."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import bar, dot, finish, label, path

__all__ = ["year_strip"]

_LEAST = 0.3
"""Pixels below which a bar is not drawn."""


def year_strip(
    weeks: Sequence[tuple[float, float, float]],
    says: Sequence[str],
    letters: Sequence[str],
    scheme: str,
    *,
    at: float,
    today: str,
    month: int,
    width: int,
    height: int,
) -> str:
    """Return the strip.

    Parameters
    ----------
    weeks : sequence of (where, picked, last year)
        Where a week lies, 0 to 1 of the year; grams.
    says : sequence of str
        Two lines at its upper left.
    letters : sequence of str
        Of the months, the season's first first.
    scheme : {'light', 'dark'}
    at : float
        Where today lies, 0 to 1.
    today : str
        What it is called.
    month : int
        This month among the letters, from 1.
    width, height : int
        Pixels.
    """
    base, step = height - 16, width / 52
    top = max((value for _, *values in weeks for value in values), default=0) or 1
    out = [path(f"M0 {base}H{width}", "axis")]
    for where, picked, last in weeks:
        x, tall, was = where * width, picked / top * (base - 4), last / top * (base - 4)
        if was > _LEAST:
            out.append(bar(x - step / 3, base - was, step, was, "f-rule"))
        if tall > _LEAST:
            out.append(bar(x + 0.8, base - tall, step - 1.6, tall, "f-leaf"))
    for n, letter in enumerate(letters):
        kind = "b" if n + 1 == month else "q"
        out.append(label((n + 0.5) * width / 12, height - 3, letter, kind, "middle"))
    x = at * width
    out.append(path(f"M{x:.1f} {base}V6", "line s-damson"))
    out.append(dot(x, 6, 3.5, "f-damson"))
    is_late = at > 0.5
    out.append(label(x + (-8 if is_late else 8), 10, today, "look", "end" if is_late else "start"))
    side, left = ("start", 2) if is_late else ("end", width - 2)
    for n, (text, kind) in enumerate(zip(says, ("b", "q"), strict=False)):
        out.append(label(left, 12 + 16 * n, text, kind, side))
    return finish(width, height, out, "; ".join(says), scheme)
