"""The same question at two dates: what changed, and how much of it is price, amount and mix.

A question takes part by naming the columns to compare in its `Projection` (`Compared`).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

from ledger.amounts import format_whole
from ledger.messages import Day, Names, Sentence, joined, measured, sentence, units
from ledger.methods.variance import Causes, causes_of_change
from ledger.projections.base import Answer, Assumption, Column, Compared, cells_of
from ledger.questions.shared.common import LISTED_FROM

__all__ = ["COLUMNS", "Entry", "Side", "compare", "entries_of", "groups_of", "split"]

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
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_STEP = Decimal("0.000001")
_LEAST = 1e-9
"""Amounts below this are none: a price by them would say nothing."""


@dataclass
class Side:
    """One thing in one of the two answers: its value, and its amount by unit."""

    value: Decimal = Decimal(0)
    amounts: dict[str, float | None] = field(default_factory=dict)
    addresses: list[tuple[str, Decimal]] = field(default_factory=list)
    assumptions: set[str] = field(default_factory=set)
    is_there: bool = False


@dataclass
class Entry:
    """One thing in both answers, with the unit that its amounts are compared in (None: none)."""

    what: str
    then: Side
    now: Side
    unit: str | None
    causes: Causes | None = None

    def amount(self, side: Side) -> float:
        """Return the amount of a side in the entry's unit; 0 where it is not there."""
        amount = 0.0 if self.unit is None else (side.amounts.get(self.unit) or 0.0)
        return amount if amount > _LEAST else 0.0

    def price(self, side: Side) -> Fraction | None:
        """Return value by amount; None where there is none of it."""
        amount = self.amount(side)
        return Fraction(side.value) / Fraction(repr(amount)) if amount else None


def compare(
    now: Answer,
    then: Answer,
    how: Compared,
    *,
    names: tuple[str, str] | None = None,
    address: Callable[[str], str] | None = None,
    measures: str = "us",
) -> Answer:
    """Return the difference between two answers to one question, and its causes.

    Amounts of one unit are split together; what has no amount in both answers is shown unsplit.
    The causes are those of `ledger.methods.variance.causes_of_change`, and add up exactly in
    millionths of the currency's unit; a record gives them as floats, which show some 15 digits.

    Parameters
    ----------
    now, then : Answer
    how : Compared
        Which columns name a thing, its amount and its value.
    names : (str, str), optional
        What then and now are called; default: their days.
    address : callable, optional
        ``address(what)`` gives a record's address.
    measures : {'us', 'uk', 'metric'}
        For amounts in words.

    Returns
    -------
    Answer
        One record a thing, the largest change first, columns as in `COLUMNS`.
    """
    entries = entries_of(now, then, how)
    for several in groups_of(entries).values():
        split(several)
    entries.sort(key=lambda e: (-abs(e.now.value - e.then.value), e.what))
    records = [_record(entry, measures) for entry in entries]
    begins, ends = names or (then.as_of, now.as_of)
    for record in records:
        record["why"] = None if address is None else address(record["what"])
    is_split = all(entry.causes is not None for entry in entries)
    columns = tuple(replace(c, main=not is_split) if c.name == "not_split" else c for c in COLUMNS)
    known: dict[str, Assumption] = {a.id: a for a in (*then.assumptions, *now.assumptions)}
    used = {one for record in records for one in record["assumptions"]}
    return Answer(
        name=now.name,
        as_of=now.as_of,
        known_at=now.known_at,
        currency=now.currency,
        columns=columns,
        cells=cells_of(columns, records),
        totals=_totals(entries, how, (begins, ends), _left_out(now, then, how)),
        assumptions=[a for a in known.values() if a.id in used],
    )


def entries_of(now: Answer, then: Answer, how: Compared) -> list[Entry]:
    """Return every thing of the two answers; records without a value are left out."""
    before, after = _sides(then, how), _sides(now, how)
    out = []
    for what in dict.fromkeys((*after, *before)):
        one, two = before.get(what, Side()), after.get(what, Side())
        there = [side for side in (one, two) if side.is_there]
        units = [u for u in there[0].amounts if all(s.amounts.get(u) is not None for s in there)]
        entry = Entry(what, one, two, units[0] if units else None)
        if any(side.value and not entry.amount(side) for side in there):
            entry.unit = None  # worth something, but none of it: no price
        out.append(entry)
    return out


def groups_of(entries: list[Entry]) -> dict[str, list[Entry]]:
    """Return the entries whose amounts can be added up, by unit."""
    out: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.unit is not None:
            out.setdefault(entry.unit, []).append(entry)
    return out


