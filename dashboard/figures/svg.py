"""Drawings as SVG text: a frame, labels, lines; colours are settled by the scheme, type is the page's sans.

A drawing is shown as an image, which sees neither the page's style sheet nor its fonts: its rules stand
inside it. Labels stand on the spot; no legend, no grid, no frame.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from dashboard.theme import SANS, TOKENS

__all__ = ["label", "letters_of_months", "path", "rect", "sparkline", "svg"]

_RULES = """
text{fill:var(--ink)}text.q{fill:var(--quiet)}text.b{font-weight:650}text.own{fill:var(--leaf);font-weight:650}
text.shop{fill:var(--straw-ink);font-weight:650}text.look{fill:var(--damson);font-weight:650}
text.on{fill:var(--on-leaf);font-weight:650}text.inv{fill:var(--paper);font-weight:650}
.f-leaf{fill:var(--leaf)}.f-leaf2{fill:var(--leaf-2)}.f-soft{fill:var(--leaf-soft)}.f-straw{fill:var(--straw)}
.f-damson{fill:var(--damson)}.f-rule{fill:var(--rule)}.f-quiet{fill:var(--edge)}.f-ink{fill:var(--ink)}
.f-frost{fill:var(--frost)}.f-paper{fill:var(--paper)}.back{fill:var(--damson-soft);stroke:var(--damson)}
.line{fill:none;stroke-width:2;stroke-linejoin:round;stroke-linecap:round}
.s-leaf{stroke:var(--leaf)}.s-straw{stroke:var(--straw)}.s-damson{stroke:var(--damson)}.s-rule{stroke:var(--rule)}
.s-quiet{stroke:var(--edge)}.s-ink{stroke:var(--ink)}
.hair{stroke:var(--rule);stroke-width:1;fill:none}.axis{stroke:var(--ink);stroke-width:1.5;fill:none}
.dot.s-leaf{fill:var(--leaf);stroke:none}.dot.s-damson{fill:var(--damson);stroke:none}
.bite{fill:none;stroke:var(--edge);stroke-width:1.2}.bite.own{fill:var(--leaf);stroke:var(--leaf)}
"""
"""What every drawing may use; one that needs more brings it along."""


def svg(width: float, height: float, inner: str, scheme: str, *, rules: str = "") -> str:
    """Return a drawing complete in itself.

    Parameters
    ----------
    width, height : float
        In px at which its text is 13 px; it fills its column and keeps its shape.
    inner : str
        Its marks, made by the functions here.
    scheme : {'light', 'dark'}
    rules : str
        Further rules; colours as ``var(--leaf)``.
    """
    known = TOKENS[scheme]
    body = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}" '
        f'viewBox="0 0 {width:g} {height:g}" font-family="{escape(SANS)}" font-size="13">'
        f"<style>{(_RULES + rules).strip()}</style>{inner}</svg>"
    )
    return re.sub(r"var\(--([\w-]+)\)", lambda m: known[m[1]], body)


def label(x: float, y: float, said: str, kind: str = "", anchor: str = "start") -> str:
    """Return a text at a place: `kind` its classes, `anchor` as SVG has it."""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" class="{kind}" text-anchor="{anchor}">{escape(said)}</text>'
    )


def rect(x: float, y: float, width: float, height: float, kind: str, *, round: float = 0) -> str:
    """Return a bar or patch."""
    corner = f' rx="{round:g}"' if round else ""
    return f'<rect class="{kind}" x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}"{corner}/>'


def path(kind: str, d: str) -> str:
    """Return a line."""
    return f'<path class="{kind}" d="{d}"/>'


def letters_of_months(width: float, y: float, letters: Sequence[str], now: int, left: float = 0) -> str:  # fmt: skip
    """Return the twelve months' letters over a width, that of month `now` (1 to 12; 0: none) strong."""
    step = (width - left) / 12
    return "".join(
        label(left + (at + 0.5) * step, y, letter, "b" if at + 1 == now else "q", "middle")
        for at, letter in enumerate(letters)
    )


def sparkline(values: Sequence[float], scheme: str, *, width: float = 84, height: float = 26) -> str:  # fmt: skip
    """Return a line from its least to its most, without axes, its last point marked."""
    low, high = min(values), max(values)
    points = [
        (
            4 + at * (width - 8) / max(1, len(values) - 1),
            height - 4 - (height - 8) * (value - low) / ((high - low) or 1),
        )
        for at, value in enumerate(values)
    ]
    x, y = points[-1]
    line = path("line s-leaf", "M" + "L".join(f"{px:.1f} {py:.1f}" for px, py in points))
    return svg(
        width, height, f'{line}<circle class="dot s-leaf" cx="{x:.1f}" cy="{y:.1f}" r="3"/>', scheme
    )
