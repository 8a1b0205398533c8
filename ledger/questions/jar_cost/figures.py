"""The formulas of jar-cost: each gives the column for all made entries, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, known_where, total, work
from ledger.questions.costs import CostFigures
from ledger.questions.costs.sources import unit_factor
from ledger.questions.jar_cost.gather import Entries, entries_of
from ledger.questions.quantities import QUART_UL
from ledger.replay import COMPONENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["OUT_OF_POCKET", "entries", "figures"]

OUT_OF_POCKET = ("bought_ingredients", "garden", "lids", "fuel")


def entries(state: State) -> Entries:
    """Return the made entries of a state, gathered once."""
    return entries_of(state, state.once(CostFigures))


def figures(state: State) -> dict[str, Figure]:
    """Return every figure of jar-cost by the name of its column; a row is a made entry."""
    costs, made = state.once(CostFigures), state.once(entries)
    of, lots = made.of, made.lots
    whole = of.sum(costs.sources.amount.at(lots)).called("made")
    filled = of.sum(costs.sources.jars.at(lots))
    jars = known_where(made.in_jars, filled.called("jars"), "not-in-jars").called("jars")
    volume = known_where(made.by_volume, whole, "not-by-volume", "ul").called("made")
    per_quart = unit_factor(QUART_UL, "ul per quart", "per-quart")
    quarts = (volume / per_quart).called("quarts")
    per_litre = unit_factor(1e6, "ul per litre", "per-litre")
    litres = (volume / per_litre).called("litres")
    cost = {name: of.sum(costs.of[name].at(lots)).called(f"cost.{name}") for name in COMPONENTS}
    all_in = total(*cost.values()).called("cost.all_in")
    pocket = total(*(cost[name] for name in OUT_OF_POCKET)).called("cost.out_of_pocket")
    bad = of.sum(costs.bad.at(lots)).called("bad")
    failed = work(
        "rounded down", (jars * (bad / whole).called("bad-part")).called("bad-jars")
    ).called("failed")
    good = (jars - failed).called("good")
    hours = made.minutes.called("minutes") / unit_factor(60.0, "minutes per hour", "per-hour")
    by_quart = made.shop * per_quart
    shop = known_where(made.by_volume, by_quart, "not-by-volume", "money per quart").called(
        "shop_price_per_quart"
    )
    shop_litre = known_where(
        made.by_volume, made.shop * per_litre, "not-by-volume", "money per litre"
    ).called("shop_price_per_liter")
    a_jar = (all_in / jars).called("cost_per_jar")
    unpaid = total(*(cost[name] for name in COMPONENTS if name != "labour")).called("before-labour")
    jar_unpaid = (unpaid / jars).called("per_jar.before_labour")
    shop_jar = ((whole * made.shop).called("same-from-shop") / jars).called("shop_price_per_jar")
    each_quart = (all_in / quarts).called("cost_per_quart")
    each_litre = (all_in / litres).called("cost_per_liter")
    return {
        "jars": jars,
        "volume_ml": (volume / unit_factor(1e3, "ul per ml", "per-ml")).called("volume_ml"),
        "mass_g": (whole * made.weight).called("mass_g"),
        **{f"cost.{name}": one for name, one in cost.items()},
        "cost.all_in": all_in,
        "cost.out_of_pocket": pocket,
        "cost_per_jar": a_jar,
        **{f"per_jar.{name}": (one / jars).called(f"per_jar.{name}") for name, one in cost.items()},
        "per_jar.before_labour": jar_unpaid,
        "cost_per_good_jar": (all_in / good).called("cost_per_good_jar"),
        "cost_per_quart": each_quart,
        "cost_per_liter": each_litre,
        "out_of_pocket_per_quart": (pocket / quarts).called("out_of_pocket_per_quart"),
        "labour_hours": (hours.called("hours") * made.share.called("share")).called("labour_hours"),
        "shop_price_per_quart": shop,
        "saved_per_quart": (shop - each_quart).called("saved_per_quart"),
        "shop_price_per_liter": shop_litre,
        "saved_per_liter": (shop_litre - each_litre).called("saved_per_liter"),
        "shop_price_per_jar": shop_jar,
        "saved_per_jar": (shop_jar - a_jar).called("saved_per_jar"),
        "saved_per_jar_before_labour": (shop_jar - jar_unpaid).called(
            "saved_per_jar_before_labour"
        ),
        "saved": ((whole * made.shop).called("same-from-shop") - all_in).called("saved"),
    }
