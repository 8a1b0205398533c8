"""The formulas of enough: each gives the column for all nutrients, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, at_least_none, known_where, stacked, unknown
from ledger.messages import fixed
from ledger.questions.enough.asked import LEAST_KNOWN, Asked
from ledger.questions.enough.gather import SODIUM, Given
from ledger.questions.enough.supply import Supply, supply_of
from ledger.questions.food.nutrients import UNITS
from ledger.questions.shared.newest import newest
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]


@newest
def figures(state: State, asked: Asked) -> tuple[Supply, dict[str, Figure]]:
    """Return what is there, and every figure by the name of its column; a row is a nutrient."""
    supply = supply_of(state, asked)
    given = Given(state, asked, supply)
    each = [_of(given, asked, n) for n in range(len(NUTRIENTS))]
    columns = {name: [one[name] for one in each] for name in each[0]}
    return supply, {name: stacked(several, [1] * len(each)) for name, several in columns.items()}


def _of(given: Given, asked: Asked, n: int) -> dict[str, Figure]:
    """Return the figures of one nutrient, each of one row."""
    unit, nutrient = UNITS[n], fixed(LABELS[NUTRIENTS[n]])
    there, need, over = given.there(n), given.need(n), given.days
    share_known = (given.weight_known(n) / given.grams).called("part-known-of-all")
    is_known = (share_known.values >= LEAST_KNOWN) & (need.values > 0)
    if n == SODIUM and asked.of == "pantry":  # set against as many days as its energy lasts
        over = (given.there(0) / given.need(0)).called("energy-lasts", unit="days")
    wanted = (need * over).called("need-these-days", unit=unit)
    share = (there / wanted).called("share_of_need", nutrient=nutrient)
    days = (there / need).called("days", unit="days", nutrient=nutrient)
    lasts = is_known & (asked.of != "eaten")
    short = at_least_none((wanted - there).called("gap"), "no-gap")
    gap = known_where(is_known, short.called("gap"), "too-little-known", unit)
    if n == SODIUM:
        days, gap = unknown("days", "no-days", 1), unknown(unit, "no-days", 1)
    return {
        "supply": there,
        "need_per_day": need,
        "share_known": share_known,
        "own_share": (given.there(n, own=True) / there).called("own_share"),
        "days": known_where(lasts, days, "too-little-known", "days"),
        "share_of_need": known_where(is_known, share, "too-little-known", "0 to 1"),
        "gap": gap,
        **_closed(given, n, gap),
    }


def _closed(given: Given, n: int, gap: Figure) -> dict[str, Figure]:
    """Return what closes a gap from the shop, and from a bed."""
    cost, ground = unknown("money", "shop", 1), unknown("m2", "bed", 1)
    is_open = gap.value(0) > 0
    if is_open and (shop := given.shop(n)) is not None:
        name, in_one, price = shop
        much = (gap / in_one).called("so-much", unit="whole units", **name)
        cost = (much * price).called("from-shop", unit="money", **name)
    if is_open and (bed := given.bed(n)) is not None:
        name, yields, in_gram = bed
        a_metre = (yields * in_gram).called("a-square-metre", unit=UNITS[n])
        ground = (gap / a_metre).called("ground", unit="m2", bed=name["name"])
    return {"shop_cost": cost, "bed_m2": ground}
