"""A price seen in a shop, bought or not."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Amount, ItemName, Money, Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.money import check_money
from ledger.kinds.parts import Measured
from ledger.kinds.resolving import Body, Resolver, currency
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


class PriceSeen(Measured, kw_only=True):
    """What a package of an item costs."""

    item: Annotated[ItemName, about("Item", "What it is", "store plum spread")]
    amount: Annotated[Amount, about("Amount", "How much is in the package", "18 oz")]
    price: Annotated[Money, about("Price", "What the package costs", "3.40")]
    shop: Annotated[Text | None, about("Shop", "Where it was seen", "corner shop")] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    shop = f" at {body['shop']}" if body.get("shop") else ""
    return f"saw {body['amount']} {body['item']} for {body['price']}{shop}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    line = telling.lines_said([body])
    price, shop = telling.price(body["price"]), body.get("shop") or None
    return Message.of("told-saw", line=line, price=price, shop=shop)


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a price as it is stored: one line.

    Raises
    ------
    InputError, NeedsAnswer
    """
    check_money(body["price"], "price", currency(lines))
    return lines.line(body, "")


KIND = Kind(
    name="price_seen",
    command="price",
    title="Price seen",
    summary="write down a price without buying",
    body=PriceSeen,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("line", "price"),
    typed=('price "18 oz store plum spread" 3.40 --shop "corner shop"',),
    tell=tell,
    says=says,
    form=Form(("line", "price", "shop"), as_line="line", icon="price"),
    v=2,
    upcasters=LINES,
    example={
        "item": "store plum spread",
        "amount": "18 oz",
        "price": "3.40",
        "shop": "corner shop",
    },
)
