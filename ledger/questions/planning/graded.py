"""What was said of plants before a season and of keeping before a harvest, beside what came."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import KINDS as EVENTS
from ledger.published.keeping import keeps_for
from ledger.questions.ahead.graded import Graded
from ledger.questions.ahead.kept import Said
from ledger.questions.ahead.said import earlier
from ledger.questions.ahead.supply import is_supply
from ledger.questions.garden.field import crops_of
from ledger.questions.planning.growth import SIZES, Garden
from ledger.questions.planning.said import plants_said
from ledger.questions.shared.put_up_as import own_word_holds
from ledger.questions.shared.use_by import days_of
from ledger.replay import KEPT, tables
from ledger.replay.columns import Array
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["is_spoiled", "keeping_grades", "keeping_said", "plant_grades"]

_SPOILED = [tables.CAUSES.index(why) for why in ("spoiled", "too old")]
_DISCARDED = list(EVENTS).index("discarded")


def plant_grades(state: State, garden: Garden | None = None) -> list[Graded]:
    """Return the yields and chances said before each finished season, beside what it brought.

    Said at the last moment before the season's first planting (else before it began).
    """
    garden = garden or Garden(crops_of(state))
    before = earlier(state)
    asked = []
    for season in sorted({p.season for plots in garden.plots.values() for p in plots}):
        if season >= garden.next:
            continue
        days = [
            planting.day
            for plots in garden.plots.values()
            for plot in plots
            if plot.season == season and not plot.standing
            for planting in plot.plantings
        ]
        begins = min(days, default=garden.calendar.first_day(season))
        moments = [one for one in before if one[0] < begins]
        if moments and moments[-1] not in asked:
            asked.append(moments[-1])
    out: list[Graded] = []
    for said in plants_said(state, asked):
        out += _of_season(state, garden, said)
    return out


def _of_season(state: State, garden: Garden, said: Said) -> list[Graded]:
    out = []
    units = {unit: size for size, unit in SIZES.items()}
    for one in said.plants or []:
        item = state.facts.find(one["crop"])
        if item is None or one["yield_g.likely"] is None:
            continue
        growth = garden.growth(item)
        size = units.get(one["yield_of"])
        found = [s for s in growth.seasons if s.season == one["season"] and growth.size == size]
        if not found:
            continue
        each, day = found[0].each, garden.calendar.last_day(one["season"])
        low, likely = one["yield_g.low"], one["yield_g.likely"]
        if low is not None:
            ends = (float(low), float(likely))
            held = each >= low
            out.append(Graded("yield", item, said.day, ends, each, day, held, of=one["crop"]))
        chance, planned, needed = (
            one["chance_short"], one["plants.planned"], one["needed_g.likely"]
        )  # fmt: skip
        if chance is not None and planned is not None and needed is not None and size == "plants":
            enough = planned * each >= needed
            out.append(
                Graded(
                    "brings enough", item, said.day, (1 - chance,), float(enough), day, bool(enough),
                    of=one["crop"],
                )
            )  # fmt: skip
    return out


def keeping_grades(state: State, said: list[Said]) -> list[Graded]:
    """Return for how long each lot was said to keep, beside whether some of it spoiled before.

    By the household's word at the last moment before the lot came (the first after it where there
    was none), else by the early end of the published period.
    """
    if not said:
        return []
    lots, facts = state.lots, state.facts
    spoiled = _first_spoiled(state)
    out = []
    for lot in np.flatnonzero(state.once(is_supply)).tolist():
        item, day = int(lots["item"][lot]), int(lots["day"][lot])
        if facts.sort[item] != SORTS.index("food") or day < said[0].day:
            continue
        _, span, _ = keeping_said(state, said, lot)
        end = None if span is None else days_of(day, span)
        if end is None:
            continue
        bad = int(spoiled[lot])
        over = end < state.as_of_day or not state.left[lot] or 0 <= bad <= end
        held = None if not over else not 0 <= bad <= end
        weeks = None if bad < 0 else (bad - day) / 7
        out.append(
            Graded(
                "keeps", item, day, ((end - day) / 7,), weeks, bad if bad >= 0 else None, held,
                of=state.lot_id(lot),
            )
        )  # fmt: skip
    return out


def keeping_said(state: State, said: list[Said], lot: int) -> tuple[Said, str | None, str]:
    """Return for how long a lot was said to keep, like ``12 months``; None where nobody says.

    Returns
    -------
    then : Said
        The last moment before the lot came, else the first.
    span : str or None
    source : str
        The document that says it; empty: the household.
    """
    lots, facts = state.lots, state.facts
    item, ev, place = int(lots["item"][lot]), int(lots["ev"][lot]), KEPT[int(lots["kept"][lot])]
    before = bisect_left(said, int(lots["day"][lot]), key=lambda one: one.day)
    then = said[max(before - 1, 0)]
    span = (then.keeps.get(facts.names[item]) or {}).get(place or "shelf")
    if span is not None and own_word_holds(state, lot, place):
        return then, span, ""
    is_batch = state.journal.tables["events"]["kind"][ev] == list(EVENTS).index("put_up")
    method = state.body(ev)["method"] if is_batch else None
    period = keeps_for(facts.facts[item].sort, method, facts.names[item], place)
    return (then, None, "") if period is None else (then, period.low, period.source)


def _first_spoiled(state: State) -> Array:
    """Return the first day on which some of each lot was thrown away as spoiled; -1: none was."""
    draw, lot, _ = state.allocations
    hit = is_spoiled(state)
    far = np.iinfo(np.int64).max
    out = np.full(state.lots["ev"].size, far)
    np.minimum.at(out, lot[hit], state.draws["day"][draw[hit]].astype(np.int64))
    out[out == far] = -1
    return out


def is_spoiled(state: State) -> Array:
    """Return which takings were thrown away as spoiled or too old, shape (allocations,)."""
    ev = state.draws["ev"][state.allocations[0]]
    events = state.journal.tables["events"]
    hit = (events["kind"][ev] == _DISCARDED) & np.isin(events["cause"][ev], _SPOILED)
    return np.asarray(hit)
