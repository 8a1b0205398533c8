"""What the figures of food are called, by the ids of their labels."""

from __future__ import annotations

from ledger.questions.costs.labels import LABELS as COST_LABELS

__all__ = ["LABELS"]

LABELS = {
    **COST_LABELS,
    # what items hold
    "grams": "weight",
    "no-weight-of": "{item}: no weight known, counted 0",
    "no-energy-of": "{item}: no energy known, counted 0",
    "no-price-of": "{item}: no price known, counted 0",
    # portions
    "eaten-portion": "{item} of {came}, on the table {day}",
    "fed-portion": "{item} of {came}, fed {day}",
    "part-of-it": "what was eaten of it",
    "by-feed": "{item}, by feed from elsewhere",
    "portion": "{item} of {came}, {day}",
    # meals
    "whole-dish": "all of it",
    "no-dish": "none of it",
    "left": "kept of the meal",
    "not-kept": "eaten at once",
    "part-of-rest": "part of that",
    "people": "people at the table",
    "guests": "guests",
    "household": "the household",
    "household-part": "part of the household",
    "guests-part": "part of the guests",
    "at-table": "part of the household",
    "guests-ate": "part of the guests",
    # feed
    "all-feed": "all that was given, season {season}",
    "own-feed": "grown here, season {season}",
    "other-feed": "from elsewhere",
    "feed-came": "{item}",
    "feed-share": "share from elsewhere of the feed of season {season}",
}
