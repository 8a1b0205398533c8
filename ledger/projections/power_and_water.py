"""How much electricity and water does a jar take, and what does the freezer take by lot?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.door import jars_per_load
from ledger.door.winter import reading
from ledger.errors import NotFound
from ledger.methods.fuel_use import full_load_saves, per_jar
from ledger.projections import _freezer_share
from ledger.projections._arithmetic import difference, product, quotient, total
from ledger.projections._common import answer, event_node
from ledger.projections.base import Answer, Column, Node, Option, Projection
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
_ESTIMATE = {
    "pressure": "pressure, 7 quarts, hot pack",
    "boiling water": "boiling water, 7 quarts, hot pack, hot tap water 55 C",
    "raw": "boiling water, 7 quarts, raw pack, cold water",
}
_WATER = {"pressure": "pressure canner", "boiling water": "boiling water canner, 7 quarts"}


@dataclass(frozen=True)
class Load:
    """One canning batch with what it took.

    Attributes
    ----------
    ev : int
    jars, good, loads : float
    capacity : float or None
        Jars that its loads hold when full.
    kwh : tuple of (float, int)
        Parts with their events (-1: estimate).
    source : str
    water : tuple of (float, int)
        Litres by the meter, with their events.
    """

    ev: int
    body: dict[str, Any]
    jars: float
    good: float
    loads: float
    capacity: float | None
    kwh: tuple[tuple[float, int], ...]
    source: str
    water: tuple[tuple[float, int], ...]

    @property
    def all_kwh(self) -> float:
        """All of its heat."""
        return sum(value for value, _ in self.kwh)


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
    only = None if item is None else state.facts.find(item)
    if item is not None and only is None:
        raise NotFound("item", f"there is no item {item!r} in this book", "Check its name")
    if freezer:
        return _freezer_share.build(state, only)
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


def loads_of(state: State) -> list[Load]:
    """Return every canning batch of a state, in the order of the book."""
    return state.once(_loads)


def _loads(state: State) -> list[Load]:
    meters = _meters(state)
    table = state.journal.tables["metered"]
    rows = state.moment.rows(state.journal, "metered")
    metered: dict[int, float] = {}
    for row in rows.tolist():
        ev = int(table["ev"][row])
        metered[ev] = metered.get(ev, 0.0) + float(table["joules"][row]) / 3.6e6
    sizes = jars_per_load(state.settings.newest("jars_per_load"))
    out = []
    for ev in state.events("put_up").tolist():
        body = state.body(ev)
        if body["method"] in _WATER and (jars := _jars(state, ev)) is not None:
            out.append(
                _load(
                    state,
                    ev,
                    body,
                    jars,
                    meters.get(state.entry_id(ev), []),
                    metered.get(ev),
                    sizes,
                )
            )
    return out


def _jars(state: State, ev: int) -> tuple[float, float] | None:
    """Return all jars of a batch and the good ones."""
    lots = np.flatnonzero((state.lots["ev"] == ev) & (state.lots["jars"] > 0))
    if not lots.size:
        return None
    jars = state.lots["jars"][lots].astype(float)
    unsealed = state.lots["suffix"][lots] == 1
    lost = state.failed[lots] / np.maximum(state.lots["whole"][lots], 1) * jars
    return float(jars.sum()), float((jars - np.where(unsealed, jars, lost)).sum())


def _load(
    state: State, ev: int, body: dict[str, Any], jars: tuple[float, float],
    meters: list[tuple[str, float, int]], metered: float | None, sizes: dict[str, int],
) -> Load:  # fmt: skip
    loads = float(body.get("loads") or 1)
    method = body["method"]
    kwh = tuple((value, one) for what, value, one in meters if what == "energy")
    source = "meter"
    if not kwh and metered is not None:
        kwh, source = ((metered, ev),), "metered"
    if not kwh:
        name = _ESTIMATE[
            "raw" if method == "boiling water" and body.get("pack") == "raw" else method
        ]
        each = winter.figure("energy", "canner_load_estimate", name).middle
        kwh, source = ((each * loads, -1),), "estimate"
    named = [made.get("jar") for made in body.get("made", ()) if made.get("jars")]
    each_load = [sizes[jar] for jar in named if jar in sizes]
    capacity = loads * min(each_load) if each_load and len(each_load) == len(named) else None
    water = tuple((value, one) for what, value, one in meters if what == "water")
    return Load(ev, body, jars[0], jars[1], loads, capacity, kwh, source, water)


def _meters(state: State) -> dict[str, list[tuple[str, float, int]]]:
    """Return what meters say batches took: (what, kWh or litres, event), by the batch's entry."""
    out: dict[str, list[tuple[str, float, int]]] = {}
    for ev, body in state.bodies("meter_read"):
        if "batch" in body:
            what, after = reading(body["reads"])
            _, before = reading(body["before"], "before")
            out.setdefault(body["batch"], []).append((what, after - before, ev))
    return out


