"""Records of `jar-cost` and `shelf`, shaped as formats.md section 4 (no text, why or use_by)."""

from __future__ import annotations

from fractions import Fraction as F

from oracle.model import ORIGINS
from oracle.units import LISTED_FROM, LITER_UL, QUART_UL


def jar_cost(items, prices, made):
    """Return one record for each made entry that holds something."""
    return [_jar_cost(items, prices, one) for one in made if one.lots]


def _jar_cost(items, prices, one):
    figures, all_in = one.figures, one.figures.all_in
    price = prices.of(one.strand, one.on)
    by_volume = one.strand.measure == "volume"
    quarts = one.whole / QUART_UL if by_volume else None
    shop = price.each * QUART_UL if price and quarts else None
    cost_per_quart = all_in / quarts if quarts else None
    return {
        "batch": one.entry,
        "lot": f"{one.entry}:{one.n}",
        "on": one.on,
        "item": one.item,
        "measure": one.strand.measure,
        "jar": one.jar,
        "jars": one.jars,
        "volume_ml": F(one.whole, 1000) if by_volume else None,
        "mass_g": items.grams(one.strand, one.whole),
        "kept": one.kept,
        "cost": {**figures.cost, "all_in": all_in, "out_of_pocket": figures.out_of_pocket},
        "cost_per_jar": all_in / one.jars if one.jars else None,
        "cost_per_good_jar": all_in / one.good_jars if one.good_jars else None,
        "cost_per_quart": cost_per_quart,
        "cost_per_liter": all_in * LITER_UL / one.whole if by_volume else None,
        "out_of_pocket_per_quart": figures.out_of_pocket / quarts if quarts else None,
        "labour_hours": one.hours,
        "shop_price_per_quart": shop,
        "shop_price_from": price.event if price else None,
        "saved_per_quart": shop - cost_per_quart if shop is not None else None,
        "shop_price_per_liter": price.each * LITER_UL if price and by_volume else None,
        "saved_per_liter": (price.each - all_in / one.whole) * LITER_UL
        if price and by_volume
        else None,
        "saved": price.each * one.whole - all_in if price else None,
        "provisional": figures.provisional,
        "at_least": figures.at_least,
        "unpriced": sorted(figures.unpriced),
    }


def shelf(items, lots):
    """Return one record for each lot with enough left to be listed."""
    return [
        _shelf(items, lot)
        for lot in lots.values()
        if lot.left > 0 and lot.left >= LISTED_FROM.get(lot.strand.measure, 10)
    ]


def _shelf(items, lot):
    left = F(lot.left, lot.whole)
    grams = sum(lot.figures.grams.values(), F(0))
    if grams:
        origin = {name: part / grams for name, part in lot.figures.grams.items()}
    elif lot.is_raw:
        origin = {name: F(name == lot.origin) for name in ORIGINS}
    else:
        origin = dict.fromkeys(ORIGINS)
    return {
        "lot": lot.id,
        "item": lot.item,
        "sort": items.sort(lot.item),
        "on": lot.on,
        "kept": lot.kept,
        "jar": lot.jar,
        "jars_left": lot.jars * left if lot.jars else None,
        "left": {"whole": lot.left, "measure": lot.strand.measure},
        "share_left": left,
        "origin": origin,
        "cost_left": lot.figures.all_in * left,
        "provisional": lot.figures.provisional,
        "at_least": lot.figures.at_least,
        "unpriced": sorted(lot.figures.unpriced),
    }
