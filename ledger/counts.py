"""Counts that contradict named lots (the reckoning, rule 6): asked when typed, told by an import."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ledger.door import Answers, Entry
from ledger.door.writing import read_day
from ledger.errors import NeedsAnswer
from ledger.kinds import KINDS, check_typed
from ledger.kinds.resolving import join, line_fields
from ledger.messages import measured, sentence

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["check_count", "contradicted"]


def check_count(state: State, entry: Entry, answers: Answers, today: dt.date) -> None:
    """Ask about a count below what later lines that name a lot prove to have been there.

    Raises
    ------
    NeedsAnswer, InputError
    """
    from ledger.replay.counting import proven

    body = check_typed(KINDS["counted"], entry.body)
    on = entry.on or today.isoformat()
    read_day(on)
    found = proven(state, body, on)
    fields = line_fields(body["lines"], "lines")
    for field, (name, text, said, least) in zip(fields, found, strict=True):
        if said < least:
            question = sentence("doubt-count-contradicted", amount=measured(text), name=name)
            answers.settle(
                NeedsAnswer(
                    "count-contradicted", join(field, "amount"), question, sentence("doubt-right")
                )
            )


def contradicted(state: State, after: int) -> Iterator[str]:
    """Say which counts written down after an event (its number) are below what named lots prove."""
    counts = state.flows.counts
    for row in state.matched.contradicted.tolist():
        place, item = int(counts["ev"][row]), int(counts["item"][row])
        if place >= after:
            yield (
                f"event {place + 1}: the count of {state.facts.names[item]} is less than later "
                "entries that name a lot took"
            )
