"""Hours of each week to come, one bar a week, the fullest named."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import along, bar, finish, label, path, wide

__all__ = ["hours_by_week"]


def hours_by_week(
    weeks: Sequence[tuple[str, float]],
    most: str,
    said: str,
    *,
    width: float,
    scheme: str,
    height: float = 120,
) -> str:
    """Return a bar a week.

    Parameters
    ----------
    weeks : sequence of (label, hours)
        In their order.
    most : str
        The fullest week's hours, in words.
    said : str
    width, height : float
        px.
    scheme : {'light', 'dark'}
    """
    top = max(1e-6, *(hours for _, hours in weeks)) if weeks else 1.0
    base = height - 20
    step = width / max(1, len(weeks))
    k = (base - 20) / top
    out = [path(f"M0 {base:g}H{width:g}", "axis")]
    best = max(range(len(weeks)), key=lambda n: weeks[n][1])
    for n, (_, hours) in enumerate(weeks):
        out.append(bar(n * step + step * 0.12, base - hours * k, step * 0.76, hours * k, "f-leaf"))
    half = wide(most, "own") / 2
    at = min(max((best + 0.5) * step, half), width - half)
    out.append(label(at, 13, most, "own", "middle"))
    names = [((n + 0.5) * step, (text, text[:1])) for n, (text, _) in enumerate(weeks) if text]
    out.append(along(names, height - 5, 0, width))
    return finish(width, height, out, said, scheme)
