"""The beds as strips to one scale, each with its crops in rows: a dash a plant's worth of row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import (
    bar,
    finish,
    label,
    line,
    path,
    shortened,
    wide,
)

__all__ = ["BEDS_AT_MOST", "PATTERNS", "TINTS", "Bed", "beds", "beneath"]

BEDS_AT_MOST = 15
"""Beds in one drawing: on a phone more are too small to read."""

PATTERNS = ("4 2", "6 3", "1.5 4", "3 5", "2 2", "8 3", "2 4", "5 6", "1 2", "3 2")
TINTS = ("s-leaf", "s-straw", "s-damson")
_STRIP, _HEAD = 30.0, 20.0


@dataclass(frozen=True)
class Bed:
    """One bed.

    Attributes
    ----------
    name, note : str
        What stands above it, left and right.
    ground : float
        All of it, in one unit of area.
    crops : sequence of (name, label, ground)
        What grows there, in the order in which it lies.
    free : str
        What ground left over is called.
    """

    name: str
    note: str
    ground: float
    crops: Sequence[tuple[str, str, float]]
    free: str


def beds(
    several: Sequence[Bed],
    said: str,
    *,
    bar_of: tuple[float, str],
    width: float,
    scheme: str,
) -> str:
    """Return the beds under one another, as long as their ground is large.

    Parameters
    ----------
    several : sequence of Bed
        `BEDS_AT_MOST` at most are drawn.
    said : str
    bar_of : (ground, text)
        So much ground is as long as the bar below, and what that is in words.
    width : float
        px.
    scheme : {'light', 'dark'}
    """
    several = several[:BEDS_AT_MOST]
    crops = list(dict.fromkeys(name for one in several for name, _, _ in one.crops))
    pad = 8.0
    most = max((max(one.ground, sum(g for _, _, g in one.crops)) for one in several), default=1.0)
    k = (width - 2 * pad) / (most or 1)
    out, y = [], 6.0
    for one in several:
        y += _HEAD
        drawn, y = _bed(one, crops, pad, y, k, width - pad)
        out += drawn
    y += 12
    ground, text = bar_of
    long = ground * k
    if long > 0 and long + wide(text, "q") + 6 < width - 2 * pad:
        out.append(path(f"M{pad:g} {y:.1f}v4h{long:.1f}v-4", "line s-ink thin"))
        out.append(label(pad + long + 6, y + 6, text, "q"))
        y += 14
    back = bar(0, 0, width, y, "f-wash", round_=4)
    return finish(width, y, [back, *out], said, scheme)


def _bed(
    one: Bed, crops: Sequence[str], left: float, y: float, k: float, right: float
) -> tuple[list[str], float]:
    """Return a bed's marks, and where the next begins."""
    length = max(one.ground, sum(g for _, _, g in one.crops)) * k
    out = [bar(left, y, length, _STRIP, "f-soil s-soil", round_=1.5)]
    room = right - left
    note = shortened(one.note, 0.5 * room, "q")
    out.append(label(left, y - 5, shortened(one.name, room - wide(note) - 10, "b"), "b"))
    if note:
        out.append(label(right, y - 5, note, "q", "end"))
    x, below = left, []
    for name, said, ground in one.crops:
        w = ground * k
        out.append(_rows(x, y, w, crops.index(name)))
        if wide(said, "b") + 10 < w:
            half = wide(said, "b") / 2 + 4
            out.append(bar(x + w / 2 - half, y + _STRIP / 2 - 8, 2 * half, 16, "f-soil", round_=2))
            out.append(label(x + w / 2, y + _STRIP / 2 + 4.5, said, "b", "middle"))
        elif said:
            below.append((x + w / 2, said))
        x += w
        out.append(path(f"M{x:.1f} {y:.1f}v{_STRIP:g}", "line s-soil thin"))
    if left + length - x > wide(one.free, "q") + 8:
        out.append(label((x + left + length) / 2, y + _STRIP / 2 + 4.5, one.free, "q", "middle"))
    return beneath(out, below, left, right, y + _STRIP)


def _rows(x: float, y: float, w: float, n: int) -> str:
    """Return the rows of a crop as dashes of its own pattern."""
    if w < 4:
        return ""
    rows = 5
    way = "".join(
        f"M{x + 2:.1f} {y + (i + 0.5) * _STRIP / rows:.1f}H{x + w - 1.5:.1f}" for i in range(rows)
    )
    dashes = f' stroke-dasharray="{PATTERNS[n % len(PATTERNS)]}" stroke-width="1.5" fill="none"'
    tint = TINTS[n % len(TINTS)]
    return f'<path class="{tint}"{dashes} d="{way}"/>'


def beneath(
    out: list[str], below: Sequence[tuple[float, str]], left: float, right: float, y: float
) -> tuple[list[str], float]:
    """Return the labels that have no room in their patch, in as many lines as they need."""
    lines: list[list[tuple[float, str]]] = []
    for at, said in ((x, shortened(text, right - left)) for x, text in below):
        for one in lines:
            if sum(wide(s) + 10 for _, s in one) + wide(said) <= right - left:
                one.append((at, said))
                break
        else:
            lines.append([(at, said)])
    for n, one in enumerate(lines):
        low = y + 16 + n * 16
        places = _placed([(at, wide(said)) for at, said in one], left, right)
        for (at, said), x in zip(one, places, strict=True):
            if n == 0:  # only the first line is near enough for a tick to be followed
                to = min(max(x + 6, at), x + wide(said) - 6)
                out.append(line([(at, y), (at, y + 2), (to, y + 5)], "s-quiet thin"))
            out.append(label(x, low, said))
    return out, y + len(lines) * 16 + 6


def _placed(wanted: Sequence[tuple[float, float]], left: float, right: float) -> list[float]:
    """Return where labels begin: near their middles, none over another, none beyond the bounds."""
    out: list[float] = []
    end = left - 10
    for at, room in wanted:
        out.append(max(left, at - room / 2, end + 10))
        end = out[-1] + room
    end = right + 10
    for i in reversed(range(len(out))):
        out[i] = min(out[i], end - 10 - wanted[i][1])
        end = out[i]
    return out
