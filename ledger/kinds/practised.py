"""A skill practised."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Decimal, Note, Person, Rating, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import as_typed
from ledger.messages import Message


class Practised(Struct, kw_only=True):
    """Who practised what, for how long, and how it went."""

    skill: Annotated[Text, about("Skill", "What was practised", "grafting")]
    people: Annotated[list[Person], about("People", "Who practised", ["Ada"])]
    minutes: Annotated[Decimal | None, about("Minutes", "For how long, in minutes", "45")] = None
    went: Annotated[Rating | None, about("Went", "How it went, 1 to 5", 3)] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"practised {body['skill']} ({', '.join(body['people'])})"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of("told-practised", skill=body["skill"], people=telling.texts(body["people"]))


KIND = Kind(
    name="practised",
    command="practise",
    title="Practised",
    summary="write down that a skill was practised",
    body=Practised,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=as_typed,
    words=("skill",),
    typed=("practise grafting --person Ada --minutes 45 --went 4",),
    tell=tell,
    says=says,
    form=Form(("skill", "people", "minutes", "went"), icon="practised", common=5),
    example={"skill": "grafting", "people": ["Ada"], "minutes": "45"},
)
