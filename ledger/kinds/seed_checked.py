"""Seed looked over: its year, how much is left, the packet's days, and how it sprouted."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import ItemName, Note, Text, Whole, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver
from ledger.messages import Code, Message


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
    more += (
        [f"{telling.count(body['seeds'], 'seed')} left"] if body.get("seeds") is not None else []
    )
    more += [f"{telling.count(body['days'], 'day')} to the harvest"] if body.get("days") else []
    if body.get("sown"):
        more.append(f"{body.get('sprouted', 0)} of {body['sown']} sprouted")
    return f"seed of {body['crop']}{variety} ({', '.join(more)})"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    more: list[Any] = []
    if body.get("year"):
        more.append(Message.of("told-seed-of", n=body["year"]))
    if body.get("seeds") is not None:
        more.append(Message.of("told-seeds-left", n=body["seeds"]))
    if body.get("days"):
        more.append(Message.of("told-days-to-harvest", n=body["days"]))
    if body.get("sown"):
        n = body.get("sprouted", 0)
        more.append(Message.of("told-sprouted", n=n, n2=body["sown"]))
    crop = telling.named(body["crop"], body.get("variety"))
    return Message.of("told-seed", crop=crop, more=telling.texts(more))


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a seed's body; a germination beyond what was sown is refused.

    Raises
    ------
    InputError
        Naming `sprouted`, `sown`, `year`, `days` or `crop`.
    """
    if ("sown" in body) != ("sprouted" in body):
        lacks = "sprouted" if "sown" in body else "sown"
        raise InputError(
            lacks, Message.of("refusal-missing"), Message.of("refusal-test-needs-both")
        )
    if "sown" in body:
        if body["sown"] == 0:
            raise InputError(
                "sown", Message.of("refusal-zero"), Message.of("refusal-seeds-laid-out")
            )
        if body["sprouted"] > body["sown"]:
            raise InputError(
                "sprouted",
                Message.of(
                    "refusal-sprouted-over-sown", sprouted=body["sprouted"], sown=body["sown"]
                ),
            )
    year = int(lines.on[:4])
    if "year" in body and not year - 60 <= body["year"] <= year + 1:
        raise InputError(
            "year",
            Message.of("refusal-out-of-range", found=Code(str(body["year"]))),
            Message.of("refusal-year-up-to", n=year + 1),
        )
    if "days" in body and not 10 <= body["days"] <= 500:
        raise InputError(
            "days",
            Message.of("refusal-out-of-range", found=Code(str(body["days"]))),
            Message.of("refusal-days-from-to"),
        )
    if not {"year", "seeds", "days", "sown"} & set(body):
        raise InputError(
            "year",
            Message.of("refusal-missing"),
            Message.of("refusal-seed-what"),
        )
    crop, _ = lines.item(body["crop"], "food", "crop")
    return {**body, "crop": crop}


KIND = Kind(
    name="seed_checked",
    command="seed",
    title="Seed",
    summary="look seed over: its year, what is left, and how it sprouted",
    body=SeedChecked,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("crop",),
    typed=(
        "seed carrot --year 2025 --sown 20 --sprouted 13",
        'seed tomato --variety "Brenna Red" --seeds 60 --days 75',
    ),
    tell=tell,
    says=says,
    form=Form(("crop", "variety", "year", "seeds", "sown", "sprouted"), icon="planted"),
    example={"crop": "carrot", "year": 2025, "sown": 20, "sprouted": 13},
)
