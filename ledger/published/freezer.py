"""The freezer was off: what the published chart says of each kind of thing in it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.items import item_key
from ledger.messages import Message, Typed
from ledger.published.words import cite, number
from ledger.reference.schedules_sources import source
from ledger.reference.storage import PowerCut, power_cut

__all__ = ["FreezerOff", "HoldsFor", "freezer_off", "holds_for", "hours_of", "kind_of_thing"]

FULL_HOURS, HALF_HOURS = 48, 24
"""How long a full, and a half-full, freezer holds its cold with the door shut (FoodSafety.gov)."""


@dataclass(frozen=True)
class HoldsFor:
    """What the hours by themselves say."""

    text: str
    source: str


@dataclass(frozen=True)
class FreezerOff:
    """What the chart says of one thing.

    Attributes
    ----------
    item : str
    kind : str or None
        The kind of the chart; None where the chart names none: then it is asked about.
    cold, warm : str
        ``refreeze`` or ``discard``: with ice crystals or as cold as refrigerated; thawed and warm.
    text : str
    source : str
    """

    item: str
    kind: str | None
    cold: str
    warm: str
    text: str
    source: str


def hours_of(text: str) -> float:
    """Return hours of ``30 h``, ``30 hours``, ``2 days`` or ``30``.

    Raises
    ------
    InputError
        Naming the option.
    """
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(h|hours?|hrs?|d|days?)?\s*", text, re.IGNORECASE)
    if not match or float(match[1]) <= 0:
        raise InputError("freezer_off", Message.of("refusal-not-a-time", text=Typed(text)))
    days = (match[2] or "h").lower().startswith("d")
    return float(match[1]) * (24 if days else 1)


def holds_for(hours: float) -> HoldsFor:
    """Return what the hours say: how long a shut freezer holds its cold, and what to look at."""
    if hours <= HALF_HOURS:
        when = "a shut freezer that was half full or more holds its cold that long"
    elif hours <= FULL_HOURS:
        when = f"a full freezer holds its cold {FULL_HOURS} hours if it stayed shut, a half-full one {HALF_HOURS}"
    else:
        when = f"that is longer than the {FULL_HOURS} hours that even a full, shut freezer holds its cold"
    text = (
        f"Off for {number(hours)} hours: {when}. The hours decide nothing by themselves: look at each package, or "
        "at a thermometer in the freezer. Never taste to find out."
    )
    return HoldsFor(text, cite(source("FOODSAFETY_HOURS")))


def kind_of_thing(item: str) -> PowerCut | None:
    """Return the kind of the chart that an item belongs to, or None."""
    key = item_key(item)
    words = set(key.split())
    best, size = None, 0
    for kind in power_cut():
        for name in kind.names:
            parts = name.split()
            held = name in key if len(parts) > 1 else name in words
            rank = len(parts) * 10 + (5 if key.endswith(name) else 0)
            if held and rank > size:
                best, size = kind, rank
    return best


def freezer_off(hours: float, items: Iterable[str] = ()) -> list[FreezerOff]:
    """Return what the chart says, for each item, or for every kind when no item is given.

    Parameters
    ----------
    hours : float
        How long it was off; past 48 hours it is to be taken as warm unless a thermometer or ice
        crystals show otherwise.
    items : iterable of str
        What is in it.
    """
    named = [(item, kind_of_thing(item)) for item in items]
    if not named:
        named = [(kind.kind, kind) for kind in power_cut()]
    return [_off(item, kind, hours) for item, kind in named]


def _off(item: str, kind: PowerCut | None, hours: float) -> FreezerOff:
    where = cite(source("FOODSAFETY_FROZEN"))
    if kind is None:
        text = f"{item}: the chart names no such kind. Take it like meat: with ice crystals refreeze, else discard."
        return FreezerOff(item, None, "refreeze", "discard", text, where)
    warm = kind.warm
    after = (
        f", once above 40 degrees F for more than {kind.warm_hours} hours"
        if kind.warm_hours
        else ""
    )
    text = f"{item} ({kind.kind}): while it holds ice crystals and feels as cold as in a refrigerator, {kind.cold}; "
    text += f"thawed{after}, {warm}."
    if kind.remark:
        text += f" {kind.remark[0].upper()}{kind.remark[1:]}."
    if hours > FULL_HOURS and warm == "discard":
        text += (
            f" After {number(hours)} hours take it as warm unless you find it still hard frozen."
        )
    return FreezerOff(item, kind.kind, kind.cold, warm, text, where)
