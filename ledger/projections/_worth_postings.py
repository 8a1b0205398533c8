"""The season's money as postings: every figure of `worth-it` is a sum over these rows.

A posting says: this event adds so much to that column of that line. Sums and their reasons come
from the same rows, so they cannot differ. What passes from one line to another (a harvest that
goes into jars) leaves the first at its cost and its worth and counts where it ends up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS, METHODS
from ledger.projections import _worth_cash as cash
from ledger.questions.garden.uneaten import fed, uneaten
from ledger.replay import COMPONENTS, ORIGINS, tables
from ledger.replay.facts import SORTS
from ledger.replay.own_costs import labour_rate

if TYPE_CHECKING:
    from ledger.replay import State

    Array = np.ndarray[Any, Any]

__all__ = ["LINES", "NOTES", "Lots", "Postings", "postings"]

LINES = (
    "garden", "animals", "foraged", "received", "preserving", "cooking",
    "sold", "given away", "lost", "kept too long",
)  # fmt: skip
"""The lines of the answer, in its order."""

NOTES = (
    "came in or made", "into batches", "sown", "lost", "given away", "sold",
    "garden inputs", "leftovers used up", "bought and sold", "money that came", "paid", "ingredients used", "metered fuel", "work",
    "kept too long", "fed in place of feed",
)  # fmt: skip
"""What a posting is for."""

_LINE = {name: code for code, name in enumerate(LINES)}
_NOTE = {name: code for code, name in enumerate(NOTES)}
_KIND = {name: code for code, name in enumerate(KINDS)}
_ORIGIN = {name: code for code, name in enumerate(ORIGINS)}
_ROLE = {name: code for code, name in enumerate(tables.ROLES)}
_CAUSE = {name: code for code, name in enumerate(tables.CAUSES)}
_COOK = METHODS.index("cook")
_LABOUR = COMPONENTS.index("labour")
_SHOPPING, _LEFTOVER = -1, -2


class Lots:
    """What every lot is worth at the shop and has cost, and which line it belongs to.

    Attributes
    ----------
    line : ndarray of int, shape (lots,)
        Place in `LINES`; -1: bought, found or never written down; -2: leftovers of a meal.
    worth : ndarray of float, shape (lots,)
        Shop price of its day x amount (received: its value, where one was said); NaN: no price.
    cost : ndarray of float, shape (lots,)
        The components of `jar-cost` but labour.
    price_ev : ndarray of int, shape (lots,)
        Event that the price comes from; -1: none.
    later : ndarray of bool, shape (lots,)
        The price was first seen only after the lot's day.
    """

    def __init__(self, state: State) -> None:
        lots, facts = state.lots, state.facts
        self.state = state
        origin = lots["origin"]
        price, self.price_ev, self.later = state.costs.prices.of(lots["item"], lots["day"])
        self.worth = price * lots["whole"]
        self.cost = state.costs.lot[:, : len(COMPONENTS)].sum(axis=1)
        self.cost -= state.costs.lot[:, _LABOUR]
        given = origin == _ORIGIN["given"]
        said = given & ~np.isnan(lots["money"])
        self.worth[said] = lots["money"][said]
        self.price_ev[said], self.later[said] = -1, False
        self.animals = animals_of(state)
        line = np.full(origin.size, _SHOPPING)
        grown = origin == _ORIGIN["grown"]
        line[grown] = _LINE["garden"]
        if len(facts):
            line[grown & self.animals[lots["item"]]] = _LINE["animals"]
        line[origin == _ORIGIN["foraged"]] = _LINE["foraged"]
        line[given] = _LINE["received"]
        batch = np.flatnonzero(origin == _ORIGIN["batch"])
        line[batch] = line_of_batches(state)[lots["ev"][batch]]
        line[~np.isnan(lots["share"])] = _LEFTOVER
        self.line = line
        self.known = np.nan_to_num(self.worth)


def animals_of(state: State) -> Array:
    """Return which items are animal products: those that some input `feeds`, shape (items,)."""
    out = np.zeros(max(len(state.facts), 1), bool)
    for fact in state.facts.facts:
        number = state.facts.find(fact.feeds)
        if number is not None:
            out[number] = True
    return out


def line_of_batches(state: State) -> Array:
    """Return the line of each event that is a batch: cooking or preserving; else -1."""
    table = state.journal.tables["batches"]
    out = np.full(len(state.journal), _SHOPPING)
    out[table["ev"]] = np.where(table["method"] == _COOK, _LINE["cooking"], _LINE["preserving"])
    return out


@dataclass
class Postings:
    """Rows of one period; all arrays have shape (postings,).

    Attributes
    ----------
    line, note, ev, lot, item : ndarray of int
        Places in `LINES` and `NOTES`; the event; the lot (-1: none); the item (-1: none).
    share : ndarray of float
        Part of the lot that is meant; 1 where the whole of it is.
    column : ndarray of int
        Place in `Postings.COLUMNS`.
    value : ndarray of float
        Signed; money, or minutes.
    """

    COLUMNS = ("money_in", "money_out", "worth", "cost", "minutes", "labour")

    line: Array
    note: Array
    ev: Array
    lot: Array
    item: Array
    share: Array
    column: Array
    value: Array

    def of(self, line: str | None, column: str) -> Array:
        """Return which rows belong to a line (None: all lines) and column."""
        keep = self.column == self.COLUMNS.index(column)
        if line is not None:
            keep &= self.line == _LINE[line]
        return np.flatnonzero(keep)

    def sums(self) -> Array:
        """Return the sums, shape (lines, columns)."""
        width = len(self.COLUMNS)
        key = self.line * width + self.column
        out = np.bincount(key, self.value, len(LINES) * width)
        return np.asarray(out.reshape(len(LINES), width))

    def some(self) -> Array:
        """Return which lines have any posting, shape (lines,)."""
        return np.bincount(self.line, minlength=len(LINES)) > 0


class _Sheet:
    """Collects postings column by column."""

    def __init__(self) -> None:
        self.parts: list[tuple[Array, ...]] = []

    def add(
        self, column: str, note: str, line: Any, ev: Array, value: Array, *,
        lot: Any = -1, item: Any = -1, share: Any = 1.0,
    ) -> None:  # fmt: skip
        rows = np.asarray(ev).size
        full = [
            np.broadcast_to(np.asarray(part, dtype), rows)
            for part, dtype in (
                (line, np.int64), (_NOTE[note], np.int64), (ev, np.int64), (lot, np.int64),
                (item, np.int64), (share, np.float64),
                (Postings.COLUMNS.index(column), np.int64), (value, np.float64),
            )
        ]  # fmt: skip
        self.parts.append(tuple(full))

    def done(self) -> Postings:
        columns = [np.concatenate(several) for several in zip(*self.parts, strict=True)]
        keep = columns[0] >= 0
        return Postings(*(column[keep] for column in columns))


def postings(state: State, lots: Lots, first: int, last: int, season: int) -> Postings:
    """Return the postings of a season.

    Parameters
    ----------
    first, last : int
        Its days, inclusive (days since 1970).
    season : int
        Its number, for garden inputs (rule 8 of the reckoning).
    """
    sheet = _Sheet()
    _made(state, lots, sheet, (first, last))
    _passed(state, lots, sheet, (first, last))
    _gone(state, lots, sheet, (first, last))
    _never_eaten(state, lots, sheet, (first, last))
    _garden(state, lots, sheet, season)
    _cash(state, lots, sheet, (first, last))
    _work(state, lots, sheet, (first, last))
    return sheet.done()


def _within(days: Array, period: tuple[int, int]) -> Array:
    return np.asarray((days >= period[0]) & (days <= period[1]))


def _made(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post what was picked, foraged, received and made at its worth, and what batches cost."""
    table = state.lots
    at = np.flatnonzero(_within(table["day"], period) & (lots.line >= 0))
    about = {"ev": table["ev"][at], "lot": at, "item": table["item"][at]}
    sheet.add("worth", "came in or made", lots.line[at], value=lots.known[at], **about)
    at = at[np.isin(lots.line[at], [_LINE["preserving"], _LINE["cooking"]])]
    about = {"ev": table["ev"][at], "lot": at, "item": table["item"][at]}
    sheet.add("cost", "came in or made", lots.line[at], value=lots.cost[at], **about)


