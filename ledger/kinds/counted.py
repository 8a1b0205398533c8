"""A count of what is really there."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds import telling
from ledger.kinds.fields import Note, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Line, Struct
from ledger.kinds.resolving import Body, Resolver, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message

OPENING_DAYS = 28
"""Counts of a book's first weeks find its opening stock, and no windfall. Our own choice."""


class Counted(Struct, kw_only=True):
    """What was really there, of the whole item, wherever it is kept. Zero is a count too."""

    lines: Annotated[
        list[Line], about("Lines", "What was there", [{"item": "sugar", "amount": "4 lb"}])
    ]
    when: Annotated[
        Literal["start", "end"] | None, about("When", "At the start or the end of the day", "end")
    ] = None
    missing: Annotated[
        Literal["eaten", "lost"] | None, about("Missing", "What became of what is missing", "lost")
    ] = None
    home_made: Annotated[
        list[str] | None,
        about(
            "Home-made",
            "Which of them were grown or made at home, where more is there than the book had",
            ["plum butter"],
        ),
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"counted {telling.lines(body['lines'])}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of("told-counted", lines=telling.lines_said(body["lines"]))


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a count as it is stored; nothing at all is an amount of it.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"], "lines", "what was there")
    return {**body, "lines": several_lines(body["lines"], "lines", lines, zero=True)}


KIND = Kind(
    name="counted",
    command="count",
    title="Counted",
    summary="write down what is really there",
    body=Counted,
    phase=Phase.COUNT_END,
    start_phase=Phase.COUNT_START,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("lines",),
    typed=('count "4 lb sugar" "9 pint jars stock" --when end',),
    tell=tell,
    says=says,
    form=Form(("lines", "when", "missing"), icon="counted", common=6),
    v=2,
    upcasters=LINES,
    example={"item": "sugar", "amount": "4 lb"},
)
