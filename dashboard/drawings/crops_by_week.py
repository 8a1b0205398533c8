"""Every crop's weeks: this year stands on its line, last year hangs below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import (
    TWO_LINES,
    along,
    beside,
    finish,
    is_long,
    label,
    named,
    path,
    wide,
)

__all__ = ["Crop", "crops_by_week"]

_ARROW = {1: "↑", 0: "=", -1: "↓"}
_KIND = {1: "own", 0: "b", -1: "look", None: "b"}


@dataclass(frozen=True)
class Crop:
    """One crop's season.

    Attributes
    ----------
    name : str
    now, last : sequence of float or None
        By week, in one unit; None or 0 where nothing was picked.
    picked, before : str
        Both seasons' sums, in words.
    change : {1, 0, -1} or None
        More, as much or less than last year; None where there is nothing to compare with.
    """

    name: str
    now: Sequence[float | None]
    last: Sequence[float | None]
    picked: str
    before: str
    change: int | None


def crops_by_week(
    crops: Sequence[Crop],
    months: Sequence[tuple[int, Sequence[str]]],
    heads: tuple[str, str],
    said: str,
    *,
    width: float,
    scheme: str,
    tall: float = 27,
) -> str:
    """Return the calendar of a season.

    Parameters
    ----------
    crops : sequence of Crop
        In the order in which they are drawn; all with as many weeks.
    months : sequence of (week, words)
        Which week (from 0) a month begins in, and its name, long and short.
    heads : (str, str)
        What the two seasons are called.
    said : str
    width, tall : float
        px, of the whole and of a crop.
    scheme : {'light', 'dark'}
    """
    weeks = max((len(crop.now) for crop in crops), default=0) or 1
    before = max(*(wide(crop.before, "q") for crop in crops), wide(heads[1], "q"))
    picked = max(*(wide(crop.picked, "b") for crop in crops), wide(heads[0], "b") - 16)
    right = before + picked + 28
    names = [crop.name for crop in crops]
    left = beside(names, 0.3 * width) + 10
    tall = max(tall, TWO_LINES) if is_long(names, left - 8) else tall
    step = (width - left - right) / weeks
    head, high = 18.0, 18.0 + len(crops) * tall
    out, marks = [], []
    for week, words in months:
        x = left + week * step
        out.append(path(f"M{x:.1f} {head:g}V{high:.1f}", "hair"))
        marks.append((x + 2, words))
    out.append(along(marks, 11, left, width - right - 4, side="start"))
    out.append(label(width - before - 9, 11, heads[0], "b", "end"))
    out.append(label(width, 11, heads[1], "q", "end"))
    lines = up = down = ""
    for n, crop in enumerate(crops):
        y = head + n * tall + tall * 0.62
        lines += f"M{left:.1f} {y:.1f}H{width - right:.1f}"
        most = max([1e-6, *(v for v in (*crop.now, *crop.last) if v)])
        up += _bars(crop.now, left, y, step, -tall * 0.58 / most)
        down += _bars(crop.last, left, y + 1, step, tall * 0.3 / most)
        out.append(named(y + 3, crop.name, left - 8))
        kind = _KIND[crop.change]
        out.append(label(width - before - 23, y + 3, crop.picked, kind, "end"))
        if crop.change is not None:
            out.append(label(width - before - 20, y + 3, _ARROW[crop.change], kind))
        out.append(label(width, y + 3, crop.before, "q", "end"))
    out += [path(lines, "edge"), path(up, "f-leaf"), path(down, "f-quiet")]
    return finish(width, high + 4, out, said, scheme)


def _bars(values: Sequence[float | None], left: float, y: float, step: float, k: float) -> str:
    """Return bars from a line as one way of the pen; `k` is px a unit, negative upwards."""
    gap = min(1.2, step * 0.2)
    out = ""
    for week, value in enumerate(values):
        if value:
            tall = value * k
            tall = tall if abs(tall) >= 1 else (1.0 if tall > 0 else -1.0)
            x = left + week * step + gap / 2
            out += f"M{x:.1f} {y:.1f}v{tall:.1f}h{step - gap:.1f}v{-tall:.1f}z"
    return out
