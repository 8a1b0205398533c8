"""What every drawing is made of: labels, shapes, and the colours of a scheme settled in the file itself.

A drawing is shown as an image, so it sees neither the page's style sheet nor its fonts: each carries the
few rules that it uses, with colours as they are in one scheme, and its text is the device's own sans.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from html import escape
from urllib.parse import quote

from dashboard.theme import SANS, TOKENS

__all__ = [
    "DESK",
    "PHONE",
    "TWO_LINES",
    "Label",
    "along",
    "as_source",
    "bar",
    "beside",
    "dot",
    "finish",
    "is_long",
    "label",
    "line",
    "named",
    "path",
    "scale",
    "shortened",
    "spread",
    "wide",
]

PHONE, DESK = 358.0, 540.0
"""How wide a drawing is made, px: for a phone of 390, and for a column of a desk."""

SIZE = 13.0
"""Height of the type of drawings, px."""
LEADING, TWO_LINES = 13.0, 28.0
"""From line to line of a name, and the least height of a row with one of two lines, px."""
_FACES = SANS.replace('"', "'")
_RULES = {
    "q": "fill:{quiet}", "b": "font-weight:650", "own": "fill:{leaf};font-weight:650",
    "shop": "fill:{straw-ink};font-weight:650", "look": "fill:{damson};font-weight:650",
    "on": "fill:{on-leaf};font-weight:650",
    "f-leaf": "fill:{leaf}", "f-leaf2": "fill:{leaf-2}", "f-soft": "fill:{leaf-soft}",
    "f-wash": "fill:{leaf-wash}", "f-straw": "fill:{straw}", "f-quiet": "fill:{edge}",
    "f-rule": "fill:{rule}", "f-damson": "fill:{damson}",
    "f-ink": "fill:{ink}", "f-sheet": "fill:{sheet}", "f-soil": "fill:{soil}",
    "s-leaf": "stroke:{leaf}", "s-straw": "stroke:{straw}", "s-damson": "stroke:{damson}",
    "s-quiet": "stroke:{edge}", "s-rule": "stroke:{rule}", "s-ink": "stroke:{ink}",
    "s-soil": "stroke:{soil-line}",
    "line": "fill:none;stroke-width:2;stroke-linejoin:round;stroke-linecap:round",
    "thin": "stroke-width:1.2", "thick": "stroke-width:2.8", "dash": "stroke-dasharray:4 3",
    "hair": "fill:none;stroke:{rule}", "edge": "fill:none;stroke:{edge}",
    "axis": "fill:none;stroke:{ink};stroke-width:1.5",
    "back": "fill:{damson-soft};stroke:{damson}", "ring": "fill:none;stroke:{edge};stroke-width:1.2",
}  # fmt: skip
_BOLD = ("b", "own", "shop", "look", "on")
_NARROW, _WIDE = frozenset("fijlrtI.,:;'’|!()[]/ -·"), frozenset("mwMWÄÖÜ%@—–½¼¾ß")


def wide(said: str, kind: str = "") -> float:
    """Return how wide a label is at most, px.

    Widths are of three sorts of letters in a wide sans (measured on DejaVu Sans, the widest of the
    faces named); the device's own is rarely wider.
    """
    em = sum(
        0.36 if c in _NARROW else 0.92 if c in _WIDE else 0.72 if c.isupper() else 0.62
        for c in said
    )
    return em * SIZE * (1.07 if kind in _BOLD else 1.0)


def shortened(said: str, room: float, kind: str = "") -> str:
    """Return a label cut to a width in px after a whole word, with an ellipsis where something was cut.

    A word that is wider by itself is cut within.
    """
    if wide(said, kind) <= room:
        return said
    words = said.split(" ")
    while len(words) > 1 and wide(f"{' '.join(words)}…", kind) > room:
        words.pop()
    said = " ".join(words).rstrip(",;:")
    while said and wide(f"{said}…", kind) > room:
        said = said[:-1].rstrip()
    return f"{said}…"


def beside(names: Iterable[str], part: float, kind: str = "") -> float:
    """Return how wide the names at the left of a drawing stand, px: at most `part`, a third more for a long word.

    A name that is wider than that takes two lines (`named`).
    """
    several = list(names)
    longest = max((wide(word, kind) for one in several for word in one.split(" ")), default=0.0)
    whole = max((wide(one, kind) for one in several), default=0.0)
    return max(min(whole, part), min(longest, part * 4 / 3))


def _two_lines(said: str, room: float, kind: str) -> list[str]:
    """Return a name in one line, or in two that part between words."""
    words, first = said.split(" "), 1
    while first < len(words) and wide(" ".join(words[: first + 1]), kind) <= room:
        first += 1
    lines = [" ".join(words[:first]), " ".join(words[first:])]
    return [shortened(one, room, kind) for one in lines if one]


def is_long(names: Iterable[str], room: float, kind: str = "") -> bool:
    """Return whether any of the names takes two lines in a width, px."""
    return any(wide(one, kind) > room for one in names)


def named(y: float, said: str, room: float, kind: str = "") -> str:
    """Return a name at the left of its row, about the base line at y; in two lines where it is wide."""
    lines = _two_lines(said, room, kind)
    first = y - (len(lines) - 1) * LEADING / 2
    return "".join(label(0, first + n * LEADING, one, kind) for n, one in enumerate(lines))


def label(x: float, y: float, said: str, kind: str = "", anchor: str = "start") -> str:
    """Return a label whose base line stands at y.

    Parameters
    ----------
    x, y : float
        px.
    said : str
        Nothing of nothing.
    kind : str
        ``q`` second, ``b`` bold, ``own``, ``shop``, ``look`` in their colours, ``on`` upon leaf.
    anchor : {'start', 'middle', 'end'}
        Which part of it stands at x.
    """
    if not said:
        return ""
    cls = f' class="{kind}"' if kind else ""
    side = f' text-anchor="{anchor}"' if anchor != "start" else ""
    return f'<text x="{x:.1f}" y="{y:.1f}"{cls}{side}>{escape(said)}</text>'


def bar(x: float, y: float, width: float, height: float, kind: str, *, round_: float = 0) -> str:
    """Return a rectangle; one of nothing is left out."""
    if width <= 0 or height <= 0:
        return ""
    corner = f' rx="{round_:g}"' if round_ else ""
    return f'<rect x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}"{corner} class="{kind}"/>'


def dot(x: float, y: float, radius: float, kind: str) -> str:
    """Return a round mark."""
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius:g}" class="{kind}"/>'


def path(way: str, kind: str) -> str:
    """Return a way of the pen; an empty one is left out."""
    return f'<path class="{kind}" d="{way}"/>' if way else ""


def line(points: Iterable[tuple[float, float] | None], kind: str) -> str:
    """Return a line through points; None parts it."""
    way, is_down = "", False
    for point in points:
        if point is None:
            is_down = False
            continue
        way += f"{'L' if is_down else 'M'}{point[0]:.1f} {point[1]:.1f}"
        is_down = True
    return path(way, f"line {kind}")


def scale(top: float, many: int = 3) -> list[float]:
    """Return round numbers from 0 to the first that is not below `top`, about so many of them.

    Parameters
    ----------
    top : float
        Above 0, else 1 is taken.
    many : int
    """
    top = top if top > 0 else 1.0
    power = 10.0 ** math.floor(math.log10(top / many))
    step = next((n * power for n in (1, 2, 5) if n * power * many >= top), 10 * power)
    return [n * step for n in range(math.ceil(round(top / step, 9)) + 1)]


def spread(wanted: Sequence[float], least: float, low: float, high: float) -> list[float]:
    """Return places in the order of those wanted, `least` apart, and within bounds where they fit.

    Parameters
    ----------
    wanted : sequence of float
        In rising order.
    least, low, high : float
        px.
    """
    out: list[float] = []
    for at in wanted:
        out.append(max(at, low, out[-1] + least if out else low))
    end = high
    for i in reversed(range(len(out))):
        out[i] = min(out[i], end)
        end = out[i] - least
    return out


Label = tuple[float, Sequence[str]]
"""Where a label of an axis stands, and what it may say: the long word first."""


def along(
    labels: Sequence[Label],
    y: float,
    low: float,
    high: float,
    kind: str = "q",
    side: str = "middle",
) -> str:
    """Return the labels of an axis: in the longest words that fit beside each other, else fewer.

    Parameters
    ----------
    labels : sequence of (x, words)
        In rising order of x.
    y, low, high : float
        px: the base line, and how far labels may reach.
    kind, side : str
        As for `label`.
    """
    most = max((len(words) for _, words in labels), default=0)
    for step in range(1, len(labels) + 1):
        for n in range(most):
            some = [(x, words[min(n, len(words) - 1)]) for x, words in labels[::step]]
            placed = [(_left(x, said, kind, side, low, high), said) for x, said in some]
            ends = [at + wide(said, kind) for at, said in placed]
            if all(b[0] - end >= 4 for end, b in zip(ends, placed[1:], strict=False)):
                return "".join(label(at, y, said, kind) for at, said in placed)
    return ""


def _left(x: float, said: str, kind: str, side: str, low: float, high: float) -> float:
    """Return where a label begins that may not reach beyond bounds."""
    room = wide(said, kind)
    at = x - room / 2 if side == "middle" else x - room if side == "end" else x
    return max(low, min(at, high - room))


def finish(width: float, height: float, parts: Iterable[str], said: str, scheme: str) -> str:
    """Return a whole drawing: a file of its own, its colours those of one scheme.

    Parameters
    ----------
    width, height : float
        px at 1 : 1.
    parts : iterable of str
        Markup, drawn in this order.
    said : str
        The sentence that it shows: its name for those who hear it.
    scheme : {'light', 'dark'}
    """
    inner = "".join(parts)
    used = {one for several in re.findall(r'class="([^"]+)"', inner) for one in several.split()}
    colours = TOKENS[scheme]
    rules = "".join(
        f".{name}{{{_settled(rule, colours)}}}" for name, rule in _RULES.items() if name in used
    )
    style = (
        f"text{{font:{SIZE:g}px/1 {_FACES};fill:{colours['ink']}}}text.q{{fill:{colours['quiet']}}}"
    )
    for name in _BOLD:
        if name in used:
            rules = rules.replace(f".{name}{{", f"text.{name}{{", 1)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}" '
        f'viewBox="0 0 {width:g} {height:g}" role="img"><title>{escape(said)}</title>'
        f"<style>{style}{rules}</style>{inner}</svg>"
    )


def _settled(rule: str, colours: dict[str, str]) -> str:
    return re.sub(r"\{([\w-]+)\}", lambda found: colours[found[1]], rule)


def as_source(drawing: str) -> str:
    """Return a drawing as the address of an image."""
    return "data:image/svg+xml;charset=utf-8," + quote(drawing, safe=" =:/',;()!*.-_")
