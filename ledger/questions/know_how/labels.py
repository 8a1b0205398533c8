"""What the figures of know-how are called, by the ids of their labels."""

from __future__ import annotations

__all__ = ["LABELS"]

LABELS = {
    "answers-day": "why-answers-day",
    "year": "why-text",
    "times": "why-times-done",
    "times_this_year": "why-times-in-year",
    "times-in-month": "why-times-in-month",
    "month-to-come": "why-month-to-come",
    "from-to": "why-from-to",
    "rhythm_days": "why-median-gaps",
    "too-seldom": "why-practised-too-seldom",
    "days_since": "why-days-since-last-time",
    "never-practised": "why-never-practised",
    "keeps_days": "why-practices-keep-it",
    "by-seasons": "why-judged-by-seasons",
    "rusts_on": "why-rusty-from",
    "rusts_in_days": "why-rusts-on",
    "not-in-hand": "why-not-in-hand",
    "standing": "why-text",
    "how-it-went": "why-how-it-went",
    "went_lately": "why-mean-went-lately",
    "went_before": "why-mean-went-before",
    "minutes_lately": "why-mean-minutes-lately",
    "minutes_before": "why-mean-minutes-before",
    "minutes_per_unit_lately": "why-mean-minutes-per-unit-lately",
    "minutes_per_unit_before": "why-mean-minutes-per-unit-before",
    "nobody-said": "why-nobody-said-of",
    # batches and their curve
    "made-amount": "why-made-amount",
    "made-weight": "why-made-weight",
    "grams-in-one": "why-grams-in-one",
    "no-weight": "why-no-weight",
    "one-unit": "why-one-unit",
    "minutes_per_unit": "why-minutes-per-at-time",
    "no-work-or-amount": "why-no-work-or-amount",
    "repetition": "why-repetition",
    "learning_rate": "why-learning-rate",
    "learning_rate_low": "why-learning-rate-low",
    "learning_rate_high": "why-learning-rate-high",
    "learning_repetitions": "why-batches-fitted",
    "few-batches": "why-batches-tell-minutes",
    "fitted_likely": "why-fitted",
    "fitted_low": "why-fitted-low",
    "fitted_high": "why-fitted-high",
    "range-of-curve": "why-range-of-curve",
    # targets
    "no-target": "why-shelf-no-target",
    "done": "why-done-in",
    "people": "why-people-at-table",
    "needed": "why-needed",
    "target_met": "why-target-met",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""
