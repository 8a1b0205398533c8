"""Something thrown away, fed to animals, composted or lost."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds import telling
from ledger.kinds.fields import Note, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Line, Struct
from ledger.kinds.resolving import Body, Resolver, needs, several_lines
from ledger.kinds.upcasting import LINES
from ledger.messages import Message

Why = Literal[
    "spoiled",
    "seal failed",
    "broken",
    "too old",
    "pests",
    "fed to animals",
    "composted",
    "lost",
    "other",
]


class Discarded(Struct, kw_only=True):
    """What left the shelf without being eaten, and why."""

    lines: Annotated[
        list[Line],
        about(
            "Lines", "What was discarded", [{"item": "plum butter", "amount": "1 half-pint jar"}]
        ),
    ]
    why: Annotated[Why, about("Why", "Why it was discarded", "seal failed")]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"discarded {telling.lines(body['lines'])} ({body['why']})"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    lines, why = telling.lines_said(body["lines"]), telling.word(body["why"])
    return Message.of("told-discarded", lines=lines, why=why)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return what was thrown away as it is stored.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"], "lines", "what it was")
    return {**body, "lines": several_lines(body["lines"], "lines", lines)}


KIND = Kind(
    name="discarded",
    command="discard",
    title="Threw out",
    summary="write down what was thrown away and why",
    body=Discarded,
    phase=Phase.DISCARD,
    supplies={},
    draws=("lines",),
    resolve=resolve,
    words=("lines",),
    typed=('discard "1 half-pint jar plum butter" --why "seal failed"',),
    tell=tell,
    says=says,
    form=Form(("lines", "why", "note"), icon="lost"),
    v=2,
    upcasters=LINES,
    example={"item": "plum butter", "amount": "1 half-pint jar", "why": "seal failed"},
)
