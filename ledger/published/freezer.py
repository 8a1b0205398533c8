"""The freezer was off: what the published chart says of each kind of thing in it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.items import item_key
from ledger.messages import Choice, Message, Sentence, Typed, joined, sentence
from ledger.published.words import cite, figure
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
    """Return hours of ``30 h``, ``30 hours``, ``2 days``, ``2 Tage`` or ``30``.

    Raises
    ------
    InputError
        Naming the option.
    """
    match = re.fullmatch(
        r"\s*(\d+(?:\.\d+)?)\s*(h|hours?|hrs?|stunden?|std|d|days?|tagen?|tage?)?\s*",
        text,
        re.IGNORECASE,
    )
    if not match or float(match[1]) <= 0:
        raise InputError("freezer_off", Message.of("refusal-not-a-time", text=Typed(text)))
    days = (match[2] or "h").lower().startswith(("d", "t"))
    return float(match[1]) * (24 if days else 1)


def holds_for(hours: float) -> HoldsFor:
    """Return what the hours say: how long a shut freezer holds its cold, and what to look at."""
    if hours <= HALF_HOURS:
        when = sentence("chart-half-full-holds")
    elif hours <= FULL_HOURS:
        when = sentence("chart-full-holds", n=FULL_HOURS, n2=HALF_HOURS)
    else:
        when = sentence("chart-longer-than-full", n=FULL_HOURS)
    text = sentence("chart-off-for", n=figure(hours), when=when)
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
        text = sentence("chart-no-such-kind", item=item)
        return FreezerOff(item, None, "refreeze", "discard", text, where)
    told = {"item": item, "kind": _charted(kind.kind), "do": _to_do(kind.cold)}
    warm = _to_do(kind.warm)
    if kind.warm_hours:
        said = sentence("chart-thawed-hours", **told, n=40, n2=kind.warm_hours, do2=warm)
    else:
        said = sentence("chart-thawed", **told, do2=warm)
    texts = [said]
    if kind.remark:
        texts.append(_charted(kind.remark))
    if hours > FULL_HOURS and kind.warm == "discard":
        texts.append(sentence("chart-take-as-warm", n=figure(hours)))
    return FreezerOff(item, _charted(kind.kind), kind.cold, kind.warm, joined(" ", texts), where)


def _charted(text: str) -> Sentence:
    """Return a kind, or a remark, of the chart, so that it can be said in any language."""
    return sentence("chart-" + re.sub("[^a-z]+", "-", text).strip("-"))


def _to_do(word: str) -> Sentence:
    return sentence("chart-do", do=Choice(word))
