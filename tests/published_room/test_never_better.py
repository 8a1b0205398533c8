"""One thing made worse in a published batch never improves its verdict; nor does an unknown word."""

from __future__ import annotations

import random

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from worse import BASES, STRICT, able, apart, rank, standing

PASSING = rank("as published")
DICE = st.integers(0, 2**20)


def test_published_rows_stand_as_published():
    """Else the properties below would start from nothing."""
    short = [body for _, _, body in BASES if rank(standing(body)) != PASSING]
    told = {body["makes"]: standing(body) for body in short}
    assert len(BASES) > 1000
    assert len(short) <= len(BASES) / 20, (len(short), len(BASES), told)


@pytest.fixture(scope="module")
def places():
    """For each way to be worse, the published batches that can be made so."""
    found = {name: able(name) for name in STRICT}
    assert all(len(one) >= 8 for one in found.values()), {n: len(one) for n, one in found.items()}
    return found


@pytest.mark.parametrize("name", STRICT)
def test_one_thing_worse_is_not_as_published(name, places):
    @settings(max_examples=80)
    @given(st.sampled_from(places[name]), DICE)
    def holds(place, seed):
        line, cell, body = BASES[place]
        worse = STRICT[name](line, cell, body, random.Random(seed))
        assert rank(standing(worse)) < PASSING, (line.id, standing(worse), worse)

    holds()


@pytest.mark.parametrize("first", STRICT)
def test_a_second_thing_worse_never_improves_it(first, places):
    """What is known to be wrong stays known, whatever else is wrong or not written down."""

    @settings(max_examples=60, suppress_health_check=[HealthCheck.filter_too_much])
    @given(st.sampled_from(places[first]), DICE, st.sampled_from(sorted(STRICT)))
    def holds(place, seed, second):
        line, cell, body = BASES[place]
        once = STRICT[first](line, cell, body, random.Random(seed))
        lost = {"psi", "gauge", "minutes", "altitude", "headspace"} & (set(body) - set(once))
        assume(not lost or second in ("a low-acid part", "an appliance", "a word in the note"))
        twice = STRICT[second](line, cell, once, random.Random(seed + 1))
        assume(twice is not None and apart(body, once, twice))
        before, after = standing(once), standing(twice)
        assert rank(after) <= rank(before), (line.id, first, second, before, after, twice)

    holds()
