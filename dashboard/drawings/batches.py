"""Each batch as a dot, season by season, with the shop's price as a line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dashboard.drawings.marks import dot, finish, label, line, path, shortened, wide

__all__ = ["Season", "batches", "sparkline"]


@dataclass(frozen=True)
class Season:
    """A season's batches: money each, what the shop asked (None: not known), and how that is said."""

    name: str
    costs: Sequence[float]
    shop: float | None
    shop_said: str


def batches(
    seasons: Sequence[Season],
    last: str,
    said: str,
    *,
    width: float,
    scheme: str,
    height: float = 130,
) -> str:
    """Return the batches of some seasons side by side on one scale.

    Parameters
    ----------
    seasons : sequence of Season
        At most as many as have room: `room_for` tells.
    last : str
        The newest batch's cost, in words.
    said : str
    width, height : float
        px.
    scheme : {'light', 'dark'}
    """
    every = [v for one in seasons for v in (*one.costs, one.shop) if v is not None]
    low, high = min(every), max(every)
    gap, top, base = 12.0, 30.0, height - 22.0
    part = (width - gap * (len(seasons) - 1)) / len(seasons)
    is_two_lines = any(
        wide(one.name, "b") + wide(one.shop_said, "shop") + 8 > part for one in seasons
    )
    top += 16 if is_two_lines else 0

    def y(value: float) -> float:
        return base - 6 - (value - low) / ((high - low) or 1) * (base - top - 10)

    out = []
    for n, one in enumerate(seasons):
        x0 = n * (part + gap)
        out.append(label(x0, 11, shortened(one.name, part, "b"), "b"))
        if one.shop is not None:
            out.append(path(f"M{x0:.1f} {y(one.shop):.1f}h{part:.1f}", "line s-straw"))
            text = shortened(one.shop_said, part, "shop")
            if is_two_lines:
                out.append(label(x0, 27, text, "shop"))
            else:
                out.append(label(x0 + part, 11, text, "shop", "end"))
        step = part / max(1, len(one.costs))
        at = [(x0 + (i + 0.5) * step, y(v)) for i, v in enumerate(one.costs)]
        out.append(line(at, "s-leaf thin"))
        out += [dot(a, b, max(1.5, min(4, step / 2.4)), "f-leaf") for a, b in at]
        if n == len(seasons) - 1 and at:
            half = wide(last, "own") / 2
            x = min(max(at[-1][0], half), width - half)
            out.append(label(x, min(height - 4, at[-1][1] + 18), last, "own", "middle"))
    return finish(width, height, out, said, scheme)


def sparkline(
    values: Sequence[float], said: str, *, scheme: str, width: float = 84, height: float = 26
) -> str:
    """Return a line without axes from its least to its most, the last point marked.

    Parameters
    ----------
    values : sequence of float
        At least one.
    said : str
    scheme : {'light', 'dark'}
    width, height : float
        px.
    """
    low, high = min(values), max(values)
    at = [
        (
            4 + i * (width - 8) / max(1, len(values) - 1),
            height - 4 - (height - 8) * (v - low) / ((high - low) or 1),
        )
        for i, v in enumerate(values)
    ]
    return finish(width, height, [line(at, "s-leaf"), dot(*at[-1], 3, "f-leaf")], said, scheme)
