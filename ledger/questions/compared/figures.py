"""The formulas of a comparison: each gives the column for all things, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, if_known, known_where, nothing, total

if TYPE_CHECKING:
    from ledger.questions.compared.gather import Things

__all__ = ["figures"]


def figures(things: Things) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is a thing."""
    then, now, is_split = things.then, things.now, things.is_split
    change = (now.value - then.value).called("difference")
    price_then, price_now = (
        if_known((side.value / side.amount).called("price", side=side.name), "none-of-it")
        for side in (then, now)
    )
    is_there = then.amount.values > 0
    is_both = is_there & (now.amount.values > 0)
    of_price = now.amount * (price_now - price_then).called("change-of-price")
    rounded = things.rounded("price", of_price.called("amount-times-change"))
    price = choose(is_both, rounded.called("from_price"), nothing("money").called("none-on-a-side"))
    every, before = things.every(now, "amount_now"), things.every(then, "amount_then")
    growth = (every - before).called("more-of-all") / before
    of_amount = growth.called("growth") * then.value
    rounded = things.rounded("amount", of_amount.called("growth-times-value"))
    amount = choose(is_there, rounded.called("from_amount"), nothing("money").called("none-then"))
    all_but_price = (change - price).called("all-but-price")
    amount = choose(before.values > 0, amount, all_but_price)
    mix = (change - total(price, amount).called("price-and-amount")).called("from_mix")
    split = {
        "from_price": price, "from_amount": amount, "from_mix": mix, "amount_then": then.amount,
        "amount_now": now.amount, "price_then": price_then, "price_now": price_now,
    }  # fmt: skip
    return {
        "difference": change,
        "value_then": then.value,
        "value_now": now.value,
        "not_split": choose(is_split, nothing("money").called("split"), change),
        **{name: known_where(is_split, one, "not-split") for name, one in split.items()},
    }
