"""The garden as it lies: beds where the household put them, to scale, north up, rows at their true spacing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from dashboard.drawings.beds import PATTERNS, TINTS, beneath
from dashboard.drawings.marks import bar, finish, label, path, shortened, wide

__all__ = ["LaidBed", "LaidCrop", "plan"]

_PAD, _HEAD, _FOOT = 10.0, 20.0, 40.0
_TALLEST = 1.25
"""A plan is so many times as high as wide at most."""
_ROWS_M = 0.6
"""Spacing of rows that nobody wrote down, m (common practice, no source)."""
_LABELS, _FEW = 36.0, 3
"""Room that a bed's labels and the next one's name take below it, px; labels there at most."""
_LEAST_PX = 3.0
"""Rows nearer than this are drawn every second one, or they run together."""


@dataclass(frozen=True)
class LaidCrop:
    """What grows in a part of a bed: its ground in m2, and metres of row where they are known."""

    name: str
    said: str
    ground_m2: float
    row_m: float | None = None


@dataclass(frozen=True)
class LaidBed:
    """A bed at its place: north-west corner, length from west to east and width in m; degrees clockwise.

    The crops lie along its length in their order; `note` stands beside its name, `free` on ground left over.
    """

    name: str
    x_m: float
    y_m: float
    length_m: float
    width_m: float
    turned: int
    crops: Sequence[LaidCrop]
    note: str = ""
    free: str = ""

    def corners(self) -> list[tuple[float, float]]:
        """Return its corners as it lies, m east and south."""
        cx, cy = self.x_m + self.length_m / 2, self.y_m + self.width_m / 2
        c, s = cos(radians(self.turned)), sin(radians(self.turned))
        halves = [
            (dx * self.length_m / 2, dy * self.width_m / 2) for dx in (-1, 1) for dy in (-1, 1)
        ]
        return [(cx + dx * c - dy * s, cy + dx * s + dy * c) for dx, dy in halves]


def plan(
    several: Sequence[LaidBed],
    said: str,
    *,
    bar_of: tuple[float, str],
    width: float,
    scheme: str,
) -> str:
    """Return the plan.

    Parameters
    ----------
    several : sequence of LaidBed
    said : str
    bar_of : (metres, text)
        How long the bar below is, and what that is in words.
    width : float
        px.
    scheme : {'light', 'dark'}
    """
    points = [point for bed in several for point in bed.corners()]
    west, north = min(x for x, _ in points), min(y for _, y in points)
    across = max(max(x for x, _ in points) - west, 0.1)
    down = max(max(y for _, y in points) - north, 0.1)
    k = min((width - 2 * _PAD) / across, (width * _TALLEST - _HEAD - _FOOT) / down)
    height = _HEAD + down * k + _FOOT + 14
    names = list(dict.fromkeys(crop.name for bed in several for crop in bed.crops))
    shapes, labels = [], []
    for bed in several:
        is_roomy = _below(bed, several) * k > _LABELS
        drawn, told = _bed(bed, names, k, (_PAD - west * k, _HEAD - north * k), width, is_roomy)
        shapes += drawn
        labels += told
    metres, text = bar_of
    y = height - 12
    below = [
        path(f"M{_PAD:g} {y:.1f}v4h{metres * k:.1f}v-4", "line s-ink thin"),
        label(_PAD + metres * k + 6, y + 5, text, "q"),
        path(f"M{width - 14:.1f} {y + 4:.1f}v-18l-4 6M{width - 14:.1f} {y - 14:.1f}l4 6", "line s-ink thin"),
        label(width - 22, y + 4, "N", "q", "end"),
    ]  # fmt: skip
    back = bar(0, 0, width, height, "f-wash", round_=4)
    return finish(width, height, [back, *shapes, *labels, *below], said, scheme)


def _bed(
    bed: LaidBed,
    names: Sequence[str],
    k: float,
    at: tuple[float, float],
    width: float,
    is_roomy: bool,
) -> tuple[list[str], list[str]]:
    """Return a bed's shapes, turned as it lies, and its words, which are never turned."""
    x, y = at[0] + bed.x_m * k, at[1] + bed.y_m * k
    length, deep = bed.length_m * k, bed.width_m * k
    cx, cy = x + length / 2, y + deep / 2
    out = [bar(x, y, length, deep, "f-soil s-soil", round_=1.5)]
    words: list[str] = []
    ground = sum(crop.ground_m2 for crop in bed.crops)
    room = max(bed.length_m * bed.width_m, ground) or 1.0
    left, below = x, []
    for crop in bed.crops:
        w = length * crop.ground_m2 / room
        out.append(_rows(crop, left, y, w, bed, k, names.index(crop.name)))
        if wide(crop.said, "b") + 8 < w and deep > 15 and not bed.turned % 180:
            half = wide(crop.said, "b") / 2 + 4
            words.append(bar(left + w / 2 - half, cy - 8, 2 * half, 16, "f-soil", round_=2))
            words.append(label(left + w / 2, cy + 4.5, crop.said, "b", "middle"))
        elif crop.said:
            below.append((left + w / 2, crop.said))
        left += w
        out.append(path(f"M{left:.1f} {y:.1f}v{deep:.1f}", "line s-soil thin"))
    if below and is_roomy and not bed.turned % 180:
        words, _ = beneath(words, below[:_FEW], x, x + length, y + deep)
    turned = f'<g transform="rotate({bed.turned} {cx:.1f} {cy:.1f})">{"".join(out)}</g>'
    ends = bed.corners()
    top = min(b for _, b in ends) * k + at[1]
    west = min(a for a, _ in ends) * k + at[0]
    east = max(a for a, _ in ends) * k + at[0]
    name = shortened(bed.name, width - west - 4, "b")
    words.append(label(west, top - 4, name, "b"))
    if bed.note and wide(name, "b") + wide(bed.note, "q") + 12 < east - west:
        words.append(label(east, top - 4, bed.note, "q", "end"))
    if bed.free and not bed.turned % 180 and x + length - left > wide(bed.free, "q") + 8:
        words.append(label((left + x + length) / 2, cy + 4.5, bed.free, "q", "middle"))
    return [turned], words


def _below(bed: LaidBed, several: Sequence[LaidBed]) -> float:
    """Return how far below a bed the next one begins, m."""
    west, east = (end(x for x, _ in bed.corners()) for end in (min, max))
    south = max(y for _, y in bed.corners())
    near = [
        min(y for _, y in other.corners()) - south
        for other in several
        if other is not bed
        and min(x for x, _ in other.corners()) < east
        and max(x for x, _ in other.corners()) > west
        and max(y for _, y in other.corners()) > south
    ]
    return min(near, default=south)


def _rows(crop: LaidCrop, x: float, y: float, w: float, bed: LaidBed, k: float, n: int) -> str:
    """Return a crop's rows along the bed, as far apart as they are."""
    if w < 4:
        return ""
    apart = crop.ground_m2 / crop.row_m if crop.row_m else _ROWS_M
    many = max(1, min(round(bed.width_m / apart), 200))
    gap = bed.width_m * k / many
    if gap < _LEAST_PX and many > 8:
        many //= 2
        gap = bed.width_m * k / many
    way = "".join(f"M{x + 2:.1f} {y + (i + 0.5) * gap:.1f}H{x + w - 1.5:.1f}" for i in range(many))
    dashes = f' stroke-dasharray="{PATTERNS[n % len(PATTERNS)]}" stroke-width="1.5" fill="none"'
    return f'<path class="{TINTS[n % len(TINTS)]}"{dashes} d="{way}"/>'
