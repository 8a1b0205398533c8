"""Seed looked over: its year, how much is left, the packet's days, and how it sprouted."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds.fields import ItemName, Note, Text, Whole, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct


class SeedChecked(Struct, kw_only=True):
    """What is known of a packet of seed; the newest word of a crop and variety holds."""

    crop: Annotated[ItemName, about("Crop", "What it grows into", "carrot")]
    variety: Annotated[Text | None, about("Variety", "Which variety", "Short Sweet")] = None
    year: Annotated[Whole | None, about("Year", "The year the seed is of", 2025)] = None
    seeds: Annotated[Whole | None, about("Seeds", "How many seeds are left", 400)] = None
    days: Annotated[Whole | None, about("Days", "Days to the harvest, as the packet says", 65)] = (
        None
    )
    sown: Annotated[Whole | None, about("Sown", "Seeds laid out for a test", 20)] = None
    sprouted: Annotated[Whole | None, about("Sprouted", "How many of them sprouted", 13)] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    variety = f" {body['variety']}" if body.get("variety") else ""
    more = [f"of {body['year']}"] if body.get("year") else []
    more += [f"{body['seeds']} seeds left"] if body.get("seeds") is not None else []
    more += [f"{body['days']} days to the harvest"] if body.get("days") else []
    if body.get("sown"):
        more.append(f"{body.get('sprouted', 0)} of {body['sown']} sprouted")
    return f"seed of {body['crop']}{variety} ({', '.join(more)})"


KIND = Kind(
    name="seed_checked",
    command="seed",
    title="Seed",
    summary="look seed over: its year, what is left, and how it sprouted",
    body=SeedChecked,
    phase=Phase.FACTS,
    tell=tell,
    example={"crop": "carrot", "year": 2025, "sown": 20, "sprouted": 13},
)
