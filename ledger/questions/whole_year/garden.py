"""The garden of a year's plan: crops of the beds with their weeks, and what comes without a bed."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.methods.year_plan import WEEKS, GardenCrop
from ledger.questions.glut.comes import fresh_days
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.usual_plan import usual_plan
from ledger.questions.who_eats.eaters import eaters_of
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.questions.planning.plan import CropPlan
    from ledger.questions.shared.sown import Sown
    from ledger.questions.whole_year.house import Asked, Household
    from ledger.replay import State

__all__ = ["FRESH_KG", "MORE", "add_beds", "add_standing", "first_week", "per_kg", "sown_by_name"]

MORE = 1.5
"""No food beyond so much of a year's own use: our own choice, so that a plan is one people eat."""
FRESH_KG = 0.2
"""No more than so much of one crop is eaten as it is by a person in a day: our own choice."""
_STORED_DAYS, _A_WEEK = 60, 2.0
"""What keeps longer is a store, of which a week takes no more than so many fifty-seconds: our own choice."""
_RISK = 0.1
_PICKING = 7.0
_YEAR = 365.2425
_DAYS = 365


def first_week(state: State) -> int:
    """Return the Monday of the week in which next season's picking begins.

    By all own seasons; without any by the sowing days and the days to the harvest, else today.
    """
    lots = state.lots
    crops = sorted({crop.item for crop in usual_plan(state).crops})
    rows = np.flatnonzero(np.isin(lots["item"], crops) & (lots["origin"] == ORIGINS.index("grown")))
    year = usual_plan(state).garden.next
    first = state.as_of_day
    if rows.size:
        days = [dt.date(1970, 1, 1) + dt.timedelta(days=int(day)) for day in lots["day"][rows]]
        on = min(day.timetuple().tm_yday for day in days)
        first = (dt.date(year, 1, 1) - dt.date(1970, 1, 1)).days + on - 1
    else:
        picks = [_first_picking(one) for one in sown_by_name(state, year).values()]
        first = min((day for day in picks if day is not None), default=first)
    first = max(first, state.as_of_day)
    return first - (first + 3) % 7  # 1 January 1970 was a Thursday


def per_kg(state: State, item: int) -> tuple[float, ...] | None:
    """Return nutrients in a kilogram as kept, by the item's own row; None without one."""
    larder, per = larder_of(state), state.facts.grams_per_whole(item)
    if per is None or not larder.is_direct[item]:
        return None
    return tuple(float(v) for v in np.nan_to_num(larder.per_whole[item]) / per * 1000)


def add_beds(state: State, out: Household, asked: Asked) -> None:
    """Add the crops of the beds, each with the beds that its plant family keeps it out of."""
    from ledger.questions.next_season.question import build as next_season

    plan = usual_plan(state)
    grew = {bed: {plan.family(one) for one in plan.garden.grew(bed)} for bed in out.limits.beds}
    hours, fresh = _picking_hours(state), eaters_of(state).count * FRESH_KG * 7
    sown = sown_by_name(state, int(out.week_on(0)[:4]))
    rows = {row["crop"]: row for row in next_season(state).rows()}
    for crop in plan.crops:
        row = rows.get(crop.name)
        if row is None or crop.growth.standing is not None:
            continue
        found = _grows(state, out, crop, row, asked.chance)
        if found is None:
            continue
        per_m2, nutrients = found
        harvest = _harvest(state, crop.item, out.start) or _by_sowing(
            sown.get(crop.name), out.start
        )
        if harvest is None:
            out.left_out.append(f"{crop.name}: it was never picked, so nobody knows when")
            continue
        closed = [bed for bed, families in grew.items() if plan.family(crop.item) in families]
        if len(grew) < 2 or asked.same_beds:
            closed = []  # where in a bed it stood nobody wrote down
        elif closed:
            out.kept_out[crop.name] = sorted(closed)
        if crop.item not in hours:
            out.no_hours.append(crop.name)
        out.items[crop.name] = crop.item
        wanted = crop.wanted or _first_year(state, crop.name)
        most = MORE * wanted / 1000 if wanted else float("inf")
        out.crops.append(
            GardenCrop(
                crop.name, per_m2, harvest, fresh_days(state, crop.item)[0] // 7, nutrients,
                most, hours.get(crop.item, 0.0), 0.0, _a_week(state, crop.item, fresh, most),
                frozenset(closed),
            )
        )  # fmt: skip


def _a_week(state: State, item: int, fresh: float, year: float) -> float:
    """Return the most eaten as it is in a week: of what keeps for months no more than twice its even part."""
    stored = fresh_days(state, item)[0] > _STORED_DAYS
    return min(fresh, _A_WEEK * year / WEEKS) if stored else fresh


