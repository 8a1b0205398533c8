"""What is unlikely of an entry as a whole: more than is there, out of jars, far more than ever, a price far off.

A person is asked; a file and a script are not, as their word stands and the answers say what it
rests on. The bounds are our own choice.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.errors import NeedsAnswer
from ledger.messages import Day, Sentence, fixed, measured, sentence
from ledger.questions.shared.put_up_as import jars_drawn, put_up_as
from ledger.replay import ORIGINS, day_number, tables
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.door import Written
    from ledger.replay import State

__all__ = ["unlikely"]

_PRICE, _AMOUNT = 5.0, 8.0
"""So many times the price last seen, or the most written down so far, is asked about."""
_SEEN = 3
"""So many earlier lines tell what is usual."""
_DUST = 1000
"""Whole units (1 g, 1 ml) that no household measures: not spoken of as left. Our own choice."""
_SHORT = 0.02
"""A part of what is taken that may be missing without a question: scales differ."""
_CAME = [ORIGINS.index(name) for name in ("grown", "foraged", "given", "bought", "batch")]


def unlikely(written: Written, now: State, then: State, *, usual: bool = True) -> list[NeedsAnswer]:
    """Return the questions that an entry raises.

    Parameters
    ----------
    written : Written
        What writing it would give.
    now, then : State
        The book without it and with it.
    usual : bool
        Ask about what is far from usual, too; else only about what is not there.
    """
    ev = written.event.seq - 1
    there = [*_not_there(ev, now, then), *_out_of_jars(written, ev, then)]
    return [*there, *_far_more(ev, then), *_dear(written, now)] if usual else there


def _not_there(ev: int, now: State, then: State) -> Iterator[NeedsAnswer]:
    """Ask about what is taken and not there, of items that came in at some time."""
    made_up = (then.lots["origin"] == ORIGINS.index("unrecorded")) & (then.lots["ev"] == ev)
    known = set(np.unique(now.lots["item"][np.isin(now.lots["origin"], _CAME)]).tolist())
    mine = then.draws["ev"] == ev
    for item in np.unique(then.lots["item"][made_up]).tolist():
        own = now.facts.find(then.facts.names[item])
        number = None if own is None else now.facts.strands.of(own, then.facts.measure[item])
        if number not in known:
            continue
        short = int(then.lots["whole"][made_up & (then.lots["item"] == item)].sum())
        taken = int(then.draws["whole"][mine & (then.draws["item"] == item)].sum())
        if short <= _SHORT * taken:
            continue
        dust = _DUST if then.facts.measure[item] in ("mass", "volume") else 0
        there = _said(then, item, taken - short) if taken - short > dust else None
        question = sentence(
            "doubt-not-there",
            amount=_said(then, item, taken),
            name=then.facts.names[item],
            there=there,
            other=_otherwise(now, own, number),
        )
        offered = sentence("doubt-unrecorded", amount=_said(then, item, short))
        yield NeedsAnswer("not-there", "amount", question, offered)


def _out_of_jars(written: Written, ev: int, then: State) -> Iterator[NeedsAnswer]:
    """Ask about food not said by the jar that the book, oldest first, takes out of jars of the fresh food's name."""
    said = [line for field in _TAKEN for line in written.body.get(field) or ()]
    _, lot, amount = then.allocations
    taken = {} if written.event.kind == "counted" else jars_drawn(then, ev, said)
    for item, rows in taken.items():
        first = int(lot[rows[0]])
        question = sentence(
            "doubt-out-of-jars",
            amount=_said(then, item, int(amount[rows].sum())),
            name=then.facts.names[item],
            day=Day(day_text(int(then.lots["day"][first]))),
            method=fixed(put_up_as(then, first) or ""),
        )
        yield NeedsAnswer("out-of-jars", "amount", question, sentence("doubt-from-jars"))


_TAKEN = ("used", "ate", "lines")
"""Lists of a body in which something may be taken; a count asks for itself."""


def _otherwise(state: State, own: int | None, number: int | None) -> Sentence | None:
    """Return what is there of an item in another measure, and which weight would join the two."""
    if own is None:
        return None
    for strand in state.facts.strands.several(own):
        left = int(state.left[state.lots["item"] == strand].sum())
        if strand != number and left > 0:
            name, unit = state.facts.names[own], state.facts.measure[strand]
            known = unit in ("mass", "volume", "count", "energy")
            return sentence(
                "doubt-apart-from",
                amount=_said(state, strand, left),
                name=name,
                unit=None if known else unit,
            )
    return None


def _far_more(ev: int, then: State) -> Iterator[NeedsAnswer]:
    """Ask about far more of something than ever came in, or went out, at once.

    What a count finds or misses is no amount that somebody typed.
    """
    typed = np.isin(then.lots["origin"], _CAME), then.draws["role"] < len(tables.ROLES)
    for flow, sort, said in ((then.lots, "origin", typed[0]), (then.draws, "role", typed[1])):
        for row in np.flatnonzero((flow["ev"] == ev) & said).tolist():
            item, whole = int(flow["item"][row]), int(flow["whole"][row])
            alike = (flow["item"] == item) & (flow[sort] == flow[sort][row]) & (flow["ev"] != ev)
            earlier = flow["whole"][alike]
            if earlier.size < _SEEN or whole <= _AMOUNT * int(earlier.max()):
                continue
            question = sentence(
                "doubt-far-more",
                amount=_said(then, item, whole),
                name=then.facts.names[item],
                most=_said(then, item, int(earlier.max())),
            )
            yield NeedsAnswer("far-more", "amount", question, sentence("doubt-right"))


def _dear(written: Written, now: State) -> Iterator[NeedsAnswer]:
    """Ask about a price far from the last one seen."""
    day = day_number(written.event.on)
    for line, paid in _priced(written.body):
        item = now.facts.find(line["item"])
        if item is None or not line.get("whole"):
            continue
        number, whole, _ = now.facts.comes(item, line)
        if number is None:
            continue
        price, ev, later = (
            part[0] for part in now.costs.prices.of(np.array([number]), np.array([day]))
        )
        if ev < 0 or later or not price > 0:
            continue
        expected = float(price) * whole
        if expected / _PRICE <= paid <= expected * _PRICE or paid == 0:
            continue
        question = sentence(
            "doubt-dear",
            paid=measured(f"{paid:.2f}"),
            amount=measured(line["amount"]),
            name=line["item"],
            expected=measured(f"{expected:.2f}"),
        )
        yield NeedsAnswer("price", "paid", question, sentence("doubt-right"))


def _priced(body: dict[str, Any]) -> list[tuple[dict[str, Any], float]]:
    lines = [(line, line.get("paid")) for line in body.get("lines", ()) if line.get("paid")]
    if body.get("price") and body.get("amount"):
        lines.append((body, body["price"]))
    return [(line, float(paid)) for line, paid in lines]


def _said(state: State, item: int, whole: int) -> Sentence:
    measures = state.settings.newest("measures", "us") or "us"
    return measured(format_whole(whole, state.facts.measure[item], measures=measures))