def _sides(answer: Answer, how: Compared) -> dict[str, Side]:
    rows: Callable[[Answer], list[dict[str, Any]]] = how.rows or _rows
    units = {c.name: c.unit for c in answer.columns}
    out: dict[str, Side] = {}
    for row in rows(answer):
        value = row.get(how.value)
        if value is None:
            continue
        side = out.setdefault(str(row[how.key]), Side())
        exact = Decimal(repr(float(value))).quantize(_STEP)
        side.value += exact
        side.assumptions.update(row.get("assumptions") or ())
        if row.get("why"):
            side.addresses.append((str(row["why"]), exact))
        for name in how.amount:
            unit = str(row[how.unit]) if how.unit else units.get(name) or name
            amount = row.get(name)
            if not side.is_there:
                side.amounts[unit] = amount
            else:
                before = side.amounts.get(unit)
                known = before is not None and amount is not None
                side.amounts[unit] = before + amount if known else None  # type: ignore[operator]
        side.is_there = True
    return out


def _rows(answer: Answer) -> list[dict[str, Any]]:
    return answer.rows()


def split(several: list[Entry]) -> None:
    """Give entries of one unit the causes of their change."""

    def table(name: str) -> dict[str, tuple[float, Fraction]]:
        out = {}
        for entry in several:
            side: Side = getattr(entry, name)
            price = entry.price(side)
            if price is not None:
                out[entry.what] = (entry.amount(side), price)
        return out

    found = causes_of_change(table("then"), table("now")).items
    zero = Causes(Decimal(0), Decimal(0), Decimal(0), Decimal(0))
    for entry in several:
        entry.causes = found.get(entry.what, zero)


def _record(entry: Entry, measures: str) -> dict[str, Any]:
    change = entry.now.value - entry.then.value
    causes = entry.causes
    prices = [entry.price(side) for side in (entry.then, entry.now)]
    amounts = [entry.amount(s) if entry.unit is not None else None for s in (entry.then, entry.now)]
    words = [_say(a, entry.unit, measures) for a in amounts]
    return {
        "why": None,
        "what": entry.what,
        "value_then": float(entry.then.value),
        "value_now": float(entry.now.value),
        "difference": float(change),
        "from_price": None if causes is None else float(causes.price),
        "from_amount": None if causes is None else float(causes.amount),
        "from_mix": None if causes is None else float(causes.mix),
        "not_split": float(change) if causes is None else 0.0,
        "amount_then": amounts[0],
        "amount_now": amounts[1],
        "unit": entry.unit,
        "price_then": None if prices[0] is None else float(prices[0]),
        "price_now": None if prices[1] is None else float(prices[1]),
        "in_words.then": words[0],
        "in_words.now": words[1],
        "assumptions": sorted(entry.then.assumptions | entry.now.assumptions),
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


def _totals(
    entries: list[Entry], how: Compared, names: tuple[str, str], left_out: list[str]
) -> dict[str, Any]:
    zero = Decimal(0)
    then = sum((e.then.value for e in entries), zero)
    now = sum((e.now.value for e in entries), zero)
    parts = {
        name: sum((getattr(e.causes, name) for e in entries if e.causes), zero)
        for name in ("price", "amount", "mix")
    }
    rest = sum((e.now.value - e.then.value for e in entries if e.causes is None), zero)
    causes = {
        _PRICES[how.price]: parts["price"],
        "compare-amount": parts["amount"],
        "compare-mix": parts["mix"],
    }
    if rest:
        causes["compare-not-split"] = rest
    said = Names(tuple(sentence(id_, n=measured(f"{n:+,.2f}")) for id_, n in causes.items()))
    sides = {
        "what": sentence(how.what),
        "n": measured(f"{then:,.2f}"),
        "when": _when(names[0]),
        "n2": measured(f"{now:,.2f}"),
        "when2": _when(names[1]),
        "n3": measured(f"{abs(now - then):,.2f}"),
    }
    more = sentence("compare-more", **sides) if now >= then else sentence("compare-less", **sides)
    words = joined(" ", [more, sentence("compare-of-that", list=said)])
    if not entries:
        words = sentence("compare-nothing")
    return {
        "then": names[0],
        "now": names[1],
        "value_then": float(then),
        "value_now": float(now),
        "difference": float(now - then),
        **{f"from_{name}": float(value) for name, value in parts.items()},
        "not_split": float(rest),
        "in_words": [words],
        "missing": left_out,
    }


def _when(name: str) -> str:
    """Return what a side is called: its day as the language writes it, or its season."""
    is_day = not isinstance(name, Sentence) and _DAY.fullmatch(name)
    return sentence("compare-on", day=Day(name)) if is_day else name


def _left_out(now: Answer, then: Answer, how: Compared) -> list[str]:
    """Return a sentence on what has no value in one of the answers."""
    rows: Callable[[Answer], list[dict[str, Any]]] = how.rows or _rows
    names = {str(r[how.key]) for a in (now, then) for r in rows(a) if r.get(how.value) is None}
    if not names:
        return []
    return [sentence("compare-no-value", names=Names(tuple(sorted(names))))]
