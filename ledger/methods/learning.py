"""Learning by doing: minutes a unit against repetition.

Two models share the name and must not be mixed. In the unit model the time of unit n is
first x n^b; in Wright's the mean of the first n units is. At 80 per cent the second unit takes
0.80 of the first in the one and 0.60 in the other. `fit_curve` fits the unit model.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.messages import Message

__all__ = [
    "LEAST_REPETITIONS",
    "LearningCurve",
    "exponent",
    "fit_curve",
    "unit_time",
]

#: No curve from fewer repetitions than this (the household's rule: a line through four points
#: says little).
LEAST_REPETITIONS = 5


def exponent(rate: float) -> float:
    """Return b = log(rate) / log 2 of a learning rate.

    Parameters
    ----------
    rate : float
        What a doubling of repetitions leaves of the time, above 0 (0.8 is "80 per cent").

    Raises
    ------
    InputError
        When the rate is not above zero.

    References
    ----------
    business-analysis-made-easy, learning curve example (80 % gives b = -0.3219).
    """
    if not rate > 0:
        raise InputError("rate", Message.of("refusal-learning-rate", n=rate))
    return math.log(rate) / math.log(2)


def unit_time(first: float, rate: float, n: int) -> float:
    """Return the time of the n-th unit in the unit model, first x n^b.

    Parameters
    ----------
    first : float
        Time of the first unit; the answer is in the same unit.
    rate : float
        Learning rate, as for `exponent`.
    n : int
        Which unit, from 1.

    References
    ----------
    Learning-curve coefficient table (70 to 85 per cent), as listed in
    tests/published/test_skill.py, every entry of which this reproduces.
    """
    _check_n(n)
    return first * math.pow(n, exponent(rate))


@dataclass(frozen=True)
class LearningCurve:
    """The household's own curve: minutes a unit = first x n^b.

    Attributes
    ----------
    first : float
        Fitted minutes a unit at the first repetition.
    exponent : float
        b.
    rate, rate_low, rate_high : float
        What a doubling of repetitions leaves of the time: 2^b, and its 95 per cent range. Above
        1 it takes longer each time.
    repetitions : int
        How many the fit rests on.
    error : float
        Standard error of the exponent.
    reach : float
        Student's t for 95 per cent at repetitions - 2 degrees of freedom.
    middle, width : float
        Mean of the logarithms of the repetitions fitted, and the sum of their squared distances
        from it.
    """

    first: float
    exponent: float
    rate: float
    rate_low: float
    rate_high: float
    repetitions: int
    error: float = 0.0
    reach: float = 0.0
    middle: float = 0.0
    width: float = 1.0

    def minutes(self, n: int) -> float:
        """Return the fitted minutes a unit at the n-th repetition."""
        _check_n(n)
        return float(self.first * n**self.exponent)

    def range_factor(self, n: int, one_batch: bool = False) -> float:
        """Return by what to divide and to multiply `minutes(n)` for its 95 per cent range.

        Parameters
        ----------
        n : int
            Which repetition, from 1.
        one_batch : bool
            The range of a single batch at that repetition, instead of that of the curve itself.

        References
        ----------
        The range of a fitted line, and of one more observation, from Student's t, taken on the
        logarithms: NIST/SEMATECH e-Handbook of Statistical Methods, 4.5.1.1 and 4.5.1.2 (from
        memory), and any textbook of regression.
        """
        _check_n(n)
        distance = (math.log(n) - self.middle) ** 2 / self.width
        within = 1 / self.repetitions + distance + (1.0 if one_batch else 0.0)
        scatter = self.error * math.sqrt(self.width)
        return math.exp(min(self.reach * scatter * math.sqrt(within), 700.0))


def fit_curve(minutes_per_unit: Sequence[float | None]) -> LearningCurve | None:
    """Fit the unit model to the household's own batches, in the order they were made.

    A straight line through log(minutes) against log(repetition) by least squares, with the
    range of its slope from Student's t.

    Parameters
    ----------
    minutes_per_unit : sequence of float or None
        Minutes a jar (or a pound) of each repetition, oldest first. A repetition without a
        record (None, NaN or not above 0) counts as practice and is left out of the fit.

    Returns
    -------
    LearningCurve or None
        None from fewer than five recorded repetitions.

    References
    ----------
    The model: `unit_time`. The line: numpy.linalg.lstsq, which takes less than a tenth of the time of
    scipy.stats.linregress; the tests hold the two together.
    """
    known = [
        (math.log(n), math.log(value))
        for n, value in enumerate(minutes_per_unit, start=1)
        if value is not None and math.isfinite(value) and value > 0
    ]
    if len(known) < LEAST_REPETITIONS:
        return None
    import numpy as np
    from scipy.special import stdtrit

    x, y = np.array(known).T
    (intercept, slope), rest, *_ = np.linalg.lstsq(np.vander(x, 2, increasing=True), y)
    middle = float(x.mean())
    width = float(((x - middle) ** 2).sum())
    error = math.sqrt(float(rest[0]) / (x.size - 2) / width)
    student = float(stdtrit(x.size - 2, 0.975))
    slope, reach = float(slope), student * error
    # a range too wide to say anything is cut where the numbers would overflow
    low, high = max(slope - reach, -50.0), min(slope + reach, 50.0)
    return LearningCurve(
        first=math.exp(min(float(intercept), 700.0)),
        exponent=slope,
        rate=2.0**slope,
        rate_low=2.0**low,
        rate_high=2.0**high,
        repetitions=len(known),
        error=error,
        reach=student,
        middle=middle,
        width=width,
    )


def _check_n(n: int) -> None:
    if n < 1:
        raise InputError("repetition", Message.of("refusal-repetition", n=n))
