"""The same question at two dates: what changed, and how much of it is price, amount and mix.

A question takes part by naming the columns to compare in its `Projection` (`Compared`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from math import fsum
from typing import Any

from ledger.amounts import format_whole
from ledger.figures import MARKS, Figure
from ledger.messages import Day, Names, Sentence, joined, measured, sentence, units
from ledger.projections.base import Answer, Assumption, Column, cells_of
from ledger.questions.compared.figures import figures
from ledger.questions.compared.gather import Things, to_a_millionth
from ledger.questions.shared.common import LISTED_FROM, number

__all__ = ["COLUMNS", "compare"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`; null where the two answers were not asked of a book."),
    Column("what", "What", "", "What is compared: a crop, an item, an origin.", main=True),
    Column("in_words.then", "Then", "", "How much of it there was then, in words.", main=True),
    Column("in_words.now", "Now", "", "How much of it there is now, in words.", main=True),
    Column("value_then", "Then", "money", "Its value then; 0 where it was not there.", main=True),
    Column("value_now", "Now", "money", "Its value now.", main=True),
    Column("difference", "Change", "money", "Now less then: price, amount, mix and not split add up to it exactly.", main=True),
    Column("from_price", "Price", "money", "Amount now x (price now - price then).", main=True),
    Column("from_amount", "Amount", "money", "(All amounts now / all amounts then - 1) x value then: as if all had grown alike.", main=True),
    Column("from_mix", "Mix", "money", "The rest: that there is more of this and less of that; all of what is new.", main=True),
    Column("not_split", "Not split", "money", "Change of what has no amount that both answers know."),
    Column("amount_then", "Amount then", "", "In `unit`; null where no amount is known."),
    Column("amount_now", "Amount now", "", "In `unit`."),
    Column("unit", "Unit", "", "Unit of the amounts; what shares one is split together."),
    Column("price_then", "Price then", "money per unit", "Value by amount; null where there was none of it."),
    Column("price_now", "Price now", "money per unit", "Value by amount."),
    Column("bounds", "Bounds", "", "By column: ≥ where the figure is that much or more, ≤ that much or less, ≈ either, for want of a price; the others are exact."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_MONEY = (
    "value_then",
    "value_now",
    "difference",
    "from_price",
    "from_amount",
    "from_mix",
    "not_split",
)
"""What is told to a millionth, so that the causes add up as they are printed."""


def compare(things: Things, measures: str = "us") -> Answer:
    """Return the difference between two answers to one question, and its causes.

    Amounts of one unit are split together; what has no amount in both answers is shown unsplit.
    The causes are those of `ledger.methods.variance.causes_of_change`, and add up exactly in
    millionths of the currency's unit; a record gives them as floats, which show some 15 digits.

    Parameters
    ----------
    things : Things
    measures : {'us', 'uk', 'metric'}
        For amounts in words.

    Returns
    -------
    Answer
        One record a thing, the largest change first, columns as in `COLUMNS`.
    """
    known = figures(things)
    records = [_record(things, known, row, measures) for row in range(len(things.what))]
    records.sort(key=lambda r: (-abs(r["difference"]), r["what"]))
    is_split = bool(things.is_split.all())
    columns = tuple(replace(c, main=not is_split) if c.name == "not_split" else c for c in COLUMNS)
    now, then = things.now.answer, things.then.answer
    notes: dict[str, Assumption] = {a.id: a for a in (*then.assumptions, *now.assumptions)}
    used = {one for record in records for one in record["assumptions"]}
    return Answer(
        name=now.name,
        as_of=now.as_of,
        known_at=now.known_at,
        currency=now.currency,
        columns=columns,
        cells=cells_of(columns, records),
        totals=_totals(things, records),
        assumptions=[a for a in notes.values() if a.id in used],
    )


def _record(things: Things, known: Mapping[str, Figure], row: int, measures: str) -> dict[str, Any]:
    what, unit = things.what[row], things.unit[row]
    values = {name: number(one.value(row)) for name, one in known.items()}
    marks = {name: MARKS[one.bound_of(row)] for name, one in known.items()}
    money = {name: v if (v := values[name]) is None else to_a_millionth(v) for name in _MONEY}
    return {
        **values,
        **money,
        "why": None if things.address is None else things.address(what),
        "what": what,
        "unit": unit,
        "in_words.then": _say(values["amount_then"], unit, measures),
        "in_words.now": _say(values["amount_now"], unit, measures),
        "bounds": {name: mark for name, mark in marks.items() if mark},
        "assumptions": sorted(things.then.assumptions(what) | things.now.assumptions(what)),
    }


_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_PRICES = {"price": "compare-price", "net per hour": "compare-net-per-hour"}
"""How the part of a price in a change is said, by what the price is called."""
_MEASURES = {"g": ("mass", 1000), "ml": ("volume", 1000)}


def _say(amount: float | None, unit: str | None, measures: str) -> str | None:
    if amount is None or unit is None:
        return None
    measure, per = _MEASURES.get(unit, (unit, 1))
    if 0 < amount * per < LISTED_FROM.get(measure, 0):
        return sentence("compare-hardly")
    if measure in ("mass", "volume", "count", "energy"):
        return units.amount(format_whole(round(amount * per), measure, measures=measures))
    return units.amount(f"{amount:,.3g} {unit}")


def _totals(things: Things, records: list[dict[str, Any]]) -> dict[str, Any]:
    sums = {name: to_a_millionth(fsum(r[name] or 0.0 for r in records)) for name in _MONEY}
    causes = {
        _PRICES[things.how.price]: sums["from_price"],
        "compare-amount": sums["from_amount"],
        "compare-mix": sums["from_mix"],
    }
    if sums["not_split"]:
        causes["compare-not-split"] = sums["not_split"]
    said = Names(tuple(sentence(id_, n=measured(f"{n:+,.2f}")) for id_, n in causes.items()))
    then, now, names = sums["value_then"], sums["value_now"], (things.then.name, things.now.name)
    sides = {
        "what": sentence(things.how.what),
        "n": measured(f"{then:,.2f}"),
        "when": _when(names[0]),
        "n2": measured(f"{now:,.2f}"),
        "when2": _when(names[1]),
        "n3": measured(f"{abs(sums['difference']):,.2f}"),
    }
    more = sentence("compare-more", **sides) if now >= then else sentence("compare-less", **sides)
    words = joined(" ", [more, sentence("compare-of-that", list=said)])
    left_out = tuple(sorted(things.then.without | things.now.without))
    return {
        "then": names[0],
        "now": names[1],
        **sums,
        "in_words": [words if records else sentence("compare-nothing")],
        "missing": [sentence("compare-no-value", names=Names(left_out))] if left_out else [],
    }


def _when(name: str) -> str:
    """Return what a side is called: its day as the language writes it, or its season."""
    is_day = not isinstance(name, Sentence) and _DAY.fullmatch(name)
    return sentence("compare-on", day=Day(name)) if is_day else name
