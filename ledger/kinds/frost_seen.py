"""A year's last frost of spring or first frost of fall, as it was seen in the garden."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Day, Note, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver, not_after
from ledger.messages import Choice, Message
from ledger.messages import Day as DaySaid


class FrostSeen(Struct, kw_only=True):
    """The day of one year's frost; said again for that year, the newest word holds."""

    frost: Annotated[
        Literal["last of spring", "first of fall"],
        about("Frost", "Which frost of that year", "last of spring"),
    ]
    seen: Annotated[Day, about("Seen", "When it was", "2026-05-10")]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    first, season = body["frost"].split(" ", 1)
    return f"{first} frost {season} on {body['seen']}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    frost = Choice(body["frost"].replace(" ", "-"))
    return Message.of("told-frost", frost=frost, day=telling.day(body["seen"]))


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a frost's body; a day to come is refused.

    Raises
    ------
    InputError
        Naming `seen`.
    """
    not_after(body["seen"], "seen", lines.on)
    if body["seen"] < "1850-01-01":
        raise InputError(
            "seen", Message.of("refusal-frost-too-long-ago", day=DaySaid(body["seen"]))
        )
    return body


KIND = Kind(
    name="frost_seen",
    command="frost",
    title="Frost",
    summary="write down a year's last frost of spring or first frost of fall",
    body=FrostSeen,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("frost",),
    typed=(
        'frost "last of spring" --seen 2026-05-10',
        'frost "first of fall" --seen 2026-10-01',
    ),
    tell=tell,
    says=says,
    form=Form(("frost", "seen"), icon="freezer"),
    example={"frost": "last of spring", "seen": "2026-05-10"},
)
