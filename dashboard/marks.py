"""Marks: icons, our own sign and jars, as paths, and the rules that make classes of them.

A mark is a CSS mask on an empty element, so that it takes the colour of the text in both schemes. All are
drawn for Croftbook: icons on a grid of 24 with a line of 1.7, jars as silhouettes of their own size.
"""

from __future__ import annotations

from urllib.parse import quote

__all__ = ["ICONS", "JARS", "SIGN", "marks_css"]

ICONS: dict[str, str] = {
    "picked": (
        "M7.2 11C7.2 3.6 16.8 3.6 16.8 11M3.6 11h16.8l-1.7 7.3a2.2 2.2 0 0 1-2.1 1.7H7.4a2.2 "
        "2.2 0 0 1-2.1-1.7zM4.6 15.4h14.8M9.3 11l.9 9M14.7 11l-.9 9"
    ),
    "bought": (
        "M5.6 8.6h12.8l1.1 10.6a1.2 1.2 0 0 1-1.2 1.3H5.7a1.2 1.2 0 0 1-1.2-1.3zM8.6 11.4V7.2"
        "a3.4 3.4 0 0 1 6.8 0v4.2"
    ),
    "put-up": (
        "M8 10c-1.5 1-2.3 2-2.3 3.6v4.6a2.3 2.3 0 0 0 2.3 2.3h8a2.3 2.3 0 0 0 2.3-2.3v-4.6c0-"
        "1.6-.8-2.6-2.3-3.6zM5.7 15.3h12.6M7.2 7.1l9.2-1.8.4 2-9.2 1.8zM11.6 2.2l.4 1.8"
    ),
    "ate": (
        "M3.2 12h17.6c0 4-2.3 6.7-5.6 7.9v1.1H8.8v-1.1C5.5 18.7 3.2 16 3.2 12zM13.2 12l3.7-6."
        "3M16.3 6.7c-.9-.6-.9-1.9 0-3.1.8-1.1 2-1.5 2.7-1 .7.5.7 1.8-.1 2.9-.8 1.2-1.8 1.8-2."
        "6 1.2z"
    ),
    "practised": (
        "M3 8.2c4.5-.4 6.2 1.4 9 3.8s4.6 4.2 9 3.8M3 15.8c2.2.2 3.8-.2 5.1-1M13.4 11c1.9-1.9 "
        "3.7-3 7.6-2.8M9.6 9.3c.4-2.6 2.7-4.3 4.6-3.5 1.7.8 1.6 3.3-2.2 6.2-3.8 2.9-3.9 5.4-2"
        ".2 6.2 1.9.8 4.2-.9 4.6-3.5"
    ),
    "counted": "M5.5 5v14M10 5v14M14.5 5v14M19 5v14M3 17.5 21.5 6.5",
    "jar": (
        "M8 3.2h8v3H8zM8.6 6.2C7 7.3 6 8.5 6 10.5v7.7a2.3 2.3 0 0 0 2.3 2.3h7.4a2.3 2.3 0 0 0"
        " 2.3-2.3v-7.7c0-2-1-3.2-2.6-4.3M6 11.8h12M6 16.6h12"
    ),
    "bed": (
        "M3 14.5h18v6H3zM3 17.5h18M7.5 14.5v-4M7.5 11.5c-2.6 0-3.4-1.3-3.4-3 2.3 0 3.4 1 3.4 "
        "3zM7.5 10.5c0-2 1-3 3-3 0 1.8-.9 3-3 3zM16.5 14.5v-4M16.5 11.5c-2.6 0-3.4-1.3-3.4-3 "
        "2.3 0 3.4 1 3.4 3zM16.5 10.5c0-2 1-3 3-3 0 1.8-.9 3-3 3z"
    ),
    "hen": (
        "M3.5 9.5c1.7 1.6 3.7 2 5.7 2 3 0 4.8-1.6 4.8-4.3a2.7 2.7 0 0 1 5.4 0v3.6c0 4.3-2.9 7"
        ".4-7.7 7.4-4.7 0-8.2-2.9-8.2-8.7zM19.4 7.4l2.3.9-2.3 1.1M10 18.2V21M13.5 18V21M16.7 "
        "6.9h.01M15.3 4.6c-.3-1.5.9-1.9 1.4-.9.5-1 1.7-.6 1.4.9M6.8 14c1.2 1 3.2 1.1 4.6 0"
    ),
    "freezer": (
        "M12 2.5v19M3.8 7.25l16.4 9.5M20.2 7.25l-16.4 9.5M9.6 4.3 12 6.5l2.4-2.2M9.6 19.7 12 "
        "17.5l2.4 2.2M4.1 10.6l3-1-.6-3.2M19.9 13.4l-3 1 .6 3.2M19.9 10.6l-3-1 .6-3.2M4.1 13."
        "4l3 1-.6 3.2"
    ),
    "cellar": ("M5 20.5V11a7 7 0 0 1 14 0v9.5M2.8 20.5h18.4M12 4v16.5M8.7 13.5v1.8M15.3 13.5v1.8"),
    "shelf": (
        "M2.8 10.8h18.4M2.8 20h18.4M5.5 10.8V6.3h4.2v4.5M6.4 6.3V4.6h2.4v1.7M13.5 10.8V8.3h4."
        "6v2.5M7 20v-4.5h6V20M16.5 20v-5.6h-.4"
    ),
    "fridge": "M6.2 3.2h11.6v17.3H6.2zM6.2 10h11.6M9.2 5.9v1.7M9.2 12.7v3.3",
    "today": (
        "M2.8 17.5h18.4M6.8 17.5a5.2 5.2 0 0 1 10.4 0M12 8.8V5.5M5.9 11.4 3.8 9.3M18.1 11.4l2"
        ".1-2.1M6.5 20.5h11"
    ),
    "write": (
        "M4.3 19.7l1-4.3L16 4.7a1.9 1.9 0 0 1 2.7 0l.6.6a1.9 1.9 0 0 1 0 2.7L8.6 18.7zM13.9 6"
        ".8l3.3 3.3"
    ),
    "list": (
        "M3.8 6.3l1.5 1.5 2.6-3M3.8 12.3l1.5 1.5 2.6-3M3.8 18.3l1.5 1.5 2.6-3M11 6.3h9.5M11 1"
        "2.3h9.5M11 18.3h9.5"
    ),
    "ask": (
        "M12 6.6C9.5 4.7 6.5 4.5 3.4 5.1v13.5c3.1-.6 6.1-.4 8.6 1.5 2.5-1.9 5.5-2.1 8.6-1.5V5"
        ".1c-3.1-.6-6.1-.4-8.6 1.5zM12 6.6v13.5"
    ),
    "search": "M10.5 4.2a6.3 6.3 0 1 1 0 12.6 6.3 6.3 0 0 1 0-12.6zM15.2 15.2l5.3 5.3",
    "undo": "M8.5 4.7 4.3 8.9l4.2 4.2M4.3 8.9H14a5.6 5.6 0 0 1 0 11.2h-3.5",
    "minus": "M5.5 12h13",
    "close": "M5.5 5.5l13 13M18.5 5.5l-13 13",
    "plus": "M5.5 12h13M12 5.5v13",
    "check": "M4.5 12.8 9.8 18 19.8 6.5",
    "next": "M9 5.5 15.5 12 9 18.5",
    "down": "M5.5 9 12 15.5 18.5 9",
    "warn": "M12 3.3 21.7 20.3H2.3zM12 9.8v4.7M12 17.3h.01",
    "print": "M7 9V3.3h10V9M7 17H3.8V9.3h16.4V17H17M7 14.3h10v6.3H7z",
    "share": "M12 15V3.5M7.8 7.5 12 3.3l4.2 4.2M5 12.5v7.7h14v-7.7",
    "calendar": "M4.3 5.8h15.4v14.4H4.3zM4.3 10.3h15.4M8.5 3.3v4M15.5 3.3v4",
    "planted": (
        "M12 20.5V10.2M12 12.5c-4.6 0-6.2-2.3-6.2-5.6 4.3 0 6.2 1.9 6.2 5.6zM12 10.2c0-3.6 1."
        "8-5.7 6-5.7 0 3.5-1.7 5.7-6 5.7zM5 20.5h14"
    ),
    "given": (
        "M4.3 11.5h15.4v9H4.3zM3.3 7.8h17.4v3.7H3.3zM12 7.8v12.7M12 7.6C9.5 7.8 7.3 7 7.5 5.2"
        " 7.7 3 11 3.5 12 7.6c1-4.1 4.3-4.6 4.5-2.4.2 1.8-2 2.6-4.5 2.4z"
    ),
    "lost": ("M4.5 6.8h15M9.5 6.8V4.2h5v2.6M6.3 6.8l.9 13.7h9.6l.9-13.7M10 10.5v6.5M14 10.5v6.5"),
    "price": (
        "M3.5 12.7V4.5a1 1 0 0 1 1-1h8.2l8 8a1.4 1.4 0 0 1 0 2l-7 7a1.4 1.4 0 0 1-2 0zM8.2 8.2h.01"
    ),
    "more": "M5 12h.01M12 12h.01M19 12h.01",
    "clock": "M12 3.5a8.5 8.5 0 1 1 0 17 8.5 8.5 0 0 1 0-17zM12 7.5V12l3.2 2",
    "scheme": (
        "M12 3.5a8.5 8.5 0 1 1 0 17 8.5 8.5 0 0 1 0-17zM12 3.5v17M12 7.5h7.2M12 12h8.5M12 16.5h7.2"
    ),
}
"""By name; stroked, not filled."""

