"""How well the book kept its word: what it said at earlier moments, beside what came."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message, Typed
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

_SAID = {
    "asked-again": f"Every {EVERY // 7} weeks back, at most five years, the questions are asked again as the book was then, with what had been written down by the end of that day; what was said is set beside what is known now.",
    "past-its-end": "A range of days counts once its last day is past, a use once its twelve weeks are; use counts by the days on which there was some.",
    "base-rate": "The score without is that of the plain mean of the year before with the errors that it made in this household, and of chances how often it came in all: both know the outcome, so they are hard to beat.",
    "needs-as-said": "Whether plants would have brought enough goes by what was likely needed as it was said then.",
    "kept-or-spoiled": "Kept: nothing of it was thrown away as spoiled or too old up to the day said; nobody writes down all that spoils. It is no word on safety.",
}  # fmt: skip
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
    assumptions = [Assumption(one, text) for one, text in _SAID.items() if one in used]
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
        return "None of it is known yet."
    if kind in RANGES:
        return f"{held} of {known} earlier ranges held."
    if kind == "yield":
        return f"{held} of {known} seasons brought at least as much."
    if kind == "keeps":
        return f"{held} of {known} kept as long as said."
    return f"It came {held} of {known} times."


def _totals(state: State, records: list[dict[str, Any]]) -> dict[str, Any]:
    moments = earlier(state)
    out: dict[str, Any] = {"moments": len(moments)}
    both = [r for r in records if r["item"] is None and r["said"] in RANGES]
    out["ranges"] = sum(r["graded"] for r in both)
    out["ranges_held"] = sum(r["held"] for r in both)
    now = lately(state)
    out["widened_by"] = now.factor**0.5
    if not records:
        out["missing"] = [
            "Nothing can be asked again yet: what the book said is set beside what came once four weeks of use were written down some weeks ago."
        ]
        return out
    words = []
    if out["ranges"]:
        words.append(
            f"{out['ranges_held']} of {out['ranges']} earlier ranges held; of 80 % ranges 8 in 10 should."
        )
    if now.factor > 1:
        words.append(
            f"Of the last ones too few held ({now.held} of {now.of}), so ranges are {now.factor**0.5:.2f} times as wide as the method has them."
        )
    elif now.of:
        words.append(f"Of the last ones {now.held} of {now.of} held: no range is widened.")
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
