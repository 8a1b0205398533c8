"""Money as steps: each line begins where the one above ended, what is lost goes back, the sum under a rule."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import bar, beside, finish, label, named, path, wide

__all__ = ["steps"]


def steps(
    rows: Sequence[tuple[str, float, str]],
    total: tuple[str, float, str],
    said: str,
    *,
    width: float,
    scheme: str,
    tall: float = 34,
) -> str:
    """Return the steps of a sum.

    Parameters
    ----------
    rows : sequence of (name, money, text)
        What adds to it, and what takes from it (below 0); text is the figure in words.
    total : (name, money, text)
    said : str
    width, tall : float
        px, of the whole and of a row.
    scheme : {'light', 'dark'}
    """
    every = [*rows, total]
    at, reach = 0.0, [0.0, total[1]]
    for _, much, _ in rows:
        at += much
        reach.append(at)
    low, high = min(reach), max(reach)
    left = beside((name for name, _, _ in every), 0.34 * width, "b") + 10
    right = max(wide(text, "b") for _, _, text in every) + 10
    k = (width - left - right) / ((high - low) or 1)

    def x(value: float) -> float:
        return left + (value - low) * k

    out, at = [path(f"M{x(0):.1f} 4V{len(rows) * tall + 4:.1f}", "hair")], 0.0
    for n, (name, much, text) in enumerate(rows):
        y, thick = n * tall + 8, tall - 12
        a, b = sorted((at, at + much))
        w = max(1.5, (b - a) * k)
        out.append(named(y + 15, name, left - 8))
        if much < 0:
            out.append(bar(x(a), y, w, thick, "back"))
            out.append(path(f"M{x(a) + w:.1f} {y + thick / 2:.1f}h{-w:.1f}", "line s-damson"))
        else:
            out.append(bar(x(a), y, w, thick, "f-leaf"))
        out.append(label(width, y + 15, text, "look" if much < 0 else "b", "end"))
        at += much
        out.append(path(f"M{x(at):.1f} {y + thick:.1f}v12", "edge"))
    y = len(rows) * tall + 8
    out.append(path(f"M0 {y - 4:g}H{width:g}", "axis"))
    a, b = sorted((0.0, total[1]))
    out.append(
        bar(x(a), y + 3, max(1.5, (b - a) * k), tall - 10, "f-ink" if total[1] >= 0 else "back")
    )
    out.append(named(y + 19, total[0], left - 8, "b"))
    out.append(label(width, y + 19, total[2], "b" if total[1] >= 0 else "look", "end"))
    return finish(width, y + tall, out, said, scheme)
