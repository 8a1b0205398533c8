"""Animal products and what the animals were given: the grown share of the feed, season by season."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ledger.methods.ratios import ratio
from ledger.projections._table_web import CAUSE, Web
from ledger.replay import ORIGINS
from ledger.replay.columns import Array
from ledger.replay.facts import MATCHED
from ledger.replay.garden import Season

__all__ = ["Fed", "Feed"]

ANIMAL_GROUPS = {
    "Dairy and Egg Products",
    "Poultry Products",
    "Beef Products",
    "Pork Products",
    "Lamb, Veal, and Game Products",
    "Sausages and Luncheon Meats",
}
"""Groups of the food table (USDA SR28) that kept animals give; fish that are caught eat no feed."""

_GROWN = ORIGINS.index("grown")


@dataclass(frozen=True)
class Fed:
    """Something given to the animals, by weight (g)."""

    season: int
    ev: int
    grown: float
    total: float


class Feed:
    """What the animals were given.

    All animals together and season by season, as the reckoning's rule 11 has it: feed kept outside the
    lots (a garden input that `feeds` an animal product) counts when it comes in, everything else
    when it is discarded as fed to animals.

    Attributes
    ----------
    animal : ndarray of bool, shape (items,)
        Whether an item is an animal product.
    unweighed : list of str
        Feed of which no weight is known, so that it counts nothing.
    """

    def __init__(self, web: Web) -> None:
        self.state, self._web = web.state, web
        self.season = Season(self.state.settings.newest("season_starts"))
        self.animal = self._animal()
        self.unweighed: list[str] = []

    def _animal(self) -> Array:
        from ledger.reference import foods

        facts = self.state.facts
        fed = {facts.find(one.feeds) for one in facts.facts if one.feeds}
        table = self.state.journal.tables["planted"]
        rows = self.state.moment.of(table["ev"])
        planted = set(facts.canon[table["crop"][rows]].tolist())
        out = np.zeros(len(facts), bool)
        for number, one in enumerate(facts.facts):
            food = foods.by_id(one.food) if one.food is not None else None
            if food is not None:
                out[number] = food.group in ANIMAL_GROUPS
            else:
                out[number] = number in fed and number not in planted
        return out

    @cached_property
    def fed(self) -> list[Fed]:
        """Everything given to the animals, in no order."""
        return [*self._bought(), *self._from_lots()]

    @cached_property
    def by_season(self) -> dict[int, tuple[float, float]]:
        """Grown grams and all grams given, by season."""
        out: dict[int, tuple[float, float]] = {}
        for one in self.fed:
            grown, total = out.get(one.season, (0.0, 0.0))
            out[one.season] = (grown + one.grown, total + one.total)
        return out

    def share(self, season: int) -> float | None:
        """Return the grown share of a season's feed, 0 to 1; None where nothing says."""
        return ratio(*self.by_season.get(season, (None, None)))

    def _bought(self) -> list[Fed]:
        state, facts = self.state, self.state.facts
        feeds = np.array([self._is_feed(number) for number in range(len(facts))], bool) & ~(
            MATCHED[facts.sort] if len(facts) else np.zeros(0, bool)
        )
        if not feeds.any():
            return []
        table = state.journal.tables["supplies"]
        rows = state.moment.of(table["ev"])
        item = facts.canon[table["item"][rows]]
        came_in = np.isin(
            state.journal.tables["events"]["kind"][table["ev"][rows]],
            [_kind(name) for name in ("bought", "received", "harvested")],
        )
        rows, item = rows[feeds[item] & came_in], item[feeds[item] & came_in]
        item, whole = facts.lines(table, rows)
        whole = whole - facts.trimmed(rows, whole)
        ev = table["ev"][rows].astype(np.int64)
        kind = state.journal.tables["events"]["kind"][ev]
        season = self.season.of(state.moment.on[ev])
        out = []
        for number, amount, place, what, year in zip(
            item.tolist(), whole.tolist(), ev.tolist(), kind.tolist(), season.tolist(), strict=True
        ):
            per = facts.grams_per_whole(number)
            if per is None:
                if facts.names[number] not in self.unweighed:
                    self.unweighed.append(facts.names[number])
                continue
            grams = amount * per
            out.append(Fed(year, place, grams if what == _harvested() else 0.0, grams))
        return out

    def _is_feed(self, number: int) -> bool:
        facts = self.state.facts
        goal = facts.find(facts.facts[number].feeds)
        return goal is not None and bool(self.animal[goal])

    def _from_lots(self) -> list[Fed]:
        state, web = self.state, self._web
        events = state.journal.tables["events"]
        ev = state.draws["ev"][web.draw]
        at = np.flatnonzero(
            (events["cause"][ev] == CAUSE["fed to animals"]) & (events["kind"][ev] == _discarded())
        )
        lot = web.lot[at]
        # A raw lot's figures are its own; of a made one, those of what went into it.
        grams = state.costs.lot[lot, 8:14] * web.share[at, None]
        seasons = self.season.of(web.day[at])
        return [
            Fed(season, int(place), float(row[_GROWN]), float(row.sum()))
            for season, place, row in zip(seasons.tolist(), ev[at].tolist(), grams, strict=True)
            if row.any()
        ]


def _kind(name: str) -> int:
    from ledger.kinds import KINDS

    return list(KINDS).index(name)


def _harvested() -> int:
    return _kind("harvested")


def _discarded() -> int:
    return _kind("discarded")