def _grows(
    state: State, out: Household, crop: CropPlan, row: dict[str, Any], chance: str
) -> tuple[float, tuple[float, ...]] | None:
    """Return kilograms a square metre at the chance, and nutrients; None where one is not known."""
    nutrients, space = per_kg(state, crop.item), crop.growth.space_m2
    plants = row["plants.likely"] if chance == "even" else row["plants.nine_in_ten"]
    grams = row["yield_g.likely"] if chance == "even" else row["yield_g.low"]
    if plants and row["needed_g.likely"]:
        grams = row["needed_g.likely"] / plants
    if row["bed"] is None and not space:
        return None
    lacks = [
        name
        for name, value in (("yield", grams), ("ground", space), ("nutrients", nutrients))
        if not value
    ]
    if lacks or nutrients is None or not space or not grams:
        out.left_out.append(f"{crop.name}: not known of it: {', '.join(lacks)}")
        return None
    return grams / 1000 / space, nutrients


def _first_year(state: State, name: str) -> float | None:
    """Return grams that the first year's plan wants of a crop, where nothing of one's own says how much."""
    from ledger.questions.first_year.question import build as first_year
    from ledger.reference import servings

    plan = servings.of_food(name)
    rows = first_year(state).rows() if plan is not None else []
    lb = next((r["lb"] for r in rows if plan is not None and r["food"] == plan.food), None)
    return None if not lb else float(lb) * 453.59237


def _harvest(state: State, item: int, start: int) -> tuple[float, ...] | None:
    """Return which part of a crop is picked in each week of the plan, by all own seasons."""
    parts = _by_week(state, item, start, None)
    return None if parts is None else tuple(float(one) for one in parts / parts.sum())


def _by_week(state: State, item: int, start: int, since: int | None) -> np.ndarray[Any, Any] | None:
    """Return whole units picked of an item by week of the plan, shape (52,); None where none was."""
    lots = state.lots
    rows = (lots["item"] == item) & (lots["origin"] == ORIGINS.index("grown"))
    if since is not None:
        rows &= lots["day"] > since
    at = np.flatnonzero(rows)
    if not at.size or not lots["whole"][at].sum():
        return None
    week = ((lots["day"][at] - start) % _YEAR // 7).astype(int)
    return np.bincount(np.minimum(week, WEEKS - 1), lots["whole"][at].astype(float), WEEKS)


def _by_sowing(sown: Sown | None, start: int) -> tuple[float, ...] | None:
    """Return the weeks of picking by the sowing dates and days to harvest, evenly; None without frosts."""
    first = None if sown is None else _first_picking(sown)
    if sown is None or first is None:
        return None
    weeks = {int((first + n - start) % _YEAR // 7) for n in range(int(max(sown.picking, _PICKING)))}
    return tuple(1 / len(weeks) if week in weeks else 0.0 for week in range(WEEKS))


def _first_picking(sown: Sown) -> int | None:
    """Return the day (days since 1970) on which picking may begin; None where it is not known."""
    day = sown.dates.iso(sown.dates.out_from)
    if day is None or not sown.days:
        return None
    return (dt.date.fromisoformat(day) - dt.date(1970, 1, 1)).days + round(sown.days)


def sown_by_name(state: State, year: int) -> dict[str, Sown]:
    """Return each crop's sowing days of a year, by its name."""
    from ledger.questions.shared.sown import sown_of

    return {one.name: one for one in sown_of(state, _RISK, year)}


def _picking_hours(state: State) -> dict[int, float]:
    """Return hours for a kilogram of each crop, planting included, by the newest season that says some."""
    from ledger.questions.season.figures import crop_figures

    known, out = state.once(crop_figures), {}
    hours = known.of["hours"].values
    grams = np.zeros(hours.size)
    for name, figure in known.of.items():
        if name.startswith("where_it_went."):
            grams += np.nan_to_num(figure.values)
    for row, crop in enumerate(known.grown.crop.tolist()):  # season by season
        if hours[row] > 0 and grams[row] > 0:
            out[crop] = float(hours[row] / (grams[row] / 1000))
    return out


def add_standing(state: State, out: Household) -> None:
    """Add what comes without a bed (trees, berries, eggs), by the week as it came in the last year."""
    fresh = eaters_of(state).count * FRESH_KG * 7
    planned, since = set(out.items.values()), state.as_of_day - _DAYS
    lots = state.lots
    for item in np.unique(lots["item"][lots["origin"] == ORIGINS.index("grown")]).tolist():
        nutrients, per = per_kg(state, item), state.facts.grams_per_whole(item)
        whole = _by_week(state, item, out.start, since)
        if item in planned or nutrients is None or not per or whole is None:
            continue
        name = state.facts.names[item]
        if any(
            crop.item == item and crop.growth.standing is None for crop in usual_plan(state).crops
        ):
            continue  # a crop of the beds that is left out, and said so
        comes = tuple(float(one) for one in whole * per / 1000)
        out.standing.add(name)
        out.items[name] = item
        out.crops.append(
            GardenCrop(
                name, 0.0, (0.0,) * WEEKS, fresh_days(state, item)[0] // 7, nutrients, 0.0,
                fresh_a_week_kg=_a_week(state, item, fresh, sum(comes)), comes=comes,
            )
        )  # fmt: skip
