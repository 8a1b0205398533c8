"""What was spent, and how the house stands with its neighbours: sums over what was written down."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.saying.known import Known, bare

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["dealings", "spending"]


def spending(book: Book, *, by: str, start: str, end: str) -> list[dict[str, Any]]:
    """Return what was paid between two days, both included, by shop, item or month.

    Returns
    -------
    list of dict
        The name under `by`, ``paid`` (a decimal as text, in the book's currency) and how many lines
        are ``without_price``; the most first, months in their order. What is neither food nor supply
        counts under its words.
    """
    known = Known(book.catalogue(), book.today(), book.log)
    sums: dict[str, tuple[Decimal, int]] = {}
    shops: dict[str, str] = {}  # one shop, however it is spelled; shown as it was at first
    for _, on, body, _ in known.rows("bought"):
        if not start <= on <= end:
            continue
        shop = body.get("shop") or "no shop named"
        shop = shops.setdefault(bare(shop), shop)
        lines = [(line["item"], line.get("paid")) for line in body["lines"]]
        lines += [(one["words"], one["paid"]) for one in body.get("other") or ()]
        for item, paid in lines:
            key = {"shop": shop, "item": item, "month": on[:7]}[by]
            total, unknown = sums.get(key, (Decimal(0), 0))
            sums[key] = total + Decimal(paid or 0), unknown + (paid is None)
    order = (lambda one: one[0]) if by == "month" else (lambda one: (-one[1][0], one[0]))
    return [
        {by: name, "paid": str(total.quantize(Decimal("0.01"))), "without_price": unknown}
        for name, (total, unknown) in sorted(sums.items(), key=order)
    ]


def dealings(book: Book, person: str) -> dict[str, Any]:
    """Return what went to somebody and what came, with its value at the shop price of the day.

    Returns
    -------
    dict
        ``gave`` and ``got``: lists of ``on``, ``how``, ``item``, ``amount`` and ``value`` (None where
        no price is known); ``gave_money`` is what was paid to them, ``got_money`` what they paid.
    """
    from ledger.replay import day_number

    known = Known(book.catalogue(), book.today(), book.log)
    state = book.state()
    out: dict[str, Any] = {"gave": [], "got": [], "gave_money": 0.0, "got_money": 0.0}
    for way, kind, field in (("gave", "given_away", "to"), ("got", "received", "from")):
        for _, on, body, _ in known.rows(kind):
            if bare(body.get(field) or "") != bare(person):
                continue
            if body.get("got"):
                out["got_money"] += float(body["got"])
            for line in body["lines"]:
                number = state.facts.find(line["item"])
                value = _value(state, number, line, day_number(on))
                out[way].append(
                    {
                        "on": on,
                        "how": body["how"],
                        "item": line["item"],
                        "amount": line["amount"],
                        "value": value,
                    }
                )
    for _, _, body, _ in known.rows("bought"):
        if bare(body.get("shop") or "") == bare(person):
            out["gave_money"] += sum(float(line.get("paid") or 0) for line in body["lines"])
    return out


def _value(state: Any, number: int | None, line: dict[str, Any], day: int) -> float | None:
    """Return what a line is worth at the shop price of a day; None where none is known."""
    if line.get("value"):
        return float(line["value"])
    if number is None or line.get("measure") != state.facts.measure[number]:
        return None
    price = state.costs.prices.of(np.array([number]), np.array([day]))[0][0]
    return None if np.isnan(price) else float(price) * int(line["whole"])
