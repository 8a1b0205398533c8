"""Rule 8: seasons, garden inputs, and what each harvested lot bears of them."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from fractions import Fraction as F

from oracle.model import Input
from oracle.steps import numbered
from oracle.units import season_day


class Seasons:
    """Twelve months each, from a day and month."""

    def __init__(self, text):
        self.month, self.day = season_day(text or "1 January")

    def start_in(self, year):
        """Return the day a season starts in a year; 29 February is 1 March where there is none."""
        try:
            return dt.date(year, self.month, self.day)
        except ValueError:
            return dt.date(year, self.month + 1, 1)

    def of(self, when):
        """Return the first day of the season that a day is in."""
        start = self.start_in(when.year)
        return start if start <= when else self.start_in(when.year - 1)

    def after(self, start, seasons):
        return self.start_in(start.year + seasons)

    def last_day(self, start):
        return self.after(start, 1) - dt.timedelta(days=1)


class Garden:
    """The garden's inputs shared over its harvests; writes each grown lot's figures."""

    def __init__(self, seasons, items, prices):
        self.seasons, self.items, self.prices = seasons, items, prices
        self.inputs = []

    def spread(self, entries, lots, draws, as_of):
        """Add to each grown lot its share of the inputs, and whether it is provisional."""
        self.harvests = [lot for lot in lots.values() if lot.origin == "grown"]
        for raw in self._bought(entries) + self._seed(entries, lots, draws):
            self.inputs += self._placed(raw, entries)
        for one in self.inputs:
            if one.season is not None:
                self._bear(one)
        for lot in self.harvests:
            lot.figures.provisional = as_of <= self.seasons.last_day(self.seasons.of(lot.on))

    def _bought(self, entries):
        found = []
        for entry in entries:
            if entry.kind != "bought":
                continue
            for n, line in numbered(entry.body["lines"]):
                item = self.items.name(line["item"])
                if self.items.sort(item) == "garden input":
                    crop = line.get("for_crop") or self.items.of(item, "feeds")
                    crop = self.items.name(crop) if crop else None
                    one = Input(entry.id, n, entry.on, crop, F(line["paid"]), set())
                    known = self.items.durable(item, entry.on, entries)[1]
                    found.append((one, F(line["years"]) if "years" in line else known))
        return found

    def _seed(self, entries, lots, draws):
        """Return what seed lines drew, at its cost as bought; own seed carries no cost."""
        crops = {e.id: self.items.name(e.body["crop"]) for e in entries if e.kind == "planted"}
        found = []
        for draw in draws:
            if draw.cause != "seed":
                continue
            one = Input(draw.entry, draw.n, draw.on, crops[draw.entry], F(0), set())
            for taken in draw.allocations:
                lot = lots[taken.lot]
                if lot.origin in ("bought", "unrecorded", "found"):
                    one.amount += lot.figures.all_in * taken.amount / lot.whole
                    one.unpriced |= lot.figures.unpriced
            found.append((one, None))
        return found

    def _placed(self, raw, entries):
        """Return an input, or each year's part of it, with the season that it belongs to."""
        one, years = raw
        own = self.seasons.of(one.on)
        after = any(
            lot.on >= one.on and self.seasons.of(lot.on) == own for lot in self._of(one.crop)
        )
        base = own if after else self._next(one.crop, self.seasons.after(own, 1))
        one.season = base
        if not years or base is None:
            return [one]
        parts, left = [], one.amount
        while left > 0 or not parts:
            part = min(one.amount / years, left)
            season = self._next(one.crop, self.seasons.after(base, len(parts)))
            parts.append(Input(one.entry, one.n, one.on, one.crop, part, one.unpriced, season))
            left -= part
        return parts

    def _of(self, crop):
        return [lot for lot in self.harvests if crop is None or lot.item == crop]

    def _next(self, crop, start):
        """Return the first season from `start` on in which a crop is harvested, or None."""
        found = {self.seasons.of(lot.on) for lot in self._of(crop)}
        return min((season for season in found if season >= start), default=None)

    def _bear(self, one):
        """Share an input over its season's strands: of its crop where it names one, then by amount."""
        season = defaultdict(list)
        for lot in self.harvests:
            if self.seasons.of(lot.on) == one.season:
                season[lot.strand].append(lot)
        mine = {s: lots for s, lots in season.items() if one.crop in (None, s.item)}
        shares, unshared = self._shares(mine, season)
        for strand, lots in mine.items():
            total = sum(lot.whole for lot in lots)
            for lot in lots:
                lot.figures.cost["garden"] += one.amount * shares[strand] * lot.whole / total
                if shares[strand]:
                    lot.figures.unpriced |= one.unpriced
                if strand in unshared and (one.amount or one.unpriced):
                    lot.figures.unpriced.add(strand.item)

    def _value(self, lots):
        """Return the shop value of what was harvested; None where a day has no price."""
        prices = [self.prices.of(lot.strand, lot.on) for lot in lots]
        if not all(prices):
            return None
        return sum((price.each * lot.whole for price, lot in zip(prices, lots, strict=True)), F(0))

    def _shares(self, mine, season):
        """Return each strand's part of an input, and those that bear nothing for want of figures.

        By shop value; without a price, by weight at the season's average price; with none priced,
        by weight. A strand that cannot be reckoned so bears nothing, unless none can.
        """
        if len(mine) == 1:
            return dict.fromkeys(mine, F(1)), set()
        value = {s: self._value(lots) for s, lots in season.items()}
        grams = {
            s: self.items.grams(s, sum(lot.whole for lot in lots)) or F(0)
            for s, lots in season.items()
        }
        both = [s for s in season if value[s] is not None and grams[s]]
        average = sum(value[s] for s in both) / sum(grams[s] for s in both) if both else None
        if any(value[s] is not None for s in mine):
            parts = {}
            for s in mine:
                if value[s] is not None:
                    parts[s] = value[s]
                elif grams[s] and average is not None:
                    parts[s] = grams[s] * average
        else:
            parts = {s: grams[s] for s in mine if grams[s]}
        if not parts:
            return dict.fromkeys(mine, F(1, len(mine))), set()
        by_weight = {s: grams[s] for s in parts}
        for fallback in (parts, by_weight, dict.fromkeys(parts, F(1))):
            total = sum(fallback.values(), F(0))
            if total:
                shares = {s: part / total for s, part in fallback.items()}
                return {s: shares.get(s, F(0)) for s in mine}, set(mine) - set(parts)
        raise AssertionError
