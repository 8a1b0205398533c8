"""How much should we put up in the first year, when there is no record of our own?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.messages import Choice, fixed, joined, sentence
from ledger.messages import measured as digits
from ledger.methods.first_year import K_MONTHS, mixed, quarts_wanted
from ledger.projections.base import Answer, Column, Node, Projection
from ledger.questions.goes import goes
from ledger.questions.quantities import about
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import QUART_UL, answer, event_node
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference import servings, winter
from ledger.reference.planting import published_yields
from ledger.reference.yields import quantities
from ledger.replay import ORIGINS

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

_LOADS = {
    "green beans": "snap_beans", "tomatoes": "tomatoes_whole_in_water", "carrots": "carrots",
    "beets": "beets", "corn": "corn_whole_kernel", "peas": "peas_green", "greens": "greens_spinach",
    "asparagus": "asparagus", "apples": "applesauce", "peaches": "peaches", "pears": "pears",
    "plums": "plums", "berries": "berries_whole", "cherries": "cherries_whole",
    "tomato juice": "tomato_juice",
}  # fmt: skip
_CROPS = {
    "green beans": "green bean",
    "tomato juice": "tomato",
    "corn": "sweet corn",
    "greens": "spinach",
}
_YEAR = 365.0
_CUP, _TSP = 0.25, 48.0
"""A serving below a quarter of a cup is told in teaspoons, 48 to the cup."""


@dataclass(frozen=True)
class Own:
    """Own record of a food: whole units used by item and event, the first day, quarts a year."""

    uses: tuple[tuple[int, int, float], ...]
    days: int

    @property
    def months(self) -> float:
        """Months of record."""
        return self.days / (_YEAR / 12)

    @property
    def quarts(self) -> float:
        """Quarts that a year takes."""
        return sum(whole for _, _, whole in self.uses) / QUART_UL * _YEAR / self.days


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
    own = state.once(_own)
    plans = [one for one in servings.plans() if one.kind == "servings_plan"]
    records = [_record(state, one, own.get(one.food)) for one in plans]
    people = eaters_of(state).count
    used = sum(r["own_quarts"] is not None for r in records)
    words = [sentence("first-published-plan-table-plan-not", n=about(people), n2=used)]
    totals: dict[str, Any] = {"people": people, "in_words": words}
    return answer(state, "first-year", COLUMNS, records, totals=totals, assumptions=_notes())


def _notes() -> list[Assumption]:
    guide = [one for one in servings.plans() if one.kind == "family_plan"]
    more = [
        sentence(
            "first-a-person-of",
            n=about(one.per_person or 0),
            jar=Choice(one.unit),
            name=fixed(one.food, "food"),
        )
        for one in guide[:3]
    ]
    return [
        Assumption("plan", sentence("first-plan-says-what-some-family", source=winter.document('Y1'))),
        Assumption("mixed", sentence("first-own-record-counts-months-against", n=about(K_MONTHS))),
        Assumption("guide", sentence("first-jar-maker-guide-says-otherwise", list=joined("; ", more))),
        Assumption("process", sentence("first-how-long-how-hot-how")),
    ]  # fmt: skip


def _own(state: State) -> dict[str, Own]:
    """Return own use of what was put up in the last year, by food of the plan."""
    facts, draws = state.facts, state.draws
    made = np.unique(state.lots["item"][state.lots["origin"] == ORIGINS.index("batch")])
    by_food: dict[str, set[int]] = {}
    for item in made.tolist():
        found = servings.of_food(facts.names[item])
        if found is not None and facts.measure[item] == "volume":
            by_food.setdefault(found.food, set()).add(item)
    used = np.isin(state.once(goes), ["eaten", "given"])
    out = {}
    for food, items in by_food.items():
        mine = np.flatnonzero(np.isin(draws["item"], sorted(items)))
        lots = np.isin(state.lots["item"], sorted(items))
        first = int(state.lots["day"][lots].min())
        days = state.as_of_day - first + 1
        rows = mine[used[mine] & (state.as_of_day - draws["day"][mine] < _YEAR)]
        uses = tuple(
            (int(draws["item"][r]), int(draws["ev"][r]), float(draws["whole"][r])) for r in rows
        )
        out[food] = Own(uses, max(min(days, int(_YEAR)), 1))
    return out


def _months(state: State, food: str) -> float:
    """Return the months since the first of it was put up, however long."""
    return float(state.once(_since).get(food, 0.0))


def _since(state: State) -> dict[str, float]:
    out: dict[str, float] = {}
    made = state.lots["origin"] == ORIGINS.index("batch")
    for item in np.unique(state.lots["item"][made]).tolist():
        found = servings.of_food(state.facts.names[item])
        if found is not None and state.facts.measure[item] == "volume":
            first = int(state.lots["day"][made & (state.lots["item"] == item)].min())
            months = (state.as_of_day - first + 1) / (_YEAR / 12)
            out[found.food] = max(out.get(found.food, 0.0), months)
    return out


def _load(food: str) -> tuple[float, bool] | None:
    """Return pounds of fresh produce in a quart, and whether that was recalled."""
    rows = [q for q in quantities(_LOADS.get(food, "")) if q.lb_per_7_quarts is not None]
    return (float(rows[0].lb_per_7_quarts or 0) / 7, not rows[0].confirmed) if rows else None


def _yield(food: str) -> tuple[float, bool] | None:
    """Return pounds a foot of row, and whether that was recalled."""
    rows = [y for y in published_yields(_CROPS.get(food, food)) if y.unit == "lb" and y.row_ft]
    rows.sort(key=lambda y: y.low / (y.row_ft or 1.0))
    return (rows[0].low / (rows[0].row_ft or 1.0), rows[0].from_memory) if rows else None


def _record(state: State, plan: servings.ServingsPlan, own: Own | None) -> dict[str, Any]:
    people = eaters_of(state).count
    by_plan = _by_plan(plan, people)
    mine, months = (None, 0.0) if own is None else (own.quarts, _months(state, plan.food))
    wanted = by_plan
    if mine is not None:
        wanted = mine if by_plan is None else mixed(by_plan, mine, months)
    load, grows = _load(plan.food), _yield(plan.food)
    lb = None if load is None or wanted is None else wanted * load[0]
    row = None if grows is None or lb is None else lb / grows[0]
    return {
        "why": f"first-year/{plan.food}",
        "food": plan.food,
        "plan": _said(plan),
        "plan_quarts": by_plan,
        "own_quarts": mine,
        "months": months if own is not None else None,
        "quarts": wanted,
        "lb": lb,
        "row_ft": row,
        "items": [] if own is None else sorted({state.facts.names[i] for i, _, _ in own.uses}),
        "from_memory": bool((load and load[1]) or (grows and row is not None and grows[1])),
        "source": winter.document(plan.source),
        "assumptions": ["plan", "process", *(["mixed"] if own is not None else [])],
    }


def _by_plan(plan: servings.ServingsPlan, people: float) -> float | None:
    """Return quarts for so many: by the plan's servings, else as it is printed."""
    if plan.servings and plan.per_weeks and plan.weeks and plan.serving_cups:
        return quarts_wanted(people, plan.servings / plan.per_weeks, plan.weeks, plan.serving_cups)
    return None if plan.quarts is None else plan.quarts * people


