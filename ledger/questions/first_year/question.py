"""How much should we put up in the first year, when there is no record of our own?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import sentence
from ledger.projections.base import Answer, Column, Projection
from ledger.questions.first_year.figures import figures
from ledger.questions.first_year.gather import Plans
from ledger.questions.first_year.why import why
from ledger.questions.first_year.words import notes, plan_said
from ledger.questions.quantities import about
from ledger.questions.shared.common import answer
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference import winter

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("food", "Food", "", "As the plan names it.", main=True),
    Column("plan", "Plan", "", "Its servings, in words.", main=True),
    Column("plan_quarts", "By the plan", "quarts", "For all at the table and a year; null where the plan says no servings.", main=True),
    Column("own_quarts", "Own record", "quarts", "What a year of own use takes, eaten and given away, of what was put up; null without any.", main=True),
    Column("months", "Months", "months", "Months of own record of it."),
    Column("quarts", "To put up", "quarts", "Plan x 6 / (6 + months) + own x months / (6 + months).", main=True),
    Column("lb", "Fresh", "lb", "Fresh produce for that, by published canner loads; null where none is published.", main=True),
    Column("row_ft", "Row", "ft", "Garden row for that, by published yields a 100 ft; null where none is published.", main=True),
    Column("items", "Items", "", "The household's own items that count as it."),
    Column("from_memory", "From memory", "yes or no", "Whether a figure here was recalled and not read."),
    Column("source", "Source", "", "Where the plan is from."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State) -> Answer:
    """Return one record a food of the plan.

    Parameters
    ----------
    state : State

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.
    """
    of = state.once(Plans)
    cells = {name: figure.cells() for name, figure in state.once(figures).items()}
    records = [
        {**_named(of, row), **{name: cell[row] for name, cell in cells.items()}}
        for row in range(len(of.plans))
    ]
    people = eaters_of(state).count
    used = int(of.has_own.sum())
    words = [sentence("first-published-plan-table-plan-not", n=about(people), n2=used)]
    totals: dict[str, Any] = {"people": people, "in_words": words}
    return answer(state, "first-year", COLUMNS, records, totals=totals, assumptions=notes())


def _named(of: Plans, row: int) -> dict[str, Any]:
    plan, load, grows = of.plans[row], of.loads[row], of.yields[row]
    has_own = bool(of.has_own[row])
    is_known = load is not None and (has_own or plan.quarts is not None)
    is_recalled = load is not None and not load.confirmed
    return {
        "why": f"first-year/{plan.food}",
        "food": plan.food,
        "plan": plan_said(plan),
        "items": sorted(of.items[row]),
        "from_memory": is_recalled or (is_known and grows is not None and grows.from_memory),
        "source": winter.document(plan.source),
        "assumptions": ["plan", "process", *(["mixed"] if has_own else [])],
    }


PROJECTION = Projection(
    name="first-year",
    title="First year",
    question="How much should we put up in the first year, when there is no record of our own?",
    columns=COLUMNS,
    build=build,
    why=why,
)
