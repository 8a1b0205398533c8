"""The formulas of the shelf: each gives the column for all lots or items, and the tree for one."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from ledger.figures import (
    Figure,
    Groups,
    at_least_none,
    choose,
    in_part,
    known_where,
    total,
)
from ledger.messages import fixed, sentence
from ledger.questions.shared.use_past import AHEAD
from ledger.questions.shelf.days import Days, Weeks
from ledger.questions.shelf.gather import SIX, Lots, Terms, answers_day
from ledger.questions.shelf.items_gather import ENDS, Items

__all__ = ["day_figures", "item_figures", "lot_figures", "week_figures"]


_SAID = ("why-low", "why-likely", "why-high")
"""The ends of a range as ids of messages, in the order of `ENDS`."""


def lot_figures(lots: Lots) -> dict[str, Figure]:
    """Return every figure of single lots by the name of its column; a row is a lot."""
    left = lots.left.called("left.whole")
    share = (left / lots.amount.called("the-lot")).called("share_left")
    jars = (lots.jars.called("its-jars") * share).called("jars_left")
    use_by = known_where(lots.terms.known, lots.terms.day, "keeps-not-said")
    days = (use_by - answers_day(lots.state)).called("days_left", unit="days")
    return {
        "left.whole": left,
        "share_left": share,
        "jars_left": known_where(lots.in_jars, jars, "not-in-jars", "jars"),
        "cost": lots.cost,
        "cost_left": (share * lots.cost).called("cost_left"),
        "use_by": use_by,
        "days_left": known_where(lots.terms.known, days, "keeps-not-said", "days"),
        **_origins(lots),
    }


def _origins(lots: Lots) -> dict[str, Figure]:
    """Return which part of each lot comes from where, by weight; of what has none, how it came in."""
    grams = {name: lots.grams(name) for name in SIX}
    whole = total(*grams.values()).called("all-raw")
    return {
        f"origin.{name}": choose(
            lots.has_weight,
            (one / whole).called("origin", origin=lambda _, one=name: fixed(one)),
            lots.came_as(name),
        )
        for name, one in grams.items()
    }


def item_figures(items: Items) -> dict[str, Callable[[], Figure]]:
    """Return how to get every figure of items, by the name of its column; a row is an item."""
    whole, stock = _stock(items)
    out: dict[str, Callable[[], Figure]] = {
        "left.whole": lambda: whole,
        "lots": lambda: items.of.sum(items.each_lot, "lots").called("lots"),
        "jars_left": lambda: _jars(items),
        "reaches_next_supply": lambda: _reaches(items, stock),
        "ranges_held": lambda: items.ranges(0),
        "ranges_said": lambda: items.ranges(1),
        "target": lambda: _of_target(items, _wanted(items)),
        "short_of_target": lambda: _of_target(items, _short(items, stock)),
        "past_best": lambda: _past_best(items),
        "past_best_on": lambda: _first_day(items.late_of, items.late_terms, "past_best_on"),
        "best_until": lambda: _first_day(items.best_of, items.best_terms, "best_until"),
        "weeks_known": lambda: items.use.weeks,
        "next_supply_on": lambda: known_where(items.is_awaited, items.next_day, "not-awaited"),
    }
    for end, (name, day) in enumerate(zip(ENDS, ("early", "likely", "late"), strict=True)):
        out |= {
            f"used_per_week.{name}": partial(_a_week, items, end),
            f"weeks_left.{name}": partial(_weeks, items, stock, end),
            f"runs_out_on.{day}": partial(_runs_out, items, stock, end),
        }
    return out


def _end(end: int) -> Callable[[int], str]:
    """Return which end of a range it is, for a label."""
    return lambda _: sentence(_SAID[end])


def _stock(items: Items) -> tuple[Figure, Figure]:
    """Return what is left of each item: in whole units, and in those of the answer."""
    whole = items.of.sum(items.each_left, items.whole_unit).called("left.whole")
    return whole, (whole / items.thousand).called("left", unit=items.use.unit)


def _jars(items: Items) -> Figure:
    share = (items.lots.left / items.lots.amount.called("the-lot")).called("share_left")
    jars = (items.lots.jars.called("its-jars") * share).called("jars_left")
    some = items.of_jars.sum(jars, "jars").called("jars_left")
    return known_where(items.has_jars, some, "not-in-jars")


def _a_week(items: Items, end: int) -> Figure:
    return _where_used(items, items.per_week(end).called("used_per_week", n=AHEAD, name=_end(end)))


def _weeks(items: Items, stock: Figure, end: int) -> Figure:
    weeks = items.weeks_left(end, stock).called("weeks_left", name=_end(end))
    return _where_used(items, known_where(~items.beyond[end], weeks, "beyond-five-years"))


def _runs_out(items: Items, stock: Figure, end: int) -> Figure:
    on = items.out_on(end, _weeks(items, stock, end)).called("runs_out_on")
    return _where_used(items, known_where(~items.beyond[end], on, "beyond-five-years"))


def _where_used(items: Items, figure: Figure) -> Figure:
    used = known_where(items.is_used, figure, "none-used")
    return known_where(~items.too_few, used, "few-weeks-known")


def _reaches(items: Items, stock: Figure) -> Figure:
    reaches = items.reaches(stock).called("reaches_next_supply")
    return known_where(items.is_reached, reaches, "reach-not-known")


def _wanted(items: Items) -> Figure:
    """Return what should be there now."""
    amount, times, part = items.target
    return in_part(in_part(amount, times, "a-year"), part, "target").called("target")


def _short(items: Items, stock: Figure) -> Figure:
    """Return what is missing to that."""
    gap = (_wanted(items) - stock).called("gap")
    return at_least_none(gap, "nothing-missing").called("short_of_target")


def _of_target(items: Items, figure: Figure) -> Figure:
    counted = known_where(items.is_counted, figure, "people-not-set")
    return known_where(items.has_target, counted, "no-target")


def _past_best(items: Items) -> Figure:
    late = items.late_of.sum(items.not_eaten, items.use.unit).called("past_best")
    return known_where(items.is_late_known, late, "use-not-known")


def _first_day(of: Groups, terms: Terms, label: str) -> Figure:
    return of.among("lowest", terms.day, "day since 1970").called(label)


def day_figures(days: Days) -> dict[str, Figure]:
    """Return what came, went and was left of an item, by the name of its column; a row is a day."""
    left = days.came_by.called("came-by") - days.went_by.called("went-by")
    whole = {"left": left, "came": days.came, "went": days.went}
    return {
        name: (one.called(f"day.{name}") / days.thousand).called(f"day.{name}", unit=days.unit)
        for name, one in whole.items()
    }


def week_figures(weeks: Weeks) -> dict[str, Figure]:
    """Return what will be left of an item, low to high; a row is a week ahead."""
    _, stock = _stock(weeks.items)
    return {
        name: weeks.left(end, stock).called("left-then", name=_end(end))
        for end, name in enumerate(ENDS)
    }
