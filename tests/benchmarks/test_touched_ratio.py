"""What touches what, against the reading of the same book: printed ratios, nothing asserted of times.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_touched_ratio.py``; the number of events
is CROFTBOOK_BENCH_EVENTS (100000).
"""

from __future__ import annotations

import statistics

import numpy as np
import pytest
from benchmarks.test_question_ratios import replay_of_size, seconds
from ratio_tools import AS_OF, EVENTS

from ledger.projections import PROJECTIONS
from ledger.questions.touched.touching import touching

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(3600)]


def test_following_a_lot_takes_a_small_part_of_reading_the_book():
    build = PROJECTIONS["touched"].build
    read, replay = seconds(lambda: replay_of_size(EVENTS))
    matched, state = seconds(lambda: replay.state(as_of=AS_OF))
    graph, _ = seconds(lambda: state.once(touching))
    rng = np.random.default_rng(1)
    lots = [
        state.lot_id(int(one)) for one in rng.choice(np.flatnonzero(state.lots["suffix"] == 0), 5)
    ]
    batch = state.entry_id(int(state.events("put_up")[-9]))
    asked = [
        {"lot": lots[0]},
        *({"lot": one} for one in lots[1:]),
        {"batch": batch},
        {"batch": batch, "back": True},
        {"gauge": "dial"},
    ]
    whole = read + matched
    print(
        f"\n{EVENTS:,} events; reading and matching {whole:.1f} s; the graph {graph / whole:.3f} of it"
    )
    for one in asked:
        took = statistics.median(seconds(lambda one=one: build(state, **one))[0] for _ in range(3))
        answer = build(state, **one)
        print(f"touched {one}: {took / whole:.3f} ({took:.2f} s, {len(answer.frame):,} records)")
        assert set(answer.frame["what"]) <= {
            "there",
            "given",
            "eaten",
            "discarded",
            "lost",
            "batch",
            "bought",
            "harvested",
            "received",
            "found",
            "unrecorded",
        }
