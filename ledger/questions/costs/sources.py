"""Columns of the replay as figures, each with the events that say it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    Opened,
    choose,
    known_where,
    published,
    said,
    unpriced,
)
from ledger.items import item_key
from ledger.messages import Choice
from ledger.questions.quantities import whole_unit
from ledger.questions.shared.held import held_in
from ledger.questions.telling import event_line

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["UNITS_BY", "Sources"]

UNITS_BY = "C1"
"""Source of unit factors (docs/sources.md): UCUM 2.2."""


class Sources:
    """The columns of one state that figures begin with.

    Attributes
    ----------
    amount, jars : Figure
        Of each lot: whole units, and jars.
    taken, share_taken : Figure
        Of each allocation: what was taken, in whole units, and the part of its lot, 0 to 1.
    minutes : Figure
        Of each event: minutes of work written down with it.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        lots, ev = state.lots, state.lots["ev"]
        draw, lot, amount = state.allocations
        self.amount = said(lots["whole"], self.whole_of(lots["item"]), ev)
        self.jars = said(state.once(held_in).jars, "jars", ev)
        self.taken = said(amount, self.whole_of(lots["item"][lot]), state.draws["ev"][draw])
        whole = self.amount.at(lot).called("the-lot")
        self.share_taken = (self.taken.called("taken-amount") / whole).called("taken-share")

    @cached_property
    def left(self) -> Figure:
        """What is left of each lot, in whole units."""
        _, lot, _ = self.state.allocations
        count = self.state.lots["ev"].size
        whole = self.amount.called("the-lot")
        gone = Groups(lot, count).sum(self.taken, whole.unit).called("gone")
        touched = np.bincount(lot, minlength=count) > 0
        return choose(touched, (whole - gone).called("left-of-it"), whole)

    def whole_of(self, item: Array) -> Callable[[int], str]:
        """Return the unit of whole amounts of each row's item."""
        return lambda row: whole_unit(self.state, int(item[row]))

    def name_of(self, item: Array) -> Callable[[int], str]:
        """Return the name of each row's item."""
        return lambda row: self.state.facts.names[int(item[row])]

    # -- prices -------------------------------------------------------------------------

    def price(self, item: Array, price: Array, ev: Array) -> Figure:
        """Return money per whole unit, 0 or more where no price is known.

        Parameters
        ----------
        item, ev : ndarray of int, shape (rows,)
        price : ndarray of float, shape (rows,)
        """
        unit = self._per_whole(item)
        name = self.name_of(item)
        none = unpriced(unit, name, item.size).called("unpriced", item=name)
        return choose(ev >= 0, said(price, unit, ev), none)

    def shop_price(self, item: Array, price: Array, ev: Array, later: Array) -> Figure:
        """Return the shop's money per whole unit; it cannot be said where no price is known."""
        known = said(price, self._per_whole(item), ev)
        told = known.called("price-later", told=lambda row: event_line(self.state, int(ev[row])))
        return known_where(ev >= 0, choose(later, told, known), "no-price")

    def _per_whole(self, item: Array) -> Callable[[int], str]:
        return lambda row: f"money per {whole_unit(self.state, int(item[row]))}"

    # -- settings and facts -------------------------------------------------------------

    @cached_property
    def _settings(self) -> dict[str, list[int]]:
        """Return the events that set each setting, in the order in which they hold."""
        out: dict[str, list[int]] = {}
        for ev, body in self.state.bodies("setting_changed"):
            out.setdefault(body["name"], []).append(ev)
        return out

    def newest(self, name: str) -> int:
        """Return the event that set a setting last; -1: none did."""
        return self._settings.get(name, [-1])[-1]

    def setting(
        self, name: str, day: Array, read: Callable[[str | None], float | None], unit: str
    ) -> Figure:
        """Return a setting as a number on each day, NaN where `read` makes none of it."""
        settings = self.state.settings
        ev = np.array(self._settings.get(name) or [-1], np.int64)
        days = settings.days(name) or [0]
        at = np.maximum(np.searchsorted(days, day, side="right") - 1, 0)
        return said(lambda: settings.numbers(name, day, read), unit, ev[at])

    @cached_property
    def newest_of(self) -> dict[int, int]:
        """The event that counts of each entry, by the place of the entry's first event."""
        counted = np.flatnonzero(self.state.moment.rank >= 0)
        roots = self.state.moment.root[counted]
        return dict(zip(roots.tolist(), counted.tolist(), strict=True))

    @cached_property
    def described(self) -> dict[tuple[int, str], int]:
        """The event that last said a weight, an energy or how long it keeps of each item, by the field."""
        facts, out = self.state.facts, {}
        told = dict(self.state.bodies("item_described"))
        for ev in sorted(told, key=lambda ev: int(self.state.moment.root[ev])):
            number = facts.number.get(facts.canonical(item_key(told[ev]["item"])))
            for name in ("g_per", "g_per_ml", "kcal_per_100g", "keeps"):
                if number is not None and told[ev].get(name):
                    out[number, name] = ev
        return out

    def weight(self, item: Array) -> Figure:
        """Return grams in one whole unit of each row's item; NaN where no weight is known."""
        facts = self.state.facts

        def opens(row: int) -> Opened:
            number = int(item[row])
            measure = facts.measure[number]
            if measure == "mass":
                return Opened(source=UNITS_BY)
            found = facts.weights(number).per_whole(measure)
            if found is None:
                return Opened(label="no-weight")
            if found.document:
                return Opened(source=found.document)
            own = int(facts.item_of[number])
            by_ml = measure == "volume" and facts.facts[number].g_per_ml is not None
            return Opened(event=self.described.get((own, "g_per_ml" if by_ml else "g_per"), -1))

        known = ~np.isnan(facts.grams[item]) if item.size else np.zeros(0, bool)
        column = Figure(
            lambda: facts.grams[item] if item.size else np.zeros(0),
            lambda row: f"g per {whole_unit(self.state, int(item[row]))}",
            opens,
        )
        said_by = {"mass": Choice("mass"), "volume": Choice("volume")}
        named = column.called(
            "grams-in-one",
            by=lambda row: said_by.get(facts.measure[int(item[row])], Choice("count")),
        )
        return known_where(known, named, "no-weight")

    # -- work ---------------------------------------------------------------------------

    @cached_property
    def minutes(self) -> Figure:
        """Minutes of work of each event, shape (events,)."""
        table, size = self.state.journal.tables["work"], len(self.state.journal)
        values = np.bincount(table["ev"], table["minutes"], size)
        return said(values, "minutes", np.arange(size))


def unit_factor(value: float, unit: str, label: str) -> Figure:
    """Return a factor between units, as published."""
    return published(value, unit, UNITS_BY).called(label)
