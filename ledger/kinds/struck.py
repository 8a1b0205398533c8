"""An entry taken back."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import as_typed
from ledger.messages import Code, Message


class Struck(Struct, kw_only=True):
    """Which entry is taken back, and why."""

    id: Annotated[
        Text, about("Id", "Any event of the entry", "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11")
    ]
    why: Annotated[Text, about("Why", "Why it is taken back", "written twice")]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"struck {body['id'][:8]}: {body['why']}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of(
        "told-struck", id=Code(body["id"][:8]), why=telling.word(body["why"], "sense-why")
    )


KIND = Kind(
    name="struck",
    command="strike",
    title="Strike",
    summary="take an entry back; it stays readable in the history",
    body=Struck,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=as_typed,
    words=("id",),
    typed=('strike 5f0c0a0e --why "written twice"',),
    tell=tell,
    says=says,
    form=None,
    example={"id": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", "why": "written twice"},
)
