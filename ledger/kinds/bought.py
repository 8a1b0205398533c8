"""Something bought."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Money, Note, Text, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import BoughtLine, OtherSpending, Struct
from ledger.kinds.upcasting import LINES


class Bought(Struct, kw_only=True):
    """A purchase, one line an item, each with what was paid for it."""

    shop: Annotated[Text | None, about("Shop", "Where it was bought", "corner shop")] = None
    lines: Annotated[
        list[BoughtLine],
        about("Lines", "What was bought", [{"item": "sugar", "amount": "10 lb", "paid": "7.90"}]),
    ]
    receipt_total: Annotated[
        Money | None, about("Receipt total", "What the receipt says in all", "27.35")
    ] = None
    other: Annotated[
        list[OtherSpending] | None,
        about(
            "Other spending",
            "What is neither food nor supply",
            [{"words": "magazine", "paid": "4.50"}],
        ),
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    shop = f" at {body['shop']}" if body.get("shop") else ""
    lines, other = body["lines"], body.get("other") or []
    paid = ", ".join(str(line.get("paid", "?")) for line in [*lines, *other][:4])
    what = telling.lines(lines) if lines else ", ".join(one["words"] for one in other[:4])
    return f"bought {what}{shop} for {paid}"


KIND = Kind(
    name="bought",
    command="buy",
    title="Bought",
    summary="write down a purchase and what was paid",
    body=Bought,
    phase=Phase.SUPPLY,
    supplies=("lines",),
    tell=tell,
    v=2,
    upcasters=LINES,
    example={"item": "store plum spread", "amount": "18 oz", "paid": "3.40", "shop": "corner shop"},
)
