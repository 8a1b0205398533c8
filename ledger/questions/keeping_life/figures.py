"""The formulas of keeping life: each gives the column for all items and places, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, if_known, work
from ledger.questions.keeping_life.gather import Lives, is_known
from ledger.questions.quantities import about

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ENOUGH", "FEW", "LifeFigures"]

FEW, ENOUGH = 5, 10
"""Below five failures it is too few to say; from ten on the curve stands beside the chart."""


class LifeFigures:
    """Every figure of how long things keep.

    Attributes
    ----------
    lives : Lives
    of : dict of str to Figure
        By the name of its column; a row is an item in a place.
    at : dict of str to Figure
        What was there and what failed at an age; a row is a step.
    """

    def __init__(self, state: State) -> None:
        self.lives = lives = state.once(Lives)
        there = lives.from_on.sum(lives.count).called("there").folds(lives.address_of_step("there"))
        failed = lives.failed_at.sum(lives.count, "subjects").called("failed")
        self.at = {"there": there, "failed": failed}
        good = (there - failed).called("good")
        kept = (good / there).called(
            "day", n=lambda step: about(float(lives.age[lives.first[step]]))
        )
        failures = lives.of_failed.sum(lives.failure, "times").called("failures")
        subjects = lives.of.sum(lives.count).called("subjects")
        enough = failures.values >= ENOUGH
        product = lives.steps.among("product", kept, "0 to 1")
        given = [
            subjects.folds(lives.address("subjects")),
            failures.folds(lives.address("failures")),
        ]
        half = if_known(lives.curve("median", "days", enough, given), "too-few").called("half_days")
        chart = if_known(lives.published, "nothing-published").called("published_days")
        both = work("lowest", half, chart)
        life = choose(is_known(half), choose(is_known(chart), both, half), chart)
        last = lives.aged.at(lives.last_good)
        good_at = choose(
            lives.ends[lives.last_good] < 0, last.called("still-there"), last.called("good-then")
        )
        mean = if_known(lives.curve("mean", "days", enough, given), "too-few")
        error = lives.curve("error", "0 to 1", failures.values >= 0, given)
        self.of: dict[str, Figure] = {
            "survival": choose(failures.values > 0, product.called("survival"), lives.nothing_failed),
            "subjects": subjects,
            "failures": failures,
            "half_days": half,
            "at_least_days": if_known(good_at, "nothing-good", "days"),
            "mean_days": mean.called("mean_days"),
            "error": if_known(error.called("error"), "nothing-left"),
            "published_days": chart,
            "life_days": if_known(life.called("life_days"), "neither-known", "days"),
        }  # fmt: skip
