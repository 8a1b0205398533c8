"""What later lines that name a lot prove to have been there on the day of a count (rule 6)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import parse_amount

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["proven"]


def proven(state: State, body: dict[str, Any], on: str) -> list[tuple[str, str, int, int]]:
    """Return (item, amount, whole counted, whole proven) of each line of a count on a day.

    An amount is set beside what was taken of the strand that it comes to.
    """
    from ledger.replay.state import day_number

    day = day_number(on)
    at_start = body.get("when") == "start"
    draw, lot, amount = state.allocations
    named = np.concatenate([state.flows.draws["named"], np.full(state.matched.loss_of.size, -1)])
    is_named = named[draw] == lot
    draw_day, lot_day = state.draws["day"][draw], state.lots["day"][lot]
    there = (lot_day < day) if at_start else (lot_day <= day)
    later = (draw_day >= day) if at_start else (draw_day > day)
    out = []
    for line in body["lines"]:
        item = state.facts.find(line["item"])
        said = parse_amount(line["amount"], zero=True)
        if item is None:
            out.append((line["item"], line["amount"], 0, 0))
            continue
        stored = {"measure": said.dimension, "whole": said.whole, "per": said.unit}
        strand, whole, _ = state.facts.comes(item, {**stored, "times": said.times})
        rows = is_named & there & later & (state.lots["item"][lot] == strand)
        out.append((line["item"], line["amount"], whole, int(amount[rows].sum())))
    return out
