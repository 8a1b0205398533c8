"""Why a figure of the hens says so: the tree of its formula at the year or a month."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.hens.figures import HenFigures
from ledger.questions.shared.opening import opened

if TYPE_CHECKING:
    from ledger.figures import Node
    from ledger.replay import State

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "lay": "hens-lay",
    "hens": "hens-hens",
    "hen_days": "hens-hen-days",
    "hens-over-days": "hens-hens-over-days",
    "days-there": "hens-days",
    "from": "hens-from",
    "until": "hens-until",
    "days": "hens-days",
    "eggs": "hens-eggs",
    "feed_lb": "hens-feed-bought",
    "money": "hens-feed-bedding",
    "dozen": "hens-dozen",
    "dozens": "hens-dozens",
    "feed_per_dozen_lb": "hens-dozen-eats",
    "cost_per_dozen": "hens-dozen-costs",
    "rate": "hens-why-eats",
    "a-day": "hens-day",
    "on-hand": "hens-feed-on-hand",
    "eaten": "hens-eaten",
    "left": "hens-left-last-purchase",
    "used-up": "hens-used-up",
    "feed_days": "hens-feed-lasts",
    "no-hens": "hens-no-hens",
    "no-eggs": "hens-no-eggs",
    "no-feed": "hens-no-feed",
    "no-weight-of": "why-no-weight-of",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``year``, ``year=50.0`` for so many pounds of feed on hand, ``2026-07``, or ``rate`` for
        what a hen eats in a day.
    field : str, optional
        A column of the answer; default: the lay, or the rate.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such period or figure.
    """
    of = state.once(HenFigures)
    if key == "rate":
        return opened(state, "hens", ({"rate": of.rate}, field or "rate"), 0, LABELS, deep)
    name, is_asked, pounds = key.partition("=")
    feed = _pounds(pounds) if is_asked and name == "year" else None
    if name not in of.yard.periods or (is_asked and feed is None):
        raise NotFound("address", Message.of("refusal-no-period-of-hens", text=Typed(key)))
    known = of.year(feed) if name == "year" else of.month
    row = list(of.yard.periods).index(name)
    return opened(state, "hens", (known, field or "lay"), row, LABELS, deep)


def _pounds(text: str) -> float | None:
    """Return the pounds of an address; None where it has none."""
    try:
        pounds = float(text)
    except ValueError:
        return None
    return pounds if 0 <= pounds < math.inf else None
