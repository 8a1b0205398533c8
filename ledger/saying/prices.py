"""Prices to lines: of the whole, of a pound, of each; one price after two things is asked."""

from __future__ import annotations

import re
from fractions import Fraction

from ledger.amounts import unit_factor
from ledger.messages import Names, joined, measured, sentence
from ledger.messages.units import amount
from ledger.saying.making import Line, Maker
from ledger.saying.money import Money, money_text
from ledger.saying.quantities import Quantity
from ledger.saying.things import Things

__all__ = ["all_or_each", "give_prices", "in_dozens", "of_dozens", "price_of", "share_out"]


def give_prices(maker: Maker, things: Things, lines: list[Line]) -> None:
    """Write `paid` into the lines of a purchase; ask what is not plain.

    Parameters
    ----------
    maker : Maker
        Takes the questions.
    things : Things
    lines : list of Line
        In the order of the things.
    """
    for line in lines:
        if line.thing.extra and "paid" not in line.more:
            bare = line.thing.extra[-1]
            before = [one for one in lines[: lines.index(line)] if _waits(one, things, lines)]
            same = [one for one in lines if one.thing is line.thing]
            if len(same) > 1:  # two amounts of one thing: each has not the whole price
                _ask_shares(maker, same, money_text(bare.many))
            elif before and not things.money:
                _ask_shares(maker, [*before, line], money_text(bare.many))
            else:
                line.more["paid"] = money_text(bare.many)
    start = 0
    for money, after in things.money:
        is_first = after == 0 and len(things.money) == 1
        n = len(things.lines) if is_first else after
        targets = [
            one
            for one in lines
            if _place(one, things) in range(start, n) and "paid" not in one.more
        ]
        _give(maker, money, targets)
        start = n
    for at, line in enumerate(lines):
        asked = ("share", "paid") in maker.asked or any(code == "at" for code, _ in maker.asked)
        if "paid" not in line.more and not asked and line.item is not None:
            said = line.body().get("amount", "")
            what = joined(" ", [amount(said), line.item] if said else [line.item])
            text = sentence("asked-cost", name=what)
            answer = maker.ask("price", f"{line.item}", text, [], line=at, waits=True)
            value = sums(answer)
            if value:
                line.more["paid"] = money_text(value[0])


def share_out(things: Things) -> None:
    """Give each thing its own price, where as many stand behind all of them: ``for 1.36, 2.89``."""
    lines = [one for one in things.lines if one.words is not None]
    if len(things.money) != 1 or len(lines) < 2 or any(one.extra for one in lines[:-1]):
        return
    (first, after), more = things.money[0], lines[-1].extra
    whole = first.led == "for" and not (first.per or first.each or first.count)
    if not whole or after < len(things.lines) or len(more) + 1 != len(lines):
        return
    prices = [Quantity(first.value, None, "count", 0), *more]
    for line, price in zip(lines, prices, strict=True):
        line.extra = [price]
    things.money = []


def _place(line: Line, things: Things) -> int:
    return next(k for k, one in enumerate(things.lines) if one is line.thing)


def _waits(line: Line, things: Things, lines: list[Line]) -> bool:
    return "paid" not in line.more and not line.thing.extra


def _ask_shares(maker: Maker, lines: list[Line], total: str) -> None:
    names = Names(tuple(one.item or one.body().get("amount", "?") for one in lines))
    text = sentence("asked-parts-for", n=measured(total), names=names)
    values = sums(maker.ask("share", "paid", text, []))
    if len(values) == len(lines):
        for line, value in zip(lines, values, strict=True):
            line.more["paid"] = money_text(value)


def all_or_each(value: str) -> list[str]:
    """Return the likely answers to whether a price is that of all of it."""
    price = measured(value)
    return [sentence("asked-for-all", price=price), sentence("asked-each", price=price)]


def sums(answer: str | None) -> list[Fraction]:
    """Return the sums in an answer, in order: ``7 and 4``, ``6,50 / 4,50``."""
    found = re.findall(r"\d+(?:[.,]\d+)?", answer or "")
    return [Fraction(one.replace(",", ".")) for one in found]


def _give(maker: Maker, money: Money, lines: list[Line]) -> None:
    if not lines:
        maker.left.append(money_text(money.value))
        return
    if len(lines) > 1:
        _ask_shares(maker, lines, money_text(money.value))
        return
    line = lines[0]
    if in_dozens(maker, money, line):
        paid = of_dozens(maker, money, line)
        if paid is not None:
            line.more["paid"] = money_text(paid)
        return
    paid = price_of(money, line)
    if paid is None:
        value = money_text(money.value)
        text = sentence("asked-all-or-each", n=measured(value))
        if line.item:
            text = sentence("asked-price-of-all", n=measured(value), name=line.item)
        answer = maker.ask("at", f"{line.item}", text, all_or_each(value))
        if answer is None:
            return
        said = line.quantity
        paid = money.value
        if "each" in answer and said is not None:
            paid *= said.packs or said.many
    line.more["paid"] = money_text(paid)


_DOZEN = frozenset({"dozen", "dozens", "doz", "dz", "dutzend", "dtzd"})


def in_dozens(maker: Maker, money: Money, line: Line) -> bool:
    """Return whether a price of each may be that of a dozen: ``3 dozen lids 2.99 each``."""
    said, span = line.quantity, line.thing.words
    if not money.each or said is None or span is None or said.unit is not None or said.many <= 12:
        return False
    before = maker.scanner.tokens[max(0, span[0] - 3) : span[0]]
    return any(one.low in _DOZEN for one in before)


def of_dozens(maker: Maker, money: Money, line: Line) -> Fraction | None:
    """Return the whole price of some dozens, once it was said whether it is of a dozen or of one; else None."""
    assert line.quantity is not None
    price, many = measured(money_text(money.value)), line.quantity.many
    options = [sentence("asked-a-dozen", price=price), sentence("asked-each", price=price)]
    text = sentence("asked-dozen-or-each", price=price, name=line.item or "")
    answer = maker.ask("at", f"{line.item}", text, options)
    if answer is None:
        return None
    return money.value * (many if answer == options[1] else many / 12)


def price_of(money: Money, line: Line) -> Fraction | None:
    """Return the whole price of a line, or None where it cannot be told."""
    said = line.quantity
    if money.per is not None:
        many = _how_many(line, money.per)
        return None if many is None else many * money.value / money.count
    if money.each:
        if said is None:
            return None
        if said.packs is not None:
            return money.value * said.packs
        return (
            money.value * said.many if said.sort in ("count", "counted", "unknown", "jar") else None
        )
    if money.count:
        if said is None or said.sort == "measure":
            return None
        return money.value * said.many / money.count
    if money.led == "at" and not (said is not None and said.many == 1):
        return None
    return money.value


def _how_many(line: Line, unit: str) -> Fraction | None:
    """Return how many of a unit a line is, where its amount tells that."""
    said = line.quantity
    if said is None:
        return None
    if unit == "dozen":
        return said.many / 12 if said.unit is None else None
    if said.unit == unit:
        return said.many
    if unit in ("bag", "sack", "box", "jar", "crate", "bucket") and said.packs is not None:
        return said.packs
    head, _, base = unit.partition(" ")
    name, times = (base, Fraction(int(head))) if head.isdigit() else (unit, Fraction(1))
    one = unit_factor(said.unit) if said.unit and said.sort == "measure" else None
    other = unit_factor(name) if name else None
    if one is None or other is None or one[0] != other[0]:
        return None
    return said.many * one[1] / (other[1] * times)
