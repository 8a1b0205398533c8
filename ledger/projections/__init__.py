"""Projections: one file a question. Pure functions from a replayed state to a DataFrame.

A new question is a package in `ledger/questions` with a `PROJECTION`, and one line in `_MODULES`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module

from ledger.projections.base import Answer, Assumption, Column, Node, Option, Projection

__all__ = ["PROJECTIONS", "Answer", "Assumption", "Column", "Node", "Option", "Projection"]

_MODULES = {
    "jar-cost": "ledger.questions.jar_cost",
    "shelf": "shelf",
    "our-table": "ledger.questions.our_table",
    "know-how": "know_how",
    "season": "ledger.questions.season",
    "next-season": "next_season",
    "as-published": "as_published",
    "touched": "touched",
    "worth-it": "ledger.questions.worth_it.question",
    "stocking-up": "stocking_up",
    "came-true": "came_true",
    "who-eats": "who_eats",
    "enough": "enough",
    "how-long": "how_long",
    "first-year": "first_year",
    "when-to-sow": "when_to_sow",
    "month-by-month": "month_by_month",
    "keeping-life": "keeping_life",
    "power-and-water": "power_and_water",
    "work-worth": "work_worth",
    "own-prices": "own_prices",
    "hens": "hens",
    "glut": "glut",
    "whole-year": "whole_year",
    "mentions": "mentions",
    "month-ends": "month_ends",
}


class _Lazy(Mapping[str, Projection]):
    """Projections by name; a file is read when its question is asked."""

    def __getitem__(self, name: str) -> Projection:
        where = _MODULES[name]
        module = import_module(where if "." in where else f"ledger.projections.{where}")
        projection: Projection = module.PROJECTION
        return projection

    def __iter__(self) -> Iterator[str]:
        return iter(_MODULES)

    def __len__(self) -> int:
        return len(_MODULES)


PROJECTIONS: Mapping[str, Projection] = _Lazy()
"""Every question by the name it has on the command line."""
