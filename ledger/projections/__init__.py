"""The registry of questions: pure functions from a replayed state to a DataFrame.

A new question is a package in `ledger/questions` with a `PROJECTION`, and one line in `_MODULES`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module

from ledger.projections.base import Answer, Assumption, Column, Node, Option, Projection

__all__ = ["PROJECTIONS", "Answer", "Assumption", "Column", "Node", "Option", "Projection"]

_MODULES = {
    "jar-cost": "ledger.questions.jar_cost",
    "shelf": "ledger.questions.shelf.question",
    "our-table": "ledger.questions.our_table",
    "know-how": "ledger.questions.know_how.question",
    "season": "ledger.questions.season",
    "next-season": "ledger.questions.next_season.question",
    "as-published": "ledger.questions.as_published.question",
    "touched": "ledger.questions.touched.question",
    "worth-it": "ledger.questions.worth_it.question",
    "stocking-up": "ledger.questions.stocking_up.question",
    "came-true": "ledger.questions.came_true.question",
    "who-eats": "ledger.questions.who_eats.question",
    "enough": "ledger.questions.enough.question",
    "how-long": "ledger.questions.how_long.question",
    "first-year": "ledger.questions.first_year.question",
    "when-to-sow": "ledger.questions.when_to_sow.question",
    "month-by-month": "ledger.questions.month_by_month.question",
    "keeping-life": "ledger.questions.keeping_life.question",
    "power-and-water": "ledger.questions.power_and_water.question",
    "work-worth": "ledger.questions.work_worth.question",
    "own-prices": "ledger.questions.own_prices.question",
    "hens": "ledger.questions.hens.question",
    "glut": "ledger.questions.glut.question",
    "whole-year": "ledger.questions.whole_year.question",
    "mentions": "ledger.questions.mentions.question",
    "month-ends": "ledger.questions.month_ends.question",
}


class _Lazy(Mapping[str, Projection]):
    """Projections by name; a file is read when its question is asked."""

    def __getitem__(self, name: str) -> Projection:
        projection: Projection = import_module(_MODULES[name]).PROJECTION
        return projection

    def __iter__(self) -> Iterator[str]:
        return iter(_MODULES)

    def __len__(self) -> int:
        return len(_MODULES)


PROJECTIONS: Mapping[str, Projection] = _Lazy()
"""Every question by the name it has on the command line."""
