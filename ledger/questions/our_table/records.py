"""The answer's cells: figures as records, the ratios of the whole time, and what they rest on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.figures import Array, Figure
from ledger.messages.units import amount_later
from ledger.methods.ratios import ratio
from ledger.questions.food import BASES, SIX, FoodFigures
from ledger.questions.our_table.balance import Accounts
from ledger.questions.our_table.figures import figures, needed
from ledger.questions.our_table.gather import Need, Table
from ledger.questions.our_table.marks import Mark, Marks, is_lacking, rests_on
from ledger.questions.our_table.words import in_words, missing_of
from ledger.questions.periods import Period

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Answered", "Asked"]

_NOTHING = 1e-12
"""Share of a period's total below which an origin is what rounding leaves, and not listed."""


@dataclass(frozen=True)
class Asked:
    """What is asked: periods, and what stands in their way."""

    periods: list[Period]
    whole: Period | None
    says: str | None = None


class Answered:
    """Records and totals of one question: the figures as cells, and the names beside them."""

    def __init__(self, state: State, food: FoodFigures, asked: Asked) -> None:
        self.state, self.food, self.asked = state, food, asked
        self.currency = state.settings.newest("currency") or "USD"
        self.measures = state.settings.newest("measures", "us") or "us"
        self.table = Table(state, asked.periods)
        self.marks = self.table.marks
        self.figures = {basis: figures(self.table, basis) for basis in BASES}
        self.amounts = np.stack([self._of(basis, "amount") for basis in BASES], axis=1)
        self.used: set[str] = set()

    def _of(self, basis: str, column: str) -> Array:
        """Return a figure of all origins, shape (periods, 6); what cannot be said is 0."""
        known = self.figures[basis]
        several = [known[one][column].values for one in SIX]
        return np.asarray(np.nan_to_num(np.stack(several, axis=1)))

    @property
    def off(self) -> Array:
        """What feed from elsewhere made of the grown, shape (periods, 3)."""
        if not self.table.has_fed:
            return np.zeros((len(self.asked.periods), len(BASES)))
        of_grown = [self.figures[basis]["grown"]["bought_feed"].values for basis in BASES]
        return np.stack(of_grown, axis=1)

    def records(self, bases: tuple[str, ...]) -> list[dict[str, Any]]:
        """Return the records, flat."""
        cells = {
            (basis, origin): {
                name: _cells(one) for name, one in columns.items() if name != "bought_feed"
            }
            for basis in bases
            for origin, columns in self.figures[basis].items()
        }
        out = []
        for number, period in enumerate(self.asked.periods):
            shown = self._origins(number)
            for basis in bases:
                for i in shown:
                    known = {name: one[number] for name, one in cells[basis, SIX[i]].items()}
                    out.append(self._record(number, period, basis, i, known))
        return out

    def _origins(self, number: int) -> list[int]:
        """Return the origins to list: grown, bought, and those of which anything was eaten."""
        row = self.amounts[number]
        some = (row > row.sum(axis=1, keepdims=True) * _NOTHING).any(axis=0).tolist()
        marked = {mark[2] for mark in self.marks[number] if mark[0].startswith("no ")}
        return [
            i
            for i, name in enumerate(SIX)
            if name in ("grown", "bought") or some[i] or (i in marked and not row[:, i].any())
        ]

    def _record(
        self, number: int, period: Period, basis: str, i: int, known: dict[str, float | None]
    ) -> dict[str, Any]:
        ids = sorted(f"{kind}:{name}" for kind, name, _ in rests_on(self.marks[number], basis, i))
        self.used.update(ids)
        amount = self.figures[basis][SIX[i]]["amount"]
        return {
            "why": f"our-table/{period.address}/{basis}/{SIX[i]}",
            "period": period.label,
            "basis": basis,
            "origin": SIX[i],
            "unit": {"energy": "kcal", "weight": "g"}.get(basis, self.currency),
            "text": self._said(known["amount"], basis),
            "share_of_need": None,
            **known,
            "at_least": known["amount"] is None or amount.bound_of(number) > 0,
            "assumptions": ids,
        }

    def _said(self, amount: float | None, basis: str) -> str | None:
        if amount is None:
            return None
        if basis == "weight":
            text = format_whole(round(amount * 1000), "mass", measures=self.measures)
        else:
            text = f"{amount:,.0f} kcal" if basis == "energy" else f"{amount:,.2f} {self.currency}"
        return amount_later(text)

    def totals(self) -> dict[str, Any]:
        """Return the two ratios of the whole time, what they are made of, and what is missing."""
        whole, periods = self.asked.whole, self.asked.periods
        accounts = self.state.once(Accounts)
        missing = [] if self.asked.says is None else [self.asked.says]
        out: dict[str, Any] = {}
        if whole is not None and periods:
            # Periods in which nothing was eaten are left out: the others are the whole.
            amounts, off = self.amounts.sum(axis=0), self.off.sum(axis=0)
            need = self._need(whole)
            out = self._ratios(amounts, off, set().union(*self.marks))
            out["eaten"] = dict(zip(BASES, amounts.sum(axis=1).tolist(), strict=True))
            out["of_need"] = {"grown": ratio(float(amounts[0, 0]), need), "all eaten": ratio(float(amounts[0].sum()), need)}  # fmt: skip
            out["need_kcal"] = need
            out["days"], out["days_eaten"] = whole.days, self.days_eaten(whole)
            missing += missing_of(self.food, accounts, whole, out["days_eaten"], need)
        if whole is not None:
            balances = accounts.of(whole)
            out["production_based"] = {basis: one.ratio for basis, one in balances.items()}
            out["accounts"] = {basis: one.to_dict() for basis, one in balances.items()}
        if len(periods) > 1:
            needs = _cells(needed(self.table.need))
            out["periods"] = [self._of_period(n, need) for n, need in enumerate(needs)]
        return {**out, "in_words": in_words(out), "missing": missing}

    def days_eaten(self, whole: Period) -> int:
        """Return on how many days of a period something eaten is written down."""
        day = self.food.eaten.day - whole.start
        inside = day[(day >= 0) & (day < whole.days)]
        return int(np.count_nonzero(np.bincount(inside)))

    def _need(self, whole: Period) -> float | None:
        return _cells(needed(Need(self.state, [whole])))[0]

    def _of_period(self, number: int, need: float | None) -> dict[str, Any]:
        """Return the ratios of one period of several."""
        period = self.asked.periods[number]
        accounts = self.state.once(Accounts).of(period)
        return {
            "period": period.label,
            **self._ratios(self.amounts[number], self.off[number], self.marks[number]),
            "production_based": {basis: one.ratio for basis, one in accounts.items()},
            "need_kcal": need,
        }

    def _ratios(self, amounts: Array, off: Array, marks: set[Mark]) -> dict[str, Any]:
        """Return the eaten-based shares by basis, and the same adjusted for feed."""
        own, adjusted = {}, {}
        is_open = any(mark[0] == "feed" for mark in marks)
        for i, basis in enumerate(BASES):
            grown, total = float(amounts[i, 0]), float(amounts[i].sum())
            blind = not grown and is_lacking(rests_on(marks, basis, 0))
            own[basis] = None if blind else ratio(grown, total)
            adjusted[basis] = None if blind or is_open else ratio(grown - float(off[i]), total)
        return {"eaten_based": own, "feed_adjusted": adjusted}

    def assumptions(self) -> list[Assumption]:
        """Return what the records rest on, in words."""
        return [self.state.once(Marks).assumption(one) for one in sorted(self.used)]


def _cells(figure: Figure) -> list[float | None]:
    """Return a figure as cells: None where nothing can be said."""
    return [None if math.isnan(value) else value for value in figure.values.tolist()]
