"""The ratios of our-table as sentences, and what is missing for them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Code, Names, Sentence, joined, measured, sentence

if TYPE_CHECKING:
    from ledger.questions.food import FoodFigures
    from ledger.questions.our_table.balance import Accounts
    from ledger.questions.periods import Period
    from ledger.replay import State

__all__ = ["in_words", "missing_of"]

NEED = {"people": "people 4", "kcal_per_person_day": "kcal_per_person_day 2300"}
"""The settings that say what the household needs, and how each is said."""

FORTNIGHT = 14
"""Days with meals below which no share is told in words or tables. Our own choice."""
_FULL = 0.9
"""Part of the days with something eaten written down below which the answer says so."""

_LACKS = {
    "energy": "eaten-lacks-energy",
    "weight": "eaten-lacks-weight",
    "value": "eaten-lacks-value",
}
_SHARES = {
    "eaten_based": "eaten-grown",
    "feed_adjusted": "eaten-grown-by-feed",
    "production_based": "eaten-produced",
}
_BY = {"energy": "eaten-by-energy", "weight": "eaten-by-weight", "value": "eaten-by-value"}


def missing_of(
    food: FoodFigures, accounts: Accounts, whole: Period, days: int, need: float | None
) -> list[str]:
    """Return what is missing for some figure, and what would supply it."""
    out: list[str] = []
    if need is None:
        out.append(_need_says(food.state))
    if days < _FULL * whole.days:
        out.append(sentence("eaten-days-written", n=days, n2=whole.days))
    for basis, names in accounts.not_known(whole).items():
        if names:
            out.append(sentence(_LACKS[basis], names=Names(tuple(names), most=5)))
    if food.feed.unweighed:
        out.append(sentence("eaten-unweighed-feed", names=Names(tuple(food.feed.unweighed))))
    return out


def _need_says(state: State) -> str:
    """Return how to say what the household needs, naming only the settings that say nothing yet."""
    lacks = [how for name, how in NEED.items() if not state.settings.days(name)]
    commands = (Code(f"setting {how}") for how in lacks or NEED.values())
    said = (sentence("eaten-setting-command", command=one) for one in commands)
    return sentence("eaten-need-unknown", list=Names(tuple(said)))


def in_words(totals: dict[str, Any]) -> list[str]:
    """Return the ratios as sentences, and on how many days they rest; none below a fortnight."""
    out: list[str] = []
    days, of = totals.get("days_eaten"), totals.get("days")
    if days is not None and days < FORTNIGHT:
        return [sentence("eaten-too-few-days", n=FORTNIGHT, n2=days)]
    if days is not None:
        out.append(sentence("eaten-rests-on", n=days, n2=of))
    for name, id_ in _SHARES.items():
        shares = totals.get(name, {})
        known = [
            sentence(by, share=_percent(shares[basis]))
            for basis, by in _BY.items()
            if shares.get(basis) is not None
        ]
        if known and not (name == "feed_adjusted" and shares == totals["eaten_based"]):
            out.append(sentence(id_, list=joined(", ", known)))
    need = totals.get("of_need", {})
    if need.get("grown") is not None:
        grown, eaten = _percent(need["grown"]), _percent(need["all eaten"])
        out.append(sentence("eaten-of-need", grown=grown, eaten=eaten))
    return out


def _percent(share: float) -> Sentence:
    few = 0 < abs(share) < 0.1
    return measured(f"{share * 100:.1f} %" if few else f"{share * 100:.0f} %")
