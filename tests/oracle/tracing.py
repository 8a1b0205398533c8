"""Rules 8 to 11: figures of raw lots, carried forward through batches and meals in order."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction as F

from oracle.batches import own_costs
from oracle.model import Figures, Meal
from oracle.steps import numbered

ORIGIN_OF = {"grown", "foraged", "given", "bought", "found", "unrecorded"}
COMPONENT_OF_SORT = {"lid": "lids", "fuel": "fuel"}
CARRIES_FOOD = ("used", "eaten", "seed", "given", "discarded", "missing")


class Tracing:
    """One pass over the entries; a batch draws on earlier lots only."""

    def __init__(self, items, prices, settings, entries):
        self.items, self.prices, self.settings = items, prices, settings
        self.entries = entries

    def price_raw(self, lots):
        """Write the figures of every lot that no batch made, but for the garden's part."""
        values = {}
        for entry in self.entries:
            if entry.kind in ("bought", "received"):
                for n, line in numbered(entry.body["lines"]):
                    values[f"{entry.id}:{n}"] = F(line.get("paid", line.get("value", 0)))
        for lot in lots.values():
            if lot.is_raw:
                self._raw_cost(lot, values)
                self._raw_origin(lot)

    def _raw_cost(self, lot, values):
        component = COMPONENT_OF_SORT.get(self.items.sort(lot.item), "bought_ingredients")
        if lot.origin == "bought":
            lot.figures.cost[component] = values[lot.id]
        elif lot.origin == "given":
            lot.figures.cost["given"] = values[lot.id]
        elif lot.origin in ("found", "unrecorded"):
            price = self.prices.of(lot.strand, lot.on)
            if price:
                lot.figures.cost[component] = price.each * lot.whole
            else:
                lot.figures.unpriced.add(lot.item)

    def _raw_origin(self, lot):
        grams = self.items.grams(lot.strand, lot.whole)
        kcal = self.items.of(lot.item, "kcal_per_100g")
        if grams is None:
            lot.figures.no_grams.add(lot.item)
        else:
            lot.figures.grams[lot.origin] = grams
        if grams is not None and kcal is not None:
            lot.figures.kcal[lot.origin] = grams * F(kcal) / 100
        elif self.items.sort(lot.item) == "food":
            lot.figures.no_kcal.add(lot.item)
        self._value(lot.figures, lot, lot.whole, lot.on)

    def _value(self, figures, lot, amount, when):
        """Add the shop value of an amount of a raw lot on the day it is used."""
        price = self.prices.of(lot.strand, when)
        if price:
            figures.value[lot.origin] += price.each * amount
        else:
            figures.no_value.add(lot.item)

    def draw(self, draw, lots):
        """Write what a draw took: cost, and raw things valued on the day of the draw."""
        for taken in draw.allocations:
            lot = lots[taken.lot]
            part = Figures()
            part.take(lot.figures, F(taken.amount, lot.whole))
            if lot.is_raw:
                part.value = Figures().value
                part.no_value = set()
                self._value(part, lot, taken.amount, draw.on)
            draw.figures.take(part if draw.cause in CARRIES_FOOD else part.money_only(), 1)

    def trace(self, lots, draws, made):
        """Carry figures through every batch and meal; return the meals."""
        by_entry, made_by_entry = defaultdict(list), defaultdict(list)
        for one in draws:
            by_entry[one.entry].append(one)
        for one in made:
            made_by_entry[one.entry].append(one)
        spent = defaultdict(F)  # equipment -> what batches have borne of its price
        meals = []
        for entry in self.entries:
            for one in by_entry[entry.id]:
                self.draw(one, lots)
            if entry.kind == "put_up":
                self._batch(entry, by_entry[entry.id], made_by_entry[entry.id], lots, spent)
            elif entry.kind == "eaten":
                meals.append(self._meal(entry, by_entry[entry.id], lots))
            elif entry.kind == "counted":
                as_eaten = [one for one in by_entry[entry.id] if one.as_eaten]
                if as_eaten:
                    figures = _sum(as_eaten)
                    meals.append(Meal(entry.id, entry.on, as_eaten, F(1), F(0), figures))
        return meals

    def _batch(self, entry, draws, made, lots, spent):
        own = own_costs(self, entry, made, spent)
        pot, by_jars = own.pot, own.by_jars
        lids = {draw.made: draw.figures for draw in draws if draw.cause == "lids"}
        for draw in draws:
            if draw.cause == "used":
                pot.take(draw.figures, 1)
            elif draw.cause == "fuel":
                (by_jars if own.is_canning else pot).take(draw.figures, 1)
        total = sum(one.whole for one in made)
        jars = sum(one.jars or 0 for one in made)
        mixed = len({one.strand for one in made}) > 1
        for one in made:
            by_whole = F(one.whole, total) if total else F(0)
            if mixed:
                by_whole = F(1, len(made))
            jar_pool = Figures()
            jar_pool.take(by_jars, F(one.jars or 0, jars) if jars else by_whole)
            if one.jars:
                jar_pool.take(own.wear[one.n], 1)
                jar_pool.take(lids.get(one.n, Figures()), 1)
            one.hours = own.hours * by_whole
            one.figures.take(pot, by_whole)
            one.figures.take(jar_pool, 1)
            for lot in map(lots.get, one.lots):
                by_number = F(lot.jars, one.jars) if one.jars else F(1)
                lot.figures.take(pot, by_whole * F(lot.whole, one.whole))
                lot.figures.take(jar_pool, F(1) if len(one.lots) == 1 else by_number)

    def _meal(self, entry, draws, lots):
        figures = _sum(draws)
        kept = F(0)
        for n, line in numbered(entry.body.get("left")):
            share = F(line["share"])
            kept += share
            lot = lots.get(f"{entry.id}:{n}")
            if lot:
                lot.figures.take(figures, share)
        people, guests = entry.body.get("people"), entry.body.get("guests", 0)
        household = F(people - guests, people) if people else F(1)
        return Meal(entry.id, entry.on, draws, household, kept, figures)


def _sum(draws):
    total = Figures()
    for draw in draws:
        total.take(draw.figures, 1)
    return total
