"""One plan for the year: what to sow, put up and buy, week by week, to meet what we need for least money?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.messages import Message, Names, Typed
from ledger.methods.year_plan import YearPlan
from ledger.projections.base import Answer, Option, Projection
from ledger.questions.enough.asked import number_of
from ledger.questions.quantities import paid
from ledger.questions.shared.common import answer
from ledger.questions.shared.ways import GUESS_HOURS
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year import limits as year_limits
from ledger.questions.whole_year import weeks as year_weeks
from ledger.questions.whole_year.house import CHANCES, STOVE, Asked, Household, solved
from ledger.questions.whole_year.lines import COLUMNS, lines_of
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
    house, plan = solved(state, asked)
    if limits:
        return year_limits.build(state, house, plan, asked.text)
    lines = lines_of(state, house, plan, asked)
    records = year_weeks.weeks_of(state, house, plan, asked) if weeks and lines else lines
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
    out = [
        f"For {people:g} at the table and {asked.hours:g} hours a week, with the beds' harvest at {_chance(asked.chance)}: {paid(state, plan.cost)} for the year from {house.week_on(0)}."
    ]
    for n, name in enumerate(NUTRIENTS):
        short, year = plan.lacks(n), house.needs[n] * 52
        if not year or short / year < _TOLD:
            continue
        if n == len(NUTRIENTS) - 1:
            out.append(
                f"Sodium is {short / year:.0%} over its level; salt in the box is not in it."
            )
            continue
        weeks = sum(one == n for one, _ in plan.short)
        out.append(
            f"Not met: {short / year:.0%} of the year's {LABELS[name]} ({short:,.0f} {UNITS[name]}), in {weeks} of 52 weeks."
        )
    holds = _holds(plan)
    if holds:
        out.append(f"What holds the plan: {holds}. `--limits` shows each and opens its why.")
    if plan.rounding > _TOLD:
        out.append(
            f"Whole jars and whole canner loads cost {plan.rounding:.1%} of what needs and money weigh together."
        )
    return out


def _holds(plan: YearPlan) -> str:
    binding = [
        limit.name
        for limit in plan.limits
        if limit.binds and limit.most > 0 and not limit.name.startswith("hours")
    ]
    weeks = sum(limit.binds for limit in plan.limits if limit.name.startswith("hours"))
    if weeks:
        binding.append(f"the hours of {weeks} week{'s' if weeks > 1 else ''}")
    binding.append("how much of each food this household eats")
    return ", ".join(binding)


def _chance(chance: str) -> str:
    return "an even chance" if chance == "even" else "a chance of nine in ten"


def _missing(house: Household, lines: list[dict[str, Any]]) -> list[str]:
    out = []
    if house.left_out:
        out.append(f"Left out: {'; '.join(house.left_out)}.")
    if not house.limits.beds:
        out.append(
            'No bed has ground: `croftbook plant` with --bed and --area, or `croftbook show next-season --beds "south bed=40 sq ft"`, says it.'
        )
    elif len(house.limits.beds) == 1 and not house.kept_out and house.crops:
        out.append("One bed alone has ground: rotation within it is yours to see to.")
    nowhere = [name for name, beds in house.kept_out.items() if len(beds) == len(house.limits.beds)]
    if nowhere:
        out.append(
            f"Kept out of every bed, as the family stood in each last season: {', '.join(nowhere)}; `--same-beds` lets it stand again."
        )
    if house.no_hours:
        out.append(f"No hours are known of picking {', '.join(house.no_hours)}; they count none.")
    guessed = [name for name, way in house.ways.items() if not way.hours_known]
    if guessed:
        out.append(f"No record of your hours for {', '.join(guessed)}: {GUESS_HOURS}.")
    if not lines:
        out.append("Nothing to plan with: who eats, crops, recipes and prices bring it.")
    return out


def _notes(state: State, house: Household, chance: str) -> list[Assumption]:
    beds = [f"{name} ({', '.join(beds)})" for name, beds in house.kept_out.items()]
    return [
        *eaters_of(state).assumptions(),
        Assumption("year", f"The year begins with the first picking, {house.week_on(0)}: what is on the shelf today is taken as eaten until then, as far as it reaches. Needs are those of each week; food is there when it is eaten: fresh as long as it keeps, put up until its time is over, the pantry up to its dates. What is sown indoors says `croftbook show when-to-sow`."),
        Assumption("chance", f"The beds bring what they bring with {_chance(chance)}, by own seasons and published yields, in the weeks of own seasons; a crop takes its ground for the season. Trees, berries and eggs come as they came in the last year."),
        *([Assumption("rotation", f"A plant family is kept out of the bed it stood in the season before (common practice, no source): {'; '.join(beds)}. `--same-beds` lets it stand there.")] if beds else []),
        Assumption("most", "No food beyond one and a half times what a year uses of it, bought food in each week alike, of what was put up no more in a week than twice its even part, and of one crop as it is no more than 200 g a person and day: our own choice, so that a plan is one people eat."),
        Assumption("prices", f"Shop prices are the newest known; jars that are full now count as empty by then, lids as bought; the stove is free for the canner {STOVE:g} hours a week. Seed and the jars of ways that are only printed cost nothing here."),
        Assumption("process", "Only printed processes are planned, looked up for today's jar, altitude and gauge; a line is a reminder and not the whole of one: read the current document and the canner's manual first (`croftbook show as-published`)."),
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
