"""Why a grade says so: everything that was said, each with what came; and each of them by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.days import day_number
from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.came_true.figures import GradeFigures
from ledger.questions.came_true.gather import SLUGS, Grades
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.next_season.labels import LABELS as PLAN_LABELS
from ledger.questions.shared.opening import no_record, opened
from ledger.questions.shelf.labels import LABELS as SHELF_LABELS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    **GARDEN_LABELS,
    **{f"next-season:{label}": id_ for label, id_ in PLAN_LABELS.items()},
    **{f"shelf:{label}": id_ for label, id_ in SHELF_LABELS.items()},
    # records
    "graded": "why-graded",
    "known": "why-said-known",
    "held-all": "why-held",
    "it-came": "why-came",
    "share_held": "why-share-held",
    "should-hold": "why-share-should-hold",
    "mean-chance": "why-mean-chances-said",
    "sum": "why-sum",
    "widened": "why-ranges-widened",
    "below": "why-graded-below",
    "above": "why-graded-above",
    "score": "why-how-far-off",
    "score_of_base": "why-how-far-base-rate-off",
    "nothing-to-score": "why-nothing-score",
    "not-known-yet": "why-not-known-yet",
    "no-range": "why-graded-no-range",
    "no-upper-end": "why-graded-no-upper-end",
    # one thing said
    "held": "why-held",
    "low": "why-low",
    "likely": "why-likely",
    "high": "why-high",
    "chance": "why-graded-chance",
    "sure": "why-graded-sure",
    "not-said": "why-graded-not-said",
    "came": "why-came",
    "base": "why-graded-plain-mean",
    "mean": "why-graded-plain-mean",
    "error": "why-graded-error",
    "by-plain-mean": "why-graded-by-plain-mean",
    "plain": "why-graded-plain-with-errors",
    "rate": "why-graded-rate",
    "off": "why-graded-off",
    "off-squared": "why-graded-off-squared",
    "loss": "why-graded-loss",
    # what came
    "said-on": "why-graded-said-on",
    "stock": "why-graded-stock",
    "went": "why-graded-went",
    "used": "why-used-them",
    "used-before": "why-used-before",
    "came-by": "why-came-by",
    "went-by": "why-went-by",
    "day.left": "why-left",
    "days-there": "why-graded-days-there",
    "weeks-there": "why-graded-weeks-there",
    "used-a-week": "why-came",
    "gone-on": "why-graded-gone-on",
    "not-gone": "why-not-gone-yet",
    "days-after": "why-graded-days-after",
    "weeks-after": "why-graded-weeks-after",
    "more-on": "why-graded-more-on",
    "lasted": "why-came",
    "brought": "why-graded-brought",
    "was-enough": "why-came",
    "came-in": "why-shelf-came-on",
    "came-first": "why-graded-came-first",
    "known-days": "why-graded-known-days",
    "weeks": "why-graded-known-weeks",
    "keeps-for": "why-keeps-for",
    "keeps-until": "why-graded-keeps-until",
    "spoiled-on": "why-graded-spoiled-on",
    "nothing-spoiled": "why-nothing-spoiled",
    "answers-day": "why-answers-day",
    "week": "why-days-of-week",
    "thousand": "why-thousand-to-one",
}
"""Ids of messages by the id of a label; of figures of an earlier moment behind their question's name."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``runs-out``, or ``runs-out/flour`` for one item; ``@2026-05-03/runs-out/flour`` for what was said
        on a day; ``@2026-05-03/`` before any other address is that figure as the book was then.
    field : str, optional
        A column of the answer, or of what was said ``low``, ``came`` and the like; default: ``held``.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When nothing of the kind was said, or there is no such figure.
    """
    known = state.once(GradeFigures)
    grades, name = known.grades, field or "held"
    if key.startswith("@"):
        day, _, rest = key[1:].partition("/")
        slug, _, of = rest.partition("/")
        one = grades.find(day, slug, of)
        if one is None and slug not in SLUGS.values():
            return grades.then.opened(_day(day, key), rest, field)
        if one is None:
            raise no_record("came-true", key)
        return opened(state, "came-true", (known.one, name), one, LABELS, deep)
    return opened(state, "came-true", (known.of, name), _record(grades, key), LABELS, deep)


def _day(day: str, key: str) -> int:
    try:
        return day_number(day)
    except ValueError:
        raise no_record("came-true", key) from None


def _record(grades: Grades, key: str) -> int:
    said, _, name = key.partition("/")
    kind = said.replace("-", " ")
    item = grades.state.facts.find_strand(name) if name else None
    found = (kind, item)
    if (name and item is None) or found not in grades.keys:
        raise NotFound("address", Message.of("refusal-no-grade", text=Typed(key)))
    return grades.keys.index(found)
