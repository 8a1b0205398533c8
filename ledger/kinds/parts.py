"""Lines: an item and an amount, as typed and as stored, and the lists that bodies hold of them."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec

from ledger.kinds.fields import (
    Amount,
    Decimal,
    DecText,
    Duration,
    ItemName,
    Kept,
    Money,
    Person,
    Stored,
    Text,
    Whole,
    about,
)

__all__ = [
    "Acid",
    "Basis",
    "BoughtLine",
    "FuelLine",
    "HarvestLine",
    "Keeps",
    "Labels",
    "Left",
    "Line",
    "Made",
    "Measured",
    "OtherSpending",
    "ReceivedLine",
    "Struct",
    "UsedLine",
    "Work",
]

Basis = Literal["exact", "item", "food table", "container table"]


class Struct(msgspec.Struct, forbid_unknown_fields=True, omit_defaults=True, kw_only=True):
    """A part of a body: unknown fields are refused by name, absent ones are not written."""


class Measured(Struct, kw_only=True):
    """What the door adds to an amount once, when it is written down.

    `whole` is in the whole units of `measure`: the dimension typed, or the counted unit's name.
    `basis` stands in lines of the first version, whose `whole` is in the measure of the item then.
    """

    n: Annotated[int | None, Stored] = None
    whole: Annotated[int | None, Stored] = None
    measure: Annotated[str | None, Stored] = None
    per: Annotated[str | None, Stored] = None
    times: Annotated[int | None, Stored] = None
    basis: Annotated[Basis | None, Stored] = None


class Line(Measured, kw_only=True):
    """An item and how much of it."""

    item: Annotated[ItemName, about("Item", "What it is", "plum")]
    amount: Annotated[
        Amount, about("Amount", "How much, in the unit in front of you", "31 lb 8 oz")
    ]
    lot: Annotated[
        Text | None, about("Lot or jar label", "Which lot or jar it came from", "S26-041")
    ] = None


class UsedLine(Line, kw_only=True):
    """Something that went into a batch."""

    strained: Annotated[
        bool | None,
        about("Strained out", "Taken out again before the jar was closed", True),
    ] = None


class HarvestLine(Line, kw_only=True):
    """Something picked, gathered or collected."""

    variety: Annotated[Text | None, about("Variety", "Which variety", "Opal")] = None
    bed: Annotated[Text | None, about("Bed", "Where it grew", "orchard")] = None
    plants: Annotated[Whole | None, about("Plants", "How many plants it came from", 3)] = None
    trimmed: Annotated[
        Amount | None,
        about("Trimmed", "Part of it thrown away at once, kept as weighed then", "2 lb"),
    ] = None
    trimmed_whole: Annotated[int | None, Stored] = None
    trimmed_measure: Annotated[str | None, Stored] = None
    trimmed_per: Annotated[str | None, Stored] = None
    trimmed_times: Annotated[int | None, Stored] = None
    kept: Annotated[Kept | None, about("Kept", "Where it is kept", "cellar")] = None


class BoughtLine(Line, kw_only=True):
    """Something bought, and what was paid for this line."""

    paid: Annotated[Money | None, about("Paid", "What was paid for this line", "3.40")] = None
    for_crop: Annotated[
        ItemName | None, about("For crop", "The crop that this garden input serves", "tomato")
    ] = None
    uses: Annotated[Decimal | None, about("Uses", "How many uses one of it gives", "20")] = None
    years: Annotated[Decimal | None, about("Years", "How many years it lasts", "10")] = None
    kept: Annotated[Kept | None, about("Kept", "Where it is kept", "freezer")] = None


class OtherSpending(Struct, kw_only=True):
    """Something on a receipt that is neither food nor supply."""

    words: Annotated[Text, about("Words", "What it was, as the receipt says", "magazine")]
    paid: Annotated[Money, about("Paid", "What was paid for it", "4.50")]
    belongs: Annotated[
        bool | None, about("Belongs", "It was asked about and belongs into the book", True)
    ] = None


class ReceivedLine(Line, kw_only=True):
    """Something that came as a gift, by barter or from the wild."""

    value: Annotated[Money | None, about("Value", "What it would have cost", "5.00")] = None
    kept: Annotated[Kept | None, about("Kept", "Where it is kept", "fridge")] = None


class Labels(Struct, kw_only=True):
    """The first and last jar label of an entry."""

    first: Annotated[int | str, about("First label", "Label of the first jar", "41")] = (
        msgspec.field(name="from")
    )
    last: Annotated[int | str, about("Last label", "Label of the last jar", "51")] = msgspec.field(
        name="to"
    )


class Made(Measured, kw_only=True):
    """One made entry of a batch: so many jars of a size, or an amount."""

    jars: Annotated[Whole | None, about("Jars", "How many jars", 11)] = None
    jar: Annotated[ItemName | None, about("Jar", "Which jar", "half-pint jar")] = None
    unsealed: Annotated[Whole | None, about("Unsealed", "How many of those did not seal", 1)] = None
    labels: Annotated[
        Labels | None, about("Labels", "First and last jar label", {"from": 41, "to": 51})
    ] = None
    lids: Annotated[ItemName | None, about("Lids", "Which lids these jars took", "lid")] = None
    amount: Annotated[
        Amount | None, about("Amount", "How much, when it is not in jars", "1 cup")
    ] = None
    kept: Annotated[Kept | None, about("Kept", "Where it is kept", "shelf")] = None


class Left(Measured, kw_only=True):
    """Leftovers kept from a meal."""

    item: Annotated[ItemName, about("Item", "What the leftover is called", "plum cake")]
    amount: Annotated[Amount, about("Amount", "How much is left", "1 lb")]
    kept: Annotated[Kept, about("Kept", "Where it is kept", "fridge")] = "fridge"
    share: Annotated[
        DecText, about("Share", "Which part of the dish it is, 0 to 1", "0.25", "decimal")
    ]


class FuelLine(Measured, kw_only=True):
    """Fuel burnt: from stock, or metered at the price set."""

    item: Annotated[ItemName | None, about("Fuel", "A fuel from stock", "propane")] = None
    metered: Annotated[
        Literal["electricity", "gas"] | None, about("Metered", "Metered energy", "electricity")
    ] = None
    amount: Annotated[Amount, about("Amount", "How much was burnt", "2.4 kWh")]
    lot: Annotated[Text | None, about("Lot", "Which lot it came from", "")] = None


class Work(Struct, kw_only=True):
    """Time that somebody spent."""

    person: Annotated[Person, about("Person", "Who worked", "Ada")]
    minutes: Annotated[Decimal, about("Minutes", "For how long, in minutes", "90")]


class Acid(Struct, kw_only=True):
    """Acid added for the process."""

    acid: Annotated[
        Literal["lemon juice", "citric acid", "vinegar 5%"],
        about("Acid", "Which acid", "lemon juice"),
    ]
    amount: Annotated[Amount, about("Amount", "How much of it", "1 tbsp")]
    per: Annotated[Literal["jar", "batch"], about("Per", "In each jar, or in the batch", "jar")] = (
        "jar"
    )


class Keeps(Struct, kw_only=True):
    """How long something keeps, by place."""

    shelf: Duration | None = None
    fridge: Duration | None = None
    freezer: Duration | None = None
    cellar: Duration | None = None
