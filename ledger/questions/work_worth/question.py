"""What is our work worth: by our own rate, by a helper's wage, by pay given up, by what it brought?"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.messages import sentence
from ledger.methods.work import by_hours
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.quantities import paid
from ledger.questions.shared.arithmetic import product
from ledger.questions.shared.common import answer
from ledger.questions.worth_it import question as worth_it
from ledger.questions.worth_it.why import why as why_worth

if TYPE_CHECKING:
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
    Column("brought", "What it brought", "money", "Amount made at shop prices, less what was paid for and wear: the net of worth-it, its labour left out.", main=True, bound="≤"),
    Column("brought_per_hour", "An hour", "money per hour", "What it brought / hours.", main=True),
    Column("at_least", "At least", "yes or no", "Something that counts here has no known price."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


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
    helper, given_up = rate_of(state, "helper_wage"), rate_of(state, "pay_given_up")
    records = [_record(row, helper, given_up) for row in found.rows() if row["hours"]]
    totals: dict[str, Any] = {"season": found.totals["season"]}
    totals["in_words"] = [
        *(f"Season {year}: {said}." for year, said in found.totals["season"].items()),
        *(_in_all(state, record) for record in records if record["line"] == "total"),
        "The ways are beside each other and are never added: each answers another question.",
    ]
    missing = []
    if not records:
        missing.append(
            "No hours are written down, so work has no value here: give `--work` when you pick, plant or put up."
        )
    if helper is None:
        missing.append(
            "What a helper would be paid is not set: `croftbook setting helper_wage 15.00`. Without a wage there is our own rate only."
        )
    totals["missing"] = missing
    return answer(state, "work-worth", COLUMNS, records, totals=totals, assumptions=_notes())


def _in_all(state: State, record: dict[str, Any]) -> str:
    """Return the total in words, the ways that are known side by side."""
    ways = [
        f"{paid(state, record[name])} {said}"
        for name, said in (
            ("own_rate", "by our own rate"),
            ("helper", "by a helper's wage"),
            ("pay_given_up", "by pay given up"),
            ("brought", "by what they brought"),
        )
        if record[name] is not None
    ]
    most = " at the most" if record["at_least"] and record["brought"] is not None else ""
    return f"{record['hours']:,.0f} hours in all: {', '.join(ways)}{most}."


def rate_of(state: State, name: str) -> float | None:
    """Return a setting that is money an hour; None where it is not set."""
    said = state.settings.on(name, state.as_of_day)
    found = re.match(r"(\d+(?:\.\d+)?)(?:\s*(?:per|/)\s*(\w+))?", said or "")
    if found is None:
        return None
    return float(found[1]) * (60 if (found[2] or "").lower().startswith("min") else 1)


def _record(row: dict[str, Any], helper: float | None, given_up: float | None) -> dict[str, Any]:
    hours = row["hours"]
    return {
        "why": f"work-worth/{row['season']}/{row['line']}",
        "season": row["season"],
        "line": row["line"],
        "hours": hours,
        "own_rate": row["labour"],
        "helper": None if helper is None else by_hours(hours, helper),
        "pay_given_up": None if given_up is None else by_hours(hours, given_up),
        "brought": row["net"],
        "brought_per_hour": row["net_per_hour"],
        "at_least": row["at_least"],
        "assumptions": ["ways"],
    }


def _notes() -> list[Assumption]:
    return [
        Assumption(
            "ways",
            "A helper's wage is what the US household production account uses (a general hand); what it brought is the output method "
            "(Fitzgerald and Wicks, 1990: 44 per cent above hours x wage in Montana households). A trade's wage would overstate where the home worker is slower.",
        )
    ]  # fmt: skip


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    figure = field or "brought"
    as_worth = {
        "hours": "hours",
        "own_rate": "labour",
        "brought": "net",
        "brought_per_hour": "net_per_hour",
    }
    if figure in as_worth:
        return why_worth(state, key, as_worth[figure])
    rates = {"helper": "helper_wage", "pay_given_up": "pay_given_up"}
    if figure not in rates:
        raise NotFound(
            "figure",
            f"{figure!r} is not a figure of work-worth",
            f"It has: {', '.join([*as_worth, *rates])}",
        )
    rate = rate_of(state, rates[figure])
    if rate is None:
        return Node(sentence("why-no-wage-set"), None, "money")
    return product(
        sentence("why-hours-x-wage"),
        "money",
        why_worth(state, key, "hours"),
        Node(rates[figure].replace("_", " "), rate, "money an hour"),
    )


PROJECTION = Projection(
    name="work-worth",
    title="Work",
    question="What is our work worth: by our own rate, by a helper's wage, by what it brought?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(Option("season", "the season that starts in this year", "2026"),),
)