_PRINTED = {"half-pint": "serving-half-pints", "pint": "serving-pints", "quart": "serving-quarts"}
"""What the plan prints for a person, by its unit."""


def _said(plan: servings.ServingsPlan) -> str:
    if plan.quarts_by_servings is None:
        return (
            sentence("first-no-servings-said")
            if plan.per_person is None
            else sentence("first-jars-a-person", n=plan.per_person, jar=Choice(plan.unit))
        )
    every = None if plan.per_weeks == 1 else about(plan.per_weeks or 0.0)
    cups = plan.serving_cups or 0.0
    size = f"{cups:.3g}" if cups >= _CUP else f"{cups * _TSP:.3g}"
    return sentence(
        "first-servings",
        n=about(plan.servings or 0.0),
        every=every,
        weeks=about(plan.weeks or 0.0),
        size=digits(size),
        spoon=Choice("cup" if cups >= _CUP else "tsp"),
    )


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree down to what was eaten.

    Raises
    ------
    NotFound
        When there is no such food or figure.
    """
    plan = next((p for p in servings.plans() if p.kind == "servings_plan" and p.food == key), None)
    if plan is None:
        raise no_record("first-year", key)
    trees = _trees(state, plan)
    figure = field or "quarts"
    check_figure("first-year", figure, trees)
    return trees[figure] or Node(figure.replace("_", " "), None, "quarts")


def _trees(state: State, plan: servings.ServingsPlan) -> dict[str, Node | None]:
    own = state.once(_own).get(plan.food)
    people = Node(sentence("first-people"), eaters_of(state).count, "people")
    each = (
        None
        if plan.quarts is None
        else Node(sentence("first-person", plan=_said(plan)), plan.quarts, "quarts")
    )
    by_plan = None if each is None else product(sentence("first-plan"), "quarts", people, each)
    mine = None if own is None else _mine(state, own)
    wanted, months = (
        by_plan,
        Node(sentence("first-months-own-record"), _months(state, plan.food), "months"),
    )
    if mine is not None and by_plan is None:
        wanted = mine
    elif mine is not None and by_plan is not None:
        k = Node(sentence("first-months-plan-weighs-our-own"), K_MONTHS, "months")
        both = total(sentence("first-together"), "months", k, months)
        wanted = total(
            sentence("first-put-up"), "quarts",
            product(sentence("first-part-plan"), "quarts", by_plan, quotient(sentence("first-weight"), "0 to 1", k, both)),
            product(sentence("first-part-own-record"), "quarts", mine, quotient(sentence("first-weight"), "0 to 1", months, both)),
        )  # fmt: skip
    load, grows = _load(plan.food), _yield(plan.food)
    lb = row = None
    if load is not None and wanted is not None:
        lb = product(
            sentence("first-fresh-produce"),
            "lb fresh",
            wanted,
            Node(sentence("first-quart-published-canner-load"), load[0], "lb fresh"),
        )
    if grows is not None and lb is not None:
        row = quotient(
            sentence("first-row"),
            "ft of row",
            lb,
            Node(sentence("first-foot-row-published"), grows[0], "lb fresh"),
        )
    return {
        "quarts": wanted,
        "plan_quarts": by_plan,
        "own_quarts": mine,
        "months": months,
        "lb": lb,
        "row_ft": row,
    }


def _mine(state: State, own: Own) -> Node:
    leaves = [event_node(state, ev, "", whole / QUART_UL, "quarts") for _, ev, whole in own.uses]
    used = total(sentence("first-eaten-given-away-days", n=own.days), "quarts", *leaves)
    times = quotient(
        sentence("first-year"),
        "times",
        Node(sentence("first-year-2"), _YEAR, "days"),
        Node(sentence("first-days"), float(own.days), "days"),
    )
    return product(sentence("first-own-record"), "quarts", used, times)


PROJECTION = Projection(
    name="first-year",
    title="First year",
    question="How much should we put up in the first year, when there is no record of our own?",
    columns=COLUMNS,
    build=build,
    why=why,
)
