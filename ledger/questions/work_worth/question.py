"""What is our work worth: by our own rate, by a helper's wage, by pay given up, by what it brought?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Choice, joined, sentence
from ledger.messages import measured as digits
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.answering import answer, record_of
from ledger.questions.quantities import paid
from ledger.questions.work_worth.figures import figures
from ledger.questions.work_worth.gather import LINES, Work
from ledger.questions.work_worth.why import why
from ledger.questions.worth_it import question as worth_it
from ledger.questions.worth_it.span import span_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("season", "Season", "", "The season, by the year in which it starts."),
    Column("line", "Work", "", "garden, preserving, cooking and the like, as in worth-it; total: all of it.", main=True),
    Column("hours", "Hours", "hours", "Work written down.", main=True),
    Column("own_rate", "By our rate", "money", "Hours at the labour rate of their day; null without one.", main=True),
    Column("helper", "A helper's wage", "money", "Hours x what a helper would be paid (`helper_wage`): the replacement of a general hand; null without one.", main=True),
    Column("pay_given_up", "Pay given up", "money", "Hours x pay after tax (`pay_given_up`): only where paid work was really given up; null without one.", main=True, rare=True),
    Column("brought", "What it brought", "money", "Amount made at shop prices, less what was paid for and wear: the net of worth-it, its labour left out.", main=True),
    Column("brought_per_hour", "An hour", "money per hour", "What it brought / hours.", main=True),
    Column("at_least", "At least", "yes or no", "Something that counts here has no known price."),
    Column("bounds", "Bounds", "", "By column: ≥ where the figure is that much or more, ≤ that much or less, ≈ either, for want of a price; the others are exact."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_BOUNDS = {"": "exact", "≥": "least", "≤": "most", "≈": "either"}


def build(state: State, *, season: str | None = None) -> Answer:
    """Return one record a line of work with hours, and their total; the ways side by side.

    Parameters
    ----------
    state : State
    season : str, optional
        The year in which it starts; default: the season that holds the answer's day.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When the season is not a year.
    """
    found = worth_it.build(state, season=season)
    work = Work(state, span_of(state, season))
    known = figures(work)
    records = [_record(row, known) for row in found.rows() if row["hours"]]
    totals: dict[str, Any] = {"season": found.totals["season"]}
    totals["in_words"] = [
        *(
            sentence("hours-season", year=digits(str(year)), span=said)
            for year, said in found.totals["season"].items()
        ),
        *(_in_all(state, record) for record in records if record["line"] == "total"),
        sentence("hours-ways-beside-each-other-never"),
    ]
    missing = []
    if not records:
        missing.append(sentence("hours-no-hours-written-down-work"))
    if not work.has_rate("helper_wage"):
        missing.append(sentence("hours-what-helper-would-paid-not"))
    totals["missing"] = missing
    return answer(state, "work-worth", COLUMNS, records, totals=totals, assumptions=_notes())


def _in_all(state: State, record: dict[str, Any]) -> str:
    """Return the total in words, the ways that are known side by side."""
    ways = [
        sentence("hours-worth", price=paid(state, record[name]), by=Choice(name.replace("_", "-")))
        for name in ("own_rate", "helper", "pay_given_up", "brought")
        if record[name] is not None
    ]
    return sentence(
        "hours-in-all",
        n=round(record["hours"]),
        ways=joined(", ", ways),
        bound=Choice(_BOUNDS[record["bounds"].get("brought", "")]),
    )


def _record(row: dict[str, Any], known: Mapping[str, Figure]) -> dict[str, Any]:
    return {
        **record_of(known, LINES.index(row["line"])),
        "why": f"work-worth/{row['season']}/{row['line']}",
        "season": row["season"],
        "line": row["line"],
        "at_least": row["at_least"],
        "assumptions": ["ways"],
    }


def _notes() -> list[Assumption]:
    return [
        Assumption(
            "ways",
            sentence("hours-helper-wage-what-us-household"),
        )
    ]  # fmt: skip


PROJECTION = Projection(
    name="work-worth",
    title="Work",
    question="What is our work worth: by our own rate, by a helper's wage, by what it brought?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(Option("season", "the season that starts in this year", "2026"),),
)
