"""How well the book kept its word: what it said at earlier moments, beside what came."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from ledger.errors import InputError
from ledger.messages import Message, Typed, measured, sentence
from ledger.projections.base import Answer, Assumption, Column, Option, Projection
from ledger.questions.ahead.said import EVERY, earlier
from ledger.questions.ahead.widening import lately
from ledger.questions.came_true import why as came_true_why
from ledger.questions.came_true.figures import GradeFigures
from ledger.questions.came_true.gather import SLUGS
from ledger.questions.came_true.scores import RANGES
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
_COUNTS = ("graded", "held", "below", "above", "open")
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
    known = state.once(GradeFigures)
    grades, cells = known.grades, {name: one.cells() for name, one in known.of.items()}
    records = []
    for row, (kind, of) in enumerate(grades.keys):
        is_asked = of == number if number is not None else of is None or by is not None
        if is_asked and (of is None or cells["graded"][row]):
            days = grades.days(row)
            mine = {name: column[row] for name, column in cells.items()}
            records.append(_record(state, kind, of, mine, days))
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
    state: State, kind: str, item: int | None, mine: dict[str, Any], days: list[int]
) -> dict[str, Any]:
    facts = state.facts
    whole = {name: None if mine[name] is None else int(mine[name]) for name in _COUNTS}
    return {
        **mine,
        **whole,
        "why": f"came-true/{SLUGS[kind]}" + ("" if item is None else f"/{facts.strand_name(item)}"),
        "said": kind,
        "item": None if item is None else facts.names[item],
        "first_on": day_text(min(days)) if days else None,
        "last_on": day_text(max(days)) if days else None,
        "in_words": in_words(kind, whole["held"] or 0, whole["graded"] or 0),
        "assumptions": list(_RESTS[kind]),
    }


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
