"""Something sown or set out."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.amounts import parse_measure
from ledger.kinds import telling
from ledger.kinds.fields import ItemName, Note, Text, Whole, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Line, Struct, Work
from ledger.kinds.resolving import Body, Resolver
from ledger.kinds.upcasting import LINES
from ledger.messages import Choice, Message


class Planted(Struct, kw_only=True):
    """A crop put into the ground or a pot."""

    crop: Annotated[ItemName, about("Crop", "What grows", "tomato")]
    variety: Annotated[Text | None, about("Variety", "Which variety", "Brenna Red")] = None
    bed: Annotated[Text | None, about("Bed", "Where", "south bed")] = None
    plants: Annotated[Whole | None, about("Plants", "How many plants", 24)] = None
    area: Annotated[Text | None, about("Area", "How much ground", "40 sq ft")] = None
    row: Annotated[Text | None, about("Row", "How long a row", "25 ft")] = None
    how: Annotated[
        Literal["sown", "set out"] | None, about("How", "Sown or set out", "set out")
    ] = None
    seed: Annotated[
        Line | None,
        about("Seed", "Seed or plants from stock", {"item": "tomato seed", "amount": "1"}),
    ] = None
    work: Annotated[
        list[Work] | None,
        about("Work", "Who worked and how long", [{"person": "Ada", "minutes": "90"}]),
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    plants = f"{telling.count(body['plants'], 'plant')} of " if body.get("plants") else ""
    variety = f" {body['variety']}" if body.get("variety") else ""
    bed = f" in {body['bed']}" if body.get("bed") else ""
    return f"{body.get('how', 'planted')} {plants}{body['crop']}{variety}{bed}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    how = Choice(body.get("how", "planted").replace(" ", "-"))
    crop = telling.named(body["crop"], body.get("variety"))
    bed = body.get("bed") or None
    if body.get("plants"):
        n = body["plants"]
        return Message.of("told-planted-plants", how=how, n=n, crop=crop, bed=bed)
    return Message.of("told-planted", how=how, crop=crop, bed=bed)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a planting as it is stored: the crop by its name, seed from stock as a line.

    Raises
    ------
    InputError, NeedsAnswer
    """
    crop, _ = lines.item(body["crop"], "food", "crop")
    out = {**body, "crop": crop}
    if "area" in body:
        parse_measure(body["area"], "area", "area")
    if "row" in body:
        parse_measure(body["row"], "length", "row")
    if "seed" in body:
        out["seed"] = {**lines.line(body["seed"], "seed", use="seed"), "n": 1}
    return out


KIND = Kind(
    name="planted",
    command="plant",
    title="Planted",
    summary="write down what was sown or set out",
    body=Planted,
    phase=Phase.SUPPLY,
    supplies={},
    draws=("seed",),
    resolve=resolve,
    words=("crop",),
    typed=(
        'plant tomato --variety "Brenna Red" --bed "south bed" --plants 24 --how "set out" --work "Ada 90"',
    ),
    tell=tell,
    says=says,
    form=Form(("crop", "variety", "bed", "plants", "area", "how"), icon="planted"),
    v=2,
    upcasters=LINES,
    example={"crop": "tomato", "bed": "south bed", "plants": 24, "how": "set out"},
)
