"""What is missing for a shop's price, and the command that supplies it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["unpriced_in_shops"]

_MOST = 5
_BY = {"mass": "weight", "volume": "volume", "count": "the piece", "energy": "energy"}
_TELLS = {"volume": "--g-per-ml 1.05", "count": '--g-per "piece 120"'}


def _by(measure: str) -> str:
    return _BY.get(measure, f"the {measure}")


def unpriced_in_shops(state: State, items: Iterable[int]) -> list[str]:
    """Return sentences on items without a shop's price: what the book lacks, and how to say it.

    Parameters
    ----------
    items : iterable of int
        Their numbers.
    """
    facts = state.facts
    out, rest = [], []
    for number in dict.fromkeys(items):
        other = facts.find(facts.facts[number].shop_equivalent)
        if (
            other is None
            or other == number
            or any(one[number] >= 0 for one, _ in facts.equivalents)
        ):
            rest.append(facts.names[number])
            continue
        name, its = facts.names[number], facts.names[other]
        lacks = number if facts.grams_per_whole(number) is None else other
        tells = _TELLS.get(facts.measure[lacks])
        how = f'`croftbook item "{facts.names[lacks]}" {tells}`' if tells else "its weight"
        out.append(
            f"{name} is kept by {_by(facts.measure[number])}, {its} by "
            f"{_by(facts.measure[other])}: {how}, with its own figure, sets them beside each other."
        )
    if rest:
        more = f" and {len(rest) - _MOST} more" if len(rest) > _MOST else ""
        out.append(
            f"No shop's price is known of {', '.join(rest[:_MOST])}{more}: `croftbook price "
            f'"1 qt {rest[0]}" 4.50` takes one, `croftbook item "{rest[0]}" --shop-equivalent '
            "ITEM` says what you would buy instead."
        )
    return out
