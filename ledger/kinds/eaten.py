"""A meal: what was eaten, by how many, and what was left."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Note, Rating, Text, Whole, about
from ledger.kinds.kind import BATCH, Form, Kind, Phase
from ledger.kinds.parts import Left, Line, Struct
from ledger.kinds.resolving import Body, Resolver, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


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


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    lines, people = telling.lines_said(body["ate"]), body.get("people") or None
    if body.get("dish"):
        return Message.of("told-ate-dish", dish=body["dish"], lines=lines, n=people)
    return Message.of("told-ate", lines=lines, n=people)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a meal as it is stored: what was eaten, and what was left of the dish.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["ate"], "ate", "what was eaten")
    if body.get("guests") is not None:
        if not body.get("people"):
            raise InputError("guests", "needs people", "Write how many ate in all: --people 6")
        if body["guests"] > body["people"]:
            raise InputError(
                "guests",
                f"{body['guests']} is more than the {body['people']} people",
                "Write how many of them were guests",
            )
    out = {**body, "ate": several_lines(body["ate"], "ate", lines)}
    if body.get("left"):
        shares = sum(Decimal(one["share"]) for one in body["left"])
        if shares > 1:
            raise InputError(
                "left",
                f"the shares add up to {shares}",
                "They are parts of one dish: at most 1 together",
            )
        out["left"] = several_lines(
            [{"kept": "fridge", **one} for one in body["left"]], "left", lines
        )
    return out


KIND = Kind(
    name="eaten",
    command="meal",
    title="Ate",
    summary="write down a meal",
    body=Eaten,
    phase=Phase.MEAL,
    supplies={"left": BATCH},
    draws=("ate",),
    resolve=resolve,
    words=("ate",),
    typed=(
        'meal --ate "1 half-pint plum butter" --ate "2 lb bread" --people 6',
        'meal --ate "2 qt stew" --people 6 --left "1 pt stew fridge 0.25"',
    ),
    tell=tell,
    says=says,
    form=Form(("ate", "people", "guests"), icon="ate", common=4),
    v=2,
    upcasters=LINES,
    example={"ate": [{"item": "plum butter", "amount": "1 half-pint jar"}], "people": 6},
)
