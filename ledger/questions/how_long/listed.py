"""What the published reserve lists have more of than the house: a list of what to add."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.messages import Code, Message, Names, Typed, fixed, joined, sentence
from ledger.methods.cover import US_GALLON_L
from ledger.projections.base import Answer, Column, Node
from ledger.questions.quantities import measured
from ledger.questions.shared.arithmetic import difference, product, total
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.reserve import Kept, kept_food
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference.reserves import GROUPS, groups

if TYPE_CHECKING:
    from ledger.questions.how_long.water import Water
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "why"]

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
    people = eaters_of(state).count
    ten = {one.group: one.kg for one in groups(10)}
    records: list[dict[str, Any]] = []
    for target in groups(14):
        food = _food(state, target.group)
        there = math.fsum(k.portion.grams for k in food) / 1000
        wanted = target.kg * people
        records.append(
            {
                "why": f"how-long/list/{target.group}",
                "group": target.group,
                "wanted_kg": wanted,
                "wanted_10_kg": ten[target.group] * people,
                "there_kg": there,
                "to_add_kg": max(wanted - there, 0.0),
                "there": _names(state, food),
                "assumptions": ["lists", "groups"],
            }
        )
    litres = None if stored is None else stored.litres
    records.append(
        {
            "why": f"how-long/list/{'water' if stored is None else stored.address}",
            "group": "water",
            "wanted_kg": 28 * people,
            "wanted_10_kg": 20 * people,
            "there_kg": litres,
            "to_add_kg": None if litres is None else max(28 * people - litres, 0.0),
            "there": [],
            "assumptions": ["lists", "us-water"],
        }
    )
    totals = {"people": people, "in_words": _words(state, records)}
    if litres is None:
        totals["missing"] = [sentence("reserve-how-much-water-stored-not")]  # fmt: skip
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


def _food(state: State, group: str) -> list[Kept]:
    return [k for k in kept_food(state) if k.group == group and not math.isnan(k.portion.grams)]


def _names(state: State, food: list[Kept]) -> list[str]:
    grams: dict[str, float] = {}
    for one in food:
        name = state.facts.names[one.portion.item]
        grams[name] = grams.get(name, 0.0) + one.portion.grams
    return sorted(grams, key=lambda name: (-grams[name], name))[:5]


def why(state: State, group: str, field: str | None) -> Node:
    """Return a figure of the list as a tree.

    Raises
    ------
    NotFound
        When there is no such group or figure.
    """
    from ledger.questions.how_long.water import water_at

    people = Node(sentence("reserve-people"), eaters_of(state).count, "people")
    if group.partition("=")[0] == "water":
        stored = water_at(state, group)
        each, ten, there = (
            Node(sentence("reserve-person-days"), 28.0, "litres"),
            20.0,
            None if stored is None else stored.node(state),
        )
        unit = "litres"
    elif group in GROUPS:
        target = next(one for one in groups(14) if one.group == group)
        ten = next(one.kg for one in groups(10) if one.group == group)
        each, unit = Node(sentence("reserve-person-days-published"), target.kg, "kg"), "kg"
        there = total(
            sentence("reserve-house"), unit, *(_leaf(state, k) for k in _food(state, group))
        )
    else:
        raise NotFound(
            "address",
            Message.of("refusal-no-group-of-how-long", text=Typed(group)),
        )
    wanted = product(sentence("reserve-wanted-days"), unit, people, each)
    short = None if there is None else difference(sentence("reserve-add"), unit, wanted, there)
    if short is not None and float(short.value or 0.0) <= 0:
        short = Node(sentence("reserve-add"), 0.0, unit)
    trees = {
        "wanted_kg": wanted,
        "wanted_10_kg": product(
            sentence("reserve-wanted-days-2"),
            unit,
            people,
            Node(sentence("reserve-person-days-second-hand"), ten, unit),
        ),
        "there_kg": there,
        "to_add_kg": short,
    }
    found = trees.get(field or "to_add_kg", KeyError)
    if found is KeyError:
        raise NotFound(
            "figure",
            Message.of(
                "refusal-no-figure-of",
                text=Typed(str(field)),
                names=Names(tuple(trees)),
                question=Code("how-long"),
            ),
        )
    return (
        found if isinstance(found, Node) else Node(sentence("reserve-not-written-down"), None, unit)
    )


def _leaf(state: State, kept: Kept) -> Node:
    p = kept.portion
    return event_node(
        state, int(state.lots["ev"][p.lot]), state.facts.names[p.item], p.grams / 1000, "kg"
    )
