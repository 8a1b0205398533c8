"""What was lost, by item and cause: weight, money and hours that had gone into it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.kinds import KINDS
from ledger.messages import sentence
from ledger.messages.words import fixed
from ledger.projections.base import Answer, Column, Node
from ledger.questions.shared.arithmetic import total
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.opening import check_figure
from ledger.replay import COMPONENTS, ORIGINS, tables
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "why"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was lost.", main=True),
    Column("cause", "Cause", "", "Why it was discarded; missing: what a count did not find.", main=True),
    Column("times", "Times", "times", "How often.", main=True),
    Column("kg", "Weight", "kg", "Weight of it; null where none is known.", main=True),
    Column("money", "Cost", "money", "What it had cost, by jar-cost's reckoning.", main=True, bound="≥"),
    Column("hours", "Hours", "hours", "Hours of the batches that made it, shared by amount; null of what no batch made.", main=True),
    Column("at_least", "At least", "yes or no", "Something that went in has no known price."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_DISCARDED = list(KINDS).index("discarded")
_FOOD = SORTS.index("food")
_MISSING = len(tables.ROLES)
_EATEN = tables.CAUSES.index("eaten")

Lost = dict[tuple[int, str], list[int]]


def _lost(state: State) -> Lost:
    """Return the allocations that were lost, by item and cause."""
    draw, lot, _ = state.allocations
    events, draws = state.journal.tables["events"], state.draws
    ev = draws["ev"][draw]
    cause = events["cause"][ev]
    missing = (draws["role"][draw] == _MISSING) & (cause != _EATEN)
    gone = (events["kind"][ev] == _DISCARDED) | missing
    food = state.facts.sort[state.lots["item"][lot]] == _FOOD
    out: Lost = {}
    for n in np.flatnonzero(gone & food).tolist():
        name = "missing" if missing[n] else tables.CAUSES[int(cause[n])] or "other"
        out.setdefault((int(state.lots["item"][lot[n]]), name), []).append(n)
    return out


def _figures(state: State, n: int) -> tuple[float, float, float | None]:
    """Return grams (NaN: not known), money and hours of one allocation."""
    _, lot, amount = state.allocations
    one = int(lot[n])
    share = float(amount[n]) / float(state.lots["whole"][one])
    grams = float(state.facts.grams[int(state.lots["item"][one])]) * float(amount[n])
    money = float(state.costs.lot[one, : len(COMPONENTS)].sum()) * share
    hours = None
    if int(state.lots["origin"][one]) == ORIGINS.index("batch"):
        ev = int(state.lots["ev"][one])
        rows = state.costs.rows
        if ev in rows.loads:
            of_batch = float(rows.share_of_lot[rows.number_of_lot[one]])
            hours = state.costs.minutes_of(ev) / 60 * of_batch * share
    return grams, money, hours


def build(state: State, only: int | None) -> Answer:
    """Return one record an item and cause, the dearest first."""
    records: list[dict[str, Any]] = []
    for (item, cause), rows in state.once(_lost).items():
        if only not in (None, item):
            continue
        figures = [_figures(state, n) for n in rows]
        grams = [g for g, _, _ in figures]
        hours = [h for _, _, h in figures if h is not None]
        marks = [state.costs.mark(int(state.allocations[1][n])) for n in rows]
        records.append(
            {
                "why": f"keeping-life/loss/{state.facts.names[item]}/{cause}",
                "item": state.facts.names[item],
                "cause": cause,
                "times": len({int(state.draws["ev"][state.allocations[0][n]]) for n in rows}),
                "kg": None if any(np.isnan(grams)) else sum(grams) / 1000,
                "money": sum(m for _, m, _ in figures),
                "hours": sum(hours) if hours else None,
                "at_least": any(state.costs.names_of(mark) for mark in marks),
                "assumptions": ["cost"],
            }
        )
    records.sort(key=lambda r: (-r["money"], r["item"], r["cause"]))
    totals: dict[str, Any] = {"money": sum(r["money"] for r in records)}
    totals["kg"] = sum(r["kg"] or 0.0 for r in records)
    if not records:
        totals["missing"] = [
            "Nothing was discarded: `croftbook discard` takes what was lost and why."
        ]
    notes = [
        Assumption(
            "cost",
            "Money and hours are what had gone into it; a glut fed to animals is a loss of food here, whatever feed it spared.",
        )
    ]
    return answer(state, "keeping-life", COLUMNS, records, totals=totals, assumptions=notes)


def why(state: State, name: str, cause: str, field: str | None) -> Node:
    """Return a loss as a tree down to what was discarded.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    item = state.facts.find(name)
    rows = state.once(_lost).get((-1 if item is None else item, cause))
    if field == "times" and rows is not None:
        evs = sorted({int(state.draws["ev"][state.allocations[0][n]]) for n in rows})
        return total(
            sentence("why-times-done"),
            "times",
            *(event_node(state, ev, "", 1.0, "times") for ev in evs),
        )
    units = {"kg": "kg", "money": "money", "hours": "hours"}
    figure = field or "money"
    if rows is None:
        raise NotFound(
            "address",
            f"there is no loss of {name!r} by {cause!r}",
            "Take an address from `croftbook show keeping-life --loss --json`",
        )
    check_figure("keeping-life", figure, units)
    at = list(units).index(figure)
    leaves = []
    for n in rows:
        value = _figures(state, n)[at]
        if value is None or np.isnan(value):
            continue
        ev = int(state.draws["ev"][state.allocations[0][n]])
        leaves.append(
            event_node(state, ev, "", value / (1000 if figure == "kg" else 1), units[figure])
        )
    if not leaves:
        return Node(sentence("why-path-not-known"), None, units[figure])
    return total(sentence("why-name-cause", name=name, cause=fixed(cause)), units[figure], *leaves)
