"""The season's money as postings: every figure of `worth-it` is a sum over these rows.

A posting says: this event adds so much to that column of that line, or takes it off. What passes
from one line to another (a harvest that goes into jars) leaves the first at its cost and its worth
and counts where it ends up.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, choose, said, stacked, unpriced, work
from ledger.kinds import KINDS
from ledger.questions.garden.uneaten import fed, uneaten
from ledger.questions.worth_it import cash
from ledger.questions.worth_it.gather import LEFTOVER, LINE_OF, LINES, SHOPPING, line_of_batches
from ledger.replay import tables
from ledger.replay.facts import SORTS
from ledger.replay.own_costs import labour_rate

if TYPE_CHECKING:
    from ledger.questions.worth_it.gather import Lots
    from ledger.replay import State

__all__ = ["COLUMNS", "NOTES", "NOTE_LABELS", "Postings", "postings"]

COLUMNS = ("money_in", "money_out", "worth", "cost", "minutes", "labour")
"""What a posting counts in."""

NOTES = (
    "came in or made", "into batches", "sown", "lost", "given away", "sold",
    "garden inputs", "leftovers used up", "bought and sold", "money that came", "paid", "ingredients used", "metered fuel", "work",
    "kept too long", "fed in place of feed",
)  # fmt: skip
"""What a posting is for."""

NOTE_LABELS = (
    "why-note-came", "why-note-into-batches", "why-note-sown", "why-note-lost", "why-note-given-away", "why-note-sold",
    "why-note-inputs", "why-note-leftovers", "why-note-traded", "why-note-money-came", "why-note-paid",
    "why-note-ingredients", "why-note-metered-fuel", "why-note-work", "why-note-kept-too-long", "why-note-fed",
)  # fmt: skip
"""The same as ids of messages."""

_NOTE = {name: code for code, name in enumerate(NOTES)}
_KIND = {name: code for code, name in enumerate(KINDS)}
_ROLE = {name: code for code, name in enumerate(tables.ROLES)}
_CAUSE = {name: code for code, name in enumerate(tables.CAUSES)}
_STOCKED = [SORTS.index("lid"), SORTS.index("fuel")]


@dataclass
class Postings:
    """Rows of one period; all arrays have shape (postings,).

    Attributes
    ----------
    line, note, ev, lot, item, column : ndarray of int
        Places in `LINES`, `NOTES` and `COLUMNS`; the event; the lot (-1: none); the item (-1: none).
    sign : ndarray of int
        1 where a row adds to its line, -1 where it takes off.
    money : Figure
        Without its sign; money, or minutes.
    """

    line: Array
    note: Array
    ev: Array
    lot: Array
    item: Array
    sign: Array
    column: Array
    money: Figure

    @cached_property
    def value(self) -> Array:
        """What each row adds, with its sign."""
        return self.sign * self.money.values

    def of(self, line: str | None, column: str) -> Array:
        """Return which rows belong to a line (None: all lines) and column."""
        keep = self.column == COLUMNS.index(column)
        if line is not None:
            keep &= self.line == LINE_OF[line]
        return np.flatnonzero(keep)

    def some(self) -> Array:
        """Return which lines have any posting, shape (lines,)."""
        return np.bincount(self.line, minlength=len(LINES)) > 0


class _Sheet:
    """Collects postings of one period, column by column."""

    def __init__(self, state: State, lots: Lots, period: tuple[int, int]) -> None:
        self.state, self.lots, self.period = state, lots, period
        self.draw, self.lot, self.amount = state.allocations
        self.role = state.draws["role"]
        self.share = lots.costs.sources.share_taken
        self.parts: list[tuple[Array, ...]] = []
        self.money: list[Figure] = []

    def within(self, days: Array) -> Array:
        """Return which days are of the period."""
        return np.asarray((days >= self.period[0]) & (days <= self.period[1]))

    def add(
        self, column: str, note: str, line: Any, ev: Array, money: Figure, *,
        lot: Any = -1, item: Any = -1, sign: int = 1,
    ) -> None:  # fmt: skip
        """Post a figure, a row an event; those of no line are left out."""
        line = np.broadcast_to(np.asarray(line, np.int64), np.asarray(ev).shape)
        keep = np.flatnonzero(line >= 0)
        numbers = (line, _NOTE[note], ev, lot, item, sign, COLUMNS.index(column))
        full = [np.broadcast_to(np.asarray(one, np.int64), line.shape)[keep] for one in numbers]
        self.parts.append(tuple(full))
        self.money.append(money.at(keep))

    def taken(
        self, column: str, note: str, line: Array, at: Array, money: Figure, *, sign: int = -1
    ) -> None:
        """Post parts of lots; `at` are allocations, `line` and `money` are of these."""
        lot = self.lot[at]
        ev, item = self.state.draws["ev"][self.draw[at]], self.state.lots["item"][lot]
        self.add(column, note, line, ev, money, lot=lot, item=item, sign=sign)

    def part(self, of: Figure, at: Array) -> Figure:
        """Return the part of a figure of lots that allocations took."""
        name = self.lots.costs.sources.name_of(self.state.lots["item"][self.lot[at]])
        return (of.at(self.lot[at]) * self.share.at(at)).called("posting", item=name)

    def done(self) -> Postings:
        """Return all that was posted."""
        line, note, ev, lot, item, sign, column = (
            np.concatenate(several) for several in zip(*self.parts, strict=True)
        )
        money = stacked(self.money, [part[0].size for part in self.parts])
        return Postings(line, note, ev, lot, item, sign, column, money)


def postings(state: State, lots: Lots, first: int, last: int, season: int) -> Postings:
    """Return the postings of a season.

    Parameters
    ----------
    first, last : int
        Its days, inclusive (days since 1970).
    season : int
        Its number, for garden inputs (rule 8 of the reckoning).
    """
    sheet = _Sheet(state, lots, (first, last))
    for post in (_made, _passed, _gone, _never_eaten, _cash, _used, _work):
        post(sheet)
    _garden(sheet, season)
    return sheet.done()


def _made(sheet: _Sheet) -> None:
    """Post what was picked, foraged, received and made at its worth, and what batches cost."""
    table, lots = sheet.state.lots, sheet.lots
    at = np.flatnonzero(sheet.within(table["day"]) & (lots.line >= 0))
    about: dict[str, Any] = {"lot": at, "item": table["item"][at]}
    sheet.add(
        "worth", "came in or made", lots.line[at], table["ev"][at], lots.worth_of.at(at), **about
    )
    at = at[np.isin(lots.line[at], [LINE_OF["preserving"], LINE_OF["cooking"]])]
    about = {"lot": at, "item": table["item"][at]}
    sheet.add(
        "cost", "came in or made", lots.line[at], table["ev"][at], lots.cost_of.at(at), **about
    )


def _passed(sheet: _Sheet) -> None:
    """Post what went into a batch or was sown: it leaves its line at its worth and its cost."""
    state, lots, role = sheet.state, sheet.lots, sheet.role
    inside = sheet.within(state.draws["day"][sheet.draw])
    into = (role >= _ROLE["used"]) & (role <= _ROLE["lids"])
    at = np.flatnonzero(into[sheet.draw] & inside)
    line, ev = lots.line[sheet.lot[at]], state.draws["ev"][sheet.draw[at]]
    # What was received has cost nothing; the batch bears its value, so only the rest leaves here.
    given = line == LINE_OF["received"]
    cost, worth = (sheet.part(one, at) for one in (lots.cost_of, lots.worth_of))
    rest = choose(given, (worth - cost).called("beyond-its-cost"), worth)
    sheet.taken("worth", "into batches", line, at, rest)
    moved = np.where(given | (line == LINE_OF["foraged"]), -1, line)
    sheet.taken("cost", "into batches", moved, at, cost)
    left = np.where(line == LEFTOVER, line_of_batches(state)[ev], -1)
    sheet.taken("cost", "leftovers used up", left, at, cost)
    sown = np.flatnonzero((role[sheet.draw] == _ROLE["seed"]) & inside)
    sheet.taken("worth", "sown", lots.line[sheet.lot[sown]], sown, sheet.part(lots.worth_of, sown))


def _gone(sheet: _Sheet) -> None:
    """Post what was lost, given away and sold: its worth is not the household's any more."""
    state, lots = sheet.state, sheet.lots
    events, ev = state.journal.tables["events"], state.draws["ev"]
    kind, cause = events["kind"][ev], events["cause"][ev]
    out = np.full(ev.size, -1)
    out[kind == _KIND["discarded"]] = LINE_OF["lost"]
    missing = sheet.role == len(tables.ROLES)
    out[missing & (cause != _CAUSE["eaten"])] = LINE_OF["lost"]
    given = kind == _KIND["given_away"]
    out[given] = np.where(cause[given] == _CAUSE["sold"], LINE_OF["sold"], LINE_OF["given away"])
    inside = sheet.within(state.draws["day"][sheet.draw])
    at = np.flatnonzero((out[sheet.draw] >= 0) & inside)
    where, own = out[sheet.draw[at]], lots.line[sheet.lot[at]] >= 0
    worth = sheet.part(lots.worth_of, at)
    for name in ("lost", "given away", "sold"):
        line = np.where(own & (where == LINE_OF[name]), where, -1)
        sheet.taken("worth", name, line, at, worth)
    bought = (where == LINE_OF["sold"]) & (lots.line[sheet.lot[at]] == SHOPPING)
    line = np.where(bought, where, -1)
    sheet.taken("cost", "bought and sold", line, at, sheet.part(lots.cost_of, at), sign=1)
    got_ev, got = cash.got(state)
    some = sheet.within(state.moment.on[got_ev])
    got_ev, got = got_ev[some], got[some]
    was_sold = events["cause"][got_ev] == _CAUSE["sold"]
    line = np.where(was_sold, LINE_OF["sold"], LINE_OF["given away"])
    sheet.add("money_in", "money that came", line, got_ev, said(got, "money", got_ev))


