"""Learning and forgetting against published tables; the source stands at each."""

from __future__ import annotations

import datetime as dt

import pytest

from ledger.methods.lapse import (
    HALF_LOST_MONTHS,
    LOSS_AFTER_A_YEAR,
    LOSS_PER_MONTH,
    MONTH,
    gain_kept,
    savings,
    standing,
)
from ledger.methods.learning import (
    cumulative_average_time,
    cumulative_average_unit_time,
    exponent,
    fit_curve,
    total_time,
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
    assert round(total_time(1.0, rate / 100, n), 3) == total


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


def test_wright_model_is_another():
    # M. Wideman, appendix 2, after T. P. Wright (1936): the mean of two is 80 %, so the second
    # takes 60 %; the mean of four is 64 %
    assert cumulative_average_time(1, 0.8, 2) == pytest.approx(0.80)
    assert cumulative_average_unit_time(1, 0.8, 2) == pytest.approx(0.60)
    assert cumulative_average_time(1, 0.8, 4) == pytest.approx(0.64)
    assert unit_time(1, 0.8, 2) == pytest.approx(0.80)


# Tatel and Ackerman, Psychological Bulletin, doi 10.1037/bul0000481 (abstract): months until half
# of the gain from training is gone, and the loss a month in standard deviations
@pytest.mark.parametrize(
    ("task", "half", "a_month"), [("accuracy", 6.5, 0.08), ("speed", 13, 0.06), ("mixed", 11, 0.06)]
)
def test_half_of_the_gain_is_lost(task, half, a_month):
    assert gain_kept(half, task) == pytest.approx(0.5)
    assert (HALF_LOST_MONTHS[task], LOSS_PER_MONTH[task]) == (half, a_month)
    assert gain_kept(0, task) == 1.0


def test_words_follow_the_published_loss():
    # half of the gain where accuracy counts is gone after 6.5 months: no longer in hand; after
    # more than 365 days the loss is large (d = -1.4, Arthur and others 1998): out of practice
    last = dt.date(2025, 1, 1)
    days = [dt.date(2024, 1, 5), dt.date(2024, 7, 1), last]

    def word(n: float) -> str:
        return standing(days, last + dt.timedelta(days=n)).word

    half = int(6.5 * MONTH)
    assert (word(half), word(half + 1)) == ("in hand", "going rusty")
    assert (word(365), word(366)) == ("going rusty", "out of practice")
    assert LOSS_AFTER_A_YEAR == -1.4


# Ebbinghaus (1885): minutes, savings observed (from memory) and by his formula (computed)
EBBINGHAUS = [
    (20, 58.2, 57.0),
    (64, 44.2, 46.8),
    (526, 35.8, 34.5),
    (1440, 33.7, 30.4),
    (2880, 27.8, 28.1),
    (8640, 25.4, 24.9),
    (44640, 21.1, 21.2),
]


@pytest.mark.parametrize(("minutes", "observed", "formula"), EBBINGHAUS)
def test_ebbinghaus_savings(minutes, observed, formula):
    assert round(savings(minutes), 1) == formula
    assert savings(minutes) == pytest.approx(observed, abs=3.4)


@pytest.mark.parametrize(("minutes", "forgotten"), [(20, 42), (1440, 67), (44640, 79)])
def test_share_forgotten(minutes, forgotten):
    # mmweekly.com, the Ebbinghaus curve: at 20 minutes, a day, a month
    assert 100 - savings(minutes) == pytest.approx(forgotten, abs=3)
