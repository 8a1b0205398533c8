"""The hens: how many there are from this day on."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Day, ItemName, Note, Text, Whole, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver, not_after
from ledger.messages import Code, Message


class FlockCounted(Struct, kw_only=True):
    """How many hens there are; it holds until they are counted again."""

    hens: Annotated[Whole, about("Hens", "How many hens there are", 6)]
    flock: Annotated[Text | None, about("Flock", "Which flock, of several", "brown hens")] = None
    hatched: Annotated[Day | None, about("Hatched", "When they hatched", "2025-04-10")] = None
    lays: Annotated[ItemName | None, about("Lays", "The item they lay", "egg")] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    of = f" in {body['flock']}" if body.get("flock") else ""
    hatched = f", hatched {body['hatched']}" if body.get("hatched") else ""
    return f"{telling.count(body['hens'], 'hen')}{of}{hatched}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    hatched = telling.day(body["hatched"]) if body.get("hatched") else None
    if body.get("flock"):
        return Message.of("told-hens-in", n=body["hens"], flock=body["flock"], day=hatched)
    return Message.of("told-hens", n=body["hens"], day=hatched)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a flock's body.

    Raises
    ------
    InputError
        Naming `hens` or `hatched`.
    """
    if body["hens"] > 100_000:
        raise InputError(
            "hens",
            Message.of("refusal-out-of-range", found=Code(str(body["hens"]))),
            Message.of("refusal-how-many-hens"),
        )
    if "hatched" in body:
        not_after(body["hatched"], "hatched", lines.on)
    if "lays" in body:
        body = {**body, "lays": lines.catalogue.name(body["lays"])}
    return body


KIND = Kind(
    name="flock_counted",
    command="flock",
    title="Flock",
    summary="say how many hens there are",
    body=FlockCounted,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("hens",),
    typed=("flock 6 --hatched 2025-04-10",),
    tell=tell,
    says=says,
    form=Form(("hens", "flock", "hatched"), icon="hen"),
    example={"hens": 6, "hatched": "2025-04-10"},
)
