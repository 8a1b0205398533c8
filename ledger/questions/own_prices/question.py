"""What did prices do to our own basket: the same as before, today's, and between the two?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Day, fixed, sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.own_prices.figures import OwnPrices
from ledger.questions.own_prices.gather import Basket, Period, periods_of
from ledger.questions.own_prices.why import why
from ledger.questions.quantities import decimals
from ledger.questions.shared.common import answer
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was bought and used in both periods; all: the index of them together.", main=True),
    Column("price_0", "Before", "money a whole unit", "Mean price paid, else seen, in the earlier period, a mg, ul or thousandth."),
    Column("price_1", "Now", "money a whole unit", "The same in the later period."),
    Column("quantity_0", "Used before", "whole units", "Of what was bought, used in the earlier period."),
    Column("quantity_1", "Used now", "whole units", "The same in the later period."),
    Column("change", "Price", "index", "Price now / before, the earlier period being 100.", main=True),
    Column("share", "Of spending", "0 to 1", "Its part of what was used now, at its prices; of all the part of everything used that was bought.", main=True),
    Column("laspeyres", "Same basket", "index", "Of all: the earlier basket at both prices (Laspeyres).", main=True, rare=True),
    Column("paasche", "Today's basket", "index", "Of all: the later basket at both prices (Paasche).", main=True, rare=True),
    Column("fisher", "Between", "index", "Of all: the root of their product (Fisher), the headline; null below 70 per cent of spending.", main=True, rare=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, year: str | int | None = None, base: str | int | None = None) -> Answer:
    """Return one record an item priced in both periods, and one of them together.

    Parameters
    ----------
    state : State
    year, base : text or int, optional
        Calendar years, the later and the earlier; default the last 365 days against those before.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When a year is none, or the base is not before the other.
    """
    before, now, address = periods_of(state, year, base)
    basket = Basket(state, before, now)
    known = OwnPrices(basket, address)
    cells = {name: figure.cells() for name, figure in known.of.items()}
    together = {name: figure.cells()[0] for name, figure in known.all.items()}
    value = together.pop("value_index")
    records: list[dict[str, Any]] = [
        {
            **{name: column[row] for name, column in cells.items()},
            "why": f"own-prices/{address}/{basket.names[row]}",
            "item": state.facts.names[basket.items[row]],
            "assumptions": ["prices"],
        }
        for row in basket.rows.tolist()
    ]
    records.sort(key=lambda r: (-(r["share"] or 0.0), r["item"]))
    if records:
        records.insert(0, {
            **together, "why": f"own-prices/{address}/all", "item": fixed("all", "item"),
            "assumptions": ["prices", "fisher"],
        })  # fmt: skip
    totals = {
        "from": day_text(before.start),
        "to": day_text(now.end),
        "value_index": value,
        "in_words": _words(together, before, now),
    }
    if not records:
        totals["missing"] = [sentence("prices-nothing-bought-used-both-periods")]
    return answer(state, "own-prices", COLUMNS, records, totals=totals, assumptions=_notes())


def _words(together: dict[str, float | None], before: Period, now: Period) -> list[str]:
    low, middle = together["laspeyres"], together["fisher"]
    if low is None:
        return []
    span = sentence(
        "prices-span",
        day=Day(day_text(now.start)),
        day2=Day(day_text(now.end)),
        day3=Day(day_text(before.start)),
        day4=Day(day_text(before.end)),
    )
    part = round((together["share"] or 0) * 100)
    if middle is None:
        return [sentence("prices-too-few", n=part, span=span)]
    return [
        sentence("prices-index", index=decimals(middle, 1), span=span, low=decimals(low, 1), n=part)
    ]


def _notes() -> list[Assumption]:
    return [
        Assumption(
            "prices",
            sentence("prices-prices-mean-paid-amount-each"),
        ),
        Assumption(
            "fisher",
            sentence("prices-headline-lies-between-two-baskets"),
        ),
    ]


PROJECTION = Projection(
    name="own-prices",
    title="Our prices",
    question="What did prices do to our own basket?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("year", "a calendar year instead of the last 365 days", "2026"),
        Option("base", "the earlier year that it is set against", "2025"),
    ),
)
