"""Published stock and price examples, written down and answered by `stocking-up`.

D1 : OpenStax, Principles of Accounting vol. 1 (2019), 10.5. D2 : the same, vol. 2, 8.2.
G8 : weeks of supply, Krajewski and others, Operations Management, from memory; it reproduces.
A look back is 52 whole weeks, 364 days, where the sources count 365.
"""

from __future__ import annotations

import datetime as dt

import pytest

TODAY = dt.date(2026, 11, 1)


def near(value, rel=1e-6):
    return pytest.approx(value, rel=rel)


def stock(book, yes, left, used, weeks, price="1", pack=1):
    """A staple of which `used` went in so many weeks and `left` is there; pieces."""
    first = TODAY - dt.timedelta(days=7 * weeks - 1)
    for day, amount in ((first, used), (first + dt.timedelta(days=1), left)):
        if amount:
            paid = f"{float(price) * amount / pack:.3f}"
            book.write(
                "bought",
                {"item": "widget", "amount": f"{amount}", "paid": paid},
                on=day.isoformat(),
                answers=yes,
            )
    book.write(
        "eaten",
        {"ate": [{"item": "widget", "amount": f"{used}"}]},
        on=TODAY.isoformat(),
        answers=yes,
    )


@pytest.mark.parametrize(
    ("left", "used", "weeks", "lasts"),
    [
        (2_000_000, 10_000_000, 52, 10.4),  # G8: 2 million in stock, 10 million a year
        (120_000, 56_000, 4, 60 / 7),  # G8: 120 against 60 a month of 30 days (56 in 28): 60 days
        (6_052.5, 7_200, 52, 306.83 / 365 * 52),  # D1: 306.83 days of 365, year 1
        (9_403, 7_920, 52, 433.35 / 365 * 52),  # D1: 433.35 days of 365, year 2
    ],
)
def test_weeks_of_supply(book, yes, fixed_day, left, used, weeks, lasts):
    stock(book, yes, left, used, weeks)
    record = book.show("stocking-up").to_dict()["records"][0]
    assert record["weeks"] == near(lasts, rel=1e-4)


@pytest.mark.parametrize(("left", "used", "turns"), [(6_052.5, 7_200, 1.19), (9_403, 7_920, 0.84)])
def test_turnover(book, yes, fixed_day, left, used, turns):
    """D1, 10.5: how often the stock was used up in the year, as 52 weeks / weeks in the house."""
    stock(book, yes, left, used, 52)
    assert round(52 / book.show("stocking-up").to_dict()["records"][0]["weeks"], 2) == turns


@pytest.mark.parametrize(
    ("used", "standard", "paid", "more"),
    [
        (20, 7, 9, 40),  # D2, 8.2: 20 lb at 9.00 and not at 7.00
        (0.5, 7, 9, 1.00),  # D2, 8.2: 0.50 lb; the price's part of 2.75
    ],
)
def test_price_rise_is_the_price_variance(book, yes, fixed_day, used, standard, paid, more):
    stock(book, yes, 0, used, 52, price=str(standard))
    book.write(
        "price_seen", {"item": "widget", "amount": "1", "price": str(standard)}, on="2026-10-01"
    )
    book.write("target_set", {"item": "widget", "amount": "1"}, on="2026-10-01")
    rise = (paid / standard - 1) * 100
    record = book.show("stocking-up", price_rise=rise).to_dict()["records"][0]
    assert record["rise_cost"] == near(more, rel=1e-3)


def test_a_larger_price_variance(book, yes, fixed_day):
    """D2, 8.2: 89,000 oz at 0.84 where 0.85 is the standard is 890; told as a rise from 0.84."""
    stock(book, yes, 0, 89_000, 52, price="0.84")
    book.write("target_set", {"item": "widget", "amount": "1"}, on="2026-10-01")
    rise = (0.85 / 0.84 - 1) * 100
    record = book.show("stocking-up", price_rise=rise).to_dict()["records"][0]
    assert record["rise_cost"] == near(890, rel=1e-4)
