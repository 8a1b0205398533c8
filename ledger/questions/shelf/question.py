"""What is on the shelf, how old is it, what to eat first, and which jars are out and empty?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.labels import split_label
from ledger.messages import Code, Message
from ledger.projections.base import Answer, Column, Compared, Node, Option, Projection
from ledger.questions.shared.common import answer, assumptions_of, listed_lots
from ledger.questions.shared.held import held_in
from ledger.questions.shared.jars import jar_totals, left_in_words
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.put_up_as import put_up_as
from ledger.questions.shared.standing import standing_of
from ledger.questions.shared.wanting import Wanting, wanting, wanting_said
from ledger.questions.shelf.figures import lot_figures
from ledger.questions.shelf.gather import Lots
from ledger.questions.shelf.items import ITEM_COLUMNS, build_items
from ledger.questions.shelf.over_time import TIME_COLUMNS, build_over_time, item_number
from ledger.questions.shelf.standing import NO_DANGER, standing_cautions, standing_columns
from ledger.replay import KEPT, ORIGINS
from ledger.replay.marks import PROVISIONAL
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("lot", "Lot", "", "Id of the lot."),
    Column("eat_first", "Eat", "", "1 is to be eaten first: by use-by day, else the early end of a published period, else, of fresh food of which no keeping time is known, the day it came; then by age; null where it stands in danger, and comes before all.", main=True),
    Column("item", "Item", "", "What it is.", main=True),
    Column("on", "From", "day", "When it came in or was put up.", main=True),
    Column("kept", "Kept", "", "Where it is kept.", main=True),
    Column("jar", "Jar", "", "Which jar; null when not in jars."),
    Column("jars_left", "Jars", "jars", "Jars left, an open one as a part; null when not in jars.", main=True),
    Column("labels_left", "Labels", "", "Labels of the jars left; null where none were written."),
    Column("left.whole", "Left (whole units)", "mg, ul, 1/1000 piece or J", "What is left, exactly."),
    Column("left.measure", "Measure", "", "mass, volume, count or energy."),
    Column("left.text", "Left", "", "What is left, in words.", main=True),
    Column("share_left", "Share left", "0 to 1", "Part of the lot that is left."),
    Column("use_by", "Use by", "day", "Day by which to use it: as the household says it keeps, and of a jar that did not seal the published days in the fridge; null where neither says, and on a marked lot.", main=True),
    Column("days_left", "Days left", "days", "Days from the answer's day to that; below 0: past it."),
    Column("standing", "Standing", "", "How the batch stands beside what is published, never better than what went into it; null where nothing is compared."),
    Column("standing_text", "Mark", "", "What is said of it before it is eaten, with the day; null where there is nothing to say.", main=True, rare=True),
    Column("put_up", "Put up", "", "How a lot that bears the name of a fresh food was put up; null of any other.", main=True, rare=True),
    Column("standing_batch", "Batch", "", "Entry of the batch that the standing comes from."),
    Column("best_quality", "Best quality", "", "Published period of best quality for food kept so; null where none is published."),
    Column("best_quality_from", "Best quality from", "", "The document that the period comes from."),
    *(
        Column(f"origin.{name}", name.capitalize(), "share of weight", f"Part that is {name}; null where no weight is known.")
        for name in ORIGINS[:6]
    ),
    Column("cost_left", "Cost of what is left", "money", "All-in cost of what is left.", bound="≥"),
    Column("provisional", "Provisional", "yes or no", "Rests on a garden season that still runs."),
    Column("at_least", "At least", "yes or no", "Something that went in has no known price."),
    Column("unpriced", "Unpriced", "", "What no price is known of."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State,
    *,
    item: str | None = None,
    items: bool = False,
    over_time: str | None = None,
    place: str | None = None,
    within: str | int | None = None,
) -> Answer:
    """Return one record a lot with something left, what to eat first coming first.

    Parameters
    ----------
    item : str, optional
        Only this item.
    items : bool
        One record an item instead, and how long it lasts (`ITEM_COLUMNS`).
    place : {'shelf', 'fridge', 'freezer', 'cellar'}, optional
        Only what is kept there; not with `items`.
    within : str or int, optional
        Only what should be used within so many days, or is past its day; not with `items`.
    over_time : str, optional
        The stock of this item day by day, and as a range ahead, instead (`TIME_COLUMNS`).

    Returns
    -------
    Answer
        Columns as in `COLUMNS`; ``totals["jars"]`` has, for each kind of jar, how many the
        household has, how many are full, given away or empty, and how many were never written down.

    Raises
    ------
    NotFound
        When the book has no such item.
    InputError
        When both other shapes are asked for at once.
    """
    if within is not None and (items or over_time is not None):
        raise InputError("within", Message.of("refusal-of-single-lots"))
    days = _days(within)
    if place is not None and (items or over_time is not None):
        raise InputError("place", Message.of("refusal-of-single-lots"))
    if over_time is not None:
        if items or item is not None:
            raise InputError("over-time", Message.of("refusal-one-item-alone"))
        return build_over_time(state, item_number(state, over_time, "over-time"))
    only = None if item is None else item_number(state, item, "item")
    if items:
        return build_items(state, only)
    rows = listed_lots(state)
    if only is not None:
        rows = rows[np.isin(state.lots["item"][rows], state.facts.several(only))]
    if place is not None:
        rows = rows[state.lots["kept"][rows] == KEPT.index(place)]
    cautions = standing_cautions(state, rows.tolist())  # of all at once, what lies behind them
    lots = Lots(state, rows)
    figures = {name: one.values.tolist() for name, one in lot_figures(lots).items()}
    records = _records(lots, figures)
    if days is not None:
        records = [r for r in records if r["days_left"] is not None and r["days_left"] <= days]
    wanted = {record["_lot"]: wanting(state, record["_lot"]) for record in records}
    records.sort(key=lambda r: (r["_danger"], *_order(wanted[r["_lot"]]), r["on"], r["lot"]))
    to_eat = [record for record in records if record.pop("_danger") == NO_DANGER]
    for rank, record in enumerate(to_eat, 1):
        record["eat_first"] = rank
    several = [record.pop("_lot") for record in records]
    ids, assumptions = assumptions_of(state, [state.costs.mark(lot) for lot in several])
    ranked = [wanted[lot] for lot in several]
    said = wanting_said(zip((record["item"] for record in records), ranked, strict=True))
    assumptions = [*cautions, *said, *assumptions]
    for record, mine, one in zip(records, ids, ranked, strict=True):
        record["assumptions"] = [one.rests, *mine] if one is not None and one.rests else mine
    totals = {"cost_left": sum(r["cost_left"] for r in records), "jars": state.once(jar_totals)}
    return answer(state, "shelf", COLUMNS, records, totals=totals, assumptions=assumptions)


def _order(one: Wanting | None) -> tuple[bool, int]:
    """Return where a lot comes: by the day on which it wants eating, then what has none."""
    return one is None, 0 if one is None else one.day


def _days(said: str | int | None) -> int | None:
    """Return a number of days.

    Raises
    ------
    InputError
    """
    if said is None:
        return None
    text = str(said).strip().removesuffix("days").removesuffix("day").strip()
    if not text.isdecimal() or len(text) > 5:
        raise InputError("within", Message.of("refusal-no-number-of-days", text=Code(repr(said))))
    return int(text)


def _records(shelf: Lots, figures: dict[str, list[float]]) -> list[dict[str, Any]]:
    """Return a record a lot; one of which nothing changed since an earlier moment is as it was then."""
    state = shelf.state
    known, costs, jars = state.lasting(_records), state.costs, state.once(held_in)
    numbers = np.array(list(figures.values()), np.float64).T
    width, held = numbers.shape[-1] * numbers.itemsize, numbers.tobytes()
    names = ("ev", "n", "suffix")
    of = zip(*(state.lots[name][shelf.lots].tolist() for name in names), strict=True)
    out = []
    for at, (lot, place) in enumerate(zip(shelf.lots.tolist(), of, strict=True)):
        mark = costs.mark(lot)
        rests = (
            held[at * width : (at + 1) * width],
            state.as_of_day,
            standing_of(state, lot),
            costs.names_of(mark),
            bool(mark & PROVISIONAL),
            state.labels_drawn(lot),
            jars.name(lot),
            jars.several.get(lot),
            put_up_as(state, lot),
        )
        kept = known.get(place)
        if kept is None or kept[0] != rests:
            kept = known[place] = rests, _record(shelf, figures, at, rests)
        out.append({"_lot": lot, **kept[1]})
    return out


def _record(
    shelf: Lots, figures: dict[str, list[float]], at: int, rests: tuple[Any, ...]
) -> dict[str, Any]:
    state, lot = shelf.state, int(shelf.lots[at])
    lots, facts = state.lots, state.facts
    known = {name: None if math.isnan(one[at]) else one[at] for name, one in figures.items()}
    item = int(lots["item"][lot])
    jars = int(lots["jars"][lot]) or None
    jars_left, use_by, days = known["jars_left"], known["use_by"], known["days_left"]
    keeping, unpriced = keeping_of(state, lot), rests[3]
    return {
        "why": f"shelf/{state.lot_id(lot)}",
        "lot": state.lot_id(lot),
        "item": facts.names[item],
        "on": day_text(int(lots["day"][lot])),
        "kept": KEPT[int(lots["kept"][lot])],
        "jar": state.once(held_in).name(lot),
        "jars_left": jars_left,
        "labels_left": _labels_left(state, lot, jars, jars_left),
        "left.whole": int(known["left.whole"] or 0),
        "left.measure": facts.measure[item],
        "left.text": left_in_words(state, [lot]),
        "share_left": known["share_left"],
        "use_by": None if use_by is None else day_text(int(use_by)),
        "days_left": None if days is None else int(days),
        **standing_columns(state, lot),
        "put_up": rests[-1],
        "best_quality": keeping.span if keeping else None,
        "best_quality_from": keeping.source if keeping else None,
        **{name: value for name, value in known.items() if name.startswith("origin.")},
        "cost_left": known["cost_left"],
        "provisional": rests[4],
        "at_least": bool(unpriced),
        "unpriced": unpriced,
    }


def _labels_left(
    state: State, lot: int, jars: int | None, jars_left: float | None
) -> list[str] | None:
    """Return the labels of the jars left: named ones are gone, else the lowest went first."""
    if jars is None or jars_left is None or state.lots["suffix"][lot]:
        return None
    written = state.journal.labels_of(int(state.lots["ev"][lot]), int(state.lots["n"][lot]))
    if written is None:
        return None
    prefix, low = split_label(written[0])
    _, high = split_label(written[1])
    if low is None or high is None:
        return None
    named = state.labels_drawn(lot)
    left = [f"{prefix}{n}" for n in range(low, high + 1) if n not in named]
    keep = int(np.ceil(jars_left - 0.001))
    return left[max(len(left) - keep, 0) :]


def _why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    from ledger.questions.shelf.why import why  # trees are for those who ask why

    return why(state, key, field, deep=deep)


PROJECTION = Projection(
    name="shelf",
    title="Shelf",
    question="What is on the shelf, how old is it, and what should be eaten first?",
    columns=COLUMNS,
    build=build,
    why=_why,
    options=(
        Option("item", "only this item", "plum butter"),
        Option(
            "place",
            "only what is kept there",
            "freezer",
            choices=("shelf", "fridge", "freezer", "cellar"),
        ),
        Option("within", "only what should be used within so many days", "7"),
        Option("items", "one line an item: how long it lasts", "--items", kind="flag"),
        Option("over_time", "the stock of this item over time and ahead", "plum butter"),
    ),
    variants={"items": ITEM_COLUMNS, "over_time": TIME_COLUMNS},
    compared=Compared(
        "item", ("left.whole",), "cost_left", "compare-shelf-cost", unit="left.measure"
    ),
)
