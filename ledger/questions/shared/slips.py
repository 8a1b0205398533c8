"""Slips of a digit, asked about before a batch is written down: jars, loads and energy that do not fit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.amounts import parse_amount
from ledger.errors import InputError, NeedsAnswer
from ledger.messages import sentence
from ledger.questions.as_published.records import doubts_before

if TYPE_CHECKING:
    from ledger.known import Catalogue
    from ledger.published import Doubt
    from ledger.replay import State

__all__ = ["slips", "strengths"]


def slips(state: State, catalogue: Catalogue, body: dict[str, Any], day: int) -> list[NeedsAnswer]:
    """Return the questions that a batch as typed raises by published figures.

    Parameters
    ----------
    state : State
        The book as it is.
    catalogue : Catalogue
    body : dict
        Of the ``put_up``, as typed; one that is not whole yet raises no question.
    day : int
        When it was put up (days since 1970).
    """
    if not {"makes", "method", "made"} <= set(body):
        return []
    used = [_measured(catalogue, line) for line in body.get("used", ())]
    return [
        NeedsAnswer("slip", doubt.field, _asked(doubt), sentence("doubt-right"))
        for doubt in doubts_before(state, {**body, "used": used}, day)
    ]


def strengths(body: dict[str, Any]) -> list[NeedsAnswer]:
    """Return the questions to a person about vinegar whose strength is not in its name."""
    from ledger.published import batch_as_typed
    from ledger.published.plausible import strength_doubts

    batch = batch_as_typed(body)
    return [
        NeedsAnswer("strength", one.field, _asked(one), sentence("doubt-not-known"))
        for one in (strength_doubts(batch) if batch else ())
    ]


def _asked(doubt: Doubt) -> str:
    return sentence("doubt-sourced", question=doubt.question, source=doubt.source)


def _measured(catalogue: Catalogue, line: dict[str, Any]) -> dict[str, Any]:
    """Return a line with the amount as the door will store it."""
    try:
        measures = catalogue.setting("measures", default="us") or "us"
        amount = parse_amount(line["amount"], measures=measures)
    except (InputError, NeedsAnswer):
        return line  # the door says what is wrong with it
    said = {"whole": amount.whole, "measure": amount.dimension}
    if amount.dimension in ("volume", amount.unit):
        said |= {"per": amount.unit, "times": amount.times}
    return {**line, **said}
