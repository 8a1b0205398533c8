"""Learning and forgetting against published tables; the source stands at each."""

from __future__ import annotations

import datetime as dt

import pytest

from ledger.methods.lapse import keeps, standing
from ledger.methods.learning import (
    exponent,
    fit_curve,
    unit_time,
)

# Learning-curve coefficient table (textbook table in a problem copy, tutorsglobe.com 52223897):
# n: rate: (unit, running total), the first unit taking 1
COEFFICIENTS = {
    5: {70: (0.437, 3.195), 75: (0.513, 3.459), 80: (0.596, 3.738), 85: (0.686, 4.031)},
    10: {70: (0.306, 4.932), 75: (0.385, 5.589), 80: (0.477, 6.315), 85: (0.583, 7.116)},
    15: {70: (0.248, 6.274), 75: (0.325, 7.319), 80: (0.418, 8.511), 85: (0.530, 9.861)},
    20: {70: (0.214, 7.407), 75: (0.288, 8.828), 80: (0.381, 10.485), 85: (0.495, 12.402)},
}
CELLS = [(n, rate, *cell) for n, row in COEFFICIENTS.items() for rate, cell in row.items()]


@pytest.mark.parametrize(("n", "rate", "unit", "total"), CELLS)
def test_coefficient_table(n, rate, unit, total):
    assert round(unit_time(1.0, rate / 100, n), 3) == unit
    assert round(sum(unit_time(1.0, rate / 100, i) for i in range(1, n + 1)), 3) == total


@pytest.mark.parametrize(("rate"), [70, 75, 80, 85])
def test_fit_finds_the_rate_of_the_table(rate):
    # the published coefficients of one column, with the first unit, lie on one curve
    minutes = [None] * 20
    minutes[0] = 1.0
    for n, row in COEFFICIENTS.items():
        minutes[n - 1] = row[rate][0]
    curve = fit_curve(minutes)
    assert curve.repetitions == 5
    assert curve.rate == pytest.approx(rate / 100, abs=0.002)
    assert curve.rate_low <= rate / 100 <= curve.rate_high
    assert curve.minutes(10) == pytest.approx(COEFFICIENTS[10][rate][0], abs=0.002)


def test_eighty_per_cent_example():
    # business-analysis-made-easy.com, learning curve
    assert round(exponent(0.8), 4) == -0.3219
    assert [round(unit_time(50, 0.8, n), 6) for n in (1, 2, 4)] == [50, 40, 32]


# Tatel and Ackerman, Psychological Bulletin, doi 10.1037/bul0000481 (abstract): half of the gain from
# training is gone after about 6.5 months without use where accuracy counts. About a dozen practices,
# a month or two apart, keep a skill about so long.
@pytest.mark.parametrize(("every", "times"), [(30, 15), (60, 14), (45, 14)])
def test_a_dozen_spaced_practices_keep_as_long_as_published(every, times):
    found = keeps([(every * n, 1.0) for n in range(times)])
    assert found == pytest.approx(6.5 * 365.25 / 12, rel=0.2)


# Cepeda and others, Psychological Science 19, 2008 (summary read): the same practices keep longer
# when spread; massed on one day the later ones add nothing.
def test_spread_practice_keeps_longer_than_massed():
    massed, close, spread = (keeps([(gap * n, 1.0) for n in range(4)]) for gap in (0, 2, 14))
    assert massed == pytest.approx(45)
    assert massed < close < spread


# Arthur and others, Human Performance 11, 1998 (abstract): after more than 365 days without practice
# the loss is large (d = -1.4): no skill is still in hand then.
def test_nothing_is_in_hand_after_a_year_without_practice():
    days = [dt.date(2020, 1, 1) + dt.timedelta(days=5 * n) for n in range(400)]
    assert standing(days, days[-1] + dt.timedelta(days=366), False).word != "in hand"
