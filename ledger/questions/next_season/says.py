"""What is said of the season ahead first: what to leave out, what fails outright, how sure it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
    out = [c.name for c in short if not c.fitted]
    less = [
        f"{c.name} ({words.units(c, c.planned or 0)} of {words.units(c, c.likely or 0)})"
        for c in short
        if c.fitted
    ]
    says = [f"leave out {', '.join(out)}"] if out else []
    says += [f"grow less {', '.join(less)}"] if less else []
    return [f"More ground is wanted than there is: {'; '.join(says)}."]


def failing(words: Words) -> list[str]:
    """Return what is said of crops that fail outright too often for any number of plants."""
    out = []
    for crop in words.plan.crops:
        ahead = crop.growth.ahead
        if ahead is not None and ahead.failure > OFTEN and crop.wanted:
            many = round(1 / ahead.failure)
            out.append(
                f"{crop.name}: it fails outright about one season in {many} here. No number of plants helps against that: put up two seasons' worth in a good one, or sow twice."
            )
    return out
