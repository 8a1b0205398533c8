"""Pay-back of what lasts: jars, canner, freezer, coop; so far, and when at this rate."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Typed, measured, sentence
from ledger.projections.base import Answer, Column
from ledger.questions.shared.common import answer
from ledger.questions.worth_it.durables_figures import figures
from ledger.questions.worth_it.durables_gather import Durables, interest_rate
from ledger.replay import day_number, day_text
from ledger.replay.durables import DEFAULT_YEARS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "Jars, equipment, and garden inputs with `years`, that were bought.", main=True),
    Column("sort", "Sort", "", "jar, equipment or garden input."),
    Column("first_on", "Since", "day", "When the first was bought."),
    Column("pieces", "Pieces", "pieces", "How many were bought so far; null for what is not kept by count."),
    Column("paid", "Paid", "money", "What was paid for all of them so far.", main=True),
    Column("life_years", "Life", "years", "Years that it lasts, as the household says; ten for jars and equipment when nobody says."),
    Column("lasts_until", "Lasts until", "day", "First bought and that life."),
    Column("uses", "Uses", "times", "Loads, jars filled, or seasons' harvests that bore a part of it."),
    Column("charged", "Charged", "money", "Wear that batches and harvests have borne so far."),
    Column("worn_by_age", "Worn by age", "money", "What it has lost if it loses the same every year (straight line, the month of buying counted in full)."),
    Column("earned", "Earned", "money", "What the batches and harvests that it served were worth at shop prices, less what they cost without own time and without wear; shared with whatever else that lasts served with it, by wear. Null where nobody wrote down what it served.", main=True),
    Column("earned_per_year", "A year", "money per year", "The rate: mean of the whole years since it was bought; within the first year what it has earned so far."),
    Column("yearly_cost", "Cost a year", "money per year", "What it costs a year over its life, its price and the interest on it together (capital recovery, nothing left at its end); at the `interest_rate` set for the day of the answer, without one price / life.", main=True),
    Column("gain_per_year", "Gain a year", "money per year", "Earned a year less cost a year; null where nobody wrote down what it served."),
    Column("share_back", "Share back", "share", "Earned / paid: 1 is paid back."),
    Column("back_text", "Back", "", "The same in words, no further than: paid off.", main=True),
    Column("payback_years", "Pay-back", "years", "Years from buying to pay-back, so far or at this rate; null where never at this rate.", main=True),
    Column("paid_back_on", "Paid back", "day", "The day on which it had earned its price; null where it has not.", main=True),
    Column("expected_on", "At this rate", "day", "When it will have; null where it has, or never at this rate.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_FAR = day_number("9998-12-31")


def build(state: State) -> Answer:
    """Return one record a thing that lasts, the dearest first."""
    of = state.once(Durables)
    cells = {name: figure.cells() for name, figure in state.once(figures).items()}
    assumed: dict[str, Assumption] = {}
    records = [
        _record(of, row, {name: column[row] for name, column in cells.items()}, assumed)
        for row in range(of.count)
    ]
    totals: dict[str, Any] = {
        "paid": sum(r["paid"] for r in records),
        "earned": sum(r["earned"] or 0.0 for r in records),
    }
    missing = [_unnamed(r["item"], r["sort"]) for r in records if r["earned"] is None]
    if not records:
        totals = {}
        missing = [sentence("worth-no-durables")]
    if missing:
        totals["missing"] = missing
    if records:
        text = sentence("worth-shared-by-wear")
        assumed["interest"] = _interest(state)
        assumed["shared-by-wear"] = Assumption("shared-by-wear", text, ())
    words = [assumed[one] for one in sorted(assumed)]
    return answer(state, "worth-it", COLUMNS, records, totals=totals, assumptions=words)


def _interest(state: State) -> Assumption:
    rate = interest_rate(state.settings.on("interest_rate", state.as_of_day))
    if rate is None:
        return Assumption("interest", sentence("worth-no-interest"), ())
    text = sentence("worth-interest", n=measured(f"{rate * 100:g}"))
    return Assumption("interest", text, ())


def _unnamed(item: str, sort: str) -> str:
    if sort == "equipment":
        return sentence("worth-served-equipment", item=item, typed=Typed(item))
    if sort == "jar":
        return sentence("worth-served-jar", item=item)
    return sentence("worth-served-crop", item=item)


def _back(record: dict[str, Any], back: int | None) -> str | None:
    """Return how much of its price it has earned, in words: what is paid off is no more than that."""
    if record["earned"] is None:
        return None
    if back is not None:
        return sentence("worth-paid-off")
    return measured(f"{max(record['share_back'] or 0.0, 0.0) * 100:.0f} %")


def _expected(of: Durables, row: int, record: dict[str, Any]) -> str | None:
    """Return the day by which it will have earned its price at this rate."""
    if of.back_on[row] is not None or record["payback_years"] is None:
        return None
    more = (record["paid"] - record["earned"]) / record["earned_per_year"]
    day = of.today + round(more * 365.25)
    return None if day > _FAR else day_text(day)


def _record(
    of: Durables, row: int, known: dict[str, Any], assumed: dict[str, Assumption]
) -> dict[str, Any]:
    facts, item = of.state.facts, int(of.item[row])
    name, ids = facts.names[item], ["shared-by-wear", "interest"]
    if not of.spoken[row]:
        ids.append(f"life:{name}")
        text = sentence("worth-life-assumed", name=name, n=DEFAULT_YEARS)
        assumed[ids[-1]] = Assumption(ids[-1], text, ())
    if of.served[row] and not of.whole_years[row]:
        ids.append("first-year")
        text = sentence("worth-first-year")
        assumed["first-year"] = Assumption("first-year", text, ())
    back = of.back_on[row]
    return {
        **known,
        "why": f"worth-it/durable/{name}",
        "item": name,
        "sort": SORTS[int(facts.sort[item])],
        "first_on": day_text(int(of.first[row])),
        "lasts_until": day_text(of.lasts_until(row)),
        "back_text": _back(known, back),
        "paid_back_on": None if back is None else day_text(back),
        "expected_on": _expected(of, row, known),
        "assumptions": sorted(ids),
    }