def _passed(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post what went into a batch or was sown: it leaves its line at its worth and its cost."""
    draw, lot, amount = state.allocations
    role = state.draws["role"]
    share = amount / state.lots["whole"][lot]
    into = (role >= _ROLE["used"]) & (role <= _ROLE["lids"])
    at = np.flatnonzero(into[draw] & _within(state.draws["day"][draw], period))
    line, ev = lots.line[lot[at]], state.draws["ev"][draw[at]]
    about = {"lot": lot[at], "item": state.lots["item"][lot[at]], "share": share[at]}
    # What was received has cost nothing; the batch bears its value, so only the rest leaves here.
    given = line == _LINE["received"]
    cost = lots.cost[lot[at]] * share[at]
    worth = lots.known[lot[at]] * share[at] - np.where(given, cost, 0.0)
    sheet.add("worth", "into batches", line, ev, -worth, **about)
    moved = np.where(given | (line == _LINE["foraged"]), -1, line)
    sheet.add("cost", "into batches", moved, ev, -cost, **about)
    left = np.where(line == _LEFTOVER, line_of_batches(state)[ev], -1)
    sheet.add("cost", "leftovers used up", left, ev, -cost, **about)
    sown = np.flatnonzero((role[draw] == _ROLE["seed"]) & _within(state.draws["day"][draw], period))
    sheet.add(
        "worth", "sown", lots.line[lot[sown]], state.draws["ev"][draw[sown]],
        -lots.known[lot[sown]] * share[sown], lot=lot[sown],
        item=state.lots["item"][lot[sown]], share=share[sown],
    )  # fmt: skip


def _gone(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post what was lost, given away and sold: its worth is not the household's any more."""
    draw, lot, amount = state.allocations
    events, ev = state.journal.tables["events"], state.draws["ev"]
    kind, cause = events["kind"][ev], events["cause"][ev]
    out = np.full(ev.size, -1)
    out[kind == _KIND["discarded"]] = _LINE["lost"]
    missing = state.draws["role"] == len(tables.ROLES)
    out[missing & (cause != _CAUSE["eaten"])] = _LINE["lost"]
    given = kind == _KIND["given_away"]
    out[given] = np.where(cause[given] == _CAUSE["sold"], _LINE["sold"], _LINE["given away"])
    at = np.flatnonzero((out[draw] >= 0) & _within(state.draws["day"][draw], period))
    share = amount[at] / state.lots["whole"][lot[at]]
    where, own = out[draw[at]], lots.line[lot[at]] >= 0
    about = {
        "lot": lot[at],
        "item": state.lots["item"][lot[at]],
        "share": share,
        "ev": ev[draw[at]],
    }
    for name in ("lost", "given away", "sold"):
        line = np.where(own & (where == _LINE[name]), where, -1)
        sheet.add("worth", name, line, value=-lots.known[lot[at]] * share, **about)
    bought = (where == _LINE["sold"]) & (lots.line[lot[at]] == _SHOPPING)
    line = np.where(bought, where, -1)
    sheet.add("cost", "bought and sold", line, value=lots.cost[lot[at]] * share, **about)
    got_ev, got = cash.got(state)
    inside = _within(state.moment.on[got_ev], period)
    line = np.where(events["cause"][got_ev] == _CAUSE["sold"], _LINE["sold"], _LINE["given away"])[
        inside
    ]
    sheet.add("money_in", "money that came", line, got_ev[inside], got[inside])


def _never_eaten(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post what kept too long, and the feed that a glut spared: the animals bear what they ate."""
    late = state.once(uneaten)
    at = np.flatnonzero(_within(late.over, period))
    lot, share = late.lot[at], late.share[at]
    sheet.add(
        "worth", "kept too long", _LINE["kept too long"], state.lots["ev"][lot],
        -lots.known[lot] * share, lot=lot, item=state.lots["item"][lot], share=share,
    )  # fmt: skip
    spared = state.once(fed)
    own = (lots.line[spared.lot] >= 0) & (spared.value > 0)
    at = np.flatnonzero(_within(state.moment.on[spared.ev], period) & own)
    # no more than it was worth at the shop, where that is known
    worth = lots.worth[spared.lot[at]] * spared.share[at]
    value = np.fmin(spared.value[at], np.where(np.isnan(worth), np.inf, worth))
    about = {
        "lot": spared.lot[at],
        "item": state.lots["item"][spared.lot[at]],
        "share": spared.share[at],
    }
    for column, line in (("worth", "lost"), ("cost", "animals")):
        sheet.add(column, "fed in place of feed", _LINE[line], spared.ev[at], value, **about)


def _garden(state: State, lots: Lots, sheet: _Sheet, season: int) -> None:
    """Post the garden inputs that count in the season, as `season` and the jars' costs have them."""
    garden = state.costs.garden
    rows: list[tuple[int, int, int, float]] = []
    for part in garden.parts:
        if part.season != season or not part.money:
            continue
        for crop, share in garden.shares(season, part.crop).items():
            line = _LINE["animals" if lots.animals[crop] else "garden"]
            rows.append((line, part.source.ev, crop, part.money * share))
    lines, evs, crops, money = zip(*rows, strict=True) if rows else ((), (), (), ())
    sheet.add("cost", "garden inputs", lines, np.array(evs, np.int64), np.array(money), item=crops)


def _cash(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post what was paid: garden supplies and kit when bought, ingredients and meters when used."""
    bought = cash.purchases(state)
    inside = np.flatnonzero(_within(bought.day, period))
    line = cash.lines_of_purchases(state, bought, lots.animals, _LINE)[inside]
    sheet.add(
        "money_out", "paid", line, bought.ev[inside], bought.money[inside], item=bought.item[inside]
    )
    draw, lot, amount = state.allocations
    role, sort = state.draws["role"], state.facts.sort
    into = (role >= _ROLE["used"]) & (role <= _ROLE["lids"])
    at = np.flatnonzero(
        (into[draw] | (role[draw] == _ROLE["seed"]))
        & _within(state.draws["day"][draw], period)
        & (lots.line[lot] == _SHOPPING)
    )
    item = state.lots["item"][lot[at]]
    # Lids and fuel out of stock were paid for when they were bought; what nobody wrote down was not.
    stocked = [SORTS.index("lid"), SORTS.index("fuel")]
    kept = at[~np.isin(sort[item], stocked)] if at.size else at
    ev = state.draws["ev"][draw[kept]]
    share = amount[kept] / state.lots["whole"][lot[kept]]
    line = line_of_batches(state)[ev]
    line[role[draw[kept]] == _ROLE["seed"]] = _LINE["garden"]
    sheet.add(
        "money_out", "ingredients used", line, ev, lots.cost[lot[kept]] * share,
        lot=lot[kept], item=state.lots["item"][lot[kept]], share=share,
    )  # fmt: skip
    metered_ev, money = cash.metered(state)
    inside = np.flatnonzero(_within(state.moment.on[metered_ev], period))
    evs = metered_ev[inside]
    sheet.add("money_out", "metered fuel", line_of_batches(state)[evs], evs, money[inside])
    sold = np.flatnonzero(
        (state.journal.tables["events"]["cause"][state.draws["ev"][draw]] == _CAUSE["sold"])
        & _within(state.draws["day"][draw], period)
        & (lots.line[lot] == _SHOPPING)
    )
    share = amount[sold] / state.lots["whole"][lot[sold]]
    sheet.add(
        "money_out", "bought and sold", _LINE["sold"], state.draws["ev"][draw[sold]],
        lots.cost[lot[sold]] * share, lot=lot[sold], item=state.lots["item"][lot[sold]], share=share,
    )  # fmt: skip


def _work(state: State, lots: Lots, sheet: _Sheet, period: tuple[int, int]) -> None:
    """Post the hours of planting, picking and putting up, and what they come to at the rate set."""
    table = state.journal.tables["work"]
    rows = state.moment.rows(state.journal, "work")
    ev, minutes = table["ev"][rows].astype(np.int64), table["minutes"][rows]
    inside = _within(state.moment.on[ev], period)
    ev, minutes = ev[inside], minutes[inside]
    line = line_of_batches(state)[ev]
    on_crops = line < 0
    line[on_crops] = _LINE["garden"]
    animal = _animal_share(state, lots)[ev] * on_crops
    days, at = np.unique(state.moment.on[ev], return_inverse=True)
    rates = [labour_rate(state.settings.on("labour_rate", int(day))) for day in days]
    rate = np.array([np.nan if r is None else r for r in rates])[at] if days.size else minutes
    for to, part in ((line, 1 - animal), (np.full(ev.size, _LINE["animals"]), animal)):
        some = np.flatnonzero(part > 0)
        sheet.add("minutes", "work", to[some], ev[some], (minutes * part)[some], share=part[some])
        paid = some[~np.isnan(rate[some])]
        sheet.add(
            "labour", "work", to[paid], ev[paid], (minutes * part * rate)[paid], share=part[paid]
        )


def _animal_share(state: State, lots: Lots) -> Array:
    """Return which part of a harvest's lines are animal products, by event."""
    table = state.lots
    rows = np.flatnonzero(table["origin"] == _ORIGIN["grown"])
    size = len(state.journal)
    every = np.bincount(table["ev"][rows], minlength=size)
    animal = np.bincount(
        table["ev"][rows], (lots.line[rows] == _LINE["animals"]).astype(float), size
    )
    return np.divide(animal, every, out=np.zeros(size), where=every > 0)