def _record(state: State, one: Load) -> dict[str, Any]:
    water = sum(value for value, _ in one.water) if one.water else None
    usual = winter.figure("energy", "water", _WATER[one.body["method"]])
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
        return _freezer_share.why(state, key.removeprefix("freezer/"), field)
    one = next((one for one in loads_of(state) if state.entry_id(one.ev) == key), None)
    if one is None:
        raise NotFound(
            "address",
            f"there is no record {key!r} of power-and-water",
            "Take an address from `croftbook show power-and-water --json`",
        )
    trees = _trees(state, one)
    figure = field or "kwh_per_good_jar"
    if figure not in trees:
        raise NotFound(
            "figure",
            f"{figure!r} is not a figure of power-and-water",
            f"It has: {', '.join(trees)}",
        )
    return trees[figure] or Node(figure.replace("_", " "), None, "")


def _trees(state: State, one: Load) -> dict[str, Node | None]:
    leaves = [
        Node(f"estimate from stove heat, not measured, {one.loads:g} loads", value, "kWh of heat")
        if ev < 0
        else event_node(state, ev, "", value, "kWh of heat")
        for value, ev in one.kwh
    ]
    heat = total("heat", "kWh of heat", *leaves)
    good = event_node(state, one.ev, "good jars", one.good, "jars")
    jars = event_node(state, one.ev, "all jars", one.jars, "jars")
    water = (
        total(
            "water by the meter",
            "L of water",
            *(event_node(state, ev, "", v, "L of water") for v, ev in one.water),
        )
        if one.water
        else None
    )
    saves = None
    if one.capacity:
        full = quotient(
            "a jar of full loads",
            "kWh a jar",
            heat,
            Node("jars of full loads", one.capacity, "jars"),
        )
        saves = difference(
            "a full load saves", "kWh a jar", quotient("a jar", "kWh a jar", heat, jars), full
        )
        if float(saves.value or 0.0) <= 0:
            saves = Node("the loads were full", 0.0, "kWh a jar")
    return {
        "kwh_per_good_jar": quotient("a good jar", "kWh a jar", heat, good) if one.good else None,
        "kwh": heat,
        "loads": event_node(state, one.ev, "canner loads", one.loads, "loads"),
        **_usual_water(one, water),
        "good_jars": good,
        "jars": jars,
        "full_load_saves": saves,
        "water_l": water,
        "water_per_good_jar": quotient("water a good jar", "L of water", water, good)
        if water and one.good
        else None,
    }


def _usual_water(one: Load, water: Node | None) -> dict[str, Node | None]:
    """Return the low and high water of a batch: by the meter, else the canner's own as recalled."""
    if water is not None:
        return {"water_l_low": water, "water_l_high": water}
    usual = winter.figure("energy", "water", _WATER[one.body["method"]])
    loads = Node("canner loads", one.loads, "loads")
    return {
        f"water_l_{end}": product(
            "water of the canner",
            "L of water",
            loads,
            Node("a load (from memory)", value, "L of water"),
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
    variants={"freezer": _freezer_share.COLUMNS},
)