def _never_eaten(sheet: _Sheet) -> None:
    """Post what kept too long, and the feed that a glut spared: the animals bear what they ate."""
    state, lots, sources = sheet.state, sheet.lots, sheet.lots.costs.sources
    late = state.once(uneaten)
    lot = late.lot[sheet.within(late.over)]
    name = sources.name_of(state.lots["item"][lot])
    part = (sources.left / sources.amount.called("the-lot")).called("never-eaten")
    worth = (lots.worth_of * part).at(lot).called("posting", item=name)
    about = {"lot": lot, "item": state.lots["item"][lot]}
    line, ev = LINE_OF["kept too long"], state.lots["ev"][lot]
    sheet.add("worth", "kept too long", line, ev, worth, sign=-1, **about)
    spared = state.once(fed)
    own = (lots.line[spared.lot] >= 0) & (spared.value > 0)
    at = np.flatnonzero(sheet.within(state.moment.on[spared.ev]) & own)
    # no more than it was worth at the shop, where that is known
    rows = spared.rows[at]
    worth, feed = sheet.part(lots.worth_of, rows), spared.worth.at(at)
    unknown = np.isnan(lots.worth[sheet.lot[rows]])
    value = choose(unknown, feed, work("lowest", feed, worth))
    value = value.called("feed-spared")
    sheet.taken(
        "worth", "fed in place of feed", np.full(at.size, LINE_OF["lost"]), rows, value, sign=1
    )
    sheet.taken(
        "cost", "fed in place of feed", np.full(at.size, LINE_OF["animals"]), rows, value, sign=1
    )


