"""Costing methods against published worked examples.

D1 : OpenStax, Principles of Accounting vol. 1 (2019). D2 : the same, vol. 2.
MSU : Michigan State University Extension, Preserving Food Safely, item 01600534 (1997).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from data_costing import ALL_IN_COST, LIFE_EXTENDED, PRESS, SECOND_MACHINE

from ledger.methods.money import (
    accounting_return,
    annuity_factor,
    break_even,
    capital_recovery,
    composite_margin,
    energy_cost,
    further_gain,
    internal_rate,
    make_or_buy,
    margin_of_safety,
    net_present_value,
    payback,
    present_value,
)
from ledger.methods.variance import causes_of_change, price_variance, quantity_variance
from ledger.methods.wear import double_declining, straight_line, units_of_production

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


def test_fruit_basket():
    # D2, 3.4: four fruits at 5:3:2:1
    prices, costs, mix = [0.60, 1.00, 0.80, 1.90], [0.25, 0.75, 0.50, 1.50], [5, 3, 2, 1]
    assert composite_margin(prices, [0] * 4, mix) == pytest.approx(9.50)
    assert composite_margin(costs, [0] * 4, mix) == pytest.approx(6.00)
    assert composite_margin(prices, costs, mix) == pytest.approx(3.50)


def test_siding_mix():
    # D2, 3.4: composite price 73.00, variable 42.25, fixed 145,000; 5:3:2
    baskets = break_even(145_000, 73.00, 42.25)
    assert round(baskets, 2) == 4715.45
    assert [round(baskets * n) for n in (5, 3, 2)] == [23_577, 14_146, 9_431]


def test_two_product_mix():
    # D2, 3.4: margins 6 and 4 at 3:1, fixed 220,000
    baskets = break_even(220_000, composite_margin([6, 4], [0, 0], [3, 1]), 0)
    assert (baskets, 3 * baskets) == (10_000, 30_000)


def test_margin_of_safety():
    # D2, 3.5
    assert margin_of_safety(225_000, 153_000) == (72_000, 0.32)


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


@pytest.mark.parametrize(
    ("earned", "spent", "cost"), [(200_000, 125_000, 300_000), (30_000, 15_000, 60_000)]
)
def test_accounting_return(earned, spent, cost):
    assert accounting_return(earned - spent, cost) == 0.25  # D2, 11.2


# D2, 11.3 and 11.4: rate, cost, flows; factor printed; present value printed and exact
PRESENT = [
    (0.08, 200_000, [40_000] * 10, 6.710, 268_400, 268_403.26),
    (0.05, 50_000, [10_000] * 7, 5.786, 57_860, 57_863.73),
    (0.10, 135_000, [40_000] * 5, 3.791, 151_640, 151_631.47),
]
UNEVEN_8 = [20, 25, 20, 40, 40, 60, 30, 35, 25, 45]
UNEVEN_5 = [10, 5, 7, 3, 10, 10, 10]


@pytest.mark.parametrize(("rate", "cost", "flows", "factor", "printed", "exact"), PRESENT)
def test_present_value_of_even_flows(rate, cost, flows, factor, printed, exact):
    assert round(annuity_factor(rate, len(flows)), 3) == factor
    assert round(present_value(rate, flows), 2) == exact
    # the book multiplies by the factor cut to three places
    assert present_value(rate, flows) == pytest.approx(printed, abs=flows[0] * 0.0005)
    assert net_present_value(rate, cost, flows) == pytest.approx(exact - cost, abs=0.01)


def test_profitability_index():
    assert round(present_value(0.08, [40_000] * 10) / 200_000, 3) == 1.342  # D2, 11.4


@pytest.mark.parametrize(
    ("rate", "cost", "flows", "printed", "exact", "net"),
    [
        (0.08, 200_000, UNEVEN_8, 219_990, 220_027.39, 19_990),
        (0.05, 50_000, UNEVEN_5, 44_982, 44_978.16, -5_018),
    ],
)
def test_present_value_of_uneven_flows(rate, cost, flows, printed, exact, net):
    flows = [1_000 * flow for flow in flows]
    assert round(present_value(rate, flows), 2) == exact
    assert present_value(rate, flows) == pytest.approx(printed, rel=2e-4)
    assert net_present_value(rate, cost, flows) == pytest.approx(net, rel=2e-3)


@pytest.mark.parametrize(
    ("cost", "flow", "years", "factor", "rate"),
    [
        (312_000, 49_944, 9, 6.247, 0.08),
        (50_000, 10_000, 7, 5.000, 0.09196),
        (60_500, 13_256, 7, 4.564, 0.12),
    ],
)
def test_internal_rate(cost, flow, years, factor, rate):
    # D2, 11.4; the second is printed as between 8 % and 10 %
    assert round(cost / flow, 3) == factor
    assert internal_rate(cost, [flow] * years) == pytest.approx(rate, abs=1e-4)


def test_press_straight_line():
    # D1, 11.3, year by year
    assert PRESS["price"] + PRESS["shipping"] + PRESS["setting_up"] == PRESS["cost"]
    wear = straight_line(PRESS["cost"], PRESS["salvage"], PRESS["years"])
    assert tuple(wear) == PRESS["straight_line"]


def test_press_by_use():
    wear = units_of_production(
        PRESS["cost"], PRESS["salvage"], PRESS["pages"], PRESS["pages_by_year"]
    )
    assert tuple(wear) == PRESS["by_use"]
    assert (PRESS["cost"] - PRESS["salvage"]) / PRESS["pages"] == PRESS["each_page"]


def test_press_declining():
    wear = double_declining(PRESS["cost"], PRESS["salvage"], PRESS["years"])
    assert tuple(wear) == pytest.approx(PRESS["declining"])


def test_press_owned_nine_months_in_first_year():
    wear = straight_line(PRESS["cost"], PRESS["salvage"], PRESS["years"], months_in_first=9)
    assert tuple(wear) == PRESS["nine_months"]
    assert sum(wear) == 48_000


def test_second_machine():
    # D1, 11.3
    cost, salvage, years = (SECOND_MACHINE[key] for key in ("cost", "salvage", "years"))
    assert straight_line(cost, salvage, years)[0] == SECOND_MACHINE["straight_line"]
    by_use = units_of_production(
        cost, salvage, SECOND_MACHINE["presses"], SECOND_MACHINE["presses_by_year"]
    )
    assert tuple(by_use) == SECOND_MACHINE["by_use"]
    assert tuple(double_declining(cost, salvage, years)[:2]) == SECOND_MACHINE["declining"]


def test_life_extended():
    # D1, 11.3: what is left spread over the new life
    left = PRESS["cost"] - 48_000
    assert left == LIFE_EXTENDED["left"]
    years = LIFE_EXTENDED["years"]
    assert straight_line(left, 0, years) == [LIFE_EXTENDED["a_year"]] * years


def test_cost_takes_in_tax_and_delivery():
    *parts, cost = ALL_IN_COST  # D1, 11.3
    assert straight_line(sum(parts), 0, 1) == [cost]


# D2, 8.2; above 0 is unfavourable
@pytest.mark.parametrize(
    ("amount", "paid", "standard", "published"),
    [(20, 6, 7, "-20"), (20, 9, 7, "40"), (89_000, 0.84, 0.85, "-890"), (0.5, 9, 7, "1")],
)
def test_price_variance(amount, paid, standard, published):
    assert price_variance(amount, paid, standard) == Decimal(published)


@pytest.mark.parametrize(
    ("used", "standard", "price", "published"),
    [
        (0.20, 0.25, 7, "-0.35"),
        (0.50, 0.25, 7, "1.75"),
        (89_000, 88_000, 0.85, "850"),
    ],
)
def test_quantity_variance(used, standard, price, published):
    assert quantity_variance(used, standard, price) == Decimal(published)


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
    ("make_each", "avoidable", "make", "better", "saves"),
    [
        (0.87 + 0.45 + 0.36, 0.0, 201_600, "make", 8_400),
        (0.87 + 0.45 + 0.36, 0.12 * 120_000, 216_000, "buy", 6_000),
    ],
)
def test_make_or_buy(make_each, avoidable, make, better, saves):
    # D2, 10.3: 120,000 needed at 1.75; fixed 0.51 of which none or 0.12 is avoidable
    found = make_or_buy(120_000, make_each=make_each, buy_each=1.75, avoidable=avoidable)
    assert (round(found.make), round(found.buy)) == (make, 210_000)
    assert (found.better, round(found.saves)) == (better, saves)


@pytest.mark.parametrize(
    ("as_is", "after", "cost", "gain"),
    [
        (104_500, 125_000, 8_000, 12_500),  # strawberry preserve mix, computed
        (50_500, 70_000, 40_000, -20_500),  # strawberry juice, computed
        # 200,000 dozen small apples sold, or two dozen to a gallon of juice
        (200_000 * (1.10 - 0.30), 100_000 * (3.50 - 0.60), 200_000, 90_000 - 160_000),
        (400_000 * 2.25, 100_000 * (15.00 - 2.85), 85_000, 1_130_000 - 900_000),  # leather
        (22, 38, 11, 5),  # rework; 30 already spent does not count
        (3.00, 6.50, 2.80, 0.70),  # beef near its date, a pound
    ],
)
def test_working_further(as_is, after, cost, gain):
    # D2, 10.5
    assert further_gain(as_is, after, cost) == pytest.approx(gain)


@pytest.mark.parametrize(
    ("hours_low", "kwh", "quarts", "kwh_each", "cents_each"),
    [
        (9, 5.40, 9, 0.60, 3.0),  # green beans, 18 lb, 11 hours
        (40, 19.35, 8, 2.42, 12.1),  # peaches, 18 lb, 42 hours
    ],
)
def test_energy_of_drying(hours_low, kwh, quarts, kwh_each, cents_each):
    # MSU: two hours at 675 W, then 450 W; 5 cents a kWh
    parts = [energy_cost(675, 2, 0.05), energy_cost(450, hours_low, 0.05)]
    used, cost = (sum(column) for column in zip(*parts, strict=True))
    assert used == pytest.approx(kwh)
    assert round(used / quarts, 2) == kwh_each
    assert round(cost / quarts * 100, 1) == cents_each


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
        spread = 1 / annuity_factor(rate, years)
        assert cost * spread - salvage * (spread - rate) == pytest.approx(a_year, abs=within)
