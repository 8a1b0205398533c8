"""Colours and type, once, for the component library and for pictures.

The series colours are our own: mixed to stay apart for people with red-green or blue-yellow colour
blindness (checked by simulation in the tests) and to keep a contrast of 3 to 1 with the paper.
"""

from __future__ import annotations

__all__ = [
    "INK",
    "ORIGIN_COLOURS",
    "PAPER",
    "SANS",
    "SERIES",
    "TOKENS",
    "component_colour",
]

TOKENS: dict[str, dict[str, str]] = {
    "light": {
        "paper": "#f2f5ec", "sheet": "#fcfdf9", "ink": "#1b2620", "quiet": "#526058",
        "rule": "#ccd6c6", "edge": "#73857a", "leaf": "#2a6141", "on-leaf": "#ffffff",
        "leaf-2": "#5b9a6c", "leaf-soft": "#dcead8", "leaf-wash": "#e7efe1", "straw": "#a06c06",
        "straw-ink": "#765000", "straw-soft": "#f3e6c4", "damson": "#7a2a4c",
        "damson-soft": "#f0dee6", "frost": "#2a6187", "frost-soft": "#dae7ef", "danger": "#b0221b",
        "on-danger": "#ffffff", "danger-edge": "#7d120d", "a1": "#6a9847", "a2": "#2f7a52",
        "a3": "#153f31", "a4": "#a06c06", "a5": "#7a2a4c", "danger-mark": "#b0221b",
        "on-mark": "#ffffff", "soil": "#e3e2d0", "soil-line": "#b9b59a",
    },
    "dark": {
        "paper": "#111815", "sheet": "#19211d", "ink": "#e6ece1", "quiet": "#a9b7ac",
        "rule": "#2e3a34", "edge": "#708378", "leaf": "#86c89b", "on-leaf": "#0e2015",
        "leaf-2": "#559a6b", "leaf-soft": "#20372a", "leaf-wash": "#19261f", "straw": "#d9a947",
        "straw-ink": "#e3b860", "straw-soft": "#3a3018", "damson": "#e49cbd",
        "damson-soft": "#3b2231", "frost": "#8cc1e2", "frost-soft": "#1b303e", "danger": "#b5281f",
        "on-danger": "#ffffff", "danger-edge": "#ff9d92", "danger-mark": "#ff8577",
        "on-mark": "#240402", "a1": "#b9e0ac", "a2": "#6fb183", "a3": "#3f7f58", "a4": "#d9a947",
        "a5": "#e49cbd", "soil": "#1e2620", "soil-line": "#465043",
    },
}  # fmt: skip
"""Colours of both schemes by what they are for: leaf is ours and pressing, straw the shop and soon, damson
"look here", frost cold places, danger what can kill, a1 to a5 the age of a jar. The pages' style sheet
takes them from here (dashboard/look.py), and so do drawings."""

PAPER, INK, QUIET, LINE = (
    {scheme: TOKENS[scheme][name] for scheme in TOKENS}
    for name in ("paper", "ink", "quiet", "rule")
)

SERIES = {
    "light": (
        "#7a2e5d",
        "#3f7d4c",
        "#b9770e",
        "#2b5f94",
        "#b82f23",
        "#5d6b2c",
        "#6d5aa8",
        "#6b6660",
    ),
    "dark": (
        "#d98bb9",
        "#7cc48c",
        "#e8b24f",
        "#7fb0e6",
        "#ee8a72",
        "#b8c46a",
        "#a995ed",
        "#b5afa6",
    ),
}
"""Plum, leaf, straw, rain, clay, moss, thistle, stone."""

_ORIGINS = ("grown", "foraged", "given", "bought", "found", "unrecorded")
_COMPONENTS = (
    "bought_ingredients", "garden", "given", "lids", "jar_wear", "fuel", "equipment", "labour",
)  # fmt: skip

ORIGIN_COLOURS = {
    scheme: dict(zip(_ORIGINS, (c[1], c[5], c[0], c[2], c[3], c[7]), strict=True))
    for scheme, c in SERIES.items()
}


def component_colour(name: str, scheme: str) -> str:
    """Return the colour of a component of cost."""
    return SERIES[scheme][_COMPONENTS.index(name)]


SANS = (
    '-apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", "DejaVu Sans", sans-serif'
)
