"""The formulas of home price against shop: each gives the column for all items and seasons, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, if_known, known_where, nothing, total
from ledger.messages import sentence
from ledger.messages.units import unit as unit_name
from ledger.questions.costs.sources import unit_factor
from ledger.questions.worth_it.prices_gather import Grouped
from ledger.replay import COMPONENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]

_KEPT_BY = {
    "volume_ml": ("volume", "ul per ml", "per-ml"),
    "mass_g": ("mass", "mg per g", "per-g"),
    "pieces": ("count", "1/1000 piece per piece", "per-piece"),
}
"""Columns of how much, each with the measure that it is of, and its unit in whole ones."""


def figures(state: State) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is an item and season on one line."""
    of = state.once(Grouped)
    whole, in_jars = of.whole.called("made"), of.jars.values > 0
    jars = known_where(in_jars, of.jars, "not-in-jars", "jars").called("jars")
    part = {name: of.cost(name).called(f"cost.{name}") for name in COMPONENTS}
    cost = total(*part.values()).called("cost")
    before = total(*(one for name, one in part.items() if name != "labour")).called("cost")
    worth = if_known(of.worth.called("same-from-shop"), "no-price")
    units = (whole / of.in_one.called("in-one", per=lambda row: unit_name(of.unit(row)))).called(
        "in-unit", per=lambda row: unit_name(f"{of.unit(row)}s")
    )

    def per(money: Figure, what: str) -> Figure:
        each = money / units
        named = each.called(
            "per-unit", what=sentence(what), per=lambda row: unit_name(of.unit(row))
        )
        return if_known(named, "not-known", "money per unit")

    home, shop = per(cost, "why-home-price"), per(worth, "why-shop-price")
    kit = of.kit.called("kit")
    return {
        **{
            name: known_where(of.measure == measure, (whole / unit_factor(1e3, unit, label)).called("how-much"), "not-known", "")
            for name, (measure, unit, label) in _KEPT_BY.items()
        },
        "jars": jars,
        "home_per_unit": home,
        "home_before_labour_per_unit": per(before, "why-home-price-before-own-time"),
        "shop_per_unit": shop,
        "saved_per_unit": if_known((shop - home).called("saved"), "not-known", "money per unit"),
        "saved": if_known((worth - cost).called("saved"), "no-price", "money"),
        "home_change": _since(home, of),
        "shop_change": _since(shop, of),
        "equipment": known_where(in_jars, kit, "not-in-jars", "money"),
        "break_even_jars": _break_even(kit, worth, part, jars),
        "break_even_jars_before_labour": _break_even(kit, worth, part, jars, but="labour"),
    }  # fmt: skip


def _since(now: Figure, of: Grouped) -> Figure:
    """Return how much dearer it is than in the season before, as a share of that."""
    then = now.at(of.before)
    dearer = (now - then).called("dearer") / then.called("season-before")
    return known_where(then.values > 0, if_known(dearer.called("change"), "no-season-before"), "no-season-before", "0 to 1")  # fmt: skip


def _break_even(
    kit: Figure, worth: Figure, part: dict[str, Figure], jars: Figure, but: str = ""
) -> Figure:
    """Return the jars after which the equipment is paid; none where it cost nothing."""
    rest = total(*(one for name, one in part.items() if name not in ("equipment", but)))
    gain = (
        (worth / jars).called("shop-of-jar") - (rest.called("cost") / jars).called("rest-of-jar")
    ).called("gain-of-jar")
    some = known_where(gain.values > 0, (kit / gain).called("break-even"), "no-gain", "jars")
    free = (kit.values == 0) & (worth.values + jars.values > 0)
    return choose(free, nothing("jars").called("break-even"), some)