def _garden(sheet: _Sheet, season: int) -> None:
    """Post the garden inputs that count in the season, as `season` and the jars' costs have them."""
    garden = sheet.lots.costs.garden
    place = np.flatnonzero(
        (garden.season == season) & (np.nan_to_num(garden.inputs.values, nan=1.0) != 0)
    )
    strand = garden.strand[place]
    animals = sheet.lots.animals[strand] if place.size else np.zeros(0, bool)
    line = np.where(animals, LINE_OF["animals"], LINE_OF["garden"])
    none = np.full(place.size, -1)
    sheet.add("cost", "garden inputs", line, none, garden.inputs.at(place), item=strand)


def _cash(sheet: _Sheet) -> None:
    """Post what was paid: garden supplies and kit when bought, metered fuel when used."""
    state = sheet.state
    bought = cash.purchases(state)
    inside = np.flatnonzero(sheet.within(bought.day))
    line = cash.lines_of_purchases(state, bought, sheet.lots.animals, LINE_OF)[inside]
    item, ev = bought.item[inside], bought.ev[inside]
    name = sheet.lots.costs.sources.name_of(item)
    none = unpriced("money", name, item.size).called("unpriced", item=name)
    money = said(bought.money[inside], "money", ev)
    money = choose(bought.is_said[inside], money, none)
    sheet.add("money_out", "paid", line, ev, money, item=item)
    metered_ev, _ = cash.metered(state)
    some = np.flatnonzero(sheet.within(state.moment.on[metered_ev]))
    ev = metered_ev[some].astype(np.int64)
    fuel = sheet.lots.costs.charge("fuel").at(some).called("metered")
    sheet.add("money_out", "metered fuel", line_of_batches(state)[ev], ev, fuel)


