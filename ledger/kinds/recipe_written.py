"""A recipe written down once, to be used many times."""

from __future__ import annotations

from typing import Annotated, Any

import msgspec

from ledger.kinds import telling
from ledger.kinds.fields import Amount, ItemName, Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.methods import Method
from ledger.kinds.parts import Line, Struct
from ledger.kinds.resolving import Body, Resolver, first_measure, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


class RecipeWritten(Struct, kw_only=True):
    """What a recipe makes, from what, and which published schedule it follows."""

    recipe: Annotated[Text, about("Recipe", "Its name", "plum butter")]
    makes: Annotated[ItemName, about("Makes", "The item it makes", "plum butter")]
    uses: Annotated[
        list[Line],
        about("Uses", "What one measure of it takes", [{"item": "plum", "amount": "16 lb"}]),
    ]
    yields: Annotated[Amount, about("Yields", "What one measure of it gives", "11 half-pint jars")]
    method: Annotated[Method | None, about("Method", "How it is kept", "boiling water")] = None
    source: Annotated[Text | None, about("From", "Where the recipe comes from", "grandmother")] = (
        msgspec.field(default=None, name="from")
    )
    schedule: Annotated[Text | None, about("Schedule", "A published schedule it follows", "")] = (
        None
    )
    steps: Annotated[
        list[Text] | None, about("Steps", "What to do, in order", ["stone the plums"])
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"recipe {body['recipe']}: {telling.lines(body['uses'])} gives {body['yields']}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of(
        "told-recipe",
        recipe=body["recipe"],
        uses=telling.lines_said(body["uses"]),
        gives=telling.lines_said([{"amount": body["yields"]}]),
    )


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a recipe as it is stored: what it takes as lines, what it gives as an amount.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["uses"], "uses", "what the recipe takes")
    amount = lines.amount(body["yields"], "yields")
    makes, facts = lines.item(body["makes"], "food", "makes", first_measure(amount))
    lines.measured(amount, makes, facts, "yields")
    uses = several_lines(body["uses"], "uses", lines)
    return {**body, "makes": makes, "yields": amount.text, "uses": uses}


KIND = Kind(
    name="recipe_written",
    command="recipe",
    title="Recipe",
    summary="write a recipe once, to be used with putup",
    body=RecipeWritten,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("recipe",),
    typed=(
        'recipe "plum butter" --makes "plum butter" --uses "16 lb plum" --uses "3 lb sugar" '
        '--yields "11 half-pint jars" --method "boiling water"',
    ),
    tell=tell,
    says=says,
    form=Form(("recipe", "makes", "uses", "yields", "method", "schedule")),
    v=2,
    upcasters=LINES,
    example={
        "recipe": "plum butter",
        "makes": "plum butter",
        "uses": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}],
        "yields": "11 half-pint jars",
        "method": "boiling water",
    },
)