SIGN = (
    "M6.3 9.7C4.8 10.8 4 12 4 13.8v10.9A2.8 2.8 0 0 0 6.8 27.5h14.4a2.8 2.8 0 0 0 2.8-2.8"
    "V13.8c0-1.8-.8-3-2.3-4.1M6.3 9.7h15.4M4 17.3h20M4 20.7h20M4 24.1h20M14 17.3V5.8M14 8"
    ".6c-4 0-5.6-1.9-5.6-4.8 3.8 0 5.6 1.6 5.6 4.8zM14 6.5c0-2.9 1.5-4.6 5.1-4.6 0 2.8-1."
    "4 4.6-5.1 4.6z"
)
"""Our own sign, on a grid of 28 by 29: a jar filled with the furrows of a bed, a sprout for a lid."""

JARS: dict[str, tuple[int, int, str, str, tuple[float, float]]] = {
    "qt": (
        14, 21, "M2.5 0h9v2.8h-9z",
        "M2.7 3.8h8.6C13 4.9 14 5.9 14 7.7V19a2 2 0 0 1-2 2H2a2 2 0 0 1-2-2V7.7c0-1.8 1-2.8 2.7-3.9z",
        (11, 4),
    ),
    "pt": (
        12, 16, "M2 0h8v2.6H2z",
        "M2.2 3.6h7.6C11.3 4.5 12 5.3 12 6.8V14a2 2 0 0 1-2 2H2a2 2 0 0 1-2-2V6.8c0-1.5.7-2.3 2.2-3.2z",
        (8.5, 3.5),
    ),
    "hp": (
        12, 12, "M1.8 0h8.4v2.4H1.8z",
        "M2 3.4h8c1.4.7 2 1.4 2 2.7V10a2 2 0 0 1-2 2H2a2 2 0 0 1-2-2V6.1c0-1.3.6-2 2-2.7z",
        (6.5, 2.8),
    ),
}  # fmt: skip
"""By size (quart, pint, half-pint): width and height in px, lid, body, and the top and height of the band
that is cut out of a jar older than a year."""


