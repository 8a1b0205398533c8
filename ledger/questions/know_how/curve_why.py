"""The learning curve as arithmetic: least squares on logarithms, down to each batch."""

from __future__ import annotations

import math
from collections.abc import Callable

from ledger.messages import sentence
from ledger.messages.units import unit as unit_name
from ledger.methods.learning import LEAST_REPETITIONS, LearningCurve, fit_curve
from ledger.projections.base import Node
from ledger.questions.know_how.skills import Skills
from ledger.questions.know_how.units import Units
from ledger.questions.shared.arithmetic import (
    difference,
    logarithm,
    power,
    product,
    quotient,
    total,
)
from ledger.questions.shared.common import event_node

__all__ = ["CurveTree"]

_CUT = 50.0
"""Exponents are cut there by the fit (ledger/methods/learning.py)."""


class CurveTree:
    """Trees of one group's minutes for one, and of the curve fitted to them."""

    def __init__(self, skills: Skills, units: Units, skill: int, span: tuple[int, int]) -> None:
        self.skills, self.units, self.skill, self.span = skills, units, skill, span
        self.each = units.minutes(skill, span)

    def minutes(self, at: int) -> Node:
        """Return minutes for one at a practice (from 0): all work by what was made."""
        ev = int(self.skills.ev[self.span[0] + at])
        unit = self.units.of(self.skill)
        if unit is None or not math.isfinite(self.each[at]):
            return Node(sentence("why-no-work-or-amount"), None, "minutes per unit")
        state, name = self.skills.state, unit[0]
        return quotient(
            sentence("why-minutes-per-at-time", unit=unit_name(name), n=at + 1),
            f"minutes per {name}",
            event_node(state, ev, "", float(self.skills.minutes_of[ev]), "minutes"),
            event_node(state, ev, sentence("why-made-amount"), float(unit[1][ev]), name),
        )

    def rates(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how the rate and its range are worked out."""
        return {
            "learning_rate": lambda: self._rate(sentence("why-learning-rate"), 0),
            "learning_rate_low": lambda: self._rate(sentence("why-learning-rate-low"), -1),
            "learning_rate_high": lambda: self._rate(sentence("why-learning-rate-high"), 1),
            "learning_repetitions": self._count,
        }

    def at(self, n: int) -> dict[str, Callable[[], Node]]:
        """Return, by column of the curve, how the figures of the n-th repetition come about."""
        ev = int(self.skills.ev[self.span[0] + n - 1])
        spent, unit = float(self.skills.minutes_of[ev]), self.units.of(self.skill)
        made = float(unit[1][ev]) if unit else math.nan
        state = self.skills.state
        return {
            "minutes": lambda: event_node(state, ev, "", _known(spent), "minutes"),
            "made": lambda: event_node(state, ev, "", _known(made), unit[0] if unit else ""),
            "minutes_per_unit": lambda: self.minutes(n - 1),
            "fitted_likely": lambda: self._fitted(n),
            "fitted_low": lambda: self._end(n, quotient, sentence("why-fitted-low")),
            "fitted_high": lambda: self._end(n, product, sentence("why-fitted-high")),
        }

    def _used(self) -> list[tuple[int, float]]:
        """Return the practices fitted: which (from 0), and its minutes for one."""
        return [(at, m) for at, m in enumerate(self.each) if math.isfinite(m) and m > 0]

    def _none(self, unit: str) -> Node:
        have = len(self._used())
        return Node(sentence("why-batches-tell-minutes", n=have, n2=LEAST_REPETITIONS), None, unit)

    def _count(self) -> Node:
        nodes = [
            event_node(
                self.skills.state, int(self.skills.ev[self.span[0] + at]), "", 1.0, "batches"
            )
            for at, _ in self._used()
        ]
        known = len(nodes) >= LEAST_REPETITIONS
        return (
            total(sentence("why-batches-fitted"), "batches", *nodes)
            if known
            else self._none("batches")
        )

    def _rate(self, label: str, side: int) -> Node:
        fitted = fit_curve(self.each)
        if fitted is None:
            return self._none("0 to 1")
        exponent = self._exponent(fitted)
        if side:
            exponent = self._end_of_slope(fitted, exponent, side)
        return power(label, "0 to 1", Node(sentence("why-doubling-repetitions"), 2.0), exponent)

    def _end_of_slope(self, fitted: LearningCurve, exponent: Node, side: int) -> Node:
        end = fitted.exponent + side * fitted.reach * fitted.error
        if abs(end) > _CUT:
            return Node(sentence("why-range-cut"), math.copysign(_CUT, end))
        student = Node(
            sentence("why-students-t", n=fitted.repetitions - 2),
            side * fitted.reach,
        )
        reach = product(
            sentence("why-reach"), "", student, Node(sentence("why-standard-error-b"), fitted.error)
        )
        return total(
            sentence("why-b-reach-high" if side > 0 else "why-b-reach-low"), "", exponent, reach
        )

    def _exponent(self, fitted: LearningCurve) -> Node:
        """Return the slope by least squares: sum of (x - mean) y by sum of (x - mean) squared."""
        above, below = [], []
        for at, _ in self._used():
            x = logarithm(
                sentence("why-logarithm-of", n=at + 1),
                Node(sentence("why-repetition"), float(at + 1)),
            )
            mean = Node(sentence("why-mean-those-logarithms"), fitted.middle)
            away = difference(sentence("why-repetition-away-mean", n=at + 1), "", x, mean)
            y = logarithm(sentence("why-logarithm-of-minutes"), self.minutes(at))
            above.append(product(sentence("why-repetition-of", n=at + 1), "", away, y))
            below.append(product(sentence("why-repetition-squared", n=at + 1), "", away, away))
        return quotient(
            sentence("why-b-slope-line"),
            "",
            total(sentence("why-distances-minutes"), "", *above),
            total(sentence("why-distances-squared"), "", *below),
        )

    def _fitted(self, n: int) -> Node:
        fitted = fit_curve(self.each)
        if fitted is None:
            return self._none("minutes per unit")
        unit = self.units.of(self.skill)
        name = f"minutes per {unit[0]}" if unit else ""
        return product(
            sentence("why-fitted"),
            name,
            Node(sentence("why-fitted-first"), fitted.first, name),
            power(
                sentence("why-n-power-b"),
                "",
                Node(sentence("why-repetition-n"), float(n)),
                self._exponent(fitted),
            ),
        )

    def _end(self, n: int, by: Callable[..., Node], label: str) -> Node:
        fitted = fit_curve(self.each)
        if fitted is None:
            return self._none("minutes per unit")
        factor = Node(sentence("why-range-of-curve"), fitted.range_factor(n))
        likely = self._fitted(n)
        return by(label, likely.unit, likely, factor)


def _known(value: float) -> float | None:
    return value if math.isfinite(value) else None
