"""The ratios of our-table as sentences, and what is missing for them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

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


def missing_of(
    food: FoodFigures, accounts: Accounts, whole: Period, days: int, need: float | None
) -> list[str]:
    """Return what is missing for some figure, and what would supply it."""
    out = []
    if need is None:
        out.append(_need_says(food.state))
    if days < _FULL * whole.days:
        out.append(
            f"Something eaten is written down on {days} of {whole.days} days; what was eaten on the others is in no figure here."
        )
    lacks = {"energy": "energy", "weight": "weight", "value": "shop price"}
    for basis, names in accounts.not_known(whole).items():
        if names:
            some = ", ".join(names[:5]) + (f" and {len(names) - 5} more" if len(names) > 5 else "")
            out.append(
                f"No {lacks[basis]} of {some} is known, which came in: what was used at home by {basis} leaves it out."
            )
    if food.feed.unweighed:
        feed = ", ".join(food.feed.unweighed)
        out.append(f"No weight of {feed} is known, so it does not count as feed.")
    return out


def _need_says(state: State) -> str:
    """Return how to say what the household needs, naming only the settings that say nothing yet."""
    lacks = [how for name, how in NEED.items() if not state.settings.days(name)]
    said = ", ".join(f"`croftbook setting {how}`" for how in lacks or NEED.values())
    return f"What the household needs is not known until this is said: {said}."


def in_words(totals: dict[str, Any]) -> list[str]:
    """Return the ratios as sentences, and on how many days they rest; none below a fortnight."""
    out = []
    days, of = totals.get("days_eaten"), totals.get("days")
    if days is not None and days < FORTNIGHT:
        return [f"Shares are told from {FORTNIGHT} days with meals on; so far: {days}."]
    if days is not None:
        out.append(f"The shares rest on the {days} of {of} days with a meal written down.")
    for name, start in (
        ("eaten_based", "Of what we ate, we grew"),
        ("feed_adjusted", "Counting eggs, milk and meat only as far as we grew the feed:"),
        (
            "production_based",
            "Grown, of all used at home (grown + came in - given away - stock change)",
        ),
    ):
        shares = totals.get(name, {})
        words = {"energy": "by energy", "weight": "by weight", "value": "by shop value"}
        known = [f"{_percent(shares[b])} {word}" for b, word in words.items() if shares.get(b) is not None]  # fmt: skip
        if known and not (name == "feed_adjusted" and shares == totals["eaten_based"]):
            out.append(f"{start} {', '.join(known)}.")
    need = totals.get("of_need", {})
    if need.get("grown") is not None:
        out.append(
            f"Of the energy needed at the table, {_percent(need['grown'])} was grown and {_percent(need['all eaten'])} is written down as eaten."
        )
    return out


def _percent(share: float) -> str:
    return f"{share * 100:.1f} %" if 0 < abs(share) < 0.1 else f"{share * 100:.0f} %"
