"""The formulas of the first year: each gives the column for all foods of the plan, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, if_known, known_where, work
from ledger.questions.first_year.gather import Plans
from ledger.questions.first_year.words import plan_said

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]


def figures(state: State) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is a food of the plan."""
    of = state.once(Plans)
    each = of.each.called("a-person", plan=lambda row: plan_said(of.plans[row]))
    plan = if_known((of.people.called("people") * each).called("plan_quarts"), "no-servings")
    days = work("lowest", of.days, of.year).called("days")
    to_a_year = (of.year / days).called("to-a-year", unit="times")
    own = (of.used.called("used-quarts") * to_a_year).called("own_quarts", unit="quarts")
    own = known_where(of.has_own, own, "no-own-record")
    months = (of.days_put_up / of.month).called("months").folds(of.address("months"))
    together = (of.weight.called("plan-weighs") + months).called("together")
    by_plan = plan * (of.weight.called("plan-weighs") / together).called("weight")
    by_own = own * (months / together).called("weight")
    mixed = by_plan.called("part-of-plan") + by_own.called("part-of-own")
    is_planned = plan.values >= 0
    wanted = choose(of.has_own, choose(is_planned, mixed.called("quarts"), own), plan)
    wanted = wanted.folds(of.address("quarts"))
    lb = (wanted * of.fresh.called("fresh-in-quart")).called("lb").folds(of.address("lb"))
    row = (lb / of.row.called("a-foot")).called("row_ft")
    return {
        "quarts": wanted,
        "plan_quarts": plan,
        "own_quarts": own,
        "months": known_where(of.has_own, months, "no-own-record", "months"),
        "lb": if_known(lb, "no-load", "lb fresh"),
        "row_ft": if_known(row, "no-row", "ft of row"),
    }
