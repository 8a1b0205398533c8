"""Colours and type, once, for the component library and for pictures.

The series colours are our own: mixed to stay apart for people with red-green or blue-yellow colour
blindness (checked by simulation in the tests) and to keep a contrast of 3 to 1 with the paper.
"""

from __future__ import annotations

from typing import Any

__all__ = [
    "COMPONENT_THEME",
    "INK",
    "ORIGIN_COLOURS",
    "PAPER",
    "SERIES",
    "component_colour",
    "rgba",
]

PAPER = {"light": "#fbf9f4", "dark": "#17191c"}
INK = {"light": "#22261f", "dark": "#ece8dd"}
QUIET = {"light": "#5c6157", "dark": "#b3b0a6"}
LINE = {"light": "#d9d4c6", "dark": "#3a3d40"}

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


def rgba(colour: str, alpha: float) -> str:
    """Return a hex colour with transparency, for bands and areas."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},{alpha})"


COMPONENT_THEME: dict[str, Any] = {
    "fontFamily": "system-ui, sans-serif",
    "fontSizes": {"xs": "14px", "sm": "16px", "md": "16px", "lg": "18px", "xl": "20px"},
    "primaryColor": "leaf",
    "primaryShade": {"light": 7, "dark": 4},
    "autoContrast": True,
    "defaultRadius": "sm",
    "focusRing": "always",
    "colors": {
        "leaf": [
            "#eef6f0", "#dcebdf", "#b9d8c0", "#93c3a0", "#7cc48c",
            "#57996a", "#478a59", "#33693f", "#28552f", "#1c4023",
        ],
        "plum": [
            "#f9eef4", "#f0dbe7", "#e2b6d0", "#d98bb9", "#c569a0",
            "#a94a85", "#93396f", "#7a2e5d", "#632449", "#4b1a37",
        ],
    },
    "components": {
        name: {"defaultProps": {"size": "md"}}
        for name in (
            "TextInput", "Autocomplete", "NativeSelect", "Select", "Button", "SegmentedControl",
            "Textarea", "Checkbox", "PasswordInput", "NumberInput", "Slider",
        )
    },
}  # fmt: skip
