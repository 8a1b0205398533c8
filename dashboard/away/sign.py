"""The programme's own sign: a jar filled with a bed's furrows, a sprout for a lid.

The pictures of fixed size in ``sign/`` are these drawings, made once by a browser; a test holds them to
what is drawn here (tests/browser/test_away_sign.py).
"""

from __future__ import annotations

from dashboard.marks import SIGN

__all__ = ["SIZES", "drawn"]

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
