"""How much of what was said came true: a bar a thing said, with a mark where it should end."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import bar, finish, label, path, shortened, wide

__all__ = ["kept_word"]


def kept_word(
    rows: Sequence[tuple[str, float, str, float]],
    mark: str,
    said: str,
    *,
    width: float,
    scheme: str,
    tall: float = 44,
) -> str:
    """Return the shares.

    Parameters
    ----------
    rows : sequence of (name, share, text, expected)
        Shares 0 to 1; text is the share in words.
    mark : str
        What the upright mark is called.
    said : str
    width, tall : float
        px, of the whole and of a row.
    scheme : {'light', 'dark'}
    """
    right = max((wide(text, "b") for _, _, text, _ in rows), default=0) + 10
    k = width - right
    out = [label(0, 11, f"| {mark}", "q")]
    for n, (name, share, text, expected) in enumerate(rows):
        y = 20 + n * tall
        out.append(label(0, y + 12, shortened(name, width)))
        out.append(bar(0, y + 18, k, 14, "f-soft"))
        out.append(bar(0, y + 18, share * k, 14, "f-leaf"))
        out.append(path(f"M{expected * k:.1f} {y + 15:.1f}v20", "line s-ink"))
        out.append(label(width, y + 30, text, "b", "end"))
    return finish(width, 20 + len(rows) * tall, out, said, scheme)
