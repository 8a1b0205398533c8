"""The formulas of stocking up: each gives the column for all staples, and the tree for one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.figures import (
    Figure,
    at_least_none,
    choose,
    in_part,
    known_where,
    total,
    unknown,
)
from ledger.questions.stocking_up.gather import Staples
from ledger.questions.stocking_up.plan import Asked, Packs

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Stocking", "stocking", "stocking_of"]


@dataclass(frozen=True)
class Stocking:
    """Every figure of the bought staples, and the plan.

    Attributes
    ----------
    staples : Staples
    of : dict of str to Figure
        By the name of its column; beside them what is held in time, and the price by amount.
    packs : Packs
    """

    staples: Staples
    of: dict[str, Figure]
    packs: Packs


class _Newest:
    """What was last asked of one state: a page asks for one tree after the other."""

    def __init__(self, state: State) -> None:
        self._state, self._asked = state, Asked()
        self._known: Stocking | None = None

    def of(self, asked: Asked) -> Stocking:
        if self._known is None or asked != self._asked:
            self._asked, self._known = asked, stocking(Staples(self._state, asked))
        return self._known


def stocking_of(state: State, asked: Asked, only: int | None = None) -> Stocking:
    """Return every figure of all staples, or of the one item that is asked about."""
    if only is not None:
        return stocking(Staples(state, asked, only))
    return state.once(_Newest).of(asked)


def stocking(staples: Staples) -> Stocking:
    """Return every figure of the bought staples; a row is a staple."""
    known = {**_in_house(staples), **_pack(staples)}
    week = known["price_by_amount"] * known["per_week.whole"]
    known["price_per_week"] = _plannable(
        staples, week.called("price_per_week", unit="money per week")
    )
    packs = Packs(staples, known)
    known |= _packs(staples, known, packs)
    for name, planned in (("", False), ("_after_plan", True)):
        known[f"rise_cost{name}"] = _rise(staples, known, packs, planned=planned)
        known[f"uncovered_weeks{name}"] = _uncovered(staples, known, packs, planned=planned)
    return Stocking(staples, known, packs)


def _in_house(staples: Staples) -> dict[str, Figure]:
    left = staples.of.sum(staples.each_left, staples.unit).called("left.whole")
    used = choose(staples.is_used, staples.likely_use, staples.none_used)
    per_week = known_where(~staples.too_few, used, "few-weeks-known")
    late = staples.late(per_week).called("late.whole")
    held = (left - late).called("held")
    target = _target(staples, per_week)
    return {
        "left.whole": left,
        "late.whole": late,
        "held": held,
        "per_week.whole": per_week,
        "weeks": _used(staples, (held / per_week).called("weeks", unit="weeks")),
        "target.whole": target,
        "target_weeks": _used(staples, (target / per_week).called("target", unit="weeks")),
    }


def _target(staples: Staples, per_week: Figure) -> Figure:
    amount, times = staples.target
    yearly = in_part(amount, times, "a-year")
    share = (staples.weeks_wanted / staples.weeks_a_year).called("part-wanted")
    own = choose(staples.is_part, (yearly * share).called("target"), yearly.called("target"))
    counted = known_where(staples.is_counted, own, "people-not-set")
    by_use = (per_week * staples.weeks_wanted).called("target", unit=staples.unit)
    return choose(
        staples.has_target, counted, known_where(~staples.too_few, by_use, "use-not-known")
    )


def _pack(staples: Staples) -> dict[str, Figure]:
    whole, price = (known_where(staples.has_pack, one, "no-price") for one in staples.pack)
    days = (staples.keeps_until - staples.today).called("days-kept", unit="days")
    keeps = (days / staples.days_a_week).called("keeps_weeks", unit="weeks")
    return {
        "pack.whole": whole,
        "price": price,
        "price_by_amount": (price / whole).called("price-by-amount", unit=staples.money),
        "keeps_weeks": known_where(staples.keeps_known, keeps, "nobody-says"),
    }


def _packs(staples: Staples, known: dict[str, Figure], packs: Packs) -> dict[str, Figure]:
    to_target = packs.to_target().called("to-target")
    in_time = choose(staples.keeps_known, packs.in_time(to_target), to_target)
    wanted = in_time.called("packs_wanted")
    kept_out = (to_target - wanted).called("packs_kept_out", keeps=staples.keeps_said)
    planned, short = (unknown("packs", "no-budget") for _ in range(2))
    if packs.plan is not None:
        planned = packs.planned(wanted).called("packs_planned")
        short = (wanted - planned).called("packs_short")
    bought = wanted if packs.plan is None else planned
    cost = (bought * known["price"]).called("cost", unit="money")
    out = {
        "packs_wanted": wanted,
        "packs_kept_out": kept_out,
        "packs_planned": planned,
        "packs_short": short,
        "cost": cost,
    }
    return {name: _plannable(staples, one) for name, one in out.items()}


def _rise(staples: Staples, known: dict[str, Figure], packs: Packs, *, planned: bool) -> Figure:
    """Return what a price rise costs over a year, what is in the house being paid for."""
    rise = staples.rise
    if rise is None:
        return unknown("money", "no-rise")
    if planned and packs.plan is None:
        return unknown("money", "no-budget")
    used = (known["per_week.whole"] * staples.year).called(
        "used-in-weeks", unit=staples.unit, n=staples.rise_weeks
    )
    bought = (used - _held(staples, known, planned=planned)).called("to-buy")
    paid = at_least_none(bought, "nothing-to-buy")
    more = (paid.called("to-buy") * known["price_by_amount"]).called("paid-in-weeks", unit="money")
    return _plannable(staples, (more * rise).called("rise_cost", unit="money"))


def _uncovered(
    staples: Staples, known: dict[str, Figure], packs: Packs, *, planned: bool
) -> Figure:
    """Return the weeks of a shortage that what is in the house does not cover."""
    shortage = staples.shortage
    if shortage is None:
        return unknown("weeks", "no-shortage")
    if planned and packs.plan is None:
        return unknown("weeks", "no-budget")
    held = _held(staples, known, planned=planned)
    lasts = (held / known["per_week.whole"]).called("lasts", unit="weeks")
    gap = (shortage - lasts).called("not-covered")
    bare = at_least_none(gap, "nothing-uncovered")
    return _plannable(staples, bare.called("uncovered_weeks"))


def _held(staples: Staples, known: dict[str, Figure], *, planned: bool) -> Figure:
    if not planned:
        return known["held"]
    more = (known["packs_planned"] * known["pack.whole"]).called("laid-in", unit=staples.unit)
    return total(known["held"], more).called("held-after")


def _used(staples: Staples, figure: Figure) -> Figure:
    return known_where(staples.uses, figure, "no-use")


def _plannable(staples: Staples, figure: Figure) -> Figure:
    """Return a figure where use, target and price are known, else why it cannot be said."""
    counted = known_where(staples.target_known, figure, "people-not-set")
    return known_where(staples.has_pack, _used(staples, counted), "no-price")
