"""What is our work worth: by our own rate, by a helper's wage, by pay given up, by what it brought?"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.messages import Choice, Code, Message, Names, Typed, fixed, joined, sentence
from ledger.messages import measured as digits
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
    if helper is None:
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
    most = record["at_least"] and record["brought"] is not None
    return sentence(
        "hours-in-all",
        n=round(record["hours"]),
        ways=joined(", ", ways),
        most=Choice("yes" if most else "no"),
    )


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
            sentence("hours-helper-wage-what-us-household"),
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
            Message.of(
                "refusal-no-figure-of",
                text=Typed(figure),
                names=Names((*as_worth, *rates)),
                question=Code("work-worth"),
            ),
        )
    rate = rate_of(state, rates[figure])
    if rate is None:
        return Node(sentence("hours-no-wage"), None, "money")
    return product(
        sentence("hours-hours-x-wage"),
        "money",
        why_worth(state, key, "hours"),
        Node(fixed(rates[figure].replace("_", " "), "name"), rate, "money an hour"),
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
