"""What the animals were given, season by season, and which part of it was not grown here (rule 11)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, said, total
from ledger.kinds import KINDS
from ledger.questions.food.bases import SIX
from ledger.questions.food.portions import Grouped, Portions
from ledger.questions.food.web import CAUSE
from ledger.replay.facts import MATCHED
from ledger.replay.seasons import Season

if TYPE_CHECKING:
    from ledger.questions.food.amounts import FoodFigures
    from ledger.replay import State

__all__ = ["ANIMAL_GROUPS", "Feed", "animal_products", "not_grown"]

ANIMAL_GROUPS = {
    "Dairy and Egg Products",
    "Poultry Products",
    "Beef Products",
    "Pork Products",
    "Lamb, Veal, and Game Products",
    "Sausages and Luncheon Meats",
}
"""Groups of the food table (USDA SR28) that kept animals give; fish that are caught eat no feed."""

_NO_CROPS = {"Finfish and Shellfish Products", "Sweets"}
"""Groups of the food table that nobody grows, though no feed is behind them: fish, honey, syrup of trees."""
_GROWN = SIX.index("grown")
_KIND = {name: code for code, name in enumerate(KINDS)}


def animal_products(state: State) -> Array:
    """Return whether each item is what kept animals give, and no crop: bool, shape (items,)."""
    from ledger.reference import foods

    facts = state.facts
    fed = {facts.find(one.feeds) for one in facts.facts if one.feeds}
    table = state.journal.tables["planted"]
    rows = state.moment.of(table["ev"])
    planted = set(facts.canon[table["crop"][rows]].tolist())
    out = np.zeros(len(facts), bool)
    for number, one in enumerate(facts.facts):
        food = foods.by_id(one.food) if one.food is not None else None
        if food is not None:
            out[number] = food.group in ANIMAL_GROUPS
        else:
            out[number] = number in fed and number not in planted
    return out


def not_grown(state: State) -> Array:
    """Return whether each item is no crop, though it is picked: eggs, milk, honey, fish; bool, shape (items,)."""
    from ledger.reference import foods

    out = animal_products(state)
    for number, one in enumerate(state.facts.facts):
        food = foods.by_id(one.food) if one.food is not None else None
        out[number] |= food is not None and food.group in _NO_CROPS
    return out


class Feed:
    """What the animals were given: all together, season by season.

    Feed kept outside the lots (a garden input that `feeds` an animal product) counts when it comes
    in, everything else when it is discarded as fed to animals.

    Attributes
    ----------
    animal : ndarray of bool, shape (items,)
        Whether an item is an animal product.
    seasons : ndarray of int64, shape (seasons,)
        Those in which something was given.
    """

    def __init__(self, food: FoodFigures) -> None:
        self.food, self.state = food, food.state
        self._calendar = Season(self.state.settings.newest("season_starts"))
        self.animal = animal_products(self.state)
        self._rows, self._item, self._whole = self._came_in()
        known = food.contents.has_weight[self._item]
        self._unweighed = self._item[~known]
        self._rows, self._item, self._whole = (
            one[known] for one in (self._rows, self._item, self._whole)
        )
        self._ev = self.state.journal.tables["supplies"]["ev"][self._rows].astype(np.int64)
        self._given = self._discarded()
        days = np.r_[self.state.moment.on[self._ev], food.web.day[self._given]]
        self.seasons, place = np.unique(self._calendar.of(days), return_inverse=True)
        self._of_came, self._of_given = place[: self._ev.size], place[self._ev.size :]

    # -- what was given ---------------------------------------------------------------------

    def _came_in(self) -> tuple[Array, Array, Array]:
        """Return rows of the supplies that are feed kept outside the lots, their items and amounts."""
        state, facts = self.state, self.state.facts
        feeds = np.array([self._is_feed(number) for number in range(len(facts))], bool)
        table = state.journal.tables["supplies"]
        rows = state.moment.of(table["ev"])
        if not feeds.any() or not rows.size:
            return (np.zeros(0, np.int64),) * 3
        feeds &= ~MATCHED[facts.sort]
        kind = state.journal.tables["events"]["kind"][table["ev"][rows]]
        came = np.isin(kind, [_KIND[name] for name in ("bought", "received", "harvested")])
        rows = rows[feeds[facts.canon[table["item"][rows]]] & came]
        item, whole = facts.lines(table, rows)
        return rows, item, whole - facts.trimmed(rows, whole)

    def _is_feed(self, number: int) -> bool:
        facts = self.state.facts
        goal = facts.find(facts.facts[number].feeds)
        return goal is not None and bool(self.animal[goal])

    def _discarded(self) -> Array:
        """Return the allocations of lots that were fed to animals."""
        web, events = self.food.web, self.state.journal.tables["events"]
        ev = web.ev
        is_fed = events["cause"][ev] == CAUSE["fed to animals"]
        return np.flatnonzero(is_fed & (events["kind"][ev] == _KIND["discarded"]))

    # -- by season ----------------------------------------------------------------------------

    @cached_property
    def total(self) -> Figure:
        """All that was given, in g; shape (seasons,)."""
        origins = [self._of_origin(origin) for origin in SIX]
        every = total(self._bought(np.ones(self._ev.size, bool)), *origins)
        return every.called("all-feed", season=self._season)

    @cached_property
    def grown(self) -> Figure:
        """What of it was grown here, in g; shape (seasons,)."""
        kind = self.state.journal.tables["events"]["kind"][self._ev]
        own = total(self._bought(kind == _KIND["harvested"]), self._of_origin("grown"))
        return own.called("own-feed", season=self._season)

    def _bought(self, some: Array) -> Figure:
        whole = said(self._whole, self.food.sources.whole_of(self._item), self._ev)
        grams = (whole * self.food.contents.grams.at(self._item)).called(
            "feed-came", item=self.food.sources.name_of(self._item)
        )
        return Groups(np.where(some, self._of_came, -1), self.seasons.size).sum(grams, "g")

    @cached_property
    def _of_lots(self) -> Grouped:
        portions = Portions(self.food, self._given, label="fed-portion")
        return portions.grouped(self._of_given, self.seasons.size)

    def _of_origin(self, origin: str) -> Figure:
        return self._of_lots.of("weight", origin)

    @cached_property
    def from_elsewhere(self) -> Figure:
        """Which part of a season's feed was not grown here, 0 to 1; shape (seasons,)."""
        other = (self.total - self.grown).called("other-feed")
        share = (other / self.total).called("feed-share", season=self._season)
        return share.folds(lambda at: (f"feed/{self._season(at)}", "from_elsewhere"))

    def _season(self, at: int) -> int:
        return int(self.seasons[at])

    # -- what it made -------------------------------------------------------------------------

    @cached_property
    def _own(self) -> Array:
        """Lots that are animal products of our own: bool, shape (lots,)."""
        lots = self.state.lots
        if not lots["ev"].size:
            return np.zeros(0, bool)
        return np.asarray(self.animal[lots["item"]] & (lots["origin"] == _GROWN))

    @property
    def unweighed(self) -> list[str]:
        """Feed of our own animals of which no weight is known, so that it counts nothing."""
        names = self.state.facts.names
        items = dict.fromkeys(self._unweighed.tolist()) if self._own.any() else ()
        return [names[item] for item in items]

    @cached_property
    def season_of_lot(self) -> Array:
        """Place of the season whose feed is behind each lot of our own animals; -1 for others.

        Also -1 where nothing says what was given then.
        """
        out = np.full(self._own.size, -1, np.int64)
        mine = np.flatnonzero(self._own)
        if mine.size and self.seasons.size:
            place, found = self._places(mine)
            out[mine] = np.where(found, place, -1)
        return out

    def _places(self, lots: Array) -> tuple[Array, Array]:
        season = self.season_by_day(self.state.lots["day"][lots])
        place = np.minimum(np.searchsorted(self.seasons, season), self.seasons.size - 1)
        known = ~np.isnan(self.from_elsewhere.values)
        return place, (self.seasons[place] == season) & known[place]

    @cached_property
    def is_open(self) -> Array:
        """Our own animal lots of seasons in which nothing says what was fed: bool, shape (lots,)."""
        return np.asarray(self._own & (self.season_of_lot < 0))

    def season_by_day(self, day: Array) -> Array:
        """Return the season of each day."""
        return np.asarray(self._calendar.of(day))
