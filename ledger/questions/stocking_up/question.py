"""How many weeks of each bought staple are in the house, and what to lay in on the next trips?"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.messages import Names, Sentence, measured, sentence
from ledger.messages.units import amount_later
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import only_item
from ledger.questions.shared.use_past import AHEAD
from ledger.questions.stocking_up.figures import Stocking, stocking_of
from ledger.questions.stocking_up.plan import OVER_WEEKS, Asked, asked_of
from ledger.questions.stocking_up.why import why
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.methods.stocking import PackPlan
    from ledger.questions.stocking_up.gather import Staples
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

_UNIT = "mg, ul, 1/1000 piece or J"

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`, with the options asked."),
    Column("item", "Item", "", "A staple: food, supply, lids or fuel, mostly bought, and used within the last year or with a target.", main=True),
    Column("left.whole", "Left (whole units)", _UNIT, "What is left, exactly."),
    Column("left.measure", "Measure", "", "mass, volume, count or energy."),
    Column("left.text", "In the house", "", "What is left, in words.", main=True),
    Column("late.whole", "Too late (whole units)", _UNIT, "Part of it that passes its date before it is used at this pace; it does not count below."),
    Column("per_week.whole", "A week (whole units)", _UNIT, f"What a week likely takes over the coming {AHEAD} weeks, as on the shelf; what was thrown away or lost is no use. Null where fewer than four weeks are known."),
    Column("per_week.text", "A week", "", "The same in words.", main=True),
    Column("weeks", "Weeks", "weeks", "How long what is in the house lasts at this use; null where none was used, or too little is known.", main=True),
    Column("target.whole", "Target (whole units)", _UNIT, "What the household wants in the house: its own target; of a target a week, a year or a person year the weeks asked for; else the weeks asked for at this use. Null where a target a person year lacks the people."),
    Column("target.text", "Target", "", "The same in words."),
    Column("target_weeks", "Target", "weeks", "Target / use a week.", main=True),
    Column("target_from", "Target from", "", "The household's own words, or the weeks asked for."),
    Column("pack.whole", "Pack (whole units)", _UNIT, "The pack with the lowest price by amount, paid or seen, of the last 52 weeks; else the newest; null where none was ever seen."),
    Column("pack.text", "Pack", "", "The same in words.", main=True),
    Column("price", "Price", "money", "Its price.", main=True),
    Column("price_per_week", "A week", "money per week", "What a week's use costs at that price: what costs least a week is bought first."),
    Column("shop", "Shop", "", "Where; null where nobody wrote it down."),
    Column("seen_on", "Seen", "day", "When."),
    Column("price_from", "Price from", "", "Event that the price comes from."),
    Column("keeps_weeks", "Keeps", "weeks", "How long a new pack keeps where it is kept; null where neither the household nor a published period says."),
    Column("keeps_from", "Keeps, says", "", "Who says so."),
    Column("packs_wanted", "Packs wanted", "packs", "Whole packs to the target that are used before their date.", main=True),
    Column("packs_kept_out", "Would spoil", "packs", "Packs to the target that would pass their date first; not bought."),
    Column("by_trip", "By trip", "", "Extra packs on each trip, beyond what the weeks between take; null without a budget."),
    Column("packs_planned", "Planned", "packs", "Their sum; null without a budget."),
    Column("packs_short", "Short", "packs", "Packs wanted that the budget does not reach to; null without a budget."),
    Column("cost", "Cost", "money", "Of the packs planned; without a budget, of the packs wanted.", main=True),
    Column("rise_cost", "Rise costs", "money", "With --price-rise: what it would cost over 52 weeks, what is in the house being paid for."),
    Column("rise_cost_after_plan", "After the plan", "money", "The same with the packs planned in the house."),
    Column("uncovered_weeks", "Without", "weeks", "With --shortage: weeks of it that what is in the house does not cover."),
    Column("uncovered_weeks_after_plan", "After the plan", "weeks", "The same with the packs planned in the house."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State,
    *,
    budget: str | float | None = None,
    trips: str | int | None = None,
    weeks: str | float | None = None,
    price_rise: str | float | None = None,
    shortage: str | float | None = None,
    item: str | None = None,
) -> Answer:
    """Return one record a staple, by name, and the plan in the totals.

    Parameters
    ----------
    state : State
    budget : text or float, optional
        Money for extra packs on one trip.
    trips : text or int, optional
        How many trips to plan; default 4.
    weeks : text or float, optional
        Weeks to have in the house where no target says how much; default those of the shortage,
        else 4.
    price_rise : text or float, optional
        Per cent.
    shortage : text or float, optional
        Weeks in which nothing can be bought.
    item : str, optional
        Only this staple; the budget is then its own.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`; ``totals["trips"]`` is the plan.

    Raises
    ------
    InputError
        When an option is not a number in its range.
    """
    asked = asked_of(budget, trips, weeks, price_rise, shortage)
    only = only_item(state, item)
    known = stocking_of(state, asked, only)
    plan = known.packs.plan
    records = _records(known)
    plannable = [r for r, some in zip(records, known.packs.plannable, strict=True) if some]
    totals = _totals(records, plannable, plan, asked)
    missing = _missing(records, asked)
    if missing:
        totals["missing"] = missing
    assumptions = _assumptions(records, asked)
    columns = _shown(asked, plan)
    return answer(state, "stocking-up", columns, records, totals=totals, assumptions=assumptions)


def _shown(asked: Asked, plan: PackPlan | None) -> tuple[Column, ...]:
    """Return the columns, with those in the narrow table that answer what was asked."""
    risk = asked.price_rise is not None or asked.shortage is not None
    show, hide = set(), set()
    if plan is not None:
        show.add("by_trip")
        hide |= {"packs_wanted", "per_week.text"}
    if risk:
        hide |= {"pack.text", "price", "cost", "packs_wanted", "by_trip", "target_weeks"}
        for name, value in (("rise_cost", asked.price_rise), ("uncovered_weeks", asked.shortage)):
            if value is not None:
                show |= {name, f"{name}_after_plan"} if plan is not None else {name}
    show -= hide
    return tuple(
        replace(c, main=(c.main or c.name in show) and c.name not in hide) for c in COLUMNS
    )


_WHOLE = frozenset(("left.whole", "pack.whole", "packs_wanted", "packs_kept_out", "packs_planned", "packs_short"))  # fmt: skip
"""Columns that are counted."""


def _records(known: Stocking) -> list[dict[str, Any]]:
    staples = known.staples
    shown = [column.name for column in COLUMNS if column.name in known.of]
    values = {
        name: np.broadcast_to(known.of[name].values, staples.count).tolist() for name in shown
    }
    out = []
    for row in range(staples.count):
        figures = {name: _shown_as(name, one[row]) for name, one in values.items()}
        out.append({**_words(staples, figures, row), **figures, **_bought(known, row)})
    return out


def _shown_as(name: str, value: float) -> float | None:
    if math.isnan(value):
        return None
    return int(value) if name in _WHOLE else value


def _words(staples: Staples, figures: dict[str, float | None], row: int) -> dict[str, Any]:
    state, item, target = staples.state, int(staples.items[row]), staples.found.targets[row]
    keeps = staples.found.keeps[row]
    ids = ["likely-use"] if figures["per_week.whole"] else []
    ids += ["target-weeks"] if target is None else []
    ids += ["keeps"] if keeps is None else []
    return {
        "why": f"stocking-up/{staples.names[row]}/{staples.asked.address}",
        "item": state.facts.names[item],
        "left.measure": state.facts.measure[item],
        **{f"{name}.text": _text(state, item, figures[f"{name}.whole"]) for name in _IN_WORDS},
        "target_from": f"{staples.asked.weeks:g} weeks of use" if target is None else target.said,
        "keeps_from": None if keeps is None else keeps.said,
        "assumptions": ids,
    }


def _bought(known: Stocking, row: int) -> dict[str, Any]:
    """Return where the price comes from, and the packs of each trip."""
    staples = known.staples
    state, pack, plan = staples.state, staples.found.packs[row], known.packs.plan
    if pack is None:
        return {}
    name, by_trip = staples.names[row], None
    if plan is not None and known.packs.plannable[row]:
        by_trip = [trip.packs.get(name, 0) for trip in plan.trips]
    return {
        "shop": state.body(pack.ev).get("shop"),
        "seen_on": day_text(int(state.moment.on[pack.ev])),
        "price_from": state.event_id(pack.ev),
        "by_trip": by_trip,
    }


_IN_WORDS = ("left", "per_week", "target", "pack")


def _text(state: State, item: int, whole: float | None) -> str | None:
    from ledger.amounts import format_whole

    if whole is None:
        return None
    measures = state.settings.newest("measures", "us") or "us"
    return amount_later(format_whole(round(whole), state.facts.measure[item], measures=measures))


def _assumptions(records: list[dict[str, Any]], asked: Asked) -> list[Assumption]:
    ids = {one for record in records for one in record["assumptions"]}
    out = []
    if "likely-use" in ids:
        text = sentence("stocking-likely-use", n=AHEAD)
        out.append(Assumption("likely-use", text, ()))
    if "target-weeks" in ids:
        text = sentence("stocking-target-weeks", n=measured(f"{asked.weeks:g}"))
        out.append(Assumption("target-weeks", text, ()))
    endless = [r["item"] for r in records if "keeps" in r["assumptions"]]
    if endless:
        text = sentence("stocking-keeps", names=Names(tuple(endless)))
        out.append(Assumption("keeps", text, ()))
    return out


def _totals(
    records: list[dict[str, Any]],
    plannable: list[dict[str, Any]],
    plan: PackPlan | None,
    asked: Asked,
) -> dict[str, Any]:
    cost = math.fsum(record.get("cost") or 0.0 for record in records)
    totals: dict[str, Any] = {"cost": cost}
    words: list[str] = []
    if plan is not None:
        totals["trips"] = [{"packs": trip.packs, "cost": trip.cost} for trip in plan.trips]
        totals["packs_short"], totals["packs_kept_out"] = plan.packs_short, plan.kept_out
        if any(trip.packs for trip in plan.trips):
            words.append(sentence("stocking-extra"))
        for i, trip in enumerate(plan.trips, 1):
            if trip.packs:
                bought = _packs(trip.packs.items())
                words.append(sentence("stocking-trip", n=i, packs=bought, cost=_money(trip.cost)))
        words += [] if words else [sentence("stocking-nothing-extra")]
        words.append(sentence("stocking-in-all", n=_money(plan.cost)))
        if plan.packs_short:
            short = _packs(sorted(plan.packs_short.items()))
            words.append(sentence("stocking-still-wanted", n=asked.trips, packs=short))
    elif cost:
        words.append(sentence("stocking-to-the-target", cost=_money(cost)))
    kept_out = {r["item"]: r["packs_kept_out"] for r in records if r.get("packs_kept_out")}
    if kept_out:
        words.append(sentence("stocking-kept-out", packs=_packs(sorted(kept_out.items()))))
    words += _risk_words(plannable, totals, asked)
    return {**totals, "in_words": words}


def _money(value: float) -> Sentence:
    return measured(f"{value:,.2f}")


def _packs(several: Iterable[tuple[str, int]]) -> Names:
    return Names(tuple(f"{n} {name}" for name, n in several))


def _risk_words(known: list[dict[str, Any]], totals: dict[str, Any], asked: Asked) -> list[str]:
    words: list[str] = []
    if asked.price_rise is not None:
        totals["rise_cost"] = math.fsum(r["rise_cost"] for r in known)
        words.append(
            sentence(
                "stocking-price-rise",
                n=measured(f"{asked.price_rise:g}"),
                cost=_money(totals["rise_cost"]),
                weeks=OVER_WEEKS,
            )
        )
        if asked.budget is not None:
            totals["rise_cost_after_plan"] = math.fsum(r["rise_cost_after_plan"] for r in known)
            cost = _money(totals["rise_cost_after_plan"])
            words.append(sentence("stocking-with-plan", cost=cost))
    if asked.shortage is not None:
        name = "uncovered_weeks" if asked.budget is None else "uncovered_weeks_after_plan"
        bare = sorted(r["item"] for r in known if r[name] > 0)
        totals["uncovered"] = bare
        names = Names(tuple(bare or [sentence("stocking-nothing-bare")]))
        weeks = measured(f"{asked.shortage:g}")
        words.append(
            sentence("stocking-uncovered", n=weeks, names=names)
            if asked.budget is None
            else sentence("stocking-uncovered-with-plan", n=weeks, names=names)
        )
    return words


def _missing(records: list[dict[str, Any]], asked: Asked) -> list[str]:
    if not records:
        return [sentence("stocking-no-staples")]
    lacks = {
        "stocking-few-weeks": [r for r in records if r.get("per_week.whole") is None],
        "stocking-no-use": [r for r in records if r.get("per_week.whole") == 0],
        "stocking-no-price": [r for r in records if r.get("price") is None],
        "stocking-people-unknown": [
            r
            for r in records
            if r.get("target.whole") is None and r.get("per_week.whole") is not None
        ],
    }
    return [
        sentence(id_, names=Names(tuple(r["item"] for r in rows)))
        for id_, rows in lacks.items()
        if rows
    ]


PROJECTION = Projection(
    name="stocking-up",
    title="Stocking up",
    question="How many weeks of each bought staple are in the house, and what to lay in on the next trips?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("budget", "money for extra packs on one trip", "20"),
        Option("trips", "how many trips to plan (4 unless said)", "6"),
        Option(
            "weeks",
            "weeks to have in the house where no target is set (those of the shortage, else 4)",
            "8",
        ),
        Option("price_rise", "what a price rise of so many per cent would cost", "30"),
        Option("shortage", "what so many weeks without a shop would leave uncovered", "8"),
        Option("item", "only this staple", "flour"),
    ),
)
