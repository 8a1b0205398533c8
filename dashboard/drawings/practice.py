"""How practice pays: minutes for one, batch by batch, with the fitted curve and its range."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import dot, finish, label, line, path, wide

__all__ = ["practice"]


def practice(
    minutes: Sequence[float | None],
    curve: Sequence[tuple[float, float, float] | None],
    said: str,
    *,
    axes: tuple[str, str],
    last: str,
    width: float,
    scheme: str,
    height: float = 180,
) -> str:
    """Return each batch as a dot, the curve as a line and its range as a band.

    Parameters
    ----------
    minutes : sequence of float or None
        For one, by repetition.
    curve : sequence of (low, likely, high) or None
        As many; None without a curve.
    said : str
    axes : (str, str)
        What the repetitions and the minutes are called.
    last : str
        The newest batch's minutes, in words.
    width, height : float
        px.
    scheme : {'light', 'dark'}
    """
    known = [v for v in minutes if v is not None] + [c[2] for c in curve if c is not None]
    top = max(known, default=1.0) or 1.0
    base, head, left = height - 22, 34.0, 8.0
    step = (width - 2 * left) / max(1, len(minutes) - 1)

    def at(n: int, value: float) -> tuple[float, float]:
        return left + n * step, base - value / top * (base - head)

    out = [path(f"M0 {base:g}H{width:g}", "axis"), label(0, 11, axes[1], "q")]
    band = [(n, c) for n, c in enumerate(curve) if c is not None]
    if band:
        edge = [at(n, c[2]) for n, c in band] + [at(n, c[0]) for n, c in reversed(band)]
        out.append(path("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in edge) + "z", "f-soft"))
        out.append(line([at(n, c[1]) for n, c in band], "s-leaf"))
    points = [(n, v) for n, v in enumerate(minutes) if v is not None]
    out += [dot(*at(n, v), max(1.5, min(4, step / 2.2)), "f-leaf") for n, v in points]
    if points:
        x, y = at(*points[-1])
        half = wide(last, "own") / 2
        out.append(label(min(max(x, half), width - half), max(y - 9, 26), last, "own", "middle"))
    out.append(label(0, height - 5, "1", "q"))
    end = f"{axes[0]} {len(minutes)}"
    if len(minutes) > 1 and wide(end) + 30 < width:
        out.append(label(width, height - 5, end, "q", "end"))
    return finish(width, height, out, said, scheme)
