"""Why a figure of a comparison says so: the tree of its formula at one thing."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Code, Message, Typed
from ledger.questions.compared.against import Against
from ledger.questions.compared.figures import figures
from ledger.questions.shared.opening import opened

if TYPE_CHECKING:
    from ledger.projections.base import Projection
    from ledger.replay import State

__all__ = ["why_against"]

_LABELS = {
    "of-day": "why-of-day",
    "of-side": "why-change-of",
    "all-of-side": "why-all-of-them",
    "difference": "why-change",
    "none-of-it": "why-none-of-it",
    "none-on-a-side": "why-change-none-then-or-now",
    "none-then": "why-change-none-then",
    "change-of-price": "why-change-of-price",
    "amount-times-change": "why-amount-times-change",
    "from_amount": "why-from-amount",
    "from_mix": "why-from-mix",
    "more-of-all": "why-more-of-all",
    "growth": "why-growth-of-all",
    "growth-times-value": "why-growth-times-value",
    "all-but-price": "why-all-but-price",
    "price-and-amount": "why-price-and-amount",
    "split": "why-split-into-causes",
    "not-split": "why-not-split",
}
_BY_PRICE = {
    "price": {"price": "why-price-of-side", "from_price": "why-from-price"},
    "net per hour": {"price": "why-hour-of-side", "from_price": "why-from-net-per-hour"},
}
"""Labels by what value by amount is called (`Compared.price`)."""


def why_against(
    projection: Projection,
    state_of: Callable[[str], State],
    as_of: str,
    key: str,
    field: str | None = None,
) -> Node:
    """Return a figure of a comparison as a tree.

    Parameters
    ----------
    key : str
        What follows the question's name in the address: ``against:2024,season:2025/tomato``.
    field : str, optional
        A column of the comparison; default: the difference.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    said, _, what = key.partition("/")
    given = dict(part.partition(":")[::2] for part in said.split(","))
    given = {name: unquote(value) for name, value in given.items()}
    strange = set(given) - {"against", *(one.name for one in projection.options)}
    if strange:
        raise NotFound(
            "address",
            Message.of(
                "refusal-question-no-option", name=Code(projection.name), option=Typed(min(strange))
            ),
        )
    things = Against(projection, state_of, as_of, given.pop("against"), given).things()
    if unquote(what) not in things.what:
        raise NotFound(
            "address",
            Message.of(
                "refusal-not-in-comparison",
                text=Typed(unquote(what)),
                question=Code(projection.name),
            ),
        )
    labels = {**_LABELS, **_BY_PRICE[things.how.price]}
    row, asked = things.what.index(unquote(what)), (figures(things), field or "difference")
    return opened(state_of(as_of), projection.name, asked, row, labels, 0)
