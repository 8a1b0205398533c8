"""What should this week's glut become, day by day, and what is lost if nothing is done?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.figures import Figure, Node, tree
from ledger.messages import Names, fixed, joined, sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.enough.asked import number_of
from ledger.questions.food.labels import LABELS as FOOD_LABELS
from ledger.questions.glut.comes import DAYS
from ledger.questions.glut.figures import figures
from ledger.questions.glut.gather import AS_IT_IS, Asked, Found, found_of
from ledger.questions.glut.house import day_of
from ledger.questions.quantities import about, decimals
from ledger.questions.shared.common import answer, number
from ledger.questions.shared.made_as import LABELS as MADE_LABELS
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.telling import StateTeller

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "LABELS", "PROJECTION", "build"]

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
LABELS = {
    **FOOD_LABELS,
    **MADE_LABELS,
    "units": "glut-units-of-plan",
    "loads": "glut-loads-of-plan",
    "no-loads": "glut-no-loads",
    "day-of-plan": "glut-plan-choice",
    "hands": "glut-hands-a-day",
    "stove": "glut-stove-a-day",
    "picked-earlier": "glut-picked-earlier",
    "still-wanted": "glut-still-wanted",
    "not-wanted": "glut-not-wanted",
    "fresh": "glut-fresh",
    "stays": "why-text",
    "hours": "glut-hours",
    "no-hours": "glut-no-hours",
    "not-in-jars": "why-not-put-up-in-jars",
}
"""Ids of messages by the id of a label."""


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
    found = found_of(state, _asked(hours, stove))
    known = figures(found)
    records = [_record(found, known, row) for row in range(len(found.lines))]
    records.sort(key=lambda r: (r["day"], r["do"] in AS_IT_IS, r["crop"], r["do"]))
    lost, nothing = found.plan.kg("lost"), found.nothing.kg("lost")
    totals: dict[str, Any] = {
        "lost_kg": lost,
        "lost_if_nothing_kg": nothing,
        "kept_kg": found.plan.kept,
    }
    totals["in_words"] = _words(found, lost, nothing)
    missing = []
    if not found.house.crops:
        missing.append(sentence("glut-nothing-garden-here-due-these"))
    if found.house.left_out:
        missing.append(
            sentence("glut-not-planned-for-canning", list=joined("; ", found.house.left_out))
        )
    unknown = [t.way.name for t in found.house.told if not t.batches]
    if unknown:
        missing.append(sentence("year-no-record-of-hours", names=Names(tuple(unknown))))
    totals["missing"] = missing
    return answer(state, "glut", COLUMNS, records, totals=totals, assumptions=_notes(state, found))


def _asked(hours: str | float | None, stove: str | float | None) -> Asked:
    hands = 0.0 if str(hours) == "0" else number_of(hours, "hours", _HOURS, most=200)
    return Asked(hands, number_of(stove, "stove", _STOVE, most=24))


def _record(found: Found, known: dict[str, Figure], row: int) -> dict[str, Any]:
    uses, told = found.lines[row], found.told[row]
    value = {name: number(figure.value(row)) for name, figure in known.items()}
    return {
        "why": f"glut/{found.asked.hours:g},{found.asked.stove:g}/{_key(found, row)}",
        "day": day_of(found.state, uses[0].day),
        "until": None if len(uses) == 1 else day_of(found.state, uses[-1].day),
        "do": uses[0].way if told is None else told.action,
        "crop": uses[0].crop,
        "makes": None if told is None else told.makes,
        **value,
        **{name: int(many) for name in ("jars", "loads") if (many := value[name]) is not None},
        "process": None if told is None else told.process,
        "assumptions": [
            "coming",
            "keeps",
            "process",
            *(["hours"] if told is not None and not told.batches else []),
            *(["printed"] if told is not None and told.ev is None else []),
        ],
    }


def _key(found: Found, row: int) -> str:
    use = found.lines[row][0]
    return f"{day_of(found.state, use.day)}/{use.way}/{use.crop}"


def _words(found: Found, lost: float, nothing: float) -> list[str]:
    if not found.house.crops:
        return []
    put_up = sum(use.kg for use in found.plan.uses if use.way not in AS_IT_IS)
    hours = sum(use.hours for use in found.plan.uses)
    out: list[str] = [
        sentence(
            "glut-if-nothing-done-kg-lost", n=decimals(nothing, 1), n2=DAYS, n3=decimals(lost, 1)
        )
    ]
    out.append(
        sentence(
            "glut-put-up-kg-hours-eaten",
            n=decimals(put_up, 1),
            n2=decimals(hours, 1),
            n3=decimals(found.plan.kg("eat fresh"), 1),
            n4=decimals(found.plan.kg("give away"), 1),
        )
    )
    used = {use.way for use in found.plan.uses}
    out += [
        sentence("glut-printed", name=told.makes, name2=told.process)
        for told in found.house.told
        if told.way.name in used and told.action == "can"
    ]
    if not found.plan.proven:
        out.append(sentence("glut-no-better-plan"))
    return out


def _notes(state: State, found: Found) -> list[Assumption]:
    limits = found.house.limits
    lives = joined(
        "; ",
        [
            sentence("glut-keeps-days", name=name, n=days, by=said)
            for name, (days, said) in sorted(found.house.lives.items())
        ],
    )
    altitude = state.settings.on("altitude", state.as_of_day) or sentence("glut-not-set")
    named = state.settings.on("gauge", state.as_of_day)
    gauge = fixed(named) if named else sentence("glut-not-set")
    return [
        Assumption("process", sentence("glut-only-printed-processes-planned-looked", amount=altitude, gauge=gauge)),
        *([Assumption("printed", sentence("glut-no-batch-your-own-stands-2", names=Names(tuple(found.house.planned))))] if found.house.planned else []),
        Assumption("coming", sentence("glut-what-comes-mean-same-days")),
        *([Assumption("keeps", sentence("glut-fresh-keeps", list=lives))] if lives else []),
        Assumption("limits", sentence("glut-each-day-hours-hands-stove", n=about(found.asked.hours), n2=about(limits.stove_hours), n3=round(limits.lids), n4=round(limits.freezer_lb), n5=round(limits.freezer_lb_a_day))),
        Assumption("worth", sentence("glut-eating-comes-before-putting-up")),
        *([Assumption("hours", sentence("glut-hours-are-a-guess"))] if any(not t.batches for t in found.house.told) else []),
    ]  # fmt: skip


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of the plan as a tree.

    Raises
    ------
    NotFound
        When there is no such line or figure.
    """
    asked, _, rest = key.partition("/")
    hours, _, stove = asked.partition(",")
    found = found_of(state, _asked(hours or None, stove or None))
    row = next((row for row in range(len(found.lines)) if _key(found, row) == rest), None)
    if row is None:
        raise no_record("glut", key)
    known = figures(found)
    check_figure("glut", field or "kg", known)
    return tree(known[field or "kg"], row, StateTeller(state, LABELS), deep)


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
