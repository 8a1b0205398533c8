"""The yard: hens by day, what they laid and what was bought for them, each with the event that says so."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.figures import MORE, Array, Figure, Groups, assumed, choose, said, unpriced
from ledger.kinds import KINDS
from ledger.questions.costs.sources import Sources
from ledger.questions.shared.made_as import LB_G
from ledger.questions.telling import label_day
from ledger.replay import ORIGINS
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Run", "Within", "Yard"]

USUAL_LB = 0.25
"""Pounds of feed a hen and day where no feed is written down: from memory, common practice."""
_YEAR, _WEEK, _FOREVER = 365, 7, 1 << 30
_DAY = "day since 1970"


class Run(NamedTuple):
    """Days in a row: the first, the one behind the last, and the event of each; -1: as asked."""

    first: int = 0
    end: int = 0
    first_ev: int = -1
    end_ev: int = -1


class Yard:
    """Hens, eggs and purchases of a state.

    Attributes
    ----------
    counts : list of (float, Run)
        The hens of each count, and the days on which it holds.
    egg_day, bought_day : ndarray of int, shape (lots,) and (purchases,)
    eggs, money : Figure
        Of each lot of eggs, and of each purchase for the hens.
    feed_day, feed : ndarray of int and Figure, shape (purchases of feed,)
        Its day, and its pounds.
    """

    def __init__(self, state: State) -> None:
        self.state, facts, lots = state, state.facts, state.lots
        self.counts, names = self._counted()
        items = {item for name in names if (item := facts.find(name)) is not None}
        grown = lots["origin"] == ORIGINS.index("grown")
        counted = [item for item in sorted(items) if facts.measure[item] == "count"]
        rows = np.flatnonzero(grown & np.isin(lots["item"], counted))
        self.egg_day = lots["day"][rows]
        self.eggs = said(lots["whole"][rows] / 1000, "eggs", lots["ev"][rows])
        self._buy(items)

    def _counted(self) -> tuple[list[tuple[float, Run]], set[str]]:
        """Return the counts of hens with their days, and what the flocks lay."""
        flocks: dict[str, list[tuple[int, int, float]]] = {}
        names = set()
        for ev, body in self.state.bodies("flock_counted"):
            flock = flocks.setdefault((body.get("flock") or "").casefold(), [])
            flock.append((int(self.state.moment.on[ev]), ev, float(body["hens"])))
            names.add(body.get("lays") or "egg")
        out = []
        for flock in flocks.values():
            flock.sort(key=lambda one: one[0])
            ends = [*(one[:2] for one in flock[1:]), (_FOREVER, -1)]
            for (day, ev, hens), (end, end_ev) in zip(flock, ends, strict=True):
                out.append((hens, Run(day, end, ev, end_ev)))
        return out, names or {"egg"}

    def _buy(self, items: set[int]) -> None:
        """Set what was bought of things that go into what hens lay: by weight it is feed."""
        state, facts, table = self.state, self.state.facts, self.state.journal.tables["supplies"]
        rows = state.moment.rows(state.journal, "supplies")
        kind = state.journal.tables["events"]["kind"][table["ev"][rows]]
        of = facts.canon[table["item"][rows]]
        feeds = [at for at, one in enumerate(facts.facts) if facts.find(one.feeds) in items]
        rows = rows[(kind == list(KINDS).index("bought")) & np.isin(of, feeds)]
        rows = rows[np.argsort(state.moment.rank[table["ev"][rows]], kind="stable")]
        item, ev = facts.canon[table["item"][rows]].astype(np.int64), table["ev"][rows]
        name, money = state.once(Sources).name_of(item), table["money"][rows]
        none = unpriced("money", name, rows.size).called("unpriced", item=name)
        self.bought_day = state.moment.on[ev]
        self.money = choose(~np.isnan(money), said(np.nan_to_num(money), "money", ev), none)
        is_feed = np.array([facts.measure[one] == "mass" for one in item.tolist()], bool)
        self._feed_ev, self.feed_day = ev[is_feed], self.bought_day[is_feed]
        strand, whole = facts.lines(table, rows[is_feed])
        weighed = np.array([facts.measure[one] == "mass" for one in strand.tolist()], bool)
        pounds = said(np.where(weighed, whole / 1000 / LB_G, 0.0), "lb of feed", self._feed_ev)
        name = state.once(Sources).name_of(item[is_feed])
        no_weight = assumed(np.zeros(whole.size), "lb of feed", "no-weight", MORE)
        self.feed = choose(weighed, pounds, no_weight.called("no-weight-of", item=name))

    # -- days that are asked about ------------------------------------------------------

    @cached_property
    def periods(self) -> dict[str, Run]:
        """The last 365 days, then each month in them of which there is a week, the newest first."""
        last, day = self.state.as_of_day, self.state.as_of_day
        begin = last - _YEAR + 1
        out = {"year": Run(begin, last + 1)}
        while day >= begin:
            first = max(begin, day - int(day_text(day)[8:]) + 1)
            if day - first + 1 >= _WEEK:  # eggs are collected by the week: less says nothing
                out[day_text(day)[:7]] = Run(first, day + 1)
            day = first - 1
        return out

    @cached_property
    def _weighed(self) -> list[tuple[int, int]]:
        """Day and event of each purchase of feed that has a weight, in the order of the book."""
        some = np.flatnonzero(self.feed.values > 0)
        return list(zip(self.feed_day[some].tolist(), self._feed_ev[some].tolist(), strict=True))

    @property
    def has_feed(self) -> bool:
        """Whether feed was bought."""
        return bool(self._weighed)

    @property
    def between(self) -> Run:
        """The days from the first purchase of feed, or the first flock, to before the last of three."""
        since = min(((run.first, run.first_ev) for _, run in self.counts), default=None)
        if len(self._weighed) < 3 or since is None:
            return Run()
        first = max(self._weighed[0], since, key=lambda one: one[0])
        return Run(first[0], self._weighed[-1][0], first[1], self._weighed[-1][1])

    @property
    def last_bought(self) -> Run:
        """The day of the last purchase of feed."""
        day, ev = self._weighed[-1] if self._weighed else (0, -1)
        return Run(day, day + 1, ev)

    @property
    def since_last(self) -> Run:
        """The days from the last purchase of feed to before the answer's day."""
        return self.last_bought._replace(end=self.state.as_of_day) if self._weighed else Run()

    def within(self, *runs: Run) -> Within:
        """Return what there was within runs of days."""
        return Within(self, runs)

    # -- at the answer's day ------------------------------------------------------------

    @cached_property
    def hens(self) -> Figure:
        """How many hens there are; shape (1,)."""
        day = self.state.as_of_day
        there = [run.first <= day < run.end for _, run in self.counts]
        return Groups(np.where(there, 0, -1), 1).sum(self.counted, "hens")

    @property
    def counted(self) -> Figure:
        """The hens of each count."""
        ev = np.array([run.first_ev for _, run in self.counts], np.int64)
        return said(np.array([hens for hens, _ in self.counts]), "hens", ev)

    def asked(self, feed: float | None) -> Figure:
        """Return the feed on hand as asked; shape (1,)."""
        return assumed(np.array([feed], np.float64), "lb of feed", "feed-asked")

    @property
    def dozen(self) -> Figure:
        """Eggs in a dozen."""
        return assumed(12.0, "eggs per dozen", "dozen")

    @property
    def usual(self) -> Figure:
        """What a hen eats in a day where what was bought does not say; shape (1,)."""
        return assumed(np.full(1, USUAL_LB), "lb of feed per hen-day", "rate")


