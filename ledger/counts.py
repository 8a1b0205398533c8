"""Counts that contradict named lots (the reckoning, rule 6): asked when typed, told by an import."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from ledger.door import Answers, Entry, Written
from ledger.door.writing import read_day
from ledger.errors import DANGER, NeedsAnswer
from ledger.kinds import KINDS, check_typed
from ledger.kinds.resolving import join, line_fields
from ledger.messages import Day, fixed, joined, measured, sentence
from ledger.messages.units import amount as amount_said
from ledger.questions.shared.held import held_in
from ledger.questions.shared.jars import so_many
from ledger.questions.shared.put_up_as import amount_typed, jars_drawn, put_up_as
from ledger.questions.shared.standing import standings
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["check_count", "contradicted", "from_jars", "may_take_jars"]


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


def may_take_jars(state: State, entry: Entry, today: dt.date) -> bool:
    """Return whether a count may take jars that bear the name of the fresh food and are not counted by the jar.

    It takes none of a lot that came later, or of which nothing was left before its day.
    """
    lots, day = state.lots, day_number(entry.on or today)
    draw, lot, amount = state.allocations
    before = state.draws["day"][draw] < day
    taken = np.bincount(lot[before], amount[before], lots["whole"].size)
    there = (lots["jars"] > 0) & (lots["day"] <= day) & (taken < lots["whole"])
    for line in check_typed(KINDS["counted"], entry.body)["lines"]:
        item, said = state.facts.find(line["item"]), amount_typed(line)
        if item is None or (said is not None and said.jars is not None):
            continue
        mine = there & np.isin(lots["item"], state.facts.strands.several(item))
        if any(put_up_as(state, one) for one in np.flatnonzero(mine).tolist()):
            return True
    return False


def from_jars(written: Written, then: State) -> Iterator[NeedsAnswer]:
    """Ask about each batch's jars that a count of the food, not by the jar, would take off the shelf.

    What is marked says so; what is grave takes no answer given in advance but that on purpose.
    """
    ev = written.event.seq - 1
    _, lot, amount = then.allocations
    rows = [row for some in jars_drawn(then, ev, written.body["lines"]).values() for row in some]
    taken: dict[int, int] = {}
    for row in rows:
        taken[int(lot[row])] = taken.get(int(lot[row]), 0) + int(amount[row])
    held, marks = then.once(held_in), then.once(standings).of(list(taken))
    for one, whole in taken.items():
        mark = marks[one]
        mark = mark if mark is not None and mark.is_marked else None
        many = float(held.jars[one]) * whole / int(then.lots["whole"][one])
        question: str = sentence(
            "doubt-count-from-jars",
            jars=amount_said(so_many(many, held.name(one) or "jar")),
            name=then.facts.names[int(then.lots["item"][one])],
            day=Day(day_text(int(then.lots["day"][one]))),
            method=fixed(put_up_as(then, one) or ""),
            mark=None if mark is None else mark.text,
        )
        code = "out-of-jars" if mark is None else "open-standing"
        if mark is not None and mark.is_grave:
            code, question = DANGER, joined(" ", [question, sentence("standing-signs")])
        yield NeedsAnswer(code, "lines", question, sentence("doubt-jars-gone"))


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
