"""The part of the look that is made: colours of both schemes, marks and the serif, each sent under its version.

The serif comes from a package (see docs/decisions.md), a megabyte of every weight and script; what the
pages need of it is cut out once, about 25 kB, and kept in the user's cache folder.
"""

from __future__ import annotations

import contextlib
import hashlib
import io
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from typing import Any

import flask
from platformdirs import user_cache_path

from dashboard.bundle import ASSETS
from dashboard.marks import marks_css
from dashboard.theme import TOKENS
from ledger.files import whole_file

__all__ = ["FONT", "SHEET", "add_look", "font", "font_ahead", "sheet", "sheet_link"]

SHEET, FONT = "/assets/look.css", "/assets/serif.woff2"
_PACKAGE = "fontpkg-vollkorn"
_WEIGHT = 600
_LETTERS = (
    *range(0x20, 0x7F), *range(0xA0, 0x180), 0x2013, 0x2014, 0x2018, 0x2019, 0x201A, 0x201C, 0x201D,
    0x201E, 0x2026, 0x20AC, 0x2153, 0x2154, 0x215B, 0x215C, 0x215D, 0x215E, 0x2212,
)  # fmt: skip
"""Latin with the letters of Central Europe, quotes, dashes, fractions and the minus sign."""
_FEATURES = ["kern", "liga", "lnum", "onum", "tnum", "pnum"]
_PRINTED = {
    "paper": "#ffffff", "sheet": "#ffffff", "ink": "#000000", "quiet": "#333333", "rule": "#bbbbbb",
    "edge": "#555555", "leaf-wash": "#ffffff", "soil": "#ffffff", "soil-line": "#777777",
    "danger-edge": "#000000",
}  # fmt: skip
"""What differs on paper from the light scheme."""


def _rules(scheme: str, colours: dict[str, str]) -> str:
    return f"color-scheme:{scheme};" + "".join(f"--{n}:{c};" for n, c in colours.items())


@cache
def sheet() -> str:
    """Return the one style sheet: colours, marks, the serif, and the rules of `dashboard/assets`.

    A device that said nothing (``body.auto``) gets the scheme of its system from the first paint on;
    paper is always light.
    """
    light, dark = _rules("light", TOKENS["light"]), _rules("dark", TOKENS["dark"])
    printed = _rules("light", {**TOKENS["light"], **_PRINTED})
    face = (
        f'@font-face{{font-family:"Vollkorn";font-weight:{_WEIGHT};font-display:swap;'
        f'src:url("{FONT}?v={_font_version()}") format("woff2")}}'
        if _font_version()
        else ""
    )
    return "\n".join(
        [
            f":root,body.light{{{light}}}",
            f"body.dark{{{dark}}}",
            f"@media (prefers-color-scheme: dark){{body.auto{{{dark}}}}}",
            f"@media print{{:root,body.light,body.dark,body.auto{{{printed}}}}}",
            face,
            marks_css(),
            *(path.read_text("utf-8") for path in sorted(ASSETS.glob("*.css"))),
        ]
    )


def sheet_link() -> str:
    """Return the address of the sheet under its version."""
    return f"{SHEET}?v={int(hashlib.sha256(sheet().encode()).hexdigest()[:12], 16)}"


def font_ahead() -> str:
    """Return what a page's head says so that the serif is fetched with the sheet, not after it."""
    if not _font_version():
        return ""
    return f'<link rel="preload" as="font" type="font/woff2" href="{FONT}?v={_font_version()}" crossorigin>'


def _font_version() -> str:
    try:
        return version(_PACKAGE)
    except PackageNotFoundError:
        return ""  # then the system's own serifs serve


def font() -> bytes:
    """Return the serif: one weight, the letters that are needed, as WOFF2.

    Raises
    ------
    LookupError
        When its package is not there.
    """
    if not _font_version():
        raise LookupError(_PACKAGE)
    folder = user_cache_path("croftbook", appauthor=False) / "fonts"
    kept = folder / f"serif-{_font_version()}.woff2"
    with contextlib.suppress(OSError):
        return kept.read_bytes()
    made = _cut_out()
    with contextlib.suppress(OSError):  # without a cache it is made again
        folder.mkdir(parents=True, exist_ok=True)
        with whole_file(kept) as part:
            part.write(made)
    return made


def _cut_out() -> bytes:
    from fontTools import subset
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    whole = files("fontpkg_vollkorn").joinpath("files", "Vollkorn[wght].ttf").read_bytes()
    options = subset.Options()
    options.layout_features = _FEATURES
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=_LETTERS)
    face = TTFont(io.BytesIO(whole), recalcTimestamp=False)  # the same bytes each time
    cutter.subset(face)
    face = instancer.instantiateVariableFont(face, {"wght": _WEIGHT})
    face.flavor = "woff2"
    out = io.BytesIO()
    face.save(out)
    return out.getvalue()


def add_look(server: flask.Flask) -> None:
    """Add the routes of the sheet and the serif; both are open to those who are not signed in yet."""

    @server.get(SHEET)
    def look() -> Any:
        return flask.Response(sheet(), mimetype="text/css")

    @server.get(FONT)
    def serif() -> Any:
        try:
            return flask.Response(font(), mimetype="font/woff2")
        except LookupError:
            return flask.Response("no serif\n", 404, mimetype="text/plain")
