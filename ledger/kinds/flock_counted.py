"""The hens: how many there are from this day on."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds.fields import Day, ItemName, Note, Text, Whole, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct


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
    return f"{body['hens']} hens{of}{hatched}"


KIND = Kind(
    name="flock_counted",
    command="flock",
    title="Flock",
    summary="say how many hens there are",
    body=FlockCounted,
    phase=Phase.FACTS,
    tell=tell,
    example={"hens": 6, "hatched": "2025-04-10"},
)
