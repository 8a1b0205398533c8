"""What the figures of the shelf are called, by the ids of their labels."""

from __future__ import annotations

from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.food import LABELS as FOOD_LABELS

__all__ = ["LABELS"]

LABELS = {
    **COST_LABELS,
    **FOOD_LABELS,
    # lots
    "left.whole": "left",
    "share_left": "share left",
    "jars_left": "jars left",
    "not-in-jars": "not put up in jars",
    "cost": "all in",
    "cost_left": "cost of what is left",
    "days_left": "days left",
    "answers-day": "the answer's day, {day}",
    "came-on": "came in",
    "opened-on": "something was last taken",
    "keeps-for": "how long it keeps",
    "keeps": "keeps {said}",
    "keeps-not-said": "nobody said how long it keeps: `croftbook item NAME --keeps`",
    "grams-of": "{origin} raw food in it",
    "all-raw": "all raw food in it",
    "origin": "share that is {origin}",
    "came-as": "{origin}; no weight known",
}
"""Words by id; the rest is said by what an event tells."""
