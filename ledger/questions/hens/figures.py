"""The formulas of hens: each gives the column for the year and its months, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, known_where, nothing, work
from ledger.messages import Choice
from ledger.questions.hens.gather import Yard

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["HenFigures"]


class HenFigures:
    """Every figure of the hens.

    Attributes
    ----------
    yard : Yard
    month : dict of str to Figure
        What is said of a month, by the name of its column; a row is a period, the year first.
    rate : Figure
        What a hen eats in a day; shape (1,).
    is_own : bool
        Whether that is by feed bought, not from memory.
    hens : Figure
        On the answer's day; shape (1,).
    """

    def __init__(self, state: State) -> None:
        self.yard = yard = state.once(Yard)
        over, between = yard.within(*yard.periods.values()), yard.within(yard.between)
        hen_days, eggs = over.hen_days.called("hen_days"), over.eggs.called("eggs")
        feed, money = over.feed.called("feed_lb"), over.money.called("money")
        days = over.days.called("days", unit="days")
        dozens = eggs / yard.dozen.called("dozen")
        dozens = dozens.called("dozens", unit="dozen")
        lays = eggs.values > 0
        eats = (feed / dozens).called("feed_per_dozen_lb", unit="lb of feed")
        costs = (money / dozens).called("cost_per_dozen", unit="money")
        self.month = {
            "lay": known_where(
                hen_days.values > 0, (eggs / hen_days).called("lay", unit="0 to 1"), "no-hens"
            ),
            "hens": (hen_days / days).called("hens", unit="hens"),
            "hen_days": hen_days,
            "eggs": eggs,
            "feed_lb": feed,
        }
        self._of_year = {
            "feed_per_dozen_lb": known_where(
                feed.values > 0, known_where(lays, eats, "no-eggs"), "no-feed"
            ),
            "cost_per_dozen": known_where(
                over.has_bought, known_where(lays, costs, "no-eggs"), "no-feed"
            ),
        }
        eaten, over_days = between.feed.called("feed_lb"), between.hen_days.called("hen_days")
        own = (eaten.values > 0) & (over_days.values > 0)
        self.is_own = bool(own[0])
        rate = choose(own, eaten / over_days, yard.usual)
        how = Choice("bought" if self.is_own else "memory")
        self.rate = rate.called("rate", unit="lb of feed per hen-day", how=how).folds(
            lambda _: ("hens/rate", "rate") if self.is_own else None
        )
        self.hens = yard.hens.called("hens")

    def year(self, feed: float | None) -> dict[str, Figure]:
        """Return what is said of the year, in row 0; feed on hand: pounds asked, or None."""
        return {**self.month, **self._of_year, "feed_days": self._lasts(feed)}

    def _lasts(self, feed: float | None) -> Figure:
        on_hand = self._left if feed is None else self.yard.asked(feed).called("on-hand")
        a_day = (self.hens * self.rate).called("a-day", unit="lb of feed")
        days = (on_hand / a_day).called("feed_days", unit="days")
        days = known_where(a_day.values > 0, days, "no-hens")
        return known_where(on_hand.values >= 0, days, "no-feed")

    @property
    def _left(self) -> Figure:
        """What the last purchase should have left."""
        yard = self.yard
        bought = yard.within(yard.last_bought).feed.called("feed_lb")
        days = yard.within(yard.since_last).hen_days.called("hen_days")
        left = bought - (days * self.rate).called("eaten", unit="lb of feed")
        most = work("highest", left.called("left"), nothing("lb of feed").called("used-up"))
        return known_where(bought.values > 0, most.called("left"), "no-feed")
