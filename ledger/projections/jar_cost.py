"""What did each jar really cost, all in and out of pocket, against the shop's price?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.projections import _jar_why
from ledger.projections._common import (
    QUART_UL,
    answer,
    assumptions_of,
    grams_of,
    jars_gone,
)
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.replay import COMPONENTS, KEPT, ORIGINS
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["OUT_OF_POCKET", "PROJECTION", "build"]

OUT_OF_POCKET = ("bought_ingredients", "garden", "lids", "fuel")

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

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("batch", "Batch", "", "Id of the batch's entry."),
    Column("lot", "Lot", "", "Id of the lot that this made entry is."),
    Column("on", "Day", "day", "When it was put up.", main=True),
    Column("item", "Item", "", "What was made.", main=True),
    Column("jar", "Jar", "", "Which jar; null when not in jars."),
    Column("jars", "Jars", "jars", "How many jars, unsealed ones included.", main=True),
    Column("volume_ml", "Volume", "ml", "Volume, for items kept by volume; else null."),
    Column("mass_g", "Weight", "g", "Weight; null where no weight is known."),
    Column("kept", "Kept", "", "Where it is kept."),
    *(
        Column(f"cost.{name}", word, "money", f"{word}, for the whole entry.")
        for name, word in _COST_WORDS.items()
    ),
    Column("cost.all_in", "Cost", "money", "Sum of the eight components.", main=True),
    Column("cost.out_of_pocket", "Out of pocket", "money", "Ingredients bought, garden, lids and fuel."),
    Column("cost_per_jar", "Per jar", "money per jar", "All in, per jar; null when not in jars.", main=True),
    Column("cost_per_good_jar", "Per good jar", "money per jar", "All in, per jar less those that failed."),
    Column("cost_per_quart", "Per quart", "money per quart", "All in, per US quart (946.352946 ml).", main=True),
    Column("cost_per_liter", "Per litre", "money per litre", "All in, per litre."),
    Column("out_of_pocket_per_quart", "Out of pocket per quart", "money per quart", "Money spent, per US quart."),
    Column("labour_hours", "Hours", "hours", "This batch's work, shared by amount; paid or not."),
    Column("shop_price_per_quart", "Shop per quart", "money per quart", "Shop's price of the same on the day it was put up; null where none is known.", main=True),
    Column("shop_price_from", "Shop price from", "", "Event that the shop's price comes from."),
    Column("saved_per_quart", "Saved per quart", "money per quart", "Shop's price less all-in cost."),
    Column("saved", "Saved", "money", "For the whole entry.", main=True),
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
    entries = _entries(state)
    wanted = None if item is None else state.facts.find(item)
    keep = [
        lots
        for lots in entries
        if (batch is None or state.entry_id(state.lots["ev"][lots[0]]).startswith(batch))
        and (item is None or state.lots["item"][lots[0]] == wanted)
    ]
    first = np.array([lots[0] for lots in keep], np.int64)
    price, price_ev, later = state.costs.prices.of(
        state.lots["item"][first], state.lots["day"][first]
    )
    records, marks = [], []
    for lots, each, ev, is_later in zip(
        keep, price.tolist(), price_ev.tolist(), later.tolist(), strict=True
    ):
        mark = 0
        for lot in lots:
            mark |= state.costs.mark(lot)
        if is_later:
            mark |= state.costs.price_seen_later(int(state.lots["item"][lots[0]]), ev)
        records.append(_record(state, lots, each if ev >= 0 else None, ev, mark))
        marks.append(mark)
    ids, assumptions = assumptions_of(state, marks)
    for record, several in zip(records, ids, strict=True):
        record["assumptions"] = several
    totals = {
        "jars": sum(r["jars"] or 0 for r in records),
        "cost": sum(r["cost.all_in"] for r in records),
        "out_of_pocket": sum(r["cost.out_of_pocket"] for r in records),
        "saved": sum(r["saved"] for r in records if r["saved"] is not None),
        "labour_hours": sum(r["labour_hours"] for r in records),
    }
    return answer(state, "jar-cost", COLUMNS, records, totals=totals, assumptions=assumptions)


def _entries(state: State) -> list[list[int]]:
    """Return the lots of each made entry (jars that sealed, then those that did not)."""
    rows = np.flatnonzero(
        (state.lots["origin"] == ORIGINS.index("batch")) & np.isnan(state.lots["share"])
    )
    out: dict[tuple[int, int], list[int]] = {}
    for lot in rows.tolist():
        out.setdefault((int(state.lots["ev"][lot]), int(state.lots["n"][lot])), []).append(lot)
    return list(out.values())


def _record(
    state: State, lots: list[int], price: float | None, price_ev: int, mark: int
) -> dict[str, Any]:
    columns, lot = state.lots, lots[0]
    item, ev = int(columns["item"][lot]), int(columns["ev"][lot])
    whole = int(columns["whole"][lots].sum())
    jars = int(columns["jars"][lots].sum()) or None
    figures = state.costs.lot[lots].sum(axis=0)[: len(COMPONENTS)]
    cost = dict(zip(COMPONENTS, figures.tolist(), strict=True))
    all_in = sum(cost.values())
    pocket = sum(cost[name] for name in OUT_OF_POCKET)
    quarts = whole / QUART_UL if state.facts.measure[item] == "volume" else None
    good = None if jars is None else jars - _bad_jars(state, lots, jars, whole)
    row = int(columns["row"][lot])
    shop = price * QUART_UL if price is not None and quarts else None
    entry = state.entry_id(ev)
    unpriced = state.costs.names_of(mark)
    return {
        "why": f"jar-cost/{entry}:{int(columns['n'][lot])}",
        "batch": entry,
        "lot": f"{entry}:{int(columns['n'][lot])}",
        "on": day_text(int(columns["day"][lot])),
        "item": state.facts.names[item],
        "jar": _jar_name(state, row),
        "jars": jars,
        "volume_ml": whole / 1000 if quarts is not None else None,
        "mass_g": grams_of(state, item, whole),
        "kept": KEPT[int(state.journal.tables["supplies"]["kept"][row])],
        **{f"cost.{name}": value for name, value in cost.items()},
        "cost.all_in": all_in,
        "cost.out_of_pocket": pocket,
        "cost_per_jar": all_in / jars if jars else None,
        "cost_per_good_jar": all_in / good if good else None,
        "cost_per_quart": all_in / quarts if quarts else None,
        "cost_per_liter": all_in / (whole / 1e6) if quarts else None,
        "out_of_pocket_per_quart": pocket / quarts if quarts else None,
        "labour_hours": state.costs.minutes_of(ev) / 60 * whole / state.costs.rows.whole_made(ev),
        "shop_price_per_quart": shop,
        "shop_price_from": state.event_id(price_ev) if price is not None else None,
        "saved_per_quart": shop - all_in / quarts if shop is not None and quarts else None,
        "saved": price * whole - all_in if price is not None else None,
        "provisional": bool(mark & 1),
        "at_least": bool(unpriced),
        "unpriced": unpriced,
    }


def _jar_name(state: State, row: int) -> str | None:
    code = int(state.journal.tables["supplies"]["jar"][row])
    return None if code < 0 else state.facts.names[int(state.facts.canon[code])]


def _bad_jars(state: State, lots: list[int], jars: int, whole: int) -> int:
    """Return how many jars of an entry failed: discarded as seal failed, spoiled or broken."""
    return jars_gone(jars, whole, state.discarded_as(lots, ("seal failed", "spoiled", "broken")))


PROJECTION = Projection(
    name="jar-cost",
    title="Jar cost",
    question="What did each jar really cost, against the shop's price for the same amount?",
    columns=COLUMNS,
    build=build,
    why=_jar_why.why,
    options=(
        Option("item", "only what makes this item", "plum butter"),
        Option("batch", "only this batch (the beginning of its id)", "5f0c0a0e"),
    ),
    compared=Compared(
        "item", ("volume_ml", "mass_g", "jars"), "cost.all_in", "Cost of all put up so far"
    ),
)
