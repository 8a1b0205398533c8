"""What the household ate, by where each gram came from: rule 11, one lot at a time.

Every made lot is taken apart into the raw lots in it and the day on which each was used; nothing
is carried as a sum, so that this is a second way to the figures of `tracing`.
"""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction as F

from oracle.entries import Settings
from oracle.garden import Seasons
from oracle.model import ORIGINS
from oracle.steps import numbered

BASES = ("energy", "weight", "value")


class Table:
    """Answers about what was eaten in a reckoned book."""

    def __init__(self, book):
        self.book, self.items = book, book.items
        self.seasons = Seasons(Settings(book.entries).newest("season_starts"))
        self._draws = defaultdict(list)
        for draw in book.draws:
            self._draws[draw.entry].append(draw)
        self._made = defaultdict(list)
        for one in book.made:
            self._made[one.entry].append(one)
        self._shares = {
            f"{entry.id}:{n}": F(line["share"])
            for entry in book.entries
            if entry.kind == "eaten"
            for n, line in numbered(entry.body.get("left"))
        }
        self._parts = {}

    def parts(self, lot):
        """Return (raw lot, day of use) -> whole units of it in one made lot."""
        if lot.id not in self._parts:
            if lot.origin == "left":
                cause, share = "eaten", self._shares[lot.id]
            else:
                cause, share = "used", self._share_of_batch(lot)
            out = defaultdict(F)
            for draw in self._draws[lot.entry]:
                if draw.cause == cause:
                    self._take(out, draw, share)
            self._parts[lot.id] = out
        return self._parts[lot.id]

    def _share_of_batch(self, lot):
        """Return a lot's part of its batch: by amount, of one strand; else in equal parts an entry."""
        made = self._made[lot.entry]
        if len({one.strand for one in made}) == 1:
            return F(lot.whole, sum(one.whole for one in made))
        own = next(one for one in made if lot.id in one.lots)
        return F(lot.whole, own.whole) / len(made)

    def _take(self, out, draw, share):
        for taken in draw.allocations:
            lot = self.book.lots[taken.lot]
            if lot.is_raw:
                out[lot.id, draw.on] += taken.amount * share
            else:
                for key, whole in self.parts(lot).items():
                    out[key] += whole * share * F(taken.amount, lot.whole)

    def eaten(self, first, last):
        """Return basis -> origin -> amount, and basis -> what is left of the grown after feed."""
        parts = defaultdict(F)
        for meal in self.book.meals:
            if first <= meal.on <= last and meal.eaten_by_household:
                for draw in meal.draws:
                    self._take(parts, draw, meal.eaten_by_household)
        amounts = {basis: dict.fromkeys(ORIGINS, F(0)) for basis in BASES}
        adjusted = dict.fromkeys(BASES, F(0))
        known = True
        for (lot_id, when), whole in parts.items():
            lot = self.book.lots[lot_id]
            share = F(1)
            if lot.origin == "grown" and lot.item in self.animals:
                share = self.grown_feed.get(self.seasons.of(lot.on))
                known = known and (share is not None or not whole)
            for basis, value in zip(BASES, self._figures(lot, whole, when), strict=True):
                amounts[basis][lot.origin] += value
                if lot.origin == "grown":
                    adjusted[basis] += value * (share or 0)
        return amounts, adjusted if known else None

    def _figures(self, lot, whole, when):
        grams = self.items.grams(lot.strand, 1) or F(0)
        kcal = F(self.items.of(lot.item, "kcal_per_100g") or 0) / 100
        price = self.book.prices.of(lot.strand, when)
        return whole * grams * kcal, whole * grams, whole * (price.each if price else 0)

    @property
    def animals(self):
        """Items that something feeds and nobody planted."""
        planted = {
            self.items.name(e.body["crop"]) for e in self.book.entries if e.kind == "planted"
        }
        fed = {self.items.name(f["feeds"]) for f in self.items.facts.values() if "feeds" in f}
        return fed - planted

    @property
    def grown_feed(self):
        """Return season -> grown share of what was fed, by weight."""
        grown, total = defaultdict(F), defaultdict(F)
        for entry in self.book.entries:
            if entry.kind not in ("bought", "received", "harvested"):
                continue
            for line in entry.body["lines"]:
                item = self.items.name(line["item"])
                goal = self.items.of(item, "feeds")
                if goal is None or self.items.is_matched(item):
                    continue
                strand, whole = self.items.line(item, line)
                whole = max(whole - self.items.trimmed(item, line, strand), 0)
                grams = self.items.grams(strand, whole)
                if self.items.name(goal) in self.animals and grams is not None:
                    total[self.seasons.of(entry.on)] += grams
                    if entry.kind == "harvested":
                        grown[self.seasons.of(entry.on)] += grams
        for draw in self.book.draws:
            if draw.cause == "discarded" and draw.why == "fed to animals":
                for origin, grams in draw.figures.grams.items():
                    total[self.seasons.of(draw.on)] += grams
                    if origin == "grown":
                        grown[self.seasons.of(draw.on)] += grams
        return {season: grown[season] / whole for season, whole in total.items() if whole}
