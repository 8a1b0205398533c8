"""Something given away, bartered or sold."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds import telling
from ledger.kinds.fields import Money, Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.money import check_money
from ledger.kinds.parts import Line, Struct
from ledger.kinds.resolving import Body, Resolver, currency, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


class GivenAway(Struct, kw_only=True):
    """What went out of the house to others."""

    how: Annotated[Literal["gift", "barter", "sold"], about("How", "Gift, barter or sold", "gift")]
    to: Annotated[Text | None, about("To", "To whom", "the neighbours")] = None
    lines: Annotated[
        list[Line],
        about("Lines", "What went out", [{"item": "plum butter", "amount": "2 half-pint jars"}]),
    ]
    got: Annotated[Money | None, about("Got", "Money that came for it", "12.00")] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    to = f" to {body['to']}" if body.get("to") else ""
    return f"gave away {telling.lines(body['lines'])} ({body['how']}){to}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    lines, how = telling.lines_said(body["lines"]), telling.word(body["how"])
    return Message.of("told-gave-away", lines=lines, how=how, to=body.get("to") or None)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return what went out as it is stored.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"], "lines", "what it was")
    if "got" in body:
        check_money(body["got"], "got", currency(lines))
    return {**body, "lines": several_lines(body["lines"], "lines", lines)}


KIND = Kind(
    name="given_away",
    command="give",
    title="Gave away",
    summary="write down what was given, bartered or sold",
    body=GivenAway,
    phase=Phase.MEAL,
    supplies={},
    draws=("lines",),
    resolve=resolve,
    words=("lines",),
    typed=(
        'give "2 half-pint jars plum butter" --how gift --to "the neighbours"',
        'give "3 dozen egg" --how sold --got 12',
    ),
    tell=tell,
    says=says,
    form=Form(("lines", "how", "to", "got"), icon="given"),
    v=2,
    upcasters=LINES,
    example={
        "how": "gift",
        "item": "plum butter",
        "amount": "2 half-pint jars",
        "to": "the neighbours",
    },
)
