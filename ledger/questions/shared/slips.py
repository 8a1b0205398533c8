"""Slips of a digit, asked about before a batch is written down: jars, loads and energy that do not fit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.amounts import parse_amount
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import kept_by
from ledger.messages import Code, sentence
from ledger.questions.as_published.records import doubts_before

if TYPE_CHECKING:
    from ledger.door import Answers
    from ledger.known import Catalogue
    from ledger.published import Doubt
    from ledger.replay import State

__all__ = ["settled_places", "slips", "strengths"]


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


def settled_places(body: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Return a batch with a place for jars that no published process closed, where none was said.

    By an oven or an open kettle they stand on the shelf, as their caution has it; by a cook it is
    asked whether they stand cold, and with nobody to ask it is noted.

    Raises
    ------
    NeedsAnswer
        When a person is asked, and they do not stand cold.
    """
    from ledger.published import batch_as_typed
    from ledger.published.equipment import cold_heat

    batch = batch_as_typed(body)
    made = body.get("made") or ()
    open_ = [n for n, one in enumerate(made) if one.get("jars") and not one.get("kept")]
    if batch is None or not open_ or kept_by(str(body.get("method"))) != "fridge":
        return body
    if (tool := cold_heat(batch)) is not None:
        answers.note(sentence("doubt-closed-on-shelf", item=batch.makes, tool=tool))
        lines = [{**one, "kept": "shelf"} if n in open_ else one for n, one in enumerate(made)]
        return {**body, "made": lines}
    if body["method"] == "cook":
        _ask_where(batch.makes, answers)
    return body


def _ask_where(item: str, answers: Answers) -> None:
    """Ask whether jars of a cook stand cold, with the few days that are published."""
    from ledger.published.words import cite, cited, figure
    from ledger.reference.storage import figures

    days = figures("shelf_life", "home_canned_food", "fridge_after_opening")[0]
    question = sentence(
        "doubt-where-kept",
        item=item,
        n=figure(days.low),
        n2=figure(days.high),
        source=cited(cite(days.source)),
    )
    offered = sentence("doubt-in-fridge")
    if answers.ask is not None:
        answers.settle(NeedsAnswer("where-kept", "made", question, offered))
        return
    answers.note(sentence("doubt-taken", field=Code("made"), question=question, answer=offered))


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