def _used(sheet: _Sheet) -> None:
    """Post ingredients out of the shop: paid when they were used, sown or sold."""
    state, lots, draw, lot = sheet.state, sheet.lots, sheet.draw, sheet.lot
    role, sort = sheet.role, state.facts.sort
    inside = sheet.within(state.draws["day"][draw]) & (lots.line[lot] == SHOPPING)
    into = (role >= _ROLE["used"]) & (role <= _ROLE["lids"])
    at = np.flatnonzero((into[draw] | (role[draw] == _ROLE["seed"])) & inside)
    # Lids and fuel out of stock were paid for when they were bought; what nobody wrote down was not.
    at = at[~np.isin(sort[state.lots["item"][lot[at]]], _STOCKED)] if at.size else at
    line = line_of_batches(state)[state.draws["ev"][draw[at]]]
    line[role[draw[at]] == _ROLE["seed"]] = LINE_OF["garden"]
    sheet.taken("money_out", "ingredients used", line, at, sheet.part(lots.cost_of, at), sign=1)
    cause = state.journal.tables["events"]["cause"][state.draws["ev"][draw]]
    at = np.flatnonzero((cause == _CAUSE["sold"]) & inside)
    line = np.full(at.size, LINE_OF["sold"])
    sheet.taken("money_out", "bought and sold", line, at, sheet.part(lots.cost_of, at), sign=1)


def _work(sheet: _Sheet) -> None:
    """Post the hours of planting, picking and putting up, and what they come to at the rate set."""
    state, table = sheet.state, sheet.state.journal.tables["work"]
    rows = state.moment.rows(state.journal, "work")
    rows = rows[sheet.within(state.moment.on[table["ev"][rows]])]
    ev, minutes = table["ev"][rows].astype(np.int64), table["minutes"][rows]
    line = line_of_batches(state)[ev]
    on_crops = line < 0
    line[on_crops] = LINE_OF["garden"]
    animal = _animal_share(state, sheet.lots)[ev] * on_crops
    rate = sheet.lots.costs.sources.setting(
        "labour_rate", state.moment.on[ev], labour_rate, "money per minute"
    )
    rated = ~np.isnan(rate.values)
    for to, part in ((line, 1 - animal), (np.full(ev.size, LINE_OF["animals"]), animal)):
        worked = said(minutes, "minutes", ev)
        share = said(part, "0 to 1", ev).called("work-part")
        mine = choose(part == 1, worked, (worked * share).called("work-on-it"))
        sheet.add("minutes", "work", np.where(part > 0, to, -1), ev, mine)
        paid = (mine * rate).called("own-time")
        sheet.add("labour", "work", np.where((part > 0) & rated, to, -1), ev, paid)


def _animal_share(state: State, lots: Lots) -> Array:
    """Return which part of a harvest's lines are animal products, by event."""
    table = state.lots
    rows = np.flatnonzero(np.isin(lots.line, [LINE_OF["garden"], LINE_OF["animals"]]))
    size = len(state.journal)
    every = np.bincount(table["ev"][rows], minlength=size)
    animal = np.bincount(
        table["ev"][rows], (lots.line[rows] == LINE_OF["animals"]).astype(float), size
    )
    return np.divide(animal, every, out=np.zeros(size), where=every > 0)
