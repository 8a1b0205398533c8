"""Something that came without money: a gift, by barter, or foraged."""

from __future__ import annotations

from typing import Annotated, Any, Literal

import msgspec

from ledger.kinds import telling
from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Form, Kind, Origin, Phase
from ledger.kinds.money import check_money
from ledger.kinds.parts import ReceivedLine, Struct
from ledger.kinds.resolving import Body, Resolver, currency, join, line_fields, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


class Received(Struct, kw_only=True):
    """What came in, how, and from whom."""

    how: Annotated[
        Literal["gift", "barter", "forage"], about("How", "Gift, barter or forage", "gift")
    ]
    source: Annotated[Text | None, about("From", "From whom or where", "the neighbours")] = (
        msgspec.field(default=None, name="from")
    )
    lines: Annotated[
        list[ReceivedLine],
        about("Lines", "What came", [{"item": "honey", "amount": "2 lb", "value": "14"}]),
    ]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    source = f" from {body['from']}" if body.get("from") else ""
    return f"received {telling.lines(body['lines'])} ({body['how']}){source}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    lines, how = telling.lines_said(body["lines"]), telling.word(body["how"])
    return Message.of("told-received", lines=lines, how=how, source=body.get("from") or None)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return what came as it is stored.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"], "lines", "what came")
    for line, field in zip(body["lines"], line_fields(body["lines"], "lines"), strict=True):
        if "value" in line:
            check_money(line["value"], join(field, "value"), currency(lines))
    return {**body, "lines": several_lines(body["lines"], "lines", lines)}


KIND = Kind(
    name="received",
    command="receive",
    title="Received",
    summary="write down a gift, a barter or something foraged",
    body=Received,
    phase=Phase.SUPPLY,
    supplies={"lines": Origin("given", {"forage": "foraged"})},
    draws=(),
    resolve=resolve,
    words=("lines",),
    typed=('receive "2 lb honey" --how gift --from "the neighbours" --value 14',),
    tell=tell,
    says=says,
    form=Form(("lines", "how", "from"), ("value",), icon="given"),
    v=2,
    upcasters=LINES,
    example={
        "how": "gift",
        "from": "the neighbours",
        "item": "honey",
        "amount": "2 lb",
        "value": "14",
    },
)
