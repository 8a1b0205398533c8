"""What do the hens lay, what does a dozen eat and cost, and how long does the feed last?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError, NotFound
from ledger.messages import sentence
from ledger.methods.flock import days_of_feed, hen_day_lay, lb_per_dozen
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.quantities import measured
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.opening import check_figure
from ledger.questions.shared.yard import LB_G, Yard
from ledger.replay.state import day_text

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
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_YEAR = 365


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
    yard = state.once(Yard)
    there = _feed_of(feed)
    end, begin = state.as_of_day, state.as_of_day - _YEAR + 1
    records = [_year(yard, begin, end, there)]
    records += [_month(yard, label, start, stop) for label, start, stop in _months(begin, end)]
    records = [r for r in records if r["hen_days"] or r["eggs"]]
    totals: dict[str, Any] = {"hens": yard.hens_on(end)}
    missing = []
    if not yard.flocks:
        missing.append("How many hens there are is not written down: `croftbook flock 6`.")
    if not yard.feed:
        missing.append(
            'No feed is written down: `croftbook item "layer feed" --sort "garden input" --feeds egg`, then buy it.'
        )
    totals["missing"] = missing
    totals["in_words"] = _words(records)
    return answer(
        state, "hens", COLUMNS, records, totals=totals, assumptions=_notes(state, yard, there)
    )


def _words(records: list[dict[str, Any]]) -> list[str]:
    year = records[0] if records else {}
    if not year.get("feed_days"):
        return []
    return [f"The feed lasts about {year['feed_days']:,.0f} days."]


def _feed_of(text: str | None) -> float | None:
    from ledger.amounts import parse_amount

    if text is None:
        return None
    wrong = InputError("feed", f"{text!r} is not a weight", 'Write it like "50 lb"')
    try:
        amount = parse_amount(text, zero=True)
    except InputError:
        raise wrong from None
    if amount.measure != "mass":
        raise wrong
    return amount.whole / 1000 / LB_G


def _months(begin: int, end: int) -> list[tuple[str, int, int]]:
    out, day = [], end
    while day >= begin:
        first = max(begin, day - int(day_text(day)[8:]) + 1)
        if day - first >= 6:  # eggs are collected by the week: less than one says nothing
            out.append((day_text(day)[:7], first, day))
        day = first - 1
    return out


def _month(yard: Yard, label: str, start: int, end: int) -> dict[str, Any]:
    hen_days, eggs = (
        yard.hen_days(start, end),
        sum(n for day, _, n in yard.eggs if start <= day <= end),
    )
    return {
        "why": f"hens/{label}",
        "period": label,
        "hens": hen_days / (end - start + 1),
        "hen_days": hen_days,
        "eggs": eggs,
        "lay": hen_day_lay(eggs, hen_days),
        "feed_lb": sum(one.lb for one in yard.bought if start <= one.day <= end),
        "assumptions": ["hens"],
    }


def _year(yard: Yard, start: int, end: int, there: float | None) -> dict[str, Any]:
    record = _month(yard, "year", start, end)
    inside = [one for one in yard.bought if start <= one.day <= end]
    feed = sum(one.lb for one in inside)
    rate, _ = yard.rate()
    on_hand = yard.on_hand() if there is None else there
    hens = yard.hens_on(end)
    said = "" if there is None else f"={there!r}"
    return record | {
        "why": f"hens/year{said}",
        "feed_per_dozen_lb": lb_per_dozen(feed, record["eggs"]) if feed else None,
        "cost_per_dozen": sum(one.money for one in inside) / (record["eggs"] / 12)
        if inside and record["eggs"]
        else None,
        "feed_days": None if on_hand is None else days_of_feed(on_hand, hens, rate),
        "assumptions": ["hens", "rate", "left"],
    }


def _notes(state: State, yard: Yard, there: float | None) -> list[Assumption]:
    rate, memory = yard.rate()
    how = (
        "the usual quarter pound, from memory"
        if memory
        else "by feed bought between the first and the last purchase"
    )
    out = [
        Assumption(
            "hens",
            "Lay is eggs by hen-days. Usual, as published: 75 to 80 eggs by 100 hens and day in the first two years, about 50 in winter without light.",
        ),
        Assumption("rate", f"A hen eats {measured(state, rate, 'lb')} a day ({how})."),
    ]
    if there is None:
        out.append(
            Assumption(
                "left",
                'Feed on hand is what the last purchase should have left; `--feed "50 lb"` says what is really there.',
            )
        )
    return out


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Raises
    ------
    NotFound
        When there is no such period or figure.
    """
    yard = state.once(Yard)
    end, begin = state.as_of_day, state.as_of_day - _YEAR + 1
    name, _, said = key.partition("=")
    periods = {"year": (begin, end)} | {
        label: (start, stop) for label, start, stop in _months(begin, end)
    }
    if name not in periods:
        raise NotFound(
            "address",
            f"there is no period {key!r} of hens",
            "Take an address from `croftbook show hens --json`",
        )
    trees = _trees(yard, *periods[name], float(said) if said else None)
    if name != "year":
        trees = {
            k: v for k, v in trees.items() if k in ("hen_days", "eggs", "lay", "hens", "feed_lb")
        }
    figure = field or "lay"
    check_figure("hens", figure, trees)
    return trees[figure]


def _trees(yard: Yard, start: int, end: int, there: float | None) -> dict[str, Node]:
    state = yard.state
    hen_days = Node(
        sentence("why-hens-over-days", n=end - start + 1), yard.hen_days(start, end), "hen-days"
    )
    eggs = total(
        sentence("why-eggs"),
        "eggs",
        *(event_node(state, ev, "", n, "eggs") for day, ev, n in yard.eggs if start <= day <= end),
    )
    inside = [one for one in yard.bought if start <= one.day <= end]
    feed = total(
        sentence("why-feed-bought"),
        "lb of feed",
        *(event_node(state, one.ev, "", one.lb, "lb of feed") for one in inside if one.lb),
    )
    money = total(
        sentence("why-feed-bedding"),
        "money",
        *(event_node(state, one.ev, "", one.money, "money") for one in inside),
    )
    dozens = quotient(
        sentence("why-dozens"), "dozen", eggs, Node(sentence("why-dozen"), 12.0, "eggs")
    )
    rate, memory = yard.rate()
    each = Node("a hen eats a day" + (" (from memory)" if memory else ""), rate, "lb of feed")
    on_hand = yard.on_hand() if there is None else there
    label = (
        sentence("why-feed-hand-asked") if there is not None else sentence("why-left-last-purchase")
    )
    lasts = quotient(
        sentence("why-feed-lasts"),
        "days",
        Node(label, on_hand, "lb of feed"),
        product(
            sentence("why-day"),
            "lb of feed",
            Node(sentence("why-hens"), yard.hens_on(end), "hens"),
            each,
        ),
    )
    return {
        "lay": quotient(sentence("why-lay"), "0 to 1", eggs, hen_days),
        "hens": quotient(
            sentence("why-hens"),
            "hens",
            hen_days,
            Node(sentence("why-days"), float(end - start + 1), "days"),
        ),
        "hen_days": hen_days,
        "eggs": eggs,
        "feed_lb": feed,
        "feed_per_dozen_lb": quotient(sentence("why-dozen-eats"), "lb of feed", feed, dozens),
        "cost_per_dozen": quotient(sentence("why-dozen-costs"), "money", money, dozens),
        "feed_days": lasts,
    }


PROJECTION = Projection(
    name="hens",
    title="Hens",
    question="What do the hens lay, what does a dozen eat and cost, and how long does the feed last?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(Option("feed", "feed on hand", "50 lb"),),
)
