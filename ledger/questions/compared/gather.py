"""What two answers to one question say of each thing: its value and its amount, then and now."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Any

import numpy as np

from ledger.figures import MARKS, Array, Figure, Groups, Opened, method
from ledger.messages import Day, fixed
from ledger.methods.variance import Causes, causes_of_change
from ledger.projections.base import Answer, Column, Compared
from ledger.questions.quantities import unit_of_measure

__all__ = ["Side", "Things", "to_a_millionth"]

_LEAST = 1e-9
"""Amounts below this are none: a price by them would say nothing."""
_BITS = {mark: bits for bits, mark in MARKS.items()}
_STEP, _ZERO = Decimal("0.000001"), Decimal(0)


def to_a_millionth(value: float) -> float:
    """Return money as it is compared: to a millionth of the currency's unit, halves to even."""
    return float(Decimal(repr(float(value))).quantize(_STEP))


@dataclass
class _Thing:
    """One thing in one answer: its records, and what they have of it by unit."""

    records: list[dict[str, Any]] = field(default_factory=list)
    amounts: dict[str, float | None] = field(default_factory=dict)


class Side:
    """One of the two answers: a figure has a row a thing.

    Parameters
    ----------
    answer : Answer
    how : Compared
    name : str
        What it is called: its day, its season or its period.
    asked : str
        The day that is asked about: figures of an answer of another day are opened as of that.
    """

    def __init__(self, answer: Answer, how: Compared, name: str, asked: str) -> None:
        self.answer, self.how, self.name = answer, how, name
        self._before = "" if answer.as_of == asked else f"on:{answer.as_of}/"
        self._columns = {c.name: c for c in answer.columns}
        said = answer.rows() if how.rows is None else how.rows(answer)
        self.without = {str(one[how.key]) for one in said if one.get(how.value) is None}
        self.of: dict[str, _Thing] = {}
        for one in said:
            if one.get(how.value) is not None:
                self._add(self.of.setdefault(str(one[how.key]), _Thing()), one)

    def _add(self, thing: _Thing, said: dict[str, Any]) -> None:
        """Add a record: an amount that one of them does not know, nobody knows of the thing."""
        for unit, name in self._amounts(said).items():
            amount, before = said.get(name), thing.amounts.get(unit) if thing.records else 0.0
            known = amount is not None and before is not None
            thing.amounts[unit] = before + amount if known else None  # type: ignore[operator]
        thing.records.append(said)

    def _amounts(self, said: dict[str, Any]) -> dict[str, str]:
        """Return the columns of a record's amounts by their units."""
        columns = self._columns
        if self.how.unit:
            return {str(said[self.how.unit]): name for name in self.how.amount}
        return {(name in columns and columns[name].unit) or name: name for name in self.how.amount}

    def settle(self, things: list[str], units: list[str | None]) -> None:
        """Make the figures of all things, their amounts in the units that are compared."""
        rows = [(at, said) for at, what in enumerate(things) for said in self.records(what)]
        by = Groups(np.array([at for at, _ in rows], np.int64), len(things))
        money = [to_a_millionth(said[self.how.value]) for _, said in rows]
        of_unit = [self._amounts(said).get(units[at] or "", "") for at, said in rows]
        many = [said[name] if name else 0.0 for (_, said), name in zip(rows, of_unit, strict=True)]
        each = self._leaf(rows, money, "money", [self.how.value] * len(rows))
        amounts = np.array(many, np.float64)
        whole = np.bincount(by.by, amounts, len(things))
        amounts[whole[by.by] <= _LEAST] = 0.0
        unit = _units(units, by_measure=bool(self.how.unit))
        of_it = self._leaf(rows, amounts, lambda row: unit(rows[row][0]), of_unit)
        about: dict[str, Any] = {"what": lambda at: fixed(things[at]), "side": self.name}
        self.value = by.sum(each, "money").called("of-side", **about)
        self.amount = by.sum(of_it, unit).called("of-side", **about)

    def records(self, what: str) -> list[dict[str, Any]]:
        """Return the records of a thing."""
        return self.of[what].records if what in self.of else []

    def assumptions(self, what: str) -> set[str]:
        """Return the ids of what the figures of a thing rest on."""
        return {one for said in self.records(what) for one in said.get("assumptions") or ()}

    def _mark(self, said: dict[str, Any], name: str) -> str:
        """Return what stands before a figure of a record; `rows` may give columns of its own."""
        return self._columns.get(name, Column(name, "", "", "")).mark(said)

    def _leaf(
        self, rows: list[tuple[int, dict[str, Any]]], values: Any, unit: Any, of: list[str]
    ) -> Figure:
        """Return what each record says in a column, a line that is opened by the record's address."""

        def address(row: int) -> tuple[str, str] | None:
            said, column = rows[row][1], of[row]
            where, name = (said.get("addresses") or {}).get(column, (said.get("why"), column))
            return (self._before + where, name) if where else None

        def bounds() -> Array:
            each = zip(rows, of, strict=True)
            return np.array([_BITS[self._mark(said, name)] for (_, said), name in each], np.int8)

        values = np.array(values, np.float64)
        leaf = Figure(lambda: values, unit, lambda _: Opened(), bounds).folds(address)
        if "on" in self._columns:
            return leaf.called(
                "of-day",
                item=lambda row: fixed(str(rows[row][1][self.how.key])),
                day=lambda row: Day(rows[row][1]["on"]),
            )
        return leaf.called(
            "of-side", what=lambda row: fixed(str(rows[row][1][self.how.key])), side=self.name
        )


