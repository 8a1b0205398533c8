"""What batches hand down of how they stand, worked out where something marked is taken, and for each."""

from __future__ import annotations

from books import state_of
from hypothesis import HealthCheck, given, settings
from strategies import books

from ledger.questions.shared.standing import standings


@given(books(max_size=40))
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_what_is_handed_down_is_what_every_event_inherits(events):
    state = state_of(events)
    known = state.once(standings)
    known.of(range(state.lots["ev"].size))
    for ev, handed in list(known._of_event.items()):
        assert handed == known._inherited(ev)
