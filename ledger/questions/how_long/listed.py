"""What the published reserve lists have more of than the house: a list of what to add."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import fixed, joined, sentence
from ledger.methods.cover import US_GALLON_L
from ledger.projections.base import Answer, Column
from ledger.questions.food.nutrients import held
from ledger.questions.how_long.figures import of_list
from ledger.questions.quantities import measured
from ledger.questions.shared.common import answer, number
from ledger.questions.shared.reserve import kept_food
from ledger.questions.who_eats.eaters import eaters_of

if TYPE_CHECKING:
    from ledger.questions.how_long.water import Water
    from ledger.replay import State

__all__ = ["COLUMNS", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("group", "Group", "", "Group of the published lists; water last.", main=True),
    Column("wanted_kg", "14 days", "kg", "For all at the table and 14 days (German Federal Ministry of Food, read in reprints); of water litres, 2 L a person and day.", main=True),
    Column("wanted_10_kg", "10 days", "kg", "The same for 10 days (Federal Office of Civil Protection, second hand).", main=True),
    Column("there_kg", "In the house", "kg", "What is there and counts; of water litres, null where it is not written down.", main=True),
    Column("to_add_kg", "To add", "kg", "What the 14 days lack; 0 where nothing; null where it is not known.", main=True),
    Column("there", "What is there", "", "The foods of most weight."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, stored: Water | None) -> Answer:
    """Return one record a group, and one of water."""
    people, (names, figures) = eaters_of(state).count, of_list(state, stored)
    water = "water" if stored is None else stored.address
    records: list[dict[str, Any]] = [
        {
            "why": f"how-long/list/{water if name == 'water' else name}",
            "group": name,
            **{column: number(one.value(row)) for column, one in figures.items()},
            "there": _names(state, name),
            "assumptions": ["lists", "us-water" if name == "water" else "groups"],
        }
        for row, name in enumerate(names)
    ]
    totals = {"people": people, "in_words": _words(state, records)}
    if stored is None:
        totals["missing"] = [sentence("reserve-how-much-water-stored-not")]
    return answer(state, "how-long", COLUMNS, records, totals=totals, assumptions=_notes(people))


def _words(state: State, records: list[dict[str, Any]]) -> list[str]:
    short = [
        sentence(
            "reserve-short-of",
            amount=measured(state, r["to_add_kg"], "kg"),
            group=fixed(r["group"], "group"),
        )
        for r in records
        if r["to_add_kg"] and r["group"] != "water"
    ]
    if not short:
        return [sentence("reserve-house-has-every-group-days")]
    return [sentence("reserve-to-add", list=joined("; ", short))]


def _notes(people: float) -> list[Assumption]:
    return [
        Assumption(
            "lists",
            sentence("reserve-reserve-lists-german-federal-ministry"),
        ),
        Assumption("groups", sentence("reserve-what-batch-made-counts-group")),
        Assumption(
            "us-water",
            sentence("reserve-us-advice-gallon-person-day", n2=round(14 * US_GALLON_L * people)),
        ),
        Assumption("not-in-it", sentence("reserve-medicines-infants-animals-not-these")),
    ]


def _names(state: State, group: str) -> list[str]:
    """Return the foods of most weight in a group."""
    food = state.once(held)
    grams: dict[str, float] = {}
    for one in kept_food(state):
        weight = food.grams.value(one.row)
        if one.group == group and not math.isnan(weight):
            name = food.names[one.row]
            grams[name] = grams.get(name, 0.0) + weight
    return sorted(grams, key=lambda name: (-grams[name], name))[:5]
