"""How well the book kept its word: what it said at earlier moments, beside what came."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message, Typed, measured, sentence
from ledger.projections.base import Answer, Assumption, Column, Option, Projection
from ledger.questions.ahead.graded import KINDS, Graded
from ledger.questions.ahead.said import EVERY, earlier
from ledger.questions.ahead.widening import lately
from ledger.questions.came_true import why as came_true_why
from ledger.questions.came_true.scores import (
    CHANCES,
    EXPECTED,
    RANGES,
    errors_of,
    graded,
    scored,
    side_of,
)
from ledger.questions.shared.common import answer
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "COLUMNS",
    "PROJECTION",
    "RANGES",
    "build",
    "in_words",
]


COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("said", "What was said", "", "runs out: the days between which an item runs out; used a week: its use over the coming 12 weeks; lasts till more comes: the chance of that; yield: the least that a plant brings in nine seasons of ten; brings enough: the chance that the plants planned bring what is needed; keeps: how long it keeps.", main=True),
    Column("item", "Item", "", "What it was said of; null: all together.", main=True),
    Column("graded", "Said", "times", "How often it was said at earlier moments, as far as what came is known.", main=True),
    Column("held", "Held", "times", "How often the range held what came (both ends are in it); of a chance, how often it came.", main=True),
    Column("share_held", "Share", "0 to 1", "Held / said.", main=True),
    Column("expected", "Should be", "0 to 1", "The share that should hold: 0.8 of the ranges, 0.9 of the yields, all that keeps; of a chance, the mean of the chances said.", main=True),
    Column("below", "Below", "times", "How often less (or an earlier day) came than the range held; null for a chance."),
    Column("above", "Above", "times", "How often more (or a later day) came; null for a chance and for what has no upper end."),
    Column("score", "Score", "points", "How far it was off, 0 is best. Of ranges: the mean pinball loss of low, likely and high, in weeks, or as a share of the mean use a week. Of chances: the Brier score.", main=True),
    Column("score_of_base", "Without", "points", "The same score of who only knows the household's base rate: of ranges the plain mean of the year before, with the errors that it made here; of chances how often it came in all.", main=True),
    Column("open", "Open", "times", "How often it was said and is not known yet."),
    Column("first_on", "First said", "day", "The first moment of those known."),
    Column("last_on", "Last said", "day", "The last moment of those known."),
    Column("in_words", "In words", "", "The same as a sentence."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_SAID: dict[str, Callable[[], str]] = {
    "asked-again": lambda: sentence("came-asked-again", n=EVERY // 7),
    "past-its-end": lambda: sentence("came-past-its-end"),
    "base-rate": lambda: sentence("came-base-rate"),
    "needs-as-said": lambda: sentence("came-needs-as-said"),
    "kept-or-spoiled": lambda: sentence("came-kept-or-spoiled"),
}
_RESTS = {
    "runs out": ("asked-again", "past-its-end", "base-rate"),
    "used a week": ("asked-again", "past-its-end", "base-rate"),
    "lasts till more comes": ("asked-again", "base-rate"),
    "yield": ("asked-again",),
    "brings enough": ("asked-again", "needs-as-said", "base-rate"),
    "keeps": ("asked-again", "kept-or-spoiled"),
}


def build(state: State, *, item: str | None = None, by: str | None = None) -> Answer:
    """Return one record for each thing said, of all items together or of each.

    Parameters
    ----------
    state : State
    item : str, optional
        Only this item.
    by : {'item'}, optional
        One record an item as well.

    Raises
    ------
    InputError
        When the book knows no such item.
    """
    number = None
    if item is not None:
        number = state.facts.find(item)
        if number is None:
            raise InputError("item", Message.of("refusal-no-item-came-true", text=Typed(item)))
    every = graded(state)
    spread = errors_of(every)
    records = []
    for kind in KINDS:
        of_kind = [one for one in every if one.kind == kind]
        alone: dict[int, list[Graded]] = {}
        for one in of_kind:
            alone.setdefault(one.item, []).append(one)
        items = sorted(alone, key=lambda i: state.facts.names[i])
        groups: list[tuple[int | None, list[Graded]]] = []
        if number is None:
            groups = [(None, of_kind), *((i, alone[i]) for i in items if by)]
        elif number in alone:
            groups = [(number, alone[number])]
        for of, some in groups:
            if some and (of is None or any(one.held is not None for one in some)):
                records.append(_record(state, kind, of, some, of_kind, spread))
    used = {one for record in records for one in record["assumptions"]}
    assumptions = [Assumption(one, says()) for one, says in _SAID.items() if one in used]
    return answer(
        state,
        "came-true",
        COLUMNS,
        records,
        totals=_totals(state, records),
        assumptions=assumptions,
    )


def _record(
    state: State, kind: str, item: int | None, some: list[Graded], of_kind: list[Graded],
    spread: dict[str, Any],
) -> dict[str, Any]:  # fmt: skip
    known = [one for one in some if one.held is not None]
    name = None if item is None else state.facts.names[item]
    held = sum(bool(one.held) for one in known)
    share = held / len(known) if known else None
    is_chance = kind in CHANCES
    expected = EXPECTED.get(kind)
    if is_chance:
        expected = float(np.mean([one.said[0] for one in known])) if known else None
    out: dict[str, Any] = {
        "why": f"came-true/{kind.replace(' ', '-')}" + (f"/{name}" if name else ""),
        "said": kind,
        "item": name,
        "graded": len(known),
        "held": held,
        "share_held": share,
        "expected": expected,
        "open": len(some) - len(known),
        "first_on": day_text(min(one.day for one in known)) if known else None,
        "last_on": day_text(max(one.day for one in known)) if known else None,
        "in_words": in_words(kind, held, len(known)),
        "assumptions": list(_RESTS[kind]),
    }
    if not is_chance:
        out["below"] = sum(side_of(one) < 0 for one in known)
        if known and len(known[0].said) == 3:
            out["above"] = sum(side_of(one) > 0 for one in known)
    if known:
        off = scored(kind, known, of_kind, spread)
        if off:
            out["score"], out["score_of_base"] = (
                float(np.mean([one[i] for one in off])) for i in (1, 2)
            )
    return out


def in_words(kind: str, held: int, known: int) -> str:
    """Return how often a thing said came true, as a sentence."""
    if not known:
        return sentence("came-none-known")
    if kind in RANGES:
        return sentence("came-ranges-held", n=held, n2=known)
    if kind == "yield":
        return sentence("came-seasons-brought", n=held, n2=known)
    if kind == "keeps":
        return sentence("came-kept", n=held, n2=known)
    return sentence("came-times", n=held, n2=known)


def _totals(state: State, records: list[dict[str, Any]]) -> dict[str, Any]:
    moments = earlier(state)
    out: dict[str, Any] = {"moments": len(moments)}
    both = [r for r in records if r["item"] is None and r["said"] in RANGES]
    out["ranges"] = sum(r["graded"] for r in both)
    out["ranges_held"] = sum(r["held"] for r in both)
    now = lately(state)
    out["widened_by"] = now.factor**0.5
    if not records:
        out["missing"] = [sentence("came-nothing-yet")]
        return out
    words = []
    if out["ranges"]:
        words.append(sentence("came-ranges-in-all", n=out["ranges_held"], n2=out["ranges"]))
    if now.factor > 1:
        wider = measured(f"{now.factor**0.5:.2f}")
        words.append(sentence("came-widened", n=now.held, n2=now.of, n3=wider))
    elif now.of:
        words.append(sentence("came-not-widened", n=now.held, n2=now.of))
    out["in_words"] = words
    return out


PROJECTION = Projection(
    name="came-true",
    title="Came true",
    question="How often did what the book said come true?",
    columns=COLUMNS,
    build=build,
    why=came_true_why.why,
    options=(
        Option("item", "only what was said of this item", "flour"),
        Option("by", "one record an item as well", "item", choices=("item",)),
    ),
)
