"""What do the hens lay, what does a dozen eat and cost, and how long does the feed last?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.messages import Choice, Message, Typed, sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.answering import answer, record_of
from ledger.questions.hens.figures import HenFigures
from ledger.questions.hens.why import why
from ledger.questions.quantities import measured
from ledger.questions.shared.made_as import LB_G

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("period", "Period", "", "A month, the newest first; year: the last 365 days.", main=True),
    Column("hens", "Hens", "hens", "Hen-days / days of the period.", main=True),
    Column("hen_days", "Hen-days", "hen-days", "Each hen and day since the flock was written down."),
    Column("eggs", "Eggs", "eggs", "Collected.", main=True),
    Column("lay", "Lay", "0 to 1", "Eggs / hen-days; null without hens.", main=True),
    Column("feed_lb", "Feed", "lb", "Feed bought in the period; of a month it is what was bought and not what was eaten."),
    Column("feed_per_dozen_lb", "A dozen eats", "lb", "Of the year: feed bought / dozens; null of a month and without feed.", main=True),
    Column("cost_per_dozen", "A dozen costs", "money", "Of the year: feed and bedding bought / dozens.", main=True),
    Column("feed_days", "Feed lasts", "days", "Of the year: the feed on hand / (hens x what each eats).", main=True),
    Column("bounds", "Bounds", "", "By column: ≥ where the figure is that much or more, ≤ that much or less, ≈ either, for want of a price or a weight; the others are exact."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, feed: str | None = None) -> Answer:
    """Return one record a month of the last year, and one of the year.

    Parameters
    ----------
    state : State
    feed : text, optional
        Feed on hand, ``50 lb``; default what the last purchase should have left.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When the feed is no weight.
    """
    of, there = state.once(HenFigures), _feed_of(feed)
    records = [
        {
            **record_of(of.month if row else of.year(there), row),
            "why": f"hens/{period}",
            "period": period,
            "assumptions": ["hens"] if row else ["hens", "rate", "left"],
        }
        for row, period in enumerate(of.yard.periods)
    ]
    if there is not None:
        records[0]["why"] = f"hens/year={there!r}"
    records = [r for r in records if r["hen_days"] or r["eggs"]]
    missing = []
    if not of.yard.counts:
        missing.append(sentence("hens-how-many-hens-there-not"))
    if not of.yard.has_feed:
        missing.append(sentence("hens-no-feed-written-down-then"))
    totals = {"hens": of.hens.value(0), "missing": missing, "in_words": _words(records)}
    notes = _notes(state, of, there)
    return answer(state, "hens", COLUMNS, records, totals=totals, assumptions=notes)


def _words(records: list[dict[str, Any]]) -> list[str]:
    year = records[0] if records else {}
    if not year.get("feed_days"):
        return []
    return [sentence("hens-feed-lasts-about-days", n=round(year["feed_days"]))]


def _feed_of(text: str | None) -> float | None:
    from ledger.amounts import parse_amount

    if text is None:
        return None
    wrong = InputError(
        "feed",
        Message.of("refusal-not-a-weight", text=Typed(text)),
        Message.of("refusal-like-feed"),
    )
    try:
        amount = parse_amount(text, zero=True)
    except InputError:
        raise wrong from None
    if amount.measure != "mass":
        raise wrong
    return amount.whole / 1000 / LB_G


def _notes(state: State, of: HenFigures, there: float | None) -> list[Assumption]:
    eats = measured(state, of.rate.value(0), "lb")
    how = Choice("bought" if of.is_own else "memory")
    out = [
        Assumption("hens", sentence("hens-lay-eggs-hen-days-usual")),
        Assumption("rate", sentence("hens-a-hen-eats", amount=eats, how=how)),
    ]
    if there is None:
        out.append(Assumption("left", sentence("hens-feed-hand-what-last-purchase")))
    return out


PROJECTION = Projection(
    name="hens",
    title="Hens",
    question="What do the hens lay, what does a dozen eat and cost, and how long does the feed last?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(Option("feed", "feed on hand", "50 lb"),),
)
