"""One jar of ours against the shop's of the same amount: two bars to one scale."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.drawings.marks import bar, finish, label, path, shortened, wide

__all__ = ["home_and_shop"]

_TALL = 46.0


def home_and_shop(
    ours: Sequence[tuple[float, str, str]],
    heads: tuple[str, str],
    shop: tuple[float, str, str] | None,
    said: str,
    *,
    width: float,
    scheme: str,
) -> str:
    """Return a bar of ours, cut where own time begins, above one of the shop's.

    Parameters
    ----------
    ours : sequence of (money, text, kind)
        What it is made of; kind ``paid`` is filled, ``time`` hatched.
    heads : (str, str)
        What ours is called, and its sum in words.
    shop : (money, name, text), optional
        The shop's price, what it is called and its sum in words; None where none is known.
    said : str
    width : float
        px.
    scheme : {'light', 'dark'}
    """
    total = sum(money for money, _, _ in ours)
    top = max(total, shop[0] if shop else 0, 1e-9)
    k, y = (width - 4) / top, 18.0
    out, x = [], 0.0
    out += [label(0, 11, heads[0], "own"), _sum(total * k, heads, width)]
    for money, text, kind in ours:
        w = money * k
        if kind == "paid":
            out.append(bar(x, y, w, _TALL, "f-leaf"))
            out.append(_inside(x, w, y, text))
        else:
            out += [_hatched(x, y, w), _tag(x, w, y, text)]
        x += w
    if shop is None:
        return finish(width, y + _TALL + 2, out, said, scheme)
    price, name, text = shop
    y = y + _TALL + 35
    room = max(price * k, wide(text, "b")) - wide(text, "b") - 8
    out.append(label(0, y - 7, shortened(name, max(room, width * 0.5), "shop"), "shop"))
    at = max(
        price * k,
        wide(shortened(name, max(room, width * 0.5), "shop"), "shop") + 8 + wide(text, "b"),
    )
    out.append(label(min(at, width), y - 7, text, "b", "end"))
    out.append(bar(0, y, price * k, _TALL, "f-straw"))
    return finish(width, y + _TALL + 2, out, said, scheme)


def _sum(x: float, heads: tuple[str, str], width: float) -> str:
    at = max(x, wide(heads[0], "own") + 10 + wide(heads[1], "b"))
    return label(min(at, width), 11, heads[1], "b", "end")


def _inside(x: float, w: float, y: float, text: str) -> str:
    return label(x + 8, y + _TALL / 2 + 4, text, "on") if wide(text, "on") + 12 < w else ""


def _tag(x: float, w: float, y: float, text: str) -> str:
    """Return a label upon the hatching, on a ground of its own."""
    room = wide(text, "b") + 12
    if room + 10 > w:
        return ""
    ground = bar(x + 7, y + _TALL / 2 - 11, room, 22, "f-sheet", round_=3)
    return ground + label(x + 13, y + _TALL / 2 + 4, text, "b")


def _hatched(x: float, y: float, w: float) -> str:
    """Return a bar hatched: strokes from its left lower edge to its upper, cut at its sides."""
    if w <= 0:
        return ""
    way, at, high = "", -_TALL + 4, y + _TALL
    while at < w:
        a, b = max(0.0, at), min(w, at + _TALL)
        way += f"M{x + a:.1f} {high - (a - at):.1f}L{x + b:.1f} {high - (b - at):.1f}"
        at += 8
    return bar(x, y, w, _TALL, "f-soft") + path(way, "line s-leaf")