def _units(units: list[str | None], *, by_measure: bool) -> Callable[[int], str]:
    """Return the unit of each thing's amount in its tree: of what is kept by measure its whole units."""
    said = ["" if one is None else unit_of_measure(one) if by_measure else one for one in units]
    return said.__getitem__


class Things:
    """What is compared, a row a thing.

    Parameters
    ----------
    now, then : Answer
    how : Compared
    names : (str, str), optional
        What then and now are called; default: their days.
    address : callable, optional
        ``address(what)`` gives a record's address.

    Attributes
    ----------
    what : list of str
    unit : list of str or None
        What its amounts are compared in; None where an answer knows none, and it is not split.
    is_split : ndarray of bool, shape (things,)
    then, now : Side
    """

    def __init__(
        self, now: Answer, then: Answer, how: Compared, names: tuple[str, str] | None = None,
        address: Callable[[str], str] | None = None,
    ) -> None:  # fmt: skip
        self.how, self.address = how, address
        names = names or (then.as_of, now.as_of)
        self.then = Side(then, how, names[0], now.as_of)
        self.now = Side(now, how, names[1], now.as_of)
        self.what = list(dict.fromkeys((*self.now.of, *self.then.of)))
        self.unit = [self._unit(what) for what in self.what]
        self.is_split = np.array([unit is not None for unit in self.unit], bool)
        for side in (self.then, self.now):
            side.settle(self.what, self.unit)

    def _unit(self, what: str) -> str | None:
        """Return the first unit that both answers know; None of what is worth something without any of it."""
        there = [side.of[what] for side in (self.then, self.now) if what in side.of]
        known = (
            u for u in there[0].amounts if all(one.amounts.get(u) is not None for one in there)
        )
        unit = next(known, None)
        if unit is None:
            return None
        for one in there:
            value = sum(to_a_millionth(said[self.how.value]) for said in one.records)
            if to_a_millionth(value) and not (one.amounts[unit] or 0.0) > _LEAST:
                return None
        return unit

    def every(self, side: Side, column: str) -> Figure:
        """Return, of each thing, the amount of all that is split with it; each opened by its `column`."""
        known = list(dict.fromkeys(unit for unit in self.unit if unit is not None))
        group = np.array([known.index(u) if u is not None else -1 for u in self.unit], np.int64)

        def address(at: int) -> tuple[str, str] | None:
            return (self.address(self.what[at]), column) if self.address else None

        unit = _units([*known], by_measure=bool(self.how.unit))
        whole = Groups(group, len(known)).sum(side.amount.folds(address), unit)
        return whole.called("all-of-side", side=side.name).at(group)

    @cached_property
    def _causes(self) -> list[Causes]:
        """The causes of each change, in exact fractions, rounded so that they add up."""
        found: dict[str, Causes] = {}
        for unit in dict.fromkeys(unit for unit in self.unit if unit is not None):
            here = [at for at, one in enumerate(self.unit) if one == unit]
            found |= causes_of_change(self._table(self.then, here), self._table(self.now, here)).items  # fmt: skip
        none = Causes(_ZERO, _ZERO, _ZERO, _ZERO)
        return [found.get(what, none) for what in self.what]

    def _table(self, side: Side, here: list[int]) -> dict[str, tuple[float, Fraction]]:
        """Return the amount and the exact price of what there was of some things."""
        out = {}
        for at in here:
            amount, value = side.amount.value(at), to_a_millionth(side.value.value(at))
            if amount:
                price = Fraction(repr(value)) / Fraction(repr(amount))
                out[self.what[at]] = amount, price
        return out

    def rounded(self, cause: str, exact: Figure) -> Figure:
        """Return a cause to a millionth, as exact fractions give it: so the causes add up exactly."""

        def work() -> Array:
            return np.array([float(getattr(one, cause)) for one in self._causes], np.float64)

        return method(work, "money", "exact-causes", [exact], lambda: exact.bound)
