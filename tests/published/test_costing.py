"""Costing methods against published worked examples.

D1 : OpenStax, Principles of Accounting vol. 1 (2019). D2 : the same, vol. 2.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from data_costing import ALL_IN_COST, LIFE_EXTENDED, PRESS, SECOND_MACHINE

from ledger.methods.money import (
    break_even,
    capital_recovery,
    payback,
)
from ledger.methods.variance import causes_of_change
from ledger.methods.wear import straight_line

# D2, 3.2 and 3.3: name, fixed, price, variable, target, tax, units
BREAK_EVEN = [
    ("birdbath", 18_000, 100, 20, 0, 0, 225),
    ("birdbath, 16,000 wanted", 18_000, 100, 20, 16_000, 0, 425),
    ("birdbath, 24,000 after 40 % tax", 18_000, 100, 20, 24_000, 0.4, 725),
    ("haircut", 3_000, 35, 20, 0, 0, 200),
]


@pytest.mark.parametrize(
    ("name", "fixed", "price", "variable", "target", "tax", "units"), BREAK_EVEN
)
def test_break_even(name, fixed, price, variable, target, tax, units):
    assert break_even(fixed, price, variable, target=target, tax=tax) == pytest.approx(units)


@pytest.mark.parametrize(
    ("target", "tax", "sales"), [(0, 0, 22_500), (16_000, 0, 42_500), (24_000, 0.4, 72_500)]
)
def test_break_even_sales(target, tax, sales):
    # D2, 3.2 and 3.3: the same in money, at 100 each
    assert 100 * break_even(18_000, 100, 20, target=target, tax=tax) == pytest.approx(sales)


@pytest.mark.parametrize(("units", "profit"), [(175, -4_000), (225, 0), (300, 6_000)])
def test_profit_around_break_even(units, profit):
    # D2, 3.2: at break-even the margin has paid the fixed cost, and every unit beyond adds 80
    reached = break_even(18_000, 100, 20, target=profit)
    assert reached == pytest.approx(units)


def test_siding_mix():
    # D2, 3.4: composite price 73.00, variable 42.25, fixed 145,000; 5:3:2
    baskets = break_even(145_000, 73.00, 42.25)
    assert round(baskets, 2) == 4715.45
    assert [round(baskets * n) for n in (5, 3, 2)] == [23_577, 14_146, 9_431]


# D2, 11.2: cost, flows, and what every later year brings; years
PAYBACK = [
    (150_000, [], 20_000, 7.5),
    (150_000, [10_000, 20_000, 20_000, 15_000, 15_000], 20_000, 8.5),
    (40_000, [10_000, 10_000, 5_000, 5_000], 7_500, 5.33),
    (50_000, [], 15_000, 3.33),
    (50_000, [10_000, 5_000, 7_000, 3_000, 10_000, 10_000, 10_000], None, 6.5),
]


@pytest.mark.parametrize(("cost", "flows", "then", "years"), PAYBACK)
def test_payback(cost, flows, then, years):
    assert round(payback(cost, flows, then=then), 2) == years


def test_press_straight_line():
    # D1, 11.3, year by year
    assert PRESS["price"] + PRESS["shipping"] + PRESS["setting_up"] == PRESS["cost"]
    wear = straight_line(PRESS["cost"], PRESS["salvage"], PRESS["years"])
    assert tuple(wear) == PRESS["straight_line"]


def test_press_owned_nine_months_in_first_year():
    wear = straight_line(PRESS["cost"], PRESS["salvage"], PRESS["years"], months_in_first=9)
    assert tuple(wear) == PRESS["nine_months"]
    assert sum(wear) == 48_000


def test_second_machine():
    # D1, 11.3
    cost, salvage, years = (SECOND_MACHINE[key] for key in ("cost", "salvage", "years"))
    assert straight_line(cost, salvage, years)[0] == SECOND_MACHINE["straight_line"]


def test_life_extended():
    # D1, 11.3: what is left spread over the new life
    left = PRESS["cost"] - 48_000
    assert left == LIFE_EXTENDED["left"]
    years = LIFE_EXTENDED["years"]
    assert straight_line(left, 0, years) == [LIFE_EXTENDED["a_year"]] * years


def test_cost_takes_in_tax_and_delivery():
    *parts, cost = ALL_IN_COST  # D1, 11.3
    assert straight_line(sum(parts), 0, 1) == [cost]


@pytest.mark.parametrize(
    ("before", "after", "price", "amount", "total"),
    [
        ((0.25, 7), (0.50, 9), "1.00", "1.75", "2.75"),
        ((88_000, 0.85), (89_000, 0.84), "-890", "850", "-40"),
    ],
)
def test_causes_of_change(before, after, price, amount, total):
    found = causes_of_change({"material": before}, {"material": after}).all
    assert (found.price, found.amount, found.mix) == (Decimal(price), Decimal(amount), 0)
    assert found.total == Decimal(total)


@pytest.mark.parametrize(
    ("cost", "salvage", "years", "rate", "a_year", "within"),
    [
        (50_000, 5_000, 5, 0.10, 12_371, 0.5),  # engineering economy, section 6.2, both formulas
        (
            100_000,
            20_000,
            15,
            0.10,
            12_517.60,
            0.5,
        ),  # printed answer; 12,517.90 by the exact factor
        (50_000, 5_000, 5, 0.0, 9_000, 0),
    ],
)
def test_capital_recovery(cost, salvage, years, rate, a_year, within):
    assert capital_recovery(cost, salvage, years, rate) == pytest.approx(a_year, abs=within)
    # the other formula of the source: the price spread, less what the rest saves up to
    if rate:
        spread = 1 / sum((1 + rate) ** -n for n in range(1, years + 1))
        assert cost * spread - salvage * (spread - rate) == pytest.approx(a_year, abs=within)
