"""What is missing for a shop's price, and the command that supplies it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ledger.messages import Choice, Code, Names, Sentence, sentence

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["unpriced_in_shops"]

_MOST = 5
_ONE = {"mass": ("lb", "kg"), "volume": ("qt", "L")}
"""What a price is asked of, in the household's measures; of what is counted, one."""
_TELLS = {"volume": "--g-per-ml 1.05", "count": '--g-per "piece 120"'}


def _by(measure: str) -> Sentence:
    return sentence("cost-by", measure=Choice(measure))


def unpriced_in_shops(state: State, items: Iterable[int]) -> list[str]:
    """Return sentences on items without a shop's price: what the book lacks, and how to say it.

    Parameters
    ----------
    items : iterable of int
        Their numbers.
    """
    facts = state.facts
    out: list[str] = []
    rest: list[int] = []
    for number in dict.fromkeys(items):
        other = facts.find(facts.facts[number].shop_equivalent)
        if (
            other is None
            or other == number
            or any(one[number] >= 0 for one, _ in facts.equivalents)
        ):
            rest.append(number)
            continue
        name, its = facts.names[number], facts.names[other]
        lacks = number if facts.grams_per_whole(number) is None else other
        tells = _TELLS.get(facts.measure[lacks])
        by, by2 = _by(facts.measure[number]), _by(facts.measure[other])
        kept = {"name": name, "by": by, "item": its, "by2": by2}
        if tells:
            how = {"lacks": Code(facts.names[lacks]), "option": Code(tells)}
            out.append(sentence("cost-kept-otherwise", **kept, **how))
        else:
            out.append(sentence("cost-kept-otherwise-weigh", **kept))
    if rest:
        names = Names(tuple(facts.names[one] for one in rest), most=_MOST)
        one = f"1 {_unit(state, rest[0])}".rstrip()
        example = {"one": Code(one), "first": Code(facts.names[rest[0]])}
        out.append(sentence("cost-no-shop-price", names=names, **example))
    return out


def _unit(state: State, item: int) -> str:
    us, metric = _ONE.get(state.facts.measure[item], ("", ""))
    return metric if state.settings.newest("measures", "us") == "metric" else us
