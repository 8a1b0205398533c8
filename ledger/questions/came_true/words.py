"""One thing said in one line: what was said when, and what came."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.messages import measured, sentence
from ledger.messages.units import unit
from ledger.questions.ahead.graded import Graded
from ledger.questions.quantities import UNITS
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["about", "unit_of"]


def about(state: State, one: Graded) -> dict[str, Any]:
    """Return what the label of one thing said speaks of."""
    said, came = _said(state, one)
    return {
        "day": label_day(one.day),
        "name": state.facts.names[one.item],
        "said": said,
        "came": came,
    }


def unit_of(state: State, one: Graded) -> str:
    """Return the unit of an item's amounts; of a yield grams."""
    return "g" if one.kind == "yield" else str(UNITS[state.facts.measure[one.item]])


def _said(state: State, one: Graded) -> tuple[str, str]:
    """Return what was said of it, and what came, in words."""
    if one.kind in ("lasts till more comes", "brings enough"):
        happened = sentence("why-it-came" if one.held else "why-it-did-not-come")
        return measured(_percent(one.said[0])), _not_yet() if one.held is None else happened
    if one.kind == "runs out":
        first, last = (label_day(one.day + int(x * 7 + 0.01)) for x in one.said[::2])
        return sentence("why-stretch", first=first, last=last), _on(one, "why-not-gone-yet")
    if one.kind == "keeps":
        until = label_day(one.day + round(one.said[0] * 7))
        return sentence("why-until", day=until), _on(one, "why-nothing-spoiled")
    named = unit(unit_of(state, one))
    ends = [_number(x) for x in (one.said[::2] if len(one.said) == 3 else one.said[:1])]
    if len(ends) == 2:
        said = sentence("why-span-of", low=ends[0], high=ends[1], unit=named)
    elif one.kind == "yield":
        said = sentence("why-amount-at-least", n=ends[0], unit=named)
    else:
        said = sentence("why-amount-of", n=ends[0], unit=named)
    if one.came is None:
        return said, _not_yet()
    return said, sentence("why-came-amount", n=_number(one.came), unit=named)


def _not_yet() -> str:
    return sentence("why-not-known-yet")


def _on(one: Graded, otherwise: str) -> str:
    if one.held is None:
        return _not_yet()
    if one.came_on is None:
        return sentence(otherwise)
    return sentence("why-came-on", day=label_day(one.came_on))


def _number(value: float) -> str:
    return measured(f"{value:,.0f}" if value >= 100 else f"{value:.3g}")


def _percent(chance: float) -> str:
    return f"{np.clip(chance, 0, 1):.0%}".replace("%", " %")
