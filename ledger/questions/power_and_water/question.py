"""How much electricity and water does a jar take, and what does the freezer take by lot?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import sentence
from ledger.methods.fuel_use import full_load_saves, per_jar
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.power_and_water import freezer_share
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.canner_loads import WATER, Load, loads_of
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.opening import check_figure, no_record, only_item
from ledger.reference import winter
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
    loads = [one for one in loads_of(state) if only in (None, state.facts.find(one.body["makes"]))]
    records = [_record(state, one) for one in reversed(loads)]
    totals = _totals(loads)
    if not records:
        totals["missing"] = ["No batch went through a canner yet."]
    return answer(
        state, "power-and-water", COLUMNS, records, totals=totals, assumptions=_notes(loads)
    )


def _totals(loads: list[Load]) -> dict[str, Any]:
    known = [one for one in loads if one.source != "estimate" and one.good > 0]
    jars = sum(one.good for one in known)
    words = []
    if jars:
        each = sum(one.all_kwh for one in known) / jars
        words.append(f"Measured: {each:.2f} kWh a good jar over {jars:,.0f} jars.")
    saves = [(one, full_load_saves(one.all_kwh, one.jars, one.capacity or 0.0)) for one in loads]
    lost = sum((s or 0.0) * one.jars for one, s in saves)
    if lost:
        words.append(f"Full loads would have saved {lost:,.1f} kWh in all.")
    return {
        "kwh": sum(one.all_kwh for one in loads),
        "good_jars": sum(one.good for one in loads),
        "in_words": words,
    }


def _notes(loads: list[Load]) -> list[Assumption]:
    out = [Assumption("gas", "Gas counts by the heat that it gave, in kWh.")]
    if any(one.source == "estimate" for one in loads):
        out.append(
            Assumption(
                "estimate",
                "Where nothing was measured: an estimate from stove heat of a load of seven quarts, its inputs from memory. `croftbook meter stove --reads ... --before ... --batch ID` measures it.",
            )
        )
    out.append(
        Assumption(
            "water",
            "Water not metered is the canner's own as recalled; washing and cooling take 20 to 40 L a load more (common practice, from memory).",
        )
    )
    return out


def _record(state: State, one: Load) -> dict[str, Any]:
    water = sum(value for value, _ in one.water) if one.water else None
    usual = winter.figure("energy", "water", WATER[one.body["method"]])
    low, high = ((usual.low or 0.0) * one.loads, (usual.high or 0.0) * one.loads)
    return {
        "why": f"power-and-water/{state.entry_id(one.ev)}",
        "batch": state.entry_id(one.ev),
        "on": day_text(int(state.moment.on[one.ev])),
        "item": one.body["makes"],
        "method": one.body["method"],
        "loads": one.loads,
        "jars": one.jars,
        "good_jars": one.good,
        "kwh": one.all_kwh,
        "kwh_from": one.source,
        "kwh_per_good_jar": per_jar(one.all_kwh, one.good),
        "full_load_saves": full_load_saves(one.all_kwh, one.jars, one.capacity or 0.0),
        "water_l": water,
        "water_l_low": low if water is None else water,
        "water_l_high": high if water is None else water,
        "water_per_good_jar": None if water is None else per_jar(water, one.good),
        "assumptions": ["gas", "water", *(["estimate"] if one.source == "estimate" else [])],
    }


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree down to the meter, or to the estimate.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    if key.startswith("freezer/"):
        return freezer_share.why(state, key.removeprefix("freezer/"), field)
    one = next((one for one in loads_of(state) if state.entry_id(one.ev) == key), None)
    if one is None:
        raise no_record("power-and-water", key)
    trees = _trees(state, one)
    figure = field or "kwh_per_good_jar"
    check_figure("power-and-water", figure, trees)
    return trees[figure] or Node(figure.replace("_", " "), None, "")


def _trees(state: State, one: Load) -> dict[str, Node | None]:
    leaves = [
        Node(
            sentence("why-estimate-stove-heat-not-measured", n=float(one.loads)),
            value,
            "kWh of heat",
        )
        if ev < 0
        else event_node(state, ev, "", value, "kWh of heat")
        for value, ev in one.kwh
    ]
    heat = total(sentence("why-heat"), "kWh of heat", *leaves)
    good = event_node(state, one.ev, sentence("why-good"), one.good, "jars")
    jars = event_node(state, one.ev, sentence("why-all-jars"), one.jars, "jars")
    water = (
        total(
            sentence("why-water-meter"),
            "L of water",
            *(event_node(state, ev, "", v, "L of water") for v, ev in one.water),
        )
        if one.water
        else None
    )
    saves = None
    if one.capacity:
        full = quotient(
            sentence("why-jar-full-loads"),
            "kWh a jar",
            heat,
            Node(sentence("why-jars-full-loads"), one.capacity, "jars"),
        )
        saves = difference(
            sentence("why-full-load-saves"),
            "kWh a jar",
            quotient(sentence("why-jar"), "kWh a jar", heat, jars),
            full,
        )
        if float(saves.value or 0.0) <= 0:
            saves = Node(sentence("why-loads-full"), 0.0, "kWh a jar")
    return {
        "kwh_per_good_jar": quotient(sentence("why-good-jar"), "kWh a jar", heat, good)
        if one.good
        else None,
        "kwh": heat,
        "loads": event_node(state, one.ev, sentence("why-canner-loads"), one.loads, "loads"),
        **_usual_water(one, water),
        "good_jars": good,
        "jars": jars,
        "full_load_saves": saves,
        "water_l": water,
        "water_per_good_jar": quotient(sentence("why-water-good-jar"), "L of water", water, good)
        if water and one.good
        else None,
    }


def _usual_water(one: Load, water: Node | None) -> dict[str, Node | None]:
    """Return the low and high water of a batch: by the meter, else the canner's own as recalled."""
    if water is not None:
        return {"water_l_low": water, "water_l_high": water}
    usual = winter.figure("energy", "water", WATER[one.body["method"]])
    loads = Node(sentence("why-canner-loads"), one.loads, "loads")
    return {
        f"water_l_{end}": product(
            sentence("why-water-canner"),
            "L of water",
            loads,
            Node(sentence("why-load-memory"), value, "L of water"),
        )
        for end, value in (("low", usual.low or 0.0), ("high", usual.high or 0.0))
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
