"""Which skills do we practise, who holds them, which go rusty, and which were never tried?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.questions.answering import answer
from ledger.questions.know_how import sheet as skills_sheet
from ledger.questions.know_how.figures import KnowHow
from ledger.questions.know_how.gather import STANDINGS
from ledger.questions.know_how.outcome import in_danger
from ledger.questions.know_how.sheet import plain
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.know_how.targets import misnamed
from ledger.questions.know_how.words import address, assumptions, in_words

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("skill", "Skill", "", "What is practised: as noted, a method, what is made, or growing a crop.", main=True),
    Column("sort", "Sort", "", "`method`, `making`, `growing` (practised by doing) or `noted`."),
    Column("person", "Who (-: all)", "", "Who practised it; null for the household together.", main=True),
    Column("times", "Times", "times", "Entries that practised it, ever; a note for two people counts once for the household.", main=True),
    Column("times_this_year", "This year", "times", "Of those, in the calendar year of the answer's day.", main=True),
    Column("first_on", "First", "day", "Day of the first; null when never tried."),
    Column("last_on", "Last", "day", "Day of the last; null when never tried.", main=True),
    Column("days_since", "Days since", "days", "Days from the last one to the answer's day."),
    Column("rhythm_days", "Rhythm", "days", "Median gap between days of practice; null from fewer than two days."),
    Column("keeps_days", "Keeps", "days", "How long its good practices keep it, from the last of them on; null where it is judged by seasons, or none went well.", main=True),
    Column("rusts_on", "Rusts from", "day", "First day on which it is going rusty if it is not practised before; null unless it is in hand and keeps for some days."),
    Column("rusts_in_days", "Rusts in", "days", "Days from the answer's day to that one."),
    Column("season_on", "Season from", "day", "Next day on which the part of the year begins that held its practice; null where it is not judged by seasons."),
    Column("standing", "Standing", "", "`in hand`, `going rusty`, `out of practice` or `never tried`.", main=True),
    Column("because", "Because", "", "Why it stands so, in one line."),
    Column("seasonal", "Seasonal", "yes or no", "Judged by the seasons that passed without it."),
    Column("went_lately", "Went lately", "1 to 5", "Mean of how the latest three went that say so; null where none does."),
    Column("went_before", "Went before", "1 to 5", "Mean of how those before them went."),
    Column("minutes_lately", "Minutes lately", "minutes", "Mean minutes of the latest three that say so, the whole of an entry: the person's own, for the household all together."),
    Column("minutes_before", "Minutes before", "minutes", "Mean minutes of those before them."),
    Column("unit", "Timed per", "", "What minutes are set against: jar (all of one size), lb (kg), or quart (litre) or piece; null where batches do not tell, and for a method that puts up several things."),
    Column("minutes_per_unit_lately", "Minutes for one lately", "minutes per unit", "Mean of the latest three batches: all work of a batch by what it made."),
    Column("minutes_per_unit_before", "Minutes for one before", "minutes per unit", "Mean of the batches before them."),
    Column("learning_rate", "Learning rate", "0 to 1", "What a doubling of repetitions leaves of the minutes for one (0.9: a tenth less; above 1: it takes longer); null from fewer than five batches."),
    Column("learning_rate_low", "Rate, low", "0 to 1", "Lower end of its 95 per cent range."),
    Column("learning_rate_high", "Rate, high", "0 to 1", "Upper end of its 95 per cent range."),
    Column("learning_repetitions", "Rests on", "batches", "How many batches the rate rests on."),
    Column("only_one_can", "Only one", "yes or no", "One person alone practised it, as far as written down; null where no entry names anybody."),
    Column("held_by", "Held by", "", "Who practised it and is not out of practice; of a person's record null."),
    Column("target_times", "Wanted", "times", "Times that the household's newest target asks for; null without one."),
    Column("target_per", "Per", "", "`year`, `week`, `person year`; null for a target met once."),
    Column("target_done", "Done of it", "times", "Practices that count towards the target."),
    Column("target_met", "Met", "yes or no", "Whether that is enough, so far; null without a target."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_WHOLE = frozenset(
    ("times", "times_this_year", "days_since", "rusts_in_days", "learning_repetitions", "target_times",
     "target_done")
)  # fmt: skip
"""Figures that are counted, or whole days."""


def build(
    state: State,
    *,
    person: str | None = None,
    skill: str | None = None,
    year_sheet: str | int | None = None,
    curve: str | None = None,
) -> Answer:
    """Return one record a skill and person, and one a skill for the household.

    What lapsed comes first: never tried, out of practice, going rusty, in hand.

    Parameters
    ----------
    state : State
    person : str, optional
        Only the records of this person.
    skill : str, optional
        Only this skill, however it is spelled.
    year_sheet : str or int, optional
        A year: instead, one record a skill with its practices by month.
    curve : str, optional
        A skill: instead, one record a repetition with minutes for one and the fitted curve.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or in ``PROJECTION.variants``.

    Raises
    ------
    NotFound
        When nobody of that name practised anything, or there is no such skill.
    InputError
        When the year cannot be read.
    """
    skills = state.once(Skills)
    who = None if person is None else skills.must_find_person(person)
    only = None if skill is None else skills.must_find(skill)
    if year_sheet is not None:
        return skills_sheet.year_sheet(state, year_sheet, who, only)
    if curve is not None:
        return skills_sheet.curve(state, skills.must_find(curve), who)
    of_skills = state.once(_records)
    shown = of_skills if only is None else [of_skills[only]]
    records = [dict(record) for several in shown for record in several]
    if who is not None:
        records = [r for r in records if r["person"] == skills.people[who]]
    together = {r["skill"]: r for r in records if r["person"] is None}
    records.sort(key=lambda r: _place(r, together.get(r["skill"], r)))
    totals: dict[str, Any] = {"skills": len(together) or len(records)}
    for word in STANDINGS:
        rows = together.values() if who is None else records
        totals[word.replace(" ", "_")] = sum(r["standing"] == word for r in rows)
    never = [i for i in range(len(skills.names)) if (i, HOUSEHOLD) not in skills.groups]
    missing = [text for i in never if only in (None, i) and (text := misnamed(skills, i))]
    totals["in_danger"] = in_danger(
        state, [r["skill"] for r in records if r["standing"] == "in hand"]
    )
    totals["in_words"] = in_words(records, totals["in_danger"].values())
    if only is not None and all(_may_be_timed(r) for r in records):
        missing.append(skills_sheet.lacking(state, only))
    totals["missing"] = missing
    return answer(
        state, "know-how", COLUMNS, records, totals=totals, assumptions=assumptions(records)
    )


def _place(record: dict[str, Any], together: dict[str, Any]) -> tuple[Any, ...]:
    standing = STANDINGS.index(together["standing"])
    return standing, record["skill"].casefold(), record["person"] or "", record["person"] is None


def _may_be_timed(record: dict[str, Any]) -> bool:
    """Return whether a record has no learning curve though its kind of skill could have one."""
    return record["sort"] in ("method", "making") and record["learning_rate"] is None


def _records(state: State) -> list[list[dict[str, Any]]]:
    """Return the records of every skill: that of the household, then those of its people."""
    known = state.once(KnowHow)
    cells = {name: plain(figure, whole=name in _WHOLE) for name, figure in known.of.items()}
    out: list[list[dict[str, Any]]] = [[] for _ in known.records.skills.names]
    for row, (skill, _) in enumerate(known.records.keys):
        out[skill].append(_record(known, cells, row))
    for household, *of_people in out:
        only_one = len(of_people) == 1 if of_people else None
        for record in (household, *of_people):
            record["only_one_can"] = only_one
        household["held_by"] = [
            r["person"] for r in of_people if r["standing"] in ("going rusty", "in hand")
        ]
        household["_unnamed"] = bool(household["times"]) and not of_people
    return out


def _record(known: KnowHow, cells: dict[str, list[Any]], row: int) -> dict[str, Any]:
    records, stands = known.records, known.standings.of[row]
    skills, (skill, person), (start, end) = records.skills, records.keys[row], records.spans[row]
    met = cells["target_met"][row]
    return {
        **{name: several[row] for name, several in cells.items()},
        "why": address(skills, skill, person),
        "skill": skills.names[skill],
        "sort": skills.sorts[skill],
        "person": None if person == HOUSEHOLD else skills.people[person],
        "first_on": records.on(start) if end > start else None,
        "last_on": records.on(end - 1) if end > start else None,
        "rusts_on": stands.rusts_on.isoformat() if stands.rusts_on else None,
        "season_on": stands.season_on.isoformat() if stands.season_on else None,
        "standing": stands.word,
        "because": stands.because,
        "seasonal": stands.seasonal,
        "unit": known.curves.units.name(skill),
        "target_per": known.targets.per[row],
        "target_met": None if met is None else bool(met),
        "_unnamed": False,
    }


def _why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    from ledger.questions.know_how.why import why  # trees are for those who ask why

    return why(state, key, field, deep=deep)


PROJECTION = Projection(
    name="know-how",
    title="Know-how",
    question="Which skills do we practise, who holds them, which go rusty, which were never tried?",
    columns=COLUMNS,
    build=build,
    why=_why,
    options=(
        Option("person", "only what this person practised", "Ada"),
        Option("skill", "only this skill", "plum butter"),
        Option("year_sheet", "instead, each skill's practices by month of a year", "2026"),
        Option("curve", "instead, one skill's minutes for one, batch by batch", "plum butter"),
    ),
    variants={"year_sheet": skills_sheet.YEAR_COLUMNS, "curve": skills_sheet.CURVE_COLUMNS},
)