def marks_css() -> str:
    """Return the rules of all icons and jars."""
    out = [_mask(f"ic-{name}", path) for name, path in ICONS.items()]
    out.append(_mask("ic-sign", SIGN, "0 0 28 29"))
    for size, (w, h, lid, body, (y, tall)) in JARS.items():
        box = f"0 0 {w} {h}"
        out.append(f".jar.{size}{{width:{w}px;height:{h}px}}")
        out.append(_mask(f"jar.{size}", lid + body, box, is_filled=True))
        band = f"M0 {y}h{w}v{tall}h-{w}z"
        out.append(_mask(f"jar.{size}.a4", lid + body + band, box, is_filled=True))
        cuts = (
            f"M0 {h - 1.5:g}L{w} {y - 3:g}v2.6L0 {h + 1.1:g}z"
            f"M0 {y + 0.5:g}L{w} {y - 8:g}v2.6L0 {y + 3.1:g}z"
        )
        out.append(_mask(f"jar.{size}.a5", lid + body + cuts, box, is_filled=True))
    return "\n".join(out)


def _mask(name: str, path: str, box: str = "0 0 24 24", *, is_filled: bool = False) -> str:
    how = (
        "fill='#000' fill-rule='evenodd'"
        if is_filled
        else "fill='none' stroke='#000' stroke-width='1.7' stroke-linecap='round' stroke-linejoin='round'"
    )
    svg = f"<svg xmlns='http://www.w3.org/2000/svg' viewBox='{box}'><path {how} d='{path}'/></svg>"
    packed = quote(svg, safe=" =:/'")
    url = f'url("data:image/svg+xml,{packed}")'
    return f".{name}{{-webkit-mask-image:{url};mask-image:{url}}}"