class Within:
    """Hens, eggs and purchases within runs of days, a row each.

    Attributes
    ----------
    hen_days, days, eggs, feed, money : Figure
    has_bought : ndarray of bool
        Whether anything was bought for the hens.
    """

    def __init__(self, yard: Yard, runs: Sequence[Run]) -> None:
        self._runs = np.array(runs, np.int64).reshape(-1, 4)
        first, end, first_ev, end_ev = self._runs.T
        self.days = _edge("until", end, end_ev) - _edge("from", first, first_ev)
        self.hen_days = self._hen_days(yard)
        self.eggs = self._sum(yard.egg_day, yard.eggs, "eggs")
        self.feed = self._sum(yard.feed_day, yard.feed, "lb of feed")
        self.money = self._sum(yard.bought_day, yard.money, "money")
        self.has_bought: Array = np.asarray(self._inside(yard.bought_day).any(axis=1))

    def _inside(self, day: Array) -> Array:
        return np.asarray((day >= self._runs[:, :1]) & (day < self._runs[:, 1:2]))

    def _sum(self, day: Array, figure: Figure, unit: str) -> Figure:
        run, row = np.nonzero(self._inside(day))
        return Groups(run, len(self._runs)).sum(figure.at(row), unit)

    def _hen_days(self, yard: Yard) -> Figure:
        """Return hens x days of the counts that hold in each run."""
        counts = np.array([run for _, run in yard.counts], np.int64).reshape(-1, 4)
        first = np.maximum(self._runs[:, None, 0], counts[:, 0])
        end = np.minimum(self._runs[:, None, 1], counts[:, 1])
        run, count = np.nonzero(end > first)
        first, end, mine, asked = first[run, count], end[run, count], counts[count], self._runs[run]
        begins = _edge("from", first, np.where(mine[:, 0] == first, mine[:, 2], asked[:, 2]))
        ends = _edge("until", end, np.where(mine[:, 1] == end, mine[:, 3], asked[:, 3]))
        days = (ends - begins).called("days-there", unit="days")
        each = (yard.counted.at(count) * days).called("hens-over-days", unit="hen-days", n=_of(end - first), is_one_of=True)  # fmt: skip
        return Groups(run, len(self._runs)).sum(each, "hen-days")


def _edge(label: str, day: Array, ev: Array) -> Figure:
    """Return days on which runs begin or are over: of an event, or as asked."""
    own, asked = said(day, _DAY, ev), assumed(day, _DAY, "period")
    return choose(ev >= 0, own, asked).called(label, day=lambda row: label_day(int(day[row])))


def _of(column: Array) -> Callable[[int], int]:
    return lambda row: int(column[row])
