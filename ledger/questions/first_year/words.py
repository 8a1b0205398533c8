"""What the plan says, and what the first year rests on, in words."""

from __future__ import annotations

from ledger.answers import Assumption
from ledger.messages import Choice, fixed, joined, sentence
from ledger.messages import measured as digits
from ledger.questions.quantities import about
from ledger.reference import servings, winter

__all__ = ["K_MONTHS", "notes", "plan_said"]

K_MONTHS = 6.0
"""How many months of own record weigh as much as the plan: our own choice."""

_CUP, _TSP = 0.25, 48.0
"""A serving below a quarter of a cup is told in teaspoons, 48 to the cup."""


def notes() -> list[Assumption]:
    """Return what the figures rest on."""
    guide = [one for one in servings.plans() if one.kind == "family_plan"]
    more = [
        sentence(
            "first-a-person-of",
            n=about(one.per_person or 0),
            jar=Choice(one.unit),
            name=fixed(one.food, "food"),
        )
        for one in guide[:3]
    ]
    return [
        Assumption("plan", sentence("first-plan-says-what-some-family", source=winter.document('Y1'))),
        Assumption("mixed", sentence("first-own-record-counts-months-against", n=about(K_MONTHS))),
        Assumption("guide", sentence("first-jar-maker-guide-says-otherwise", list=joined("; ", more))),
        Assumption("process", sentence("first-how-long-how-hot-how")),
    ]  # fmt: skip


def plan_said(plan: servings.ServingsPlan) -> str:
    """Return what a plan says of a food: its servings, or its jars."""
    if plan.quarts_by_servings is None:
        return (
            sentence("first-no-servings-said")
            if plan.per_person is None
            else sentence("first-jars-a-person", n=plan.per_person, jar=Choice(plan.unit))
        )
    every = None if plan.per_weeks == 1 else about(plan.per_weeks or 0.0)
    cups = plan.serving_cups or 0.0
    size = f"{cups:.3g}" if cups >= _CUP else f"{cups * _TSP:.3g}"
    return sentence(
        "first-servings",
        n=about(plan.servings or 0.0),
        every=every,
        weeks=about(plan.weeks or 0.0),
        size=digits(size),
        spoon=Choice("cup" if cups >= _CUP else "tsp"),
    )
