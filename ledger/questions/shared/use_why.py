"""Why a use a week says so: the meals, batches and counts of the weeks with some, and the range."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import UNITS, event_node, whole_unit
from ledger.questions.shared.use_past import AHEAD, UsePast, is_use, people_factor

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["mean_use", "used_a_week"]

_ENDS = {"low": "why-end-tenth", "likely": "why-end-fiftieth", "high": "why-end-ninetieth"}
_SAID = {"low": "why-low", "likely": "why-likely", "high": "why-high"}


def mean_use(state: State, item: int, use: UsePast, row: int, per: float) -> Node:
    """Return the plain mean use of the weeks with some.

    Parameters
    ----------
    per : float
        Whole units in one unit of the answer: 1000 for g, 1 for mg.
    """
    draws, past, unit = state.draws, use.pasts[row], _unit(state, item, per)
    begin = state.as_of_day - 7 * past.weeks
    rows = np.flatnonzero(is_use(state) & (draws["item"] == item) & (draws["day"] > begin))
    factors = people_factor(state, draws["day"][rows].astype(np.int64))
    if not use.scaled[row]:
        factors[:] = 1.0
    groups = []
    for factor in np.unique(factors).tolist():
        parts = [
            event_node(state, int(draws["ev"][at]), "", float(draws["whole"][at]) / per, unit)
            for at in rows[factors == factor].tolist()
        ]
        used = total(sentence("why-used-them"), unit, *parts)
        if factor != 1.0:
            more = Node(sentence("why-people-now-against-then"), factor, "times")
            used = product(sentence("why-used-people-now"), unit, used, more)
        groups.append(used)
    used = groups[0] if len(groups) == 1 else total(sentence("why-used-all-them"), unit, *groups)
    return quotient(
        sentence("why-mean-use-past-weeks-some"), f"{unit} a week", used,
        Node(sentence("why-weeks-some"), use.known(row), "weeks"),
    )  # fmt: skip


def used_a_week(
    state: State, item: int, use: UsePast, row: int, at: int, name: str, per: float,
    *, shown: float | None = None,
) -> Node:  # fmt: skip
    """Return use a week over the coming weeks: the mean, and how the range stands to it.

    `shown` is the figure where it is not the method's own (a range that is widened).
    """
    unit = f"{_unit(state, item, per)} a week"
    if use.too_few(row):
        return Node(sentence("why-too-few-weeks"), None, unit)
    value = (float(use.per_week[at, row]) if shown is None else shown) * 1000 / per
    if np.isnan(value):
        return Node(sentence("why-none-used"), None, unit)
    mean = mean_use(state, item, use, row, per)
    base = float(mean.value or 0.0)
    label = sentence("why-against-mean", which=sentence(_ENDS[name]))
    factor = Node(label, value / base if base else 1.0, "times")
    return product(
        sentence("why-use-ahead", n=AHEAD, which=sentence(_SAID[name])), unit, mean, factor
    )


def _unit(state: State, item: int, per: float) -> str:
    return whole_unit(state, item) if per == 1 else UNITS[state.facts.measure[item]]
