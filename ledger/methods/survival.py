"""How long things keep: the product-limit estimate with Greenwood's error.

S(t) is the product over the times of failure up to t of (1 - failed / at risk); what was eaten, given
away or is still there is censored at its age: it was good that long.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["Curve", "Step", "product_limit"]


@dataclass(frozen=True)
class Step:
    """One time: at risk just before it, failed and censored at it, survival and its error after it.

    `error` is None where nothing survives.
    """

    time: float
    at_risk: float
    failed: float
    censored: float
    survival: float
    error: float | None


@dataclass(frozen=True)
class Curve:
    """A survival curve.

    Attributes
    ----------
    steps : tuple of Step
        One a time at which something failed or was censored.
    subjects, failures : float
        How many there were, and how many failed.
    """

    steps: tuple[Step, ...]
    subjects: float
    failures: float

    def at(self, time: float) -> float:
        """Return the part that survives to a time."""
        before = [step.survival for step in self.steps if step.time <= time]
        return before[-1] if before else 1.0

    @property
    def median(self) -> float | None:
        """The first time at which no more than half survive; None where more than half do."""
        return next((step.time for step in self.steps if step.survival <= 0.5 + 1e-12), None)

    @property
    def last(self) -> float:
        """The greatest age seen; 0 of nothing."""
        return self.steps[-1].time if self.steps else 0.0

    @property
    def error(self) -> float | None:
        """Greenwood's error of what survives at the greatest age seen; None where nothing does."""
        return self.steps[-1].error if self.steps else None

    @property
    def mean(self) -> float:
        """The area under the curve up to the greatest age seen."""
        area, before, at = 0.0, 1.0, 0.0
        for step in self.steps:
            area += before * (step.time - at)
            before, at = step.survival, step.time
        return area


def product_limit(
    times: Sequence[float], failed: Sequence[bool], counts: Sequence[float] | None = None
) -> Curve:
    """Return the survival curve of subjects by age.

    Parameters
    ----------
    times : sequence of float
        Age at which each failed or was last seen good, 0 or more.
    failed : sequence of bool
    counts : sequence of float, optional
        How many subjects each stands for; default one.

    Raises
    ------
    InputError
        When an age is below 0.

    References
    ----------
    E. L. Kaplan, P. Meier, Journal of the American Statistical Association 53, 1958; M. Greenwood,
    Reports on Public Health and Medical Subjects 33, 1926 (both from memory).
    """
    each = [1.0] * len(times) if counts is None else [float(n) for n in counts]
    if any(time < 0 for time in times):
        raise InputError("age", Message.of("refusal-age-below-zero"))
    left, survival, sums = math.fsum(each), 1.0, 0.0
    steps = []
    for time in sorted(set(times)):
        at = [i for i, one in enumerate(times) if one == time]
        gone = math.fsum(each[i] for i in at if failed[i])
        seen = math.fsum(each[i] for i in at if not failed[i])
        if gone:
            survival *= 1 - gone / left
            if left - gone > 1e-9 * left:
                sums += gone / (left * (left - gone))
            else:
                survival = 0.0
        error = survival * math.sqrt(sums) if survival > 0 else None
        steps.append(Step(time, left, gone, seen, survival, error))
        left -= gone + seen
    failures = math.fsum(n for n, one in zip(each, failed, strict=True) if one)
    return Curve(tuple(steps), math.fsum(each), failures)
