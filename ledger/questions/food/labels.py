"""What the figures of food are called, by the ids of their labels."""

from __future__ import annotations

from ledger.questions.costs.labels import LABELS as COST_LABELS

__all__ = ["LABELS"]

LABELS = {
    **COST_LABELS,
    # what items hold
    "grams": "why-mass-g",
    "no-weight-of": "why-no-weight-of",
    "no-energy-of": "why-no-energy-of",
    "no-price-of": "why-no-price-counted",
    "in-one": "why-in-one",
    "in-a-gram": "why-in-a-gram",
    "kept-in-cooking": "why-kept-in-cooking",
    # amounts held
    "held": "why-held-food",
    "left-of-lot": "why-left",
    "share-of-lot": "why-share-of-lot",
    "grams-of-it": "why-mass-g",
    "part-known": "why-part-known",
    "weight-known": "enough-weight-known",
    # portions
    "eaten-portion": "why-eaten-portion",
    "fed-portion": "why-fed-portion",
    "part-of-it": "why-part-of-it",
    "by-feed": "why-by-feed",
    "portion": "why-portion",
    # meals
    "whole-dish": "why-whole-dish",
    "no-dish": "why-no-dish",
    "left": "why-kept-of-meal",
    "not-kept": "why-not-kept",
    "part-of-rest": "why-part-of-rest",
    "people": "why-people-at-table",
    "guests": "why-guests",
    "household": "why-household",
    "household-part": "why-household-part",
    "guests-part": "why-guests-part",
    "at-table": "why-household-part",
    "guests-ate": "why-guests-part",
    # feed
    "all-feed": "why-all-feed",
    "own-feed": "why-own-feed",
    "other-feed": "why-other-feed",
    "feed-came": "why-feed-came",
    "feed-share": "why-feed-share",
}
