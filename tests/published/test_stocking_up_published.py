"""Published stock and price examples, written down and answered by `stocking-up`.

D1 : OpenStax, Principles of Accounting vol. 1 (2019), 10.5. D2 : the same, vol. 2, 8.2.
G8 : weeks of supply, Krajewski and others, Operations Management, from memory; it reproduces.
The sources know the use; the book has it from a year of even days, and is not quite sure of it: the
likely use is held to theirs within a few hundredths. A look back is 54 whole weeks, 378 days.
"""

from __future__ import annotations

import datetime as dt

import pytest

TODAY = dt.date(2026, 11, 1)


def near(value, rel=1e-6):
    return pytest.approx(value, rel=rel)


WEEKS = 54


def stock(book, yes, left, a_week, price="1"):
    """A staple of which so much is used each week, on two days, and `left` is there; pieces."""
    first = TODAY - dt.timedelta(days=7 * WEEKS - 1)
    used = 2 * WEEKS * round(a_week / 2 * 1000)
    for day, whole in ((first, used), (first + dt.timedelta(days=1), round(left * 1000))):
        if whole:
            amount = f"{whole / 1000:.3f}"
            paid = f"{float(price) * whole / 1000:.3f}"
            book.write(
                "bought", {"item": "widget", "amount": amount, "paid": paid}, on=day.isoformat(),
                answers=yes,
            )  # fmt: skip
    for week in range(WEEKS):
        for extra in (1, 4):
            on = first + dt.timedelta(days=7 * week + extra)
            ate = {"ate": [{"item": "widget", "amount": f"{round(a_week / 2 * 1000) / 1000:.3f}"}]}
            book.write("eaten", ate, on=on.isoformat(), answers=yes)


@pytest.mark.parametrize(
    ("left", "used", "days", "lasts"),
    [
        (2_000_000, 10_000_000, 364, 10.4),  # G8: 2 million in stock, 10 million a year
        (120_000, 60_000, 30, 60 / 7),  # G8: 120 against 60 a month of 30 days: 60 days
        (6_052.5, 7_200, 365, 306.83 / 7),  # D1: 306.83 days of 365, year 1
        (9_403, 7_920, 365, 433.35 / 7),  # D1: 433.35 days of 365, year 2
    ],
)
def test_weeks_of_supply(book, yes, fixed_day, left, used, days, lasts):
    stock(book, yes, left, used / days * 7)
    record = book.show("stocking-up").to_dict()["records"][0]
    assert record["weeks"] == near(lasts, rel=0.03)
    (shelf,) = book.show("shelf", items=True).records()
    assert record["per_week"]["whole"] == near(1000 * shelf["used_per_week"]["likely"])


@pytest.mark.parametrize(
    ("used", "standard", "paid", "more"),
    [
        (20, 7, 9, 40),  # D2, 8.2: 20 lb at 9.00 and not at 7.00
        (89_000, 0.84, 0.85, 890),  # D2, 8.2: 89,000 oz at 0.84 where 0.85 is the standard
    ],
)
def test_price_rise_is_the_price_variance(book, yes, fixed_day, used, standard, paid, more):
    stock(book, yes, 0, used / 52, price=str(standard))
    book.write(
        "price_seen", {"item": "widget", "amount": "1", "price": str(standard)}, on="2026-10-01"
    )
    book.write("target_set", {"item": "widget", "amount": "1"}, on="2026-10-01")
    rise = (paid / standard - 1) * 100
    record = book.show("stocking-up", price_rise=rise).to_dict()["records"][0]
    assert record["rise_cost"] == near(more, rel=0.03)
