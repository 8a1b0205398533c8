"""One crop's weeks for its packet: this season's bars before last season's."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import bar, finish, label, path, wide

__all__ = ["one_crop"]

_STEP = 80.0
"""px that a week takes at the most: few weeks stand in the middle."""


def one_crop(
    now: Sequence[float | None],
    last: Sequence[float | None],
    said: str,
    *,
    ends: tuple[str, str],
    most: str,
    width: float,
    scheme: str,
    height: float = 96,
) -> str:
    """Return the bars of two seasons, week by week; the tallest of this one bears its figure.

    Parameters
    ----------
    now, last : sequence of float or None
        As many weeks each, in one unit.
    said : str
    ends : (str, str)
        The first and the last week's day, in words; the first is empty where there is one week.
    most : str
        The best week of this season, in words.
    width, height : float
        px.
    scheme : {'light', 'dark'}
    """
    top = max([1e-6, *(v for v in (*now, *last) if v)])
    step, base = min(width / max(1, len(now)), _STEP), height - 20
    begin, end = (width - step * len(now)) / 2, (width + step * len(now)) / 2
    k = (base - 20) / top
    best = max((v for v in now if v), default=None)
    out, is_said = [path(f"M0 {base:g}H{width:g}", "axis")], False
    for n, (a, b) in enumerate(zip(now, last, strict=True)):
        x = begin + n * step + min(2, step * 0.1)
        out.append(bar(x, base - (b or 0) * k, step * 0.3, (b or 0) * k, "f-quiet"))
        out.append(bar(x + step * 0.3, base - (a or 0) * k, step * 0.52, (a or 0) * k, "f-leaf"))
        if best is not None and a == best and not is_said:
            half = wide(most, "own") / 2
            at = min(max(x + step * 0.56, half), width - half)
            # a taller bar of last season beside it must not be written over
            out.append(label(at, max(12.0, base - top * k - 6), most, "own", "middle"))
            is_said = True
    if not ends[0]:
        out.append(label(width / 2, height - 5, ends[1], "q", "middle"))
        return finish(width, height, out, said, scheme)
    out.append(label(begin, height - 5, ends[0], "q"))
    if wide(ends[0]) + wide(ends[1]) + 12 < end - begin:
        out.append(label(end, height - 5, ends[1], "q", "end"))
    return finish(width, height, out, said, scheme)
