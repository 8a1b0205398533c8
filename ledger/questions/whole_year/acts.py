"""What a year's plan does, week by week."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["EATEN", "OF", "PUT_UP", "SPREAD", "Act"]

SPREAD = ("eat fresh", "eat put up", "give away", "from the pantry", "buy")
"""What goes on over weeks: one line for weeks that follow each other, a few left out or not."""
EATEN = ("eat fresh", "eat put up", "from the pantry", "buy")
PUT_UP = "put up"
OF = {"eat fresh": 0, "give away": 0, "eat put up": 1, PUT_UP: 1, "from the pantry": 2, "buy": 2}
"""Whether a crop, a recipe or a food is what something is done with."""


class Act(NamedTuple):
    """What the plan does in a week (0 is the first) with so much of a thing."""

    do: str
    name: str
    week: int
    amount: float
