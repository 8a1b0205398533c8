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
from ledger.projections._no_price import unpriced_in_shops
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.replay import COMPONENTS, KEPT, ORIGINS
from ledger.replay._columns import Array
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
    Column("cost_per_quart", "Per quart", "money per quart", "All in, per US quart (946.352946 ml).", main=True, bound="≥"),
    Column("cost_per_liter", "Per litre", "money per litre", "All in, per litre.", bound="≥"),
    Column("out_of_pocket_per_quart", "Out of pocket per quart", "money per quart", "Money spent, per US quart.", bound="≥"),
    Column("labour_hours", "Hours", "hours", "This batch's work, shared by amount; paid or not."),
    Column("shop_price_per_quart", "Shop per quart", "money per quart", "Shop's price of the same on the day it was put up; null where none is known.", main=True),
    Column("shop_price_per_jar", "Shop per jar", "money per jar", "Shop's price of as much as one of the jars holds; null when not in jars, or where no price is known."),
    Column("shop_price_from", "Shop price from", "", "Event that the shop's price comes from."),
    Column("saved_per_quart", "Saved per quart", "money per quart", "Shop's price less all-in cost.", bound="≤"),
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
    kept = [
        (dict(record), mark, made)
        for made, record, mark in state.once(_told)
        if (batch is None or record["batch"].startswith(batch)) and (item is None or made in wanted)
    ]
    records = [record for record, _, _ in kept]
    ids, assumptions = assumptions_of(state, [mark for _, mark, _ in kept])
    for record, several in zip(records, ids, strict=True):
        record["assumptions"] = several
    totals = {
        "jars": sum(r["jars"] or 0 for r in records),
        "cost": sum(r["cost.all_in"] for r in records),
        "out_of_pocket": sum(r["cost.out_of_pocket"] for r in records),
        "saved": sum(r["saved"] for r in records if r["saved"] is not None),
        "labour_hours": sum(r["labour_hours"] for r in records),
        "missing": unpriced_in_shops(
            state, [item for record, _, item in kept if record["saved"] is None]
        ),
    }
    return answer(state, "jar-cost", COLUMNS, records, totals=totals, assumptions=assumptions)


def _told(state: State) -> list[tuple[int, dict[str, Any], int]]:
    """Return item, record and mark of every made entry, in the order of the book."""
    lots, begins = _entries(state)
    if not lots.size:
        return []
    first = lots[begins]
    items, day, ev = (state.lots[name][first] for name in ("item", "day", "ev"))
    price, price_ev, later = state.costs.prices.of(items, day)
    marks = _marks(state, lots, begins)
    for at in np.flatnonzero(later).tolist():
        marks[at] |= state.costs.price_seen_later(int(items[at]), int(price_ev[at]))
    columns = {
        **_names(state, first, ev.tolist()),
        **_figures(state, lots, begins, first),
        **_shop(state, price.tolist(), price_ev.tolist()),
    }
    columns["unpriced"] = [state.costs.names_of(mark) for mark in marks]
    columns["provisional"] = [bool(mark & 1) for mark in marks]
    columns["at_least"] = [bool(names) for names in columns["unpriced"]]
    records = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
    for record in records:
        _against_shop(record)
    return list(zip(items.tolist(), records, marks, strict=True))


def _entries(state: State) -> tuple[Array, Array]:
    """Return the lots of made entries (jars that sealed, then those that did not) and where each begins."""
    made = state.lots["origin"] == ORIGINS.index("batch")
    rows = np.flatnonzero(made & np.isnan(state.lots["share"]))
    key = state.lots["ev"][rows].astype(np.int64) << 32 | state.lots["n"][rows]
    _, first, entry = np.unique(key, return_index=True, return_inverse=True)
    order = np.argsort(first[entry], kind="stable")
    begins = np.flatnonzero(np.diff(first[entry][order], prepend=-1))
    return rows[order], begins


def _marks(state: State, lots: Array, begins: Array) -> list[int]:
    out = []
    for several in np.split(lots, begins[1:]):
        mark = 0
        for lot in several.tolist():
            mark |= state.costs.mark(lot)
        out.append(mark)
    return out


def _names(state: State, first: Array, ev: list[int]) -> dict[str, list[Any]]:
    """Return what each entry is, where it is kept and in which jar."""
    facts, supplies, row = state.facts, state.journal.tables["supplies"], state.lots["row"][first]
    batch = [state.entry_id(one) for one in ev]
    n = state.lots["n"][first].tolist()
    address = [f"{entry}:{number}" for entry, number in zip(batch, n, strict=True)]
    jars = supplies["jar"][row].tolist()
    return {
        "why": [f"jar-cost/{one}" for one in address],
        "batch": batch,
        "lot": address,
        "on": [day_text(day) for day in state.lots["day"][first].tolist()],
        "item": [facts.names[item] for item in state.lots["item"][first].tolist()],
        "measure": [facts.measure[item] for item in state.lots["item"][first].tolist()],
        "jar": [None if code < 0 else facts.names[int(facts.canon[code])] for code in jars],
        "kept": [KEPT[code] for code in supplies["kept"][row].tolist()],
    }


