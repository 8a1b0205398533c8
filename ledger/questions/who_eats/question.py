"""Who eats, and what does each need in a day?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.figures import tree
from ledger.messages import fixed, sentence
from ledger.projections.base import Answer, Column, Node, Projection
from ledger.questions.quantities import about
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.telling import StateTeller
from ledger.questions.who_eats.eaters import Eater, Eaters, eaters_of
from ledger.questions.who_eats.needed import LABELS as FIGURES
from ledger.reference import needs
from ledger.reference.nutrients import LABELS, UNITS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

_MAIN = {"energy_kcal", "protein_g", "calcium_mg", "iron_mg"}
COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("person", "Who", "", "The person; `all` for the household together; null for those of no known age.", main=True),
    Column("sex", "Sex", "", "Which table of needs applies."),
    Column("age", "Age", "years", "On the answer's day; null where it is not known.", main=True),
    Column("state", "State", "", "pregnant or nursing; null for neither.", main=True, rare=True),
    Column("activity", "Work", "", "light, moderate or hard work on most days.", main=True),
    Column("energy_by", "Energy by", "", "The calorie table, or weight and height (the 2005 equation)."),
    *(
        Column(name, LABELS[name].capitalize(), f"{UNITS[name]} a day",
               "Need of a day: recommended allowance, else adequate intake; null for an infant." if name != "energy_kcal"
               else "Energy of a day; null for an infant.", main=name in _MAIN)
        for name in needs.NUTRIENTS
    ),
    Column("from_memory", "From memory", "yes or no", "Whether the energy was recalled from its table and not read there."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State) -> Answer:
    """Return one record a person at the table, and one for the household.

    Parameters
    ----------
    state : State

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.
    """
    eaters = eaters_of(state)
    notes = eaters.assumptions()
    records = [_record(eaters, person) for person in eaters.people]
    if eaters.unknown:
        each = {name: float(eaters.figures.each(name).values[-1]) for name in needs.NUTRIENTS}
        records.append({"why": "who-eats/no known age", **each, "assumptions": ["no-ages"]})
    ids = [note.id for note in notes]
    records.append(
        {"why": "who-eats/all", "person": fixed("all"), **eaters.need, "assumptions": ids}
    )
    count = eaters.count
    totals: dict[str, Any] = {"people": int(count) if count == int(count) else count}
    totals["in_words"] = [sentence("eaters-needs-one-day-table", n=about(count))]
    if not eaters.people:
        totals["missing"] = [sentence("eaters-nobody-described-says-who-eats")]
    return answer(state, "who-eats", COLUMNS, records, totals=totals, assumptions=notes)


def _record(eaters: Eaters, person: Eater) -> dict[str, Any]:
    energy = person.energy()
    record: dict[str, Any] = {
        "why": f"who-eats/{person.name}",
        "person": person.name,
        "sex": person.sex,
        "age": int(person.age),
        "state": person.state or None,
        "activity": person.activity,
        "energy_by": None if energy is None else energy[2],
        "from_memory": None if energy is None else energy[1],
        "assumptions": ["doctor", *(["infants"] if person.is_infant else [])],
    }
    for name in needs.NUTRIENTS:
        record[name] = next((n.value for n in eaters.needs_of(name) if n.person is person), None)
    return record


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a need as a tree down to who was described.

    Raises
    ------
    NotFound
        When there is no such person or figure.
    """
    eaters = eaters_of(state)
    name, teller = field or "energy_kcal", StateTeller(state, FIGURES)
    person = next((one for one in eaters.people if one.name == key), None)
    if name == "age" and person is not None:
        return tree(eaters.figures.age(person, full=True).called("full-years"), 0, teller, deep)
    check_figure("who-eats", name, needs.NUTRIENTS)
    if key == "all":
        return tree(eaters.figures.of(name), 0, teller, deep)
    each, found = eaters.figures.each(name), [one.person for one in eaters.needs_of(name)]
    if key == "no known age" and eaters.unknown:
        return tree(each, len(found), teller, deep)
    if person not in found:
        raise no_record("who-eats", key)
    return tree(each, found.index(person), teller, deep)


PROJECTION = Projection(
    name="who-eats",
    title="Who eats",
    question="Who eats, and what does each need in a day?",
    columns=COLUMNS,
    build=build,
    why=why,
)
