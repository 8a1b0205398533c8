"""What should this week's glut become, day by day, and what is lost if nothing is done?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Day, sentence
from ledger.messages.units import unit as unit_name
from ledger.methods.glut import GlutPlan, Use, plan_glut
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.enough.asked import number_of
from ledger.questions.glut.comes import DAYS
from ledger.questions.glut.house import LB_G, House, Told, day_of, house_of
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import answer, event_node
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.shared.ways import GUESS_HOURS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("day", "Day", "day", "When.", main=True),
    Column("until", "Until", "day", "Last day of it, where it is spread over several; null for one day."),
    Column("do", "Do", "", "can, freeze, dry, ferment, eat fresh, give away; lost: what the hours, jars and room do not reach to.", main=True),
    Column("crop", "Of", "", "The crop.", main=True),
    Column("makes", "Makes", "", "What it becomes; null where it stays as it is.", main=True),
    Column("kg", "Fresh", "kg", "So much of the crop.", main=True),
    Column("jars", "Jars", "jars", "Whole jars; null without.", main=True),
    Column("loads", "Loads", "loads", "Canner loads; null without a canner."),
    Column("hours", "Hours", "hours", "Hands' hours; null where there are none.", main=True),
    Column("process", "Published", "", "The printed process, looked up anew for this jar, gauge and altitude, with its source; read the whole of it there (`croftbook show as-published`). Null where none is needed."),
    Column("still_wanted", "Wanted", "jars or kg", "How much of it the year still wants, before this plan."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_HOURS, _STOVE = 4.0, 6.0
_AS_IT_IS = ("eat fresh", "give away", "lost")


@dataclass(frozen=True)
class Found:
    """The house, the plan and what is lost if nothing is done."""

    house: House
    plan: GlutPlan
    nothing: GlutPlan
    hours: float


def build(
    state: State, *, hours: str | float | None = None, stove: str | float | None = None
) -> Answer:
    """Return one record a day and thing to do.

    Parameters
    ----------
    state : State
    hours : text or float, optional
        Hours that all hands together have a day; default 4.
    stove : text or float, optional
        Hours a day that the stove is free for the canner; default 6.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`; ``totals["lost_if_nothing_kg"]``.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    found = _found(state, hours, stove)
    asked = f"{found.hours:g},{found.house.limits.stove_hours:g}"
    records = [_record(state, found.house, uses, asked) for uses in _lines(found.plan)]
    records.sort(key=lambda r: (r["day"], r["do"] in _AS_IT_IS, r["crop"], r["do"]))
    lost, nothing = found.plan.kg("lost"), found.nothing.kg("lost")
    totals: dict[str, Any] = {
        "lost_kg": lost,
        "lost_if_nothing_kg": nothing,
        "kept_kg": found.plan.kept,
    }
    totals["in_words"] = _words(found, lost, nothing)
    missing = []
    if not found.house.crops:
        missing.append(
            "Nothing of the garden is here or due in these ten days that would not keep."
        )
    if found.house.left_out:
        missing.append(
            f"Not planned for canning, as only published processes count: {'; '.join(found.house.left_out)}. Freezing, drying, eating and giving away are left."
        )
    unknown = [t.way.name for t in found.house.told if not t.hours_known]
    if unknown:
        missing.append(f"No record of your hours for {', '.join(unknown)}: {GUESS_HOURS}.")
    totals["missing"] = missing
    return answer(state, "glut", COLUMNS, records, totals=totals, assumptions=_notes(state, found))


def _found(state: State, hours: str | float | None, stove: str | float | None) -> Found:
    hands = 0.0 if str(hours) == "0" else number_of(hours, "hours", _HOURS, most=200)
    on_stove = number_of(stove, "stove", _STOVE, most=24)
    house = house_of(state, hands, on_stove)
    plan = plan_glut(house.crops, house.ways, house.limits)
    nothing = plan_glut(house.crops, house.ways, house.limits, doing=False)
    return Found(house, plan, nothing, hands)


def _lines(plan: GlutPlan) -> list[list[Use]]:
    """Return the lines as they are told: what stays as it is is one line a crop, over its days."""
    out: dict[tuple[Any, ...], list[Use]] = {}
    for use in plan.uses:
        spread = use.way in _AS_IT_IS
        out.setdefault((use.way, use.crop, None if spread else use.day), []).append(use)
    return list(out.values())


def _record(state: State, house: House, uses: list[Use], asked: str) -> dict[str, Any]:
    use = uses[0]
    told = next((t for t in house.told if t.way.name == use.way), None)
    day = day_of(state, use.day)
    return {
        "why": f"glut/{asked}/{day}/{use.way}/{use.crop}",
        "day": day,
        "until": None if len(uses) == 1 else day_of(state, uses[-1].day),
        "do": use.way if told is None else told.action,
        "crop": use.crop,
        "makes": None if told is None else told.makes,
        "kg": math.fsum(one.kg for one in uses),
        "jars": int(use.units) if told is not None and told.jar else None,
        "loads": use.loads or None,
        "hours": use.hours if told is not None else None,
        "process": None if told is None else told.process,
        "still_wanted": None if told is None or told.ev is None else told.way.wanted,
        "assumptions": [
            "coming",
            "keeps",
            "process",
            *(["hours"] if told is not None and not told.hours_known else []),
            *(["printed"] if told is not None and told.ev is None else []),
        ],
    }


def _words(found: Found, lost: float, nothing: float) -> list[str]:
    if not found.house.crops:
        return []
    put_up = sum(
        use.kg for use in found.plan.uses if use.way not in ("eat fresh", "give away", "lost")
    )
    hours = sum(use.hours for use in found.plan.uses)
    out = [
        f"If nothing is done, {nothing:,.1f} kg are lost in these {DAYS} days; by this plan {lost:,.1f} kg."
    ]
    out.append(
        f"Put up {put_up:,.1f} kg in {hours:,.1f} hours, eaten {found.plan.kg('eat fresh'):,.1f} kg, given away {found.plan.kg('give away'):,.1f} kg."
    )
    used = {use.way for use in found.plan.uses}
    out += [
        f"As printed for {told.makes}: {told.process}."
        for told in found.house.told
        if told.way.name in used and told.action == "can"
    ]
    if not found.plan.proven:
        out.append("No better plan was found in ten seconds; there may be one.")
    return out


def _notes(state: State, found: Found) -> list[Assumption]:
    limits = found.house.limits
    lives = "; ".join(
        f"{name} {days} days ({said})" for name, (days, said) in sorted(found.house.lives.items())
    )
    altitude = state.settings.on("altitude", state.as_of_day) or "not set"
    gauge = state.settings.on("gauge", state.as_of_day) or "not set"
    return [
        Assumption("process", f"Only printed processes are planned, looked up for altitude {altitude} and gauge {gauge}; a line is a reminder and not the whole of one: read the current document and the canner's manual first (`croftbook show as-published`)."),
        *([Assumption("printed", f"{', '.join(found.house.planned)}: no batch of your own stands as published, so they are planned as the tables print them; pounds for a jar by their canner loads, no more than the first year's plan wants (`croftbook show first-year`) where it names them.")] if found.house.planned else []),
        Assumption("coming", "What comes is the mean of the same days of earlier years, spread evenly; no weather is known."),
        *([Assumption("keeps", f"Fresh it keeps: {lives}.")] if lives else []),
        Assumption("limits", f"Each day {found.hours:g} hours of hands and {limits.stove_hours:g} of stove (`--hours`, `--stove`); {limits.lids:,.0f} lids, {limits.freezer_lb:,.0f} lb of freezer room and {limits.freezer_lb_a_day:,.0f} lb of new food a day in it (2 lb a cubic foot); heating up and cooling 30 and 45 minutes (common practice, from memory)."),
        Assumption("worth", "Eating comes before putting up, that before giving, that before losing; nothing beyond what the year still wants is put up."),
        *([Assumption("hours", "Hours not of your own record are a guess without a source.")] if any(not t.hours_known for t in found.house.told) else []),
    ]  # fmt: skip


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of the plan as a tree.

    Raises
    ------
    NotFound
        When there is no such line or figure.
    """
    asked, _, rest = key.partition("/")
    hours, _, stove = asked.partition(",")
    found = _found(state, hours or None, stove or None)
    for uses in _lines(found.plan):
        use = uses[0]
        if rest == f"{day_of(state, use.day)}/{use.way}/{use.crop}":
            trees = _trees(state, found, uses)
            figure = field or "kg"
            check_figure("glut", figure, trees)
            return trees[figure]
    raise no_record("glut", key)


def _trees(state: State, found: Found, uses: list[Use]) -> dict[str, Node]:
    use = uses[0]
    told = next((t for t in found.house.told if t.way.name == use.way), None)
    if told is None:
        days = [
            Node(sentence("why-plan-choice", day=Day(day_of(state, one.day))), one.kg, "kg")
            for one in uses
        ]
        return {"kg": total(use.way, "kg", *days)}
    unit = "jar" if told.jar else "kg"
    units = Node(sentence("why-units-of-plan", unit=unit_name(f"{unit}s")), use.units, f"{unit}s")
    each = _each(state, told)
    return {
        "kg": product(sentence("why-fresh"), "kg", units, each),
        "jars": units,
        "loads": Node(sentence("why-canner-loads-plan"), float(use.loads), "loads"),
        "hours": product(sentence("why-hours"), "hours", units, Node(sentence("why-own-batches", unit=unit_name(unit)) if told.hours_known else sentence("why-guess-without-source", unit=unit_name(unit)), told.way.unit_hours, "hours")),
        **({} if told.ev is None else {"still_wanted": Node(sentence("why-wanted-year-less-what-there"), told.way.wanted, f"{unit}s")}),
    }  # fmt: skip


def _each(state: State, told: Told) -> Node:
    if told.ev is None and not told.lb_from:
        return Node(sentence("why-fresh-one"), told.way.unit_kg, "kg")
    if told.ev is None:
        pounds = Node(
            sentence("why-fresh-one-published-canner-loads", source=told.lb_from),
            told.way.unit_kg * 1000 / LB_G,
            "lb",
        )
        return product(
            sentence("why-fresh-one"),
            "kg",
            pounds,
            Node(sentence("why-pound"), LB_G / 1000, "kg a lb"),
        )
    made = event_node(
        state,
        told.ev,
        sentence("why-newest-batch-stands-published"),
        told.way.unit_kg * 1000,
        "g",
    )
    return quotient(
        sentence("why-fresh-one"), "kg", made, Node(sentence("why-g-per-kg"), 1000.0, "g")
    )


PROJECTION = Projection(
    name="glut",
    title="Glut",
    question="What should this week's glut become, day by day, and what is lost if nothing is done?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("hours", "hours that all hands together have a day (4 unless said)", "6"),
        Option("stove", "hours a day that the stove is free for the canner (6 unless said)", "8"),
    ),
)
