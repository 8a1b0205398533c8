"""No question fails on any book that the door takes, on any day."""

from __future__ import annotations

import datetime as dt

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import books

from ledger.projections import PROJECTIONS

# each question as it is asked most, and its other shapes where these need no name of the book's own
ASKED = [
    (name, options)
    for name in PROJECTIONS
    for options in (
        {"gauge": "dial"} if name == "touched" else {},
        *({"shelf": [{"items": True}], "next-season": [{"preserving": True}, {"rotate": True}, {"for": "value"}],
           "stocking-up": [{"budget": 20, "price_rise": 30, "shortage": 8}]}.get(name, [])),
    )
]  # fmt: skip


@pytest.mark.parametrize(("name", "options"), ASKED)
@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
@given(events=books(max_size=50), later=st.integers(0, 900))
def test_every_question_answers(name, options, events, later):
    days = [dt.date.fromisoformat(event["on"]) for event in events] or [dt.date(2026, 1, 1)]
    as_of = (max(days) + dt.timedelta(days=later)).isoformat()
    answer = PROJECTIONS[name].build(state_of(events, as_of), **options)
    assert answer.to_dict()["records"] is not None


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(events=books(max_size=60), part=st.floats(0, 1))
def test_next_season_answers_on_any_day_of_a_book(events, part):
    """Also between what was written down, where batches lack what came later."""
    days = sorted(event["on"] for event in events) or ["2026-01-01"]
    as_of = days[int(part * (len(days) - 1))]
    question = PROJECTIONS["next-season"]
    state = state_of(events, as_of)
    for record in question.build(state).records():
        for figure in ("needed_g.likely", "plants.nine_in_ten", "yield_g.likely", "chance_short"):
            question.why(state, record["why"].partition("/")[2], figure)
