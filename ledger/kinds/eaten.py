"""A meal: what was eaten, by how many, and what was left."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Note, Rating, Text, Whole, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Left, Line, Struct
from ledger.kinds.upcasting import LINES


class Eaten(Struct, kw_only=True):
    """What was eaten at one meal, or over a day."""

    ate: Annotated[
        list[Line], about("Ate", "What was eaten", [{"item": "bread", "amount": "2 lb"}])
    ]
    dish: Annotated[Text | None, about("Dish", "What the dish was", "plum toast")] = None
    people: Annotated[Whole | None, about("People", "How many ate", 6)] = None
    guests: Annotated[Whole | None, about("Guests", "How many of those were guests", 2)] = None
    left: Annotated[
        list[Left] | None,
        about(
            "Left",
            "Leftovers kept",
            [{"item": "stew", "amount": "1 qt", "kept": "fridge", "share": "0.25"}],
        ),
    ] = None
    liked: Annotated[Rating | None, about("Liked", "How it was liked, 1 to 5", 5)] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    people = f" for {body['people']}" if body.get("people") else ""
    dish = f"{body['dish']}: " if body.get("dish") else ""
    return f"ate {dish}{telling.lines(body['ate'])}{people}"


KIND = Kind(
    name="eaten",
    command="meal",
    title="Ate",
    summary="write down a meal",
    body=Eaten,
    phase=Phase.MEAL,
    supplies=("left",),
    draws=("ate",),
    tell=tell,
    v=2,
    upcasters=LINES,
    example={"ate": [{"item": "plum butter", "amount": "1 half-pint jar"}], "people": 6},
)
