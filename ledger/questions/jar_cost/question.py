"""The answer to what each jar really cost: its columns, records and options."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.messages import Choice, Day, Names, sentence
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.questions.answering import answer_of_cells, assumptions_of
from ledger.questions.jar_cost.figures import entries, figures
from ledger.questions.jar_cost.why import why
from ledger.questions.no_price import unpriced_in_shops
from ledger.questions.shared.batch_marks import gravest_by_entry, gravest_uneaten_by_entry
from ledger.replay import KEPT, day_text
from ledger.replay.marks import PROVISIONAL

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.questions.jar_cost.gather import Entries
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

_COST_WORDS = {
    "bought_ingredients": "Ingredients bought",
    "garden": "Garden inputs of what was grown",
    "given": "Value of what was given",
    "lids": "Lids",
    "jar_wear": "Wear of the jars",
    "fuel": "Fuel",
    "equipment": "Wear of equipment",
    "labour": "Labour at the rate set",
}

_NAMED = 6
_QUARTS, _LITRES = ("us",), ("uk", "metric")
"""Measures of a household to which a quart, or a litre, says something."""

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("batch", "Batch", "", "Id of the batch's entry."),
    Column("lot", "Lot", "", "Id of the lot that this made entry is."),
    Column("on", "Day", "day", "When it was put up.", main=True),
    Column("item", "Item", "", "What was made.", main=True),
    Column("measure", "Measure", "", "mass, volume, count, energy, or the counted unit that it was made in."),
    Column("jar", "Jar", "", "Which jar; null when not in jars."),
    Column("jars", "Jars", "jars", "How many jars, unsealed ones included.", main=True),
    Column("volume_ml", "Volume", "ml", "Volume, for items kept by volume; else null."),
    Column("mass_g", "Weight", "g", "Weight; null where no weight is known."),
    Column("kept", "Kept", "", "Where it is kept."),
    *(
        Column(f"cost.{name}", word, "money", f"{word}, for the whole entry.", bound="≥")
        for name, word in _COST_WORDS.items()
    ),
    Column("cost.all_in", "Cost", "money", "Sum of the eight components.", main=True, bound="≥"),
    Column("cost.out_of_pocket", "Out of pocket", "money", "Ingredients bought, garden, lids and fuel.", bound="≥"),
    Column("cost_per_jar", "Per jar", "money per jar", "All in, per jar; null when not in jars.", main=True, bound="≥"),
    *(
        Column(f"per_jar.{name}", f"{word}, per jar", "money per jar", f"{word}, per jar; null when not in jars.", bound="≥")
        for name, word in _COST_WORDS.items()
    ),
    Column("per_jar.before_labour", "Before own time, per jar", "money per jar", "All in but labour, per jar.", bound="≥"),
    Column("cost_per_good_jar", "Per good jar", "money per jar", "All in, per jar less those that failed.", bound="≥"),
    Column("cost_per_quart", "Per quart", "money per quart", "All in, per US quart (946.352946 ml).", main=True, bound="≥", measures=_QUARTS),
    Column("cost_per_liter", "Per litre", "money per litre", "All in, per litre.", main=True, bound="≥", measures=_LITRES),
    Column("out_of_pocket_per_quart", "Out of pocket per quart", "money per quart", "Money spent, per US quart.", bound="≥"),
    Column("labour_hours", "Hours", "hours", "This batch's work, shared by amount; paid or not."),
    Column("shop_price_per_quart", "Shop per quart", "money per quart", "Shop's price of the same on the day it was put up; null where none is known.", main=True, measures=_QUARTS),
    Column("shop_price_per_liter", "Shop per litre", "money per litre", "The same, per litre.", main=True, measures=_LITRES),
    Column("shop_price_per_jar", "Shop per jar", "money per jar", "Shop's price of as much as one of the jars holds; null when not in jars, or where no price is known."),
    Column("shop_price_from", "Shop price from", "", "Event that the shop's price comes from."),
    Column("standing", "Standing", "", "The standing that the mark on jars of the batch comes from that are there or were thrown out; null without a mark."),
    Column("standing_text", "Mark", "", "The same in words, and what to do while jars are there: whatever the row says, nothing is saved by them before that is settled. Null without a mark.", main=True, rare=True),
    Column("saved_per_quart", "Saved per quart", "money per quart", "Shop's price less all-in cost.", bound="≤"),
    Column("saved_per_liter", "Saved per litre", "money per litre", "The same, per litre.", bound="≤"),
    Column("saved_per_jar", "Saved per jar", "money per jar", "Shop's price of a jar less its all-in cost.", bound="≤"),
    Column("saved_per_jar_before_labour", "Saved per jar, own time left out", "money per jar", "The same, labour not counted.", bound="≤"),
    Column("saved", "Saved", "money", "For the whole entry.", main=True, bound="≤"),
    Column("provisional", "Provisional", "yes or no", "Rests on a garden season that still runs."),
    Column("at_least", "At least", "yes or no", "Something that went in has no known price, so it cost more."),
    Column("unpriced", "Unpriced", "", "What no price is known of."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(state: State, *, batch: str | None = None, item: str | None = None) -> Answer:
    """Return one record a made entry of a batch, in the order of the book.

    Parameters
    ----------
    state : State
    batch : str, optional
        Only the batch whose entry id begins so.
    item : str, optional
        Only what makes this item.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.
    """
    found = None if item is None else state.facts.find(item)
    wanted = () if found is None else state.facts.several(found)
    items, marks, told = state.once(_told)
    if batch is not None or item is not None:
        at = [
            i
            for i, (made, entry) in enumerate(zip(items, told["batch"], strict=True))
            if (batch is None or entry.startswith(batch)) and (item is None or made in wanted)
        ]
        items, marks = [items[i] for i in at], [marks[i] for i in at]
        told = {name: [column[i] for i in at] for name, column in told.items()}
    ids, assumptions = assumptions_of(state, marks)
    assumptions = [*_marked(state, told["batch"]), *assumptions]
    told = {**told, "assumptions": ids}
    cells: dict[str, Sequence[Any]] = {c.name: told[c.name] for c in COLUMNS}
    saved = told["saved"]
    totals = {
        "jars": sum(jars or 0 for jars in told["jars"]),
        "cost": sum(told["cost.all_in"]),
        "out_of_pocket": sum(told["cost.out_of_pocket"]),
        "saved": sum(money for money in saved if money is not None),
        "labour_hours": sum(told["labour_hours"]),
        "bounds": _bounds(told),
        "missing": unpriced_in_shops(
            state,
            [made for made, money in zip(items, saved, strict=True) if money is None],
        ),
    }
    return answer_of_cells(
        state, "jar-cost", COLUMNS, cells, totals=totals, assumptions=assumptions
    )


def _marked(state: State, batches: Sequence[str]) -> list[Assumption]:
    """Return that nothing is saved by batches that bear a mark, first while jars of one are there; empty without."""
    found, left = state.once(gravest_uneaten_by_entry), state.once(gravest_by_entry)
    marked = {entry: found[entry] for entry in batches if entry in found}
    if not marked:
        return []
    named = tuple(
        sentence("standing-item-of-day", item=one.item, day=Day(day_text(one.day)))
        for one in sorted(marked.values(), key=lambda one: (one.rank, one.day))
    )
    there = any(entry in left for entry in marked)
    text = sentence(
        "standing-nothing-saved",
        there=Choice("some" if there else "none"),
        list=Names(named, most=_NAMED),
    )
    return [Assumption("standing", text, stands_first=there)]


def _bounds(told: dict[str, list[Any]]) -> dict[str, str]:
    """Return which totals are bounds, as something that went in has no known price."""
    out = {"cost": "≥", "out_of_pocket": "≥"} if any(told["at_least"]) else {}
    if any(
        least and money is not None
        for least, money in zip(told["at_least"], told["saved"], strict=True)
    ):
        out["saved"] = "≤"
    return out


def _told(state: State) -> tuple[list[int], list[int], dict[str, list[Any]]]:
    """Return item and mark of every made entry, in the order of the book, and their columns."""
    made = state.once(entries)
    if not made.first.size:
        return [], [], {c.name: [] for c in COLUMNS}
    marks = _marks(state, made)
    for at in np.flatnonzero(made.later).tolist():
        later = int(made.item[at]), int(made.price_ev[at])
        marks[at] |= state.costs.price_seen_later(*later)
    columns = {**_names(state, made), **_shown(state.once(figures))}
    columns["shop_price_from"] = [
        state.event_id(ev) if ev >= 0 else None for ev in made.price_ev.tolist()
    ]
    left = state.once(gravest_by_entry)
    columns["standing"] = [None if one is None else one.standing for one in made.marks]
    columns["standing_text"] = [
        None if one is None else one.text if entry in left else one.how
        for entry, one in zip(columns["batch"], made.marks, strict=True)
    ]
    unpriced = {mark: state.costs.names_of(mark) for mark in set(marks)}
    columns["unpriced"] = [list(unpriced[mark]) for mark in marks]
    columns["provisional"] = [bool(mark & PROVISIONAL) for mark in marks]
    columns["at_least"] = [bool(names) for names in columns["unpriced"]]
    return made.item.tolist(), marks, columns


def _shown(known: dict[str, Figure]) -> dict[str, list[Any]]:
    """Return the figures as cells: None where nothing can be said, and whole jars."""
    out = {}
    for name, figure in known.items():
        values = figure.values
        cells: list[Any] = values.tolist()
        for at in np.flatnonzero(np.isnan(values)).tolist():
            cells[at] = None
        out[name] = cells
    out["jars"] = [None if jars is None else int(jars) for jars in out["jars"]]
    return out


def _marks(state: State, made: Entries) -> list[int]:
    """Return what each entry rests on: the marks of its lots."""
    out = [0] * made.first.size
    for entry, lot in zip(made.of.by.tolist(), made.lots.tolist(), strict=True):
        out[entry] |= state.costs.mark(lot)
    return out


def _names(state: State, made: Entries) -> dict[str, list[Any]]:
    """Return what each entry is, where it is kept and in which jar."""
    facts, supplies, row = state.facts, state.journal.tables["supplies"], state.lots["row"]
    batch = [state.entry_id(one) for one in made.ev.tolist()]
    address = [f"{entry}:{number}" for entry, number in zip(batch, made.n.tolist(), strict=True)]
    jars = supplies["jar"][row[made.first]].tolist()
    return {
        "why": [f"jar-cost/{one}" for one in address],
        "batch": batch,
        "lot": address,
        "on": [day_text(day) for day in made.day.tolist()],
        "item": [facts.names[item] for item in made.item.tolist()],
        "measure": [facts.measure[item] for item in made.item.tolist()],
        "jar": [None if code < 0 else facts.names[int(facts.canon[code])] for code in jars],
        "kept": [KEPT[code] for code in supplies["kept"][row[made.first]].tolist()],
    }


PROJECTION = Projection(
    name="jar-cost",
    title="Jar cost",
    question="What did each jar really cost, against the shop's price for the same amount?",
    columns=COLUMNS,
    build=build,
    dated="on",
    why=why,
    options=(
        Option("item", "only what makes this item", "plum butter"),
        Option("batch", "only this batch (the beginning of its id)", "5f0c0a0e"),
    ),
    compared=Compared(
        "item", ("volume_ml", "mass_g", "jars"), "cost.all_in", "compare-put-up-cost"
    ),
)
