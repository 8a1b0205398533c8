"""Standings of skills against simulated learners, whose chance follows the power law of practice and forgetting.

Chance by the log of summed powers of age (Anderson and Schooler 1991, from memory), decay 0.3 to 0.6.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from ledger.methods.lapse import standing

pytestmark = [pytest.mark.simulation, pytest.mark.timeout(900)]

LEARNERS = 4000
START = dt.date(2020, 1, 1)


def learner(rng):
    """Return days, how each went, the day asked, and whether a try then goes well."""
    decay, bend = rng.uniform(0.3, 0.6), rng.uniform(0.35, 0.7)
    pauses = rng.choice([3, 7, 14, 30, 60]) * rng.gamma(2, 0.5, rng.integers(1, 40))
    days = np.cumsum(np.maximum(pauses, 1)).astype(int)
    ask = int(days[-1] + rng.choice([10, 30, 60, 120, 240, 500, 900]) * rng.uniform(0.5, 1.5))
    at, went = [], []
    for day in [*days.tolist(), ask]:
        told = sum((max(day - one, 1) / 7.0) ** -decay for one in at)
        chance = 1 / (1 + np.exp(-(np.log(told + 0.08) - 0.2) / bend)) if at else 0.7
        went.append(rng.random() < chance)
        at.append(day)
    return days.tolist(), [4 if one else 2 for one in went[:-1]], ask, went[-1]


def test_in_hand_goes_well_more_often_than_going_rusty(capsys):
    rng = np.random.default_rng(5)
    seen = {"in hand": [], "going rusty": [], "out of practice": []}
    for _ in range(LEARNERS):
        days, went, ask, well = learner(rng)
        dates = [START + dt.timedelta(days=day) for day in days]
        found = standing(dates, START + dt.timedelta(days=ask), False, went)
        seen[found.word].append(well)
    rate = {word: float(np.mean(some)) for word, some in seen.items()}
    everything = np.concatenate(list(seen.values()))
    base = everything.mean() * (1 - everything.mean())
    brier = (
        sum(np.sum((np.array(some) - rate[word]) ** 2) for word, some in seen.items())
        / everything.size
    )
    with capsys.disabled():
        print(
            "\ngoes well:", ", ".join(f"{word} {one:.2f} of {len(seen[word])}" for word, one in rate.items()),
            f"; Brier {brier:.3f}, base rate {base:.3f}",
        )  # fmt: skip
    assert rate["in hand"] > rate["going rusty"] + 0.05 > rate["out of practice"] + 0.1
    assert brier < 0.9 * base
