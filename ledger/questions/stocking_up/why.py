"""Why a figure of stocking up says so: the tree of its formula at one staple."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.shared.opening import opened
from ledger.questions.shelf.labels import LABELS as SHELF_LABELS
from ledger.questions.stocking_up.figures import stocking_of
from ledger.questions.stocking_up.plan import asked_of

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

_OPTIONS = ("weeks", "trips", "budget", "price-rise", "shortage")

LABELS = {
    **SHELF_LABELS,
    "late": "why-passes-date",
    "late.whole": "why-passes-date",
    "held": "why-house-used-time",
    "per_week": "why-use-ahead",
    "used_per_week": "why-use-ahead",
    "weeks": "why-weeks-house",
    "no-use": "why-no-use-written-down",
    "use-not-known": "why-use-not-known",
    "people-not-set": "why-people-not-set",
    "times": "why-times-done",
    "a-year": "why-year-once",
    "part-wanted": "why-part-wanted-in-house",
    "weeks-wanted": "why-weeks-wanted",
    "weeks-a-year": "why-weeks-a-year",
    "target": "why-target",
    "no-price": "why-no-price-ever-seen",
    "price-by-amount": "why-price-amount",
    "price_per_week": "why-price-a-week",
    "days-kept": "why-days-kept",
    "days-a-week": "why-days-a-week",
    "keeps_weeks": "why-pack-keeps",
    "nobody-says": "why-nobody-says",
    "to-target": "why-packs-target",
    "packs_wanted": "why-packs-wanted",
    "packs_kept_out": "why-would-pass-date",
    "packs_planned": "why-packs-planned",
    "packs_short": "why-short",
    "packs-of": "why-packs-of",
    "week-of": "why-week-of",
    "price-of": "why-price-of",
    "budget": "why-budget",
    "no-budget": "why-no-budget",
    "trip": "why-trip-within",
    "cost": "why-cost",
    "rise": "why-rise",
    "no-rise": "why-no-price-rise-asked-about",
    "weeks-of-rise": "why-weeks",
    "used-in-weeks": "why-used-in-weeks",
    "to-buy": "why-buy",
    "nothing-to-buy": "why-house-lasts",
    "paid-in-weeks": "why-paid-in-weeks",
    "rise_cost": "why-rise-costs",
    "no-shop": "why-without-shop",
    "no-shortage": "why-no-shortage-asked-about",
    "lasts": "why-lasts",
    "not-covered": "why-not-covered",
    "nothing-uncovered": "why-house-lasts",
    "uncovered_weeks": "why-not-covered",
    "laid-in": "why-packs-planned",
    "held-after": "why-house-after-plan",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a staple as a tree.

    Parameters
    ----------
    key : str
        The item, and the options asked: ``flour/weeks=4/trips=4/budget=20``.
    field : str, optional
        A column of the answer; default: the weeks in the house.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When it is no staple, or there is no such figure of it.
    """
    parts = key.split("/")
    given: dict[str, Any] = {}
    while parts and parts[-1].partition("=")[0] in _OPTIONS and "=" in parts[-1]:
        name, _, value = parts.pop().partition("=")
        given[name.replace("-", "_")] = value
    known = stocking_of(state, asked_of(**given))
    item = state.facts.find_strand("/".join(parts))
    rows = (known.staples.items == item).nonzero()[0].tolist()
    if item is None or not rows:
        raise NotFound(
            "address",
            Message.of("refusal-no-staple", text=Typed("/".join(parts))),
        )
    figures = known.of
    figure = {None: "weeks", "left": "left.whole"}.get(field, field) or ""
    return opened(state, "stocking-up", (figures, figure), rows[0], LABELS, deep)
