"""What a page is: an address, a name, and a function that draws it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from dashboard.ask import Ask

__all__ = ["KNOWN", "Page"]


@dataclass(frozen=True)
class Page:
    """One page.

    Parameters
    ----------
    name : str
        Key of its texts in the catalogue: ``nav.shelf``, ``empty.shelf``.
    path : str
    draw : callable
        ``draw(ask)`` gives what is on it: components only, computed by projections.
    has_pictures : bool
        Whether the charting script is wanted: it is fetched ahead where it is.
    keeps_typing : bool
        Whether people type on it: it is not drawn again when another phone writes.
    titled : callable, optional
        What it is called at an address, where that is not its name.
    """

    name: str
    path: str
    draw: Callable[[Ask], Any]
    has_pictures: bool = False
    keeps_typing: bool = False
    titled: Callable[[Ask], str] | None = None


KNOWN: list[Page] = []
"""Every page, in the order of the menu: for pages that lead to the others."""
