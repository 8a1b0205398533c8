"""What is said of the season ahead first: what to leave out, what fails outright, how sure it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.messages import Names, Sentence, sentence

if TYPE_CHECKING:
    from ledger.questions.next_season.words import Words
    from ledger.questions.planning.plan import CropPlan

__all__ = ["chance_words", "failing", "leave_out"]

OFTEN = 0.1
"""Failing more often than this, a crop has no nine seasons in ten."""

_EVEN = (0.42, 0.58)


def chance_words(crop: CropPlan) -> str | None:
    """Return the chance of enough in words."""
    short = crop.chance_short
    if short is None:
        return None
    if _EVEN[0] <= short <= _EVEN[1]:
        return "even"
    return f"{1 - short:.0%}".replace("%", " %")


def leave_out(words: Words) -> list[str]:
    """Return what to leave out where more ground is wanted than there is."""
    short = [c for c in words.plan.crops if c.fitted is not None and c.short]
    if not short:
        return []
    out = Names(tuple(c.name for c in short if not c.fitted))
    less = Names(tuple(_some_of(words, c) for c in short if c.fitted))
    if not less.items:
        return [sentence("plan-leave-out", names=out)]
    if not out.items:
        return [sentence("plan-grow-less", list=less)]
    return [sentence("plan-leave-out-and-grow-less", names=out, list=less)]


def _some_of(words: Words, crop: CropPlan) -> Sentence:
    many, of = (words.units(crop, one or 0) for one in (crop.planned, crop.likely))
    return sentence("plan-some-of", crop=crop.name, many=many, many2=of)


def failing(words: Words) -> list[str]:
    """Return what is said of crops that fail outright too often for any number of plants."""
    out: list[str] = []
    for crop in words.plan.crops:
        ahead = crop.growth.ahead
        if ahead is not None and ahead.failure > OFTEN and crop.wanted:
            many = round(1 / ahead.failure)
            out.append(sentence("plan-fails", name=crop.name, n=many))
    return out
