"""Trees of jar-cost against the answer that they explain, on a drawn book: processor's seconds of one run.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_figures_ratio.py``.
"""

from __future__ import annotations

import statistics

import pytest
from benchmarks.test_question_ratios import replay_of_size, seconds
from ratio_tools import EVENTS

from ledger.projections import PROJECTIONS

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(3600)]

TREES = 200


def test_trees_against_their_answer():
    state = replay_of_size(EVENTS // 4).state(as_of="2027-01-01")
    state.costs  # noqa: B018
    question = PROJECTIONS["jar-cost"]
    whole, answer = seconds(lambda: question.build(state))
    keys = [record["lot"] for record in answer.records()]
    keys = keys[:: max(1, len(keys) // TREES)]
    first, tree = seconds(lambda: question.why(state, keys[0], "cost.all_in"))
    later = [seconds(lambda k=key: question.why(state, k, "cost.all_in"))[0] for key in keys]
    assert tree.value == pytest.approx(answer.rows()[0]["cost.all_in"])
    print(f"\n{answer.count:,} records; a tree / the answer that it explains")
    print(f"the first {first / whole:.3f}, a later one {statistics.median(later) / whole:.4f}")
