"""How much electricity and water does a jar take, and what does the freezer take by lot?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.power_and_water import freezer_share
from ledger.questions.power_and_water.figures import figures
from ledger.questions.power_and_water.gather import Loads
from ledger.questions.power_and_water.why import why
from ledger.questions.quantities import decimals
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import only_item
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("batch", "Batch", "", "Id of the batch's entry."),
    Column("on", "Day", "day", "When it was put up.", main=True),
    Column("item", "Made", "", "What was made.", main=True),
    Column("method", "Method", "", "boiling water or pressure."),
    Column("loads", "Loads", "loads", "Canner loads.", main=True),
    Column("jars", "Jars", "jars", "All jars of it.", main=True),
    Column("good_jars", "Good jars", "jars", "Less those that did not seal, spoiled or broke."),
    Column("kwh", "Heat", "kWh", "Electricity or gas of the batch.", main=True),
    Column("kwh_from", "Says", "", "`meter`, what was written down with the batch (`metered`, gas in kWh), or `estimate`: from stove heat, not measured.", main=True),
    Column("kwh_per_good_jar", "A good jar", "kWh", "Heat / good jars; null without any.", main=True),
    Column("full_load_saves", "A full load saves", "kWh a jar", "What the same loads, each full, would save a jar; null where the jars of a load are not known."),
    Column("water_l", "Water", "L", "By the meter; null where it was not read."),
    Column("water_l_low", "Water, low", "L", "By the meter, else the canner's own water as recalled (common practice, from memory)."),
    Column("water_l_high", "Water, high", "L", "The same, high."),
    Column("water_per_good_jar", "Water a good jar", "L", "By the meter; null where it was not read."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, freezer: bool = False, item: str | None = None) -> Answer:
    """Return one record a canning batch, the newest first; or one a lot in the freezer.

    Parameters
    ----------
    state : State
    freezer : bool
        Instead, what the freezer took in the last year, shared by lot.
    item : str, optional
        Only what makes this item.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or those of the freezer.

    Raises
    ------
    NotFound
        When there is no such item.
    """
    only = only_item(state, item)
    if freezer:
        return freezer_share.build(state, only)
    loads = state.once(Loads)
    cells = {name: figure.cells() for name, figure in state.once(figures).items()}
    records = [
        _record(state, loads, cells, row)
        for row in reversed(range(loads.count))
        if only in (None, state.facts.find(loads.bodies[row]["makes"]))
    ]
    totals = _totals(records)
    if not records:
        totals["missing"] = [sentence("power-no-batch-went-through-canner")]
    return answer(
        state, "power-and-water", COLUMNS, records, totals=totals, assumptions=_notes(records)
    )


def _totals(records: list[dict[str, Any]]) -> dict[str, Any]:
    known = [r for r in records if r["kwh_from"] != "estimate" and r["good_jars"] > 0]
    jars = sum(r["good_jars"] for r in known)
    words = []
    if jars:
        each = sum(r["kwh"] for r in known) / jars
        words.append(
            sentence("power-measured-kwh-good-jar-over", n=decimals(each, 2), n2=round(jars))
        )
    lost = sum((r["full_load_saves"] or 0.0) * r["jars"] for r in records)
    if lost:
        words.append(sentence("power-full-loads-would-have-saved", n=decimals(lost, 1)))
    return {
        "kwh": sum(r["kwh"] for r in records),
        "good_jars": sum(r["good_jars"] for r in records),
        "in_words": words,
    }


def _notes(records: list[dict[str, Any]]) -> list[Assumption]:
    out = [Assumption("gas", sentence("power-gas-counts-heat-gave-kwh"))]
    if any(r["kwh_from"] == "estimate" for r in records):
        out.append(
            Assumption(
                "estimate",
                sentence("power-where-nothing-measured-estimate-from"),
            )
        )
    out.append(
        Assumption(
            "water",
            sentence("power-water-not-metered-canner-own"),
        )
    )
    return out


def _record(state: State, of: Loads, cells: dict[str, list[Any]], row: int) -> dict[str, Any]:
    batch, body, source = state.entry_id(of.evs[row]), of.bodies[row], of.sources[row]
    return {
        **{name: column[row] for name, column in cells.items()},
        "why": f"power-and-water/{batch}",
        "batch": batch,
        "on": day_text(int(state.moment.on[of.evs[row]])),
        "item": body["makes"],
        "method": body["method"],
        "kwh_from": source,
        "assumptions": ["gas", "water", *(["estimate"] if source == "estimate" else [])],
    }


PROJECTION = Projection(
    name="power-and-water",
    title="Power and water",
    question="How much electricity and water does a jar take, and what does the freezer take by lot?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option(
            "freezer",
            "what the freezer took in the last year, shared by lot",
            "--freezer",
            kind="flag",
        ),
        Option("item", "only this item", "tomato sauce"),
    ),
    variants={"freezer": freezer_share.COLUMNS},
)
