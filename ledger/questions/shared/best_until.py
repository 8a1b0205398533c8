"""Until when a lot is at its best: the household's word, else the early end of the published period."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.messages.units import amount
from ledger.methods.supply import past_best
from ledger.published.keeping import Keeping
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.use_by import Term, days_of, opened_on, term_of
from ledger.questions.shared.use_past import UsePast

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["BestUntil", "Late", "best_until", "late_lots"]


@dataclass(frozen=True)
class BestUntil:
    """The day until which a lot is at its best.

    Attributes
    ----------
    day : int
        Days since 1970.
    published : bool
        Whether it is the published period, as the household says nothing.
    term : Term
        What it is counted from.
    """

    day: int
    published: bool
    term: Term

    @property
    def said(self) -> str:
        """Where it comes from, in words."""
        said = self.term.said
        return said if self.term.source else sentence("keeps-household", span=said)


def best_until(state: State, lot: int) -> BestUntil | None:
    """Return until when a lot is at its best; None where neither says.

    An open jar and leftovers have their short lives: from the day on which something was last
    taken, or on which they were put away.
    """
    own = term_of(state, lot)
    if own is not None:
        return BestUntil(own.day, False, own)
    keeping = keeping_of(state, lot)
    if keeping is None:
        return None
    opened = opened_on(state, lot)
    start = int(state.lots["day"][lot]) if opened is None else opened
    end = days_of(start, keeping.low)
    if end is None:
        return None
    term = Term(
        end, partial(_published, keeping), start, opened is not None, keeping.low, keeping.source
    )
    return BestUntil(end, True, term)


def _published(keeping: Keeping) -> str:
    return sentence(
        "keeps-published",
        text=keeping.text,
        span=amount(keeping.span),
        source=keeping.source,
    )


@dataclass(frozen=True)
class Late:
    """How much of a lot would be eaten after its best; whole units / 1000."""

    lot: int
    until: BestUntil
    amount: float


def late_lots(
    state: State, known: list[tuple[int, BestUntil | None]], use: UsePast, row: int
) -> list[Late] | None:
    """Return the lots of an item of which some passes its best, the earliest first.

    What has the nearest day is eaten first, at the use expected for those weeks.

    Parameters
    ----------
    known : list of (int, BestUntil or None)
        The lots of the item, each with the day until which it is at its best.

    Returns
    -------
    list of Late or None
        None where too little is known of its use to say.
    """
    dated = [(lot, until) for lot, until in known if until is not None]
    if not dated:
        return []
    if use.too_few(row):
        return None
    weeks = [max(until.day - state.as_of_day, 0) / 7 for _, until in dated]
    ahead = use.ahead[row]
    eaten = [0.0] * len(weeks) if ahead is None else ahead.expected(weeks).tolist()
    amounts = [float(state.left[lot]) / 1000 for lot, _ in dated]
    late = past_best(amounts, eaten, 1.0)  # time is counted in amounts eaten by then
    least = 1e-9 * max(amounts)
    out = [
        Late(lot, until, amount)
        for (lot, until), amount in zip(dated, late, strict=True)
        if amount > least
    ]
    return sorted(out, key=lambda one: (one.until.day, one.lot))
