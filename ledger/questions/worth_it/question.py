"""Was the season worth it: money in and out, hours, and what came of it?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.errors import InputError
from ledger.messages import Message, sentence
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.questions.answering import answer, record_of
from ledger.questions.worth_it import durables as worth_durables
from ledger.questions.worth_it import prices as worth_prices
from ledger.questions.worth_it.gather import LINES
from ledger.questions.worth_it.notes import notes_of
from ledger.questions.worth_it.span import Span, span_of
from ledger.questions.worth_it.sums import Sums, sums_of
from ledger.questions.worth_it.why import why

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("season", "Season", "", "The season, by the year in which it starts."),
    Column("line", "Line", "", "garden: all that was picked; animals: what feed or bedding is bought for (eggs); foraged; received: gifts and barter; preserving: every method but cook; cooking: method cook (bread, stock, soup); sold; given away; lost: thrown away, composted, fed to animals (the feed that it spared is taken off and borne by the animals), or missing at a count; kept too long: picked and never eaten, put up or counted until its keeping was over; total: their sum.", main=True),
    Column("money_in", "Money in", "money", "Money that came in.", main=True),
    Column("money_out", "Paid", "money", "Money paid in the season: garden inputs, jars, lids, equipment and bottled fuel when they were bought; ingredients and metered fuel when they were used. Food bought and eaten as it is does not count.", main=True),
    Column("worth", "Worth", "money", "At shop prices of the day it came in, each thing once: what went on into jars or dishes counts there and not here; what was sold, given away, lost or kept too long is taken off in its own line.", main=True),
    Column("cost", "Cost", "money", "What the season bore, labour left out: garden inputs of the season, a year's part of those with `years`, and the components of jar-cost; what went on into jars or dishes bears its cost there.", main=True),
    Column("net", "Net", "money", "Money in and worth, less cost.", main=True),
    Column("hours", "Hours", "hours", "Work written down with planting, picking and putting up; null where none was.", main=True),
    Column("net_per_hour", "Net an hour", "money per hour", "Net / hours; null without hours.", main=True),
    Column("labour", "Own time", "money", "The hours at the labour rate of their day; null where no rate is set or no hours are known."),
    Column("after_labour", "After own time", "money", "Net less own time."),
    Column("for_other_seasons", "For other seasons", "money", "Paid less cost: what this season bought for others (jars, equipment, lids and fuel in stock, inputs carried forward); below 0 it lived on what others bought."),
    Column("provisional", "Provisional", "yes or no", "The season still runs, or rests on a garden season that does."),
    Column("at_least", "At least", "yes or no", "Something that counts here has no known price."),
    Column("unpriced", "Unpriced", "", "What no price is known of; it counts 0."),
    Column("bounds", "Bounds", "", "By column: ≥ where the figure is that much or more, ≤ that much or less, ≈ either, for want of a price; the others are exact."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State, *, season: str | None = None, durables: bool = False, prices: bool = False
) -> Answer:
    """Return one record a line of the season, and their total; or a variant.

    Parameters
    ----------
    state : State
    season : str, optional
        The year in which it starts; default: the season that holds the answer's day.
    durables : bool
        One record a jar, equipment or garden input that lasts, instead.
    prices : bool
        One record an item and season, home price against shop, instead.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or the variant's.

    Raises
    ------
    InputError
        When the season is not a year, or both variants are asked for.
    """
    if durables and prices:
        raise InputError("prices", Message.of("refusal-answer-apart"))
    if durables:
        return worth_durables.build(state)
    if prices:
        return worth_prices.build(state, None if season is None else span_of(state, season))
    span = span_of(state, season)
    sums = sums_of(state, span)
    records = _records(span, sums)
    assumptions = notes_of(state, span, sums.lots, sums.posted, records)
    totals: dict[str, Any] = {"season": {str(span.season): span.text}}
    if not records:
        totals["missing"] = [sentence("worth-nothing", n=span.season)]
    elif records[-1]["hours"] is None:
        totals["missing"] = [sentence("worth-no-hours")]
    return answer(state, "worth-it", COLUMNS, records, totals=totals, assumptions=assumptions)


def _records(span: Span, sums: Sums) -> list[dict[str, Any]]:
    if not sums.posted.line.size:
        return []
    some = sums.posted.some()
    records = [_record(span, name, sums.lines, row) for row, name in enumerate(LINES) if some[row]]
    return [*records, _record(span, "total", sums.whole, 0)]


def _record(span: Span, line: str, known: dict[str, Figure], row: int) -> dict[str, Any]:
    return {
        "why": f"worth-it/{span.season}/{line}",
        "season": str(span.season),
        "line": line,
        **record_of(known, row),
    }


def _lines(found: Answer) -> list[dict[str, Any]]:
    """Return the lines without their total."""
    return [r for r in found.records() if r["line"] != "total"]


PROJECTION = Projection(
    name="worth-it",
    title="Worth it",
    question="Was the season worth it: money in and out, hours, and what came of it?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("season", "the season that starts in this year", "2026"),
        Option("durables", "pay-back of each jar, canner and other thing that lasts", "--durables", "flag"),
        Option("prices", "home price against shop, by item and season", "--prices", "flag"),
    ),
    variants={"durables": worth_durables.COLUMNS, "prices": worth_prices.COLUMNS},
    compared=Compared(
        "line", ("hours",), "net", "compare-worth-net", price="net per hour", rows=_lines
    ),
)  # fmt: skip