def _figures(state: State, lots: Array, begins: Array, first: Array) -> dict[str, list[Any]]:
    """Return what each entry cost, by component, by jar and by quart, and the hours in it."""
    items, ev = state.lots["item"][first].tolist(), state.lots["ev"][first].tolist()
    whole = np.add.reduceat(state.lots["whole"][lots], begins).tolist()
    jars = [n or None for n in np.add.reduceat(state.lots["jars"][lots], begins).tolist()]
    failed = np.add.reduceat(state.failed[lots], begins).tolist()
    good = [
        j - jars_gone(j, w, f) if j and f else j
        for j, w, f in zip(jars, whole, failed, strict=True)
    ]
    cost = np.add.reduceat(state.costs.lot[lots, : len(COMPONENTS)], begins, axis=0).T
    parts = dict(zip(COMPONENTS, cost.tolist(), strict=True))
    all_in = [sum(each) for each in zip(*parts.values(), strict=True)]
    pocket = [sum(each) for each in zip(*(parts[name] for name in OUT_OF_POCKET), strict=True)]
    is_volume = [state.facts.measure[item] == "volume" for item in items]
    quarts = [w / QUART_UL if v else None for w, v in zip(whole, is_volume, strict=True)]
    liters = [w / 1e6 if v else None for w, v in zip(whole, is_volume, strict=True)]
    rows = state.costs.rows
    shares = np.add.reduceat(rows.share_of_lot[rows.number_of_lot[lots]], begins).tolist()
    return {
        "jars": jars,
        "volume_ml": [w / 1000 if v else None for w, v in zip(whole, is_volume, strict=True)],
        "mass_g": [grams_of(state, item, w) for item, w in zip(items, whole, strict=True)],
        **{f"cost.{name}": values for name, values in parts.items()},
        "cost.all_in": all_in,
        "cost.out_of_pocket": pocket,
        "cost_per_jar": _each(all_in, jars),
        **{f"per_jar.{name}": _each(values, jars) for name, values in parts.items()},
        "per_jar.before_labour": _each(
            [a - b for a, b in zip(all_in, parts["labour"], strict=True)], jars
        ),
        "cost_per_good_jar": _each(all_in, good),
        "cost_per_quart": _each(all_in, quarts),
        "cost_per_liter": _each(all_in, liters),
        "out_of_pocket_per_quart": _each(pocket, quarts),
        "labour_hours": [
            state.costs.minutes_of(e) / 60 * share for e, share in zip(ev, shares, strict=True)
        ],
        "_quarts": quarts,
        "_whole": whole,
    }


def _each(money: list[float], of: list[Any]) -> list[float | None]:
    return [m / n if n else None for m, n in zip(money, of, strict=True)]


def _shop(state: State, price: list[float], price_ev: list[int]) -> dict[str, list[Any]]:
    """Return the shop's price of one whole unit, and the event that it comes from."""
    return {
        "_price": [p if ev >= 0 else None for p, ev in zip(price, price_ev, strict=True)],
        "shop_price_from": [state.event_id(ev) if ev >= 0 else None for ev in price_ev],
    }


def _against_shop(record: dict[str, Any]) -> None:
    """Set an entry beside the shop's price of the same amount."""
    price, quarts, whole = (record.pop(name) for name in ("_price", "_quarts", "_whole"))
    shop = price * QUART_UL if price is not None and quarts else None
    all_in = record["cost.all_in"]
    record["shop_price_per_quart"] = shop
    record["saved_per_quart"] = None if shop is None else shop - all_in / quarts
    jars = record["jars"]
    jar = price * whole / jars if price is not None and jars else None
    record["shop_price_per_jar"] = jar
    for name, cost in (
        ("saved_per_jar", "cost_per_jar"),
        ("saved_per_jar_before_labour", "per_jar.before_labour"),
    ):
        record[name] = None if jar is None else jar - record[cost]
    record["saved"] = None if price is None else price * whole - all_in


PROJECTION = Projection(
    name="jar-cost",
    title="Jar cost",
    question="What did each jar really cost, against the shop's price for the same amount?",
    columns=COLUMNS,
    build=build,
    dated="on",
    why=_jar_why.why,
    options=(
        Option("item", "only what makes this item", "plum butter"),
        Option("batch", "only this batch (the beginning of its id)", "5f0c0a0e"),
    ),
    compared=Compared(
        "item", ("volume_ml", "mass_g", "jars"), "cost.all_in", "Cost of all put up so far"
    ),
)
