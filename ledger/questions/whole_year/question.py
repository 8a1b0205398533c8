"""One plan for the year: what to sow, put up and buy, week by week, to meet what we need for least money?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.messages import Choice, Day, Message, Names, Typed, fixed, joined, sentence
from ledger.messages import measured as digits
from ledger.methods.year_plan import YearPlan
from ledger.projections.base import Answer, Option, Projection
from ledger.questions.enough.asked import number_of
from ledger.questions.quantities import about, decimals, paid
from ledger.questions.shared.common import answer
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year import limits as year_limits
from ledger.questions.whole_year import weeks as year_weeks
from ledger.questions.whole_year.gather import year_of
from ledger.questions.whole_year.house import CHANCES, STOVE, Asked, Household
from ledger.questions.whole_year.lines import COLUMNS, records_of
from ledger.questions.whole_year.why import why
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS, UNITS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

_HOURS = 12.0
_TOLD = 0.005


def build(
    state: State,
    *,
    hours: str | float | None = None,
    chance: str | None = None,
    same_beds: bool = False,
    weeks: bool = False,
    limits: bool = False,
) -> Answer:
    """Return one record a line of the plan, by week; or one a week, or one a limit and need.

    Parameters
    ----------
    state : State
    hours : text or float, optional
        Hours that all hands give a week; default 12.
    chance : {'even', '9 in 10'}, optional
        With which the beds bring what the plan counts on; default 9 in 10.
    same_beds : bool
        A plant family may stand in a bed where it stood the season before.
    weeks : bool
        Instead, one record a week.
    limits : bool
        Instead, one record a limit and a need: how much of it the plan uses or meets.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or those of the weeks or the limits.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    many = 0.0 if str(hours) == "0" else number_of(hours, "hours", _HOURS, most=500)
    chance = chance or CHANCES[1]
    if chance not in CHANCES:
        raise InputError(
            "chance",
            Message.of("refusal-not-one-of", text=Typed(chance), words=Names(tuple(CHANCES))),
        )
    asked = Asked(many, chance, bool(same_beds))
    year = year_of(state, asked)
    house, plan = year.house, year.plan
    if limits:
        return year_limits.build(state, year)
    lines = records_of(state, year)
    records = year_weeks.weeks_of(state, year, lines) if weeks and lines else lines
    short = {LABELS[name]: plan.lacks(n) for n, name in enumerate(NUTRIENTS)}
    totals: dict[str, Any] = {
        "cost": plan.cost,
        "short": {name: value for name, value in short.items() if value > 0},
        "in_words": _words(state, house, plan, asked) if records else [],
        "missing": _missing(house, lines),
    }
    return answer(
        state,
        "whole-year",
        year_weeks.COLUMNS if weeks else COLUMNS,
        records,
        totals=totals,
        assumptions=_notes(state, house, chance),
    )


def _words(state: State, house: Household, plan: YearPlan, asked: Asked) -> list[str]:
    people = eaters_of(state).count
    out: list[str] = [
        sentence(
            "year-for-so-many",
            n=about(people),
            hours=about(asked.hours),
            chance=Choice(asked.chance),
            price=paid(state, plan.cost),
            day=Day(house.week_on(0)),
        )
    ]
    for n, name in enumerate(NUTRIENTS):
        short, year = plan.lacks(n), house.needs[n] * 52
        if not year or short / year < _TOLD:
            continue
        if n == len(NUTRIENTS) - 1:
            out.append(sentence("year-sodium-over", n=round(short / year * 100)))
            continue
        weeks = sum(one == n for one, _ in plan.short)
        out.append(
            sentence(
                "year-not-met",
                n=round(short / year * 100),
                nutrient=fixed(LABELS[name]),
                amount=digits(f"{short:,.0f}"),
                unit=Choice(UNITS[name]),
                weeks=weeks,
            )
        )
    holds = _holds(plan)
    if holds:
        out.append(sentence("year-what-holds-plan-shows-each", list=holds))
    if plan.rounding > _TOLD:
        out.append(sentence("year-rounding", n=decimals(plan.rounding * 100, 1)))
    return out


def _holds(plan: YearPlan) -> str:
    binding = [
        year_limits.limit_said(limit.name)
        for limit in plan.limits
        if limit.binds and limit.most > 0 and not limit.name.startswith("hours")
    ]
    weeks = sum(limit.binds for limit in plan.limits if limit.name.startswith("hours"))
    if weeks:
        binding.append(sentence("year-hours-of-weeks", n=weeks))
    binding.append(sentence("year-how-much-each-food-this"))
    return joined(", ", binding)


def _missing(house: Household, lines: list[dict[str, Any]]) -> list[str]:
    out: list[str] = []
    if house.left_out:
        out.append(sentence("year-left-out", list=joined("; ", house.left_out)))
    if not house.limits.beds:
        out.append(sentence("year-no-bed-has-ground-bed"))
    elif len(house.limits.beds) == 1 and not house.kept_out and house.crops:
        out.append(sentence("year-one-bed-alone-has-ground"))
    nowhere = [name for name, beds in house.kept_out.items() if len(beds) == len(house.limits.beds)]
    if nowhere:
        out.append(sentence("year-kept-out-every-bed-family", names=Names(tuple(nowhere))))
    if house.no_hours:
        out.append(sentence("year-no-hours-known-picking-they", names=Names(tuple(house.no_hours))))
    guessed = [name for name, way in house.ways.items() if not way.batches]
    if guessed:
        out.append(sentence("year-no-record-of-hours", names=Names(tuple(guessed))))
    if not lines:
        out.append(sentence("year-nothing-plan-who-eats-crops"))
    return out


def _notes(state: State, house: Household, chance: str) -> list[Assumption]:
    beds = [f"{name} ({', '.join(beds)})" for name, beds in house.kept_out.items()]
    return [
        *eaters_of(state).assumptions(),
        Assumption("year", sentence("year-begins", day=Day(house.week_on(0)))),
        Assumption("chance", sentence("year-beds-bring", chance=Choice(chance))),
        *([Assumption("rotation", sentence("year-rotation", list="; ".join(beds)))] if beds else []),
        Assumption("most", sentence("year-no-food-beyond-one-half")),
        Assumption("prices", sentence("year-shop-prices", n=about(STOVE))),
        Assumption("process", sentence("year-only-printed-processes-planned-looked")),
    ]  # fmt: skip


PROJECTION = Projection(
    name="whole-year",
    title="Whole year",
    question="What to plant, put up and buy, week by week, to meet what we need for least money?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("hours", "hours that all hands give a week (12 unless said)", "8"),
        Option("chance", "with which the beds bring what is counted on (9 in 10 unless said)", "even", choices=CHANCES),
        Option("same_beds", "let a plant family stand in the bed it stood in the season before", "--same-beds", kind="flag"),
        Option("weeks", "each week: what is planted, picked, put up, eaten, bought, and what it lacks", "--weeks", kind="flag"),
        Option("limits", "each limit and need, and how much of it the plan uses", "--limits", kind="flag"),
    ),
    variants={"limits": year_limits.COLUMNS, "weeks": year_weeks.COLUMNS},
)  # fmt: skip
