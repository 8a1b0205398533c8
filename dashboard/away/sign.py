"""The programme's own sign: a jar filled with a bed's furrows, a sprout for a lid.

The pictures of fixed size in ``sign/`` are these drawings, made once by a browser:
``tests/browser/test_away_sign.py`` holds them to what is drawn here.
"""

from __future__ import annotations

__all__ = ["SIGN", "SIZES", "drawn"]

SIGN = (
    "M6.3 9.7C4.8 10.8 4 12 4 13.8v10.9A2.8 2.8 0 0 0 6.8 27.5h14.4a2.8 2.8 0 0 0 2.8-2.8V13.8"
    "c0-1.8-.8-3-2.3-4.1M6.3 9.7h15.4M4 17.3h20M4 20.7h20M4 24.1h20M14 17.3V5.8"
    "M14 8.6c-4 0-5.6-1.9-5.6-4.8 3.8 0 5.6 1.6 5.6 4.8zM14 6.5c0-2.9 1.5-4.6 5.1-4.6 0 2.8-1.4 4.6-5.1 4.6z"
)
"""The lines of the sign, in a box 28 wide and 29 high."""

SIZES = {"sign-192.png": (192, 0.62), "sign-512.png": (512, 0.62), "sign-touch.png": (180, 0.62),
         "sign-mask.png": (512, 0.5)}  # fmt: skip
"""Pictures in ``sign/``: their side in pixels, and how much of it the sign takes.

A phone may cut an icon to a circle; what matters stays within four fifths of its side then
(W3C, Web Application Manifest, "maskable").
"""

_LEAF, _ON_LEAF = "#2a6141", "#ffffff"
_ROUND = 6


def drawn(share: float = 0.72, *, round: bool = True) -> str:
    """Return the sign in white on a leaf-green ground, as SVG.

    Parameters
    ----------
    share : float
        How much of the ground's side the sign takes.
    round : bool
        Whether the ground has round corners; a phone cuts its own.
    """
    side = 29 / share
    left, top = (side - 28) / 2, (side - 29) / 2
    corner = f' rx="{_ROUND * side / 40:.2f}"' if round else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side:.2f} {side:.2f}">'
        f'<rect width="{side:.2f}" height="{side:.2f}" fill="{_LEAF}"{corner}/>'
        f'<g transform="translate({left:.2f} {top:.2f})"><path d="{SIGN}" fill="none" '
        f'stroke="{_ON_LEAF}" stroke-width="1.7" stroke-linecap="round" stroke-linejoin="round"/>'
        "</g></svg>"
    )
