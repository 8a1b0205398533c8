"""What each durable earned: the gain of the batches and harvests that it served.

A gain is what was made at shop prices less its cost without own time and without the wear of
durables; it is shared over the durables that served, by the wear of this use. What batches took
on to other batches gains there, what was lost or kept too long gains nothing.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, nothing, stacked, total
from ledger.kinds import KINDS
from ledger.questions.garden.uneaten import uneaten
from ledger.questions.telling import label_day
from ledger.questions.worth_it.gather import Lots
from ledger.replay import ORIGINS, tables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Earned", "went_on_and_lost"]

_ROLE = {name: code for code, name in enumerate(tables.ROLES)}


class _Uses(NamedTuple):
    """Uses of one sort, a row each: of which item, by which event, how often, and what came of it."""

    item: Array
    ev: Array
    times: Figure
    gain: Figure
    share: Figure


def went_on_and_lost(state: State) -> tuple[Array, Array]:
    """Return which allocations went into batches or were sown, and which were lost; bool."""
    draw, _, _ = state.allocations
    role, ev = state.draws["role"], state.draws["ev"]
    events = state.journal.tables["events"]
    lost = events["kind"][ev] == list(KINDS).index("discarded")
    lost |= (role == len(tables.ROLES)) & (events["cause"][ev] != tables.CAUSES.index("eaten"))
    onward = (role >= _ROLE["seed"]) & (role <= _ROLE["lids"])
    return onward[draw], lost[draw]


class Earned:
    """Uses of every durable that was bought, a row each, in the order of the book.

    Attributes
    ----------
    item, ev, day : ndarray of int, shape (uses,)
    times : Figure
        Loads, jars filled, or parts of a season's harvest.
    gain : Figure
        Of the whole batch or lot, before wear.
    share : Figure
        This durable's part of the gain, 0 to 1.
    earned : Figure
        Gain x share.
    """

    def __init__(self, state: State) -> None:
        self.state, self.lots = state, state.once(Lots)
        self.costs = self.lots.costs
        sorts = (self._batches(), self._garden())
        rows = [one.item.size for one in sorts]
        item, ev = (np.concatenate([getattr(s, name) for s in sorts]) for name in ("item", "ev"))
        order = np.argsort(state.moment.rank[ev], kind="stable") if ev.size else ev
        self.item, self.ev = item[order], ev[order]
        self.day = state.moment.on[self.ev]
        self.times, self.gain, self.share = (
            stacked([getattr(s, name) for s in sorts], rows).at(order)
            for name in ("times", "gain", "share")
        )
        self.earned = (self.gain.called("gain") * self.share.called("by-wear")).called(
            "use", day=lambda row: label_day(int(self.day[row]))
        )

    # -- lots -------------------------------------------------------------------------------

    @cached_property
    def _went_on(self) -> Figure:
        """The part of each lot that went into batches or was sown."""
        _, lot, _ = self.state.allocations
        onward, _ = went_on_and_lost(self.state)
        share = self.costs.sources.share_taken
        return Groups(np.where(onward, lot, -1), self.lots.line.size).sum(share, "0 to 1")

    @cached_property
    def _gain(self) -> Figure:
        """What each lot gained: what is kept of its worth less what it bears; what has no price nothing."""
        state, lots, sources = self.state, self.lots, self.costs.sources
        _, lot, _ = state.allocations
        _, thrown = went_on_and_lost(state)
        lost = Groups(np.where(thrown, lot, -1), lots.line.size).sum(sources.share_taken, "0 to 1")
        never = (sources.left / sources.amount.called("the-lot")).called("never-eaten")
        late = np.zeros(lots.line.size, bool)
        late[state.once(uneaten).lot] = True
        gone = total(self._went_on, choose(late, total(lost, never), lost)).called("gone-part")
        worth, cost = lots.worth_of, lots.cost_of
        gain = _less(worth, gone, "worth-stays") - _less(
            cost, self._went_on.called("went-on"), "cost-stays"
        )
        gain = choose(np.isnan(lots.worth), nothing("money").called("no-price"), gain)
        return gain.called("gain-of-lot", item=self.costs.item, day=self.costs.day)

    # -- batches ----------------------------------------------------------------------------

    def _batches(self) -> _Uses:
        """Share each batch's gain over its equipment and its jars."""
        _, _, loads, wear = self.state.costs.own.parts
        wears, kit = self.costs.durables.tables
        ev = np.r_[loads.ev, wear.ev].astype(np.int64)
        item = np.r_[loads.said["item"], wear.said["item"]].astype(np.int64)
        served, batch = np.unique(ev, return_inverse=True)
        rows = [loads.ev.size, wear.ev.size]
        weight = stacked([kit.charge(), wears.charge()], rows).called("wear")
        priced = ~np.r_[loads.unpriced, wear.unpriced].astype(bool)
        whole = Groups(np.where(priced, batch, -1), served.size).sum(weight, "money")
        all_wear = whole.called("all-wear").at(batch)
        share = choose(all_wear.values > 0, weight / all_wear, nothing("0 to 1"))
        times, keep = stacked([kit.uses, wears.uses], rows), np.flatnonzero(priced)
        gain = self._of_batches(served).at(batch)
        return _Uses(item[keep], ev[keep], times.at(keep), gain.at(keep), share.at(keep))

    def _of_batches(self, served: Array) -> Figure:
        """Return the gain of each batch that something served, the wear that stays with it put back."""
        table, lots = self.state.lots, self.lots
        made = (table["origin"] == ORIGINS.index("batch")) & np.isnan(table["share"])
        made = np.flatnonzero(made & np.isin(table["ev"], served))
        of = Groups(np.searchsorted(served, table["ev"][made]), served.size)
        gain = of.sum(self._gain.at(made), "money")
        cost = of.sum(lots.cost_of.at(made), "money").called("cost-of-batch")
        passed = of.sum((lots.cost_of * self._went_on.called("went-on")).called("its-part").at(made), "money")  # fmt: skip
        _, _, loads, wear = self.state.costs.own.parts
        charged = total(
            *(
                Groups(np.searchsorted(served, part.ev), served.size).sum(self.costs.charge(name), "money")
                for part, name in ((loads, "equipment"), (wear, "jar_wear"))
            )
        ).called("all-charged")  # fmt: skip
        went = passed.called("passed-on") / cost
        stays = choose(
            np.nan_to_num(went.values) > 0,
            _less(charged, went.called("went-on"), "wear-stays"),
            charged,
        )
        priced = np.bincount(of.by, ~np.isnan(lots.worth[made]), served.size) > 0
        return choose(priced, total(gain, stays), nothing("money").called("no-price"))

    # -- the garden -------------------------------------------------------------------------

    def _garden(self) -> _Uses:
        """Share each harvest's gain over the inputs with years that its season bore."""
        garden, facts = self.costs.garden, self.state.facts
        bearing, parts = garden.bearing, garden.parts
        named = [facts.find(part.source.label) if part.source.years else None for part in parts]
        lasts = np.array([bool(part.source.years) for part in parts], bool)[bearing.part]
        item = np.array([-1 if one is None else one for one in named], np.int64)[bearing.part]
        which = garden.garden.which
        by_place = Groups(np.where(lasts & (item >= 0), bearing.place, -1), garden.season.size)
        pairs = [
            (lot, row) for lot, place in enumerate(which.tolist()) for row in by_place.rows(place)
        ]
        at, row = (np.array([pair[i] for pair in pairs], np.int64) for i in (0, 1))
        place, lot = which[at], garden.lots[at]
        every = Groups(np.where(lasts, bearing.place, -1), garden.season.size)
        worn = every.sum(bearing.money, "money").called("all-wear").at(place)
        picked = (self.costs.sources.amount.at(lot) / garden.picked.at(place)).called(
            "this-picking"
        )
        bore = np.nan_to_num(garden.inputs.values)[place] != 0
        part = choose(bore, picked, nothing("0 to 1"))
        charged = (worn * part).called("all-charged")
        kept = _less(charged, self._went_on.at(lot).called("went-on"), "wear-stays")
        gain = total(self._gain.at(lot), kept)
        gain = choose(np.isnan(self.lots.worth[lot]), nothing("money").called("no-price"), gain)
        money, share = bearing.money.at(row), bearing.share.at(row)
        by_wear = choose(worn.values > 0, money / worn, nothing("0 to 1"))
        times = choose(np.isnan(share.values), part, (part * share).called("part-of-season"))
        return _Uses(item[row], self.state.lots["ev"][lot].astype(np.int64), times.called("times", unit="times"), gain, by_wear)  # fmt: skip


def _less(figure: Figure, part: Figure, label: str) -> Figure:
    """Return a figure less a part of it, by the id of a label; the figure itself where that is none."""
    rest = (figure - (figure * part).called("its-part")).called(label)
    return choose(part.values != 0, rest, figure)
