"""A hundred bites, ours filled."""

from __future__ import annotations

from dashboard.drawings.marks import dot, finish

__all__ = ["hundred"]


def hundred(own: int, said: str, *, scheme: str, size: float = 16, gap: float = 3.3) -> str:
    """Return a hundred circles in rows of ten, the first ones filled.

    Parameters
    ----------
    own : int
        How many of 100 are filled, 0 to 100.
    said : str
    scheme : {'light', 'dark'}
    size, gap : float
        px, of a circle and between two.
    """
    out = []
    for n in range(100):
        x, y = (n % 10) * (size + gap) + size / 2, (n // 10) * (size + gap) + size / 2
        out.append(dot(x, y, size / 2 - 0.8, "f-leaf" if n < own else "ring"))
    side = 10 * size + 9 * gap
    return finish(side, side, out, said, scheme)
