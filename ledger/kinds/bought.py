"""Something bought."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Money, Note, Text, about
from ledger.kinds.kind import BOUGHT, Form, Kind, Phase
from ledger.kinds.money import check_money
from ledger.kinds.parts import BoughtLine, OtherSpending, Struct
from ledger.kinds.resolving import Body, Resolver, above_zero, currency, join, line_fields, needs
from ledger.kinds.upcasting import LINES
from ledger.messages import Message


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


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    lines, other = body["lines"], body.get("other") or []
    paid = [telling.price(str(line.get("paid", "?"))) for line in [*lines, *other][:4]]
    what = telling.lines_said(lines) if lines else telling.texts([o["words"] for o in other[:4]])
    shop = body.get("shop") or None
    return Message.of("told-bought", lines=what, shop=shop, paid=telling.texts(paid))


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a purchase as it is stored: lines resolved, money no finer than the book holds.

    Raises
    ------
    InputError, NeedsAnswer
    """
    needs(body["lines"] or body.get("other") or [], "lines", Message.of("refusal-write-bought"))
    out = []
    for line, field in zip(body["lines"], line_fields(body["lines"], "lines"), strict=True):
        if line.get("paid") is not None:
            check_money(line["paid"], join(field, "paid"), currency(lines))
        elif not lines.answers.spoken:
            raise missing_paid(join(field, "paid"))
        use = "garden" if "for_crop" in line else "durable" if "years" in line else "food"
        stored = lines.line(line, field, use=use)
        if "for_crop" in line:
            stored["for_crop"], _ = lines.item(line["for_crop"], "food", join(field, "for_crop"))
        for name in ("uses", "years"):
            above_zero(line, name, join(field, name))
        out.append(stored)
    if body.get("receipt_total") is not None:
        check_money(body["receipt_total"], "receipt_total", currency(lines))
    for i, one in enumerate(body.get("other") or ()):
        check_money(one["paid"], f"other[{i}].paid", currency(lines))
    return {**body, "lines": out}


def missing_paid(field: str) -> InputError:
    """Return the refusal of a purchase that does not say what was paid."""
    return InputError(field, Message.of("refusal-missing"), Message.of("refusal-paid-for-line"))


KIND = Kind(
    name="bought",
    command="buy",
    title="Bought",
    summary="write down a purchase and what was paid",
    body=Bought,
    phase=Phase.SUPPLY,
    supplies={"lines": BOUGHT},
    draws=(),
    resolve=resolve,
    words=("lines",),
    typed=(
        'buy "18 oz store plum spread" --paid 3.40 --shop "corner shop"',
        'buy "10 lb sugar" "24 lids" --paid 7.90 --paid 6.00',
        'buy "20 lb compost" --paid 8 --for-crop tomato',
    ),
    tell=tell,
    says=says,
    form=Form(("lines", "shop"), ("paid",), most=24, icon="bought", common=2),
    v=2,
    upcasters=LINES,
    example={"item": "store plum spread", "amount": "18 oz", "paid": "3.40", "shop": "corner shop"},
)
