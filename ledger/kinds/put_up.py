"""A batch: what went in, how it was put up, and what came out."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds import telling
from ledger.kinds.fields import Decimal, ItemName, Note, Pressure, Rating, Text, Whole, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.methods import Method
from ledger.kinds.parts import Acid, FuelLine, Made, Struct, UsedLine, Work
from ledger.kinds.upcasting import LINES


class PutUp(Struct, kw_only=True):
    """One preserving or cooking session."""

    makes: Annotated[ItemName, about("Makes", "What it makes", "plum butter")]
    method: Annotated[Method, about("Method", "How it was put up", "boiling water")]
    used: Annotated[
        list[UsedLine],
        about("Used", "What went in, line by line", [{"item": "plum", "amount": "16 lb"}]),
    ]
    made: Annotated[
        list[Made],
        about("Made", "What came out", [{"jars": 11, "jar": "half-pint jar", "kept": "shelf"}]),
    ]
    lids: Annotated[ItemName | None, about("Lids", "Which lids were used", "lid")] = None
    minutes: Annotated[Decimal | None, about("Minutes", "Minutes of processing", "10")] = None
    gauge: Annotated[
        Literal["dial", "weighted"] | None, about("Gauge", "The canner's gauge", "dial")
    ] = None
    psi: Annotated[
        Pressure | None, about("Pressure", "Pressure on the gauge: psi, kPa or bar", "11")
    ] = None
    headspace: Annotated[
        Text | None, about("Headspace", "Room left at the top of the jar", "1/4 in")
    ] = None
    acid: Annotated[
        list[Acid] | None,
        about("Acid", "Acid added", [{"acid": "lemon juice", "amount": "1 tbsp", "per": "jar"}]),
    ] = None
    pack: Annotated[Literal["hot", "raw"] | None, about("Pack", "Hot or raw pack", "hot")] = None
    schedule: Annotated[Text | None, about("Schedule", "The published schedule followed", "")] = (
        None
    )
    altitude: Annotated[
        Text | None, about("Altitude", "If other than the kitchen's", "2600 ft")
    ] = None
    loads: Annotated[Whole | None, about("Loads", "Canner loads", 2)] = None
    fuel: Annotated[
        list[FuelLine] | None,
        about("Fuel", "Fuel burnt", [{"metered": "electricity", "amount": "2.4 kWh"}]),
    ] = None
    equipment: Annotated[list[ItemName] | None, about("Equipment", "Durables used", ["canner"])] = (
        None
    )
    work: Annotated[
        list[Work] | None,
        about("Work", "Who worked and how long", [{"person": "Ada", "minutes": "90"}]),
    ] = None
    recipe: Annotated[Text | None, about("Recipe", "The recipe followed", "plum butter")] = None
    times: Annotated[Decimal | None, about("Times", "How many times the recipe", "1.5")] = None
    went: Annotated[Rating | None, about("Went", "How it went, 1 to 5", 4)] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "a little thin")] = (
        None
    )


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    shown = [
        {**line, "item": f"{line['item']} (strained out)"} if line.get("strained") else line
        for line in body["used"]
    ]
    used = telling.lines(shown)
    return f"put up {telling.made(body['made'])} of {body['makes']} ({body['method']}) from {used}"


KIND = Kind(
    name="put_up",
    command="putup",
    title="Put up",
    summary="write down a batch: what went in and what came out",
    body=PutUp,
    phase=Phase.BATCH,
    supplies=("made",),
    draws=("used", "fuel", "lids"),
    tell=tell,
    v=2,
    upcasters=LINES,
    example={
        "makes": "plum butter",
        "method": "boiling water",
        "used": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}],
        "made": [
            {"jars": 11, "jar": "half-pint jar", "kept": "shelf"},
            {"amount": "1 cup", "kept": "fridge"},
        ],
        "minutes": "10",
    },
)
