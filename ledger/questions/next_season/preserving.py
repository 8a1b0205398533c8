"""The preserving that next season implies: what to put up in which week, with what and how long."""

from __future__ import annotations

from typing import Any

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.messages import Choice, Day, Names, joined, sentence
from ledger.messages.units import amount
from ledger.projections.base import Answer, Column
from ledger.questions.next_season.weeks import Weeks
from ledger.questions.next_season.whole import Whole
from ledger.questions.next_season.words import Words
from ledger.questions.planning.batches import Batches, Store
from ledger.questions.planning.plan import Plan
from ledger.questions.shared.common import answer, number
from ledger.replay.state import day_text

__all__ = ["COLUMNS", "answer_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday; the week by whose end enough of the crop has come in, as it was picked in the seasons so far. Null where it was never picked.", main=True),
    Column("item", "To put up", "", "What is made.", main=True),
    Column("method", "Method", "", "How it was put up so far."),
    Column("batches", "Batches", "batches", "Of the size of one's own so far, the last of the year perhaps smaller.", main=True),
    Column("makes", "Makes", "", "In words.", main=True),
    Column("jar", "Jar", "", "The jar that most of it goes into; null when not in jars."),
    Column("jars", "Jars", "jars", "Whole jars, batch by batch."),
    Column("crop", "Crop", "", "The crop that most of it is, by weight."),
    Column("raw_g", "Of it", "g", "Of that crop, as picked."),
    Column("takes", "Takes", "", "All crops that go in, as picked, in words.", main=True),
    Column("loads", "Loads", "loads", "Canner loads, batch by batch, by the setting jars_per_load; null for other methods.", main=True),
    Column("jars_there", "Jars there", "jars", "What earlier weeks leave of the jars in the house, the full ones of today taken as empty by then."),
    Column("jars_to_get", "Jars to get", "jars", "What is lacking this week beside those."),
    Column("lid", "Lid", "", "Which lids the jars take."),
    Column("lids_there", "Lids there", "lids", "What earlier weeks leave of the lids in the house."),
    Column("lids_to_get", "Lids to get", "lids", "What is lacking this week beside those."),
    Column("hours", "Hours", "hours", "By one's own minutes for each jar (or amount) so far, cooking beforehand included; null where none were written down.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_TEXTS = {
    "weeks-as-before": "plan-weeks-as-before",
    "batches-as-before": "plan-batches-as-before",
    "full-jars-emptied": "plan-full-jars-emptied",
}


def answer_of(plan: Plan) -> Answer:
    """Return one record a week and product; `totals` has jars, lids, hours and loads."""
    batches, words = Batches(plan), Words(plan)
    weeks = Weeks(batches)
    records = [_record(plan, weeks, words, row) for row in range(len(batches.weeks))]
    used = {one for record in records for one in record["assumptions"]}
    hours = [r["hours"] for r in records if r["hours"] is not None]
    totals: dict[str, Any] = {
        "season": plan.garden.next,
        "jars": {jar: _store(one) for jar, one in batches.jars.items()},
        "lids": {lid: _store(one) for lid, one in batches.lids.items()},
        "loads": sum(r["loads"] or 0 for r in records),
        "hours": sum(hours) if hours else None,
        "in_words": _in_words(batches, records),
        "missing": _missing(plan, words, records),
    }
    return answer(
        plan.state, "next-season", COLUMNS, records, totals=totals,
        assumptions=[Assumption(name, sentence(id_)) for name, id_ in _TEXTS.items() if name in used],
    )  # fmt: skip


def _record(plan: Plan, weeks: Weeks, words: Words, row: int) -> dict[str, Any]:
    batches, week = weeks.batches, weeks.batches.weeks[row]
    facts, jar = plan.state.facts, weeks.batches.jar(week.item)
    day = None if week.day is None else day_text(week.day)
    known = {name: number(figure.value(row)) for name, figure in weeks.of.items()}
    counted = {name: None if n is None else round(n) for name, n in known.items()}
    said = format_whole(round(week.amount), facts.measure[week.item], measures=words.measures)
    if week.jars is not None:
        said = f"{week.jars} {jar or 'jar'}" + ("" if week.jars == 1 else "s")
    rests = ["batches-as-before"] + (["weeks-as-before"] if day else [])
    return {
        "why": weeks.address(week),
        "week": day,
        "item": facts.names[week.item],
        "method": plan.recipes.made[week.item].method,
        "batches": counted["batches"],
        "makes": amount(said),
        "jar": jar,
        "jars": counted["jars"],
        "crop": week.crop.name,
        "raw_g": known["raw_g"],
        "takes": _takes(words, weeks.raw_of(row)),
        "loads": counted["loads"],
        "jars_there": counted["jars_there"],
        "jars_to_get": counted["jars_to_get"],
        "lid": None if week.jars_there is None else batches.lid(week.item),
        "lids_there": counted["lids_there"],
        "lids_to_get": counted["lids_to_get"],
        "hours": known["hours"],
        "assumptions": rests + (["full-jars-emptied"] if week.jars_there is not None else []),
    }


def _takes(words: Words, raw: list[tuple[str, float]]) -> str:
    found = sorted(((g, name) for name, g in raw if g > 0), reverse=True)
    takes = [(words.weight(g) or "", name) for g, name in found]
    return joined(", ", [joined(" ", pair) for pair in takes])


def _store(one: Store) -> dict[str, int]:
    full = {} if one.full is None else {"full now": one.full}
    return {
        "wanted": one.wanted,
        "empty" if full else "there": one.there,
        **full,
        "to get": one.to_get,
    }


def _in_words(batches: Batches, records: list[dict[str, Any]]) -> list[str]:
    if not records:
        return []
    out: list[str] = []
    for name, one in [*batches.jars.items(), *batches.lids.items()]:
        have = (
            sentence("plan-in-hand", n=one.there)
            if one.full is None
            else sentence("plan-empty-and-full", n=one.there, n2=one.full)
        )
        gap = sentence("plan-to-get", n=one.to_get) if one.to_get else sentence("plan-enough")
        what = sentence("plan-kind", kind=Choice(name.replace(" ", "-")), name=name)
        out.append(sentence("plan-stores", what=what, n=one.wanted, have=have, gap=gap))
    by_week: dict[str, float] = {}
    for record in records:
        if record["week"] and record["hours"]:
            by_week[record["week"]] = by_week.get(record["week"], 0.0) + record["hours"]
    if by_week:
        most = max(by_week, key=lambda week: by_week[week])
        hours = {"n": round(sum(by_week.values())), "n2": round(by_week[most])}
        out.append(sentence("plan-hours", day=Day(most), **hours))
    return [*out, sentence("plan-published-process")]


def _missing(plan: Plan, words: Words, records: list[dict[str, Any]]) -> list[str]:
    out: list[str] = [] if records else [sentence("plan-nothing-keeps")]
    late = sorted({r["crop"] for r in records if r["week"] is None})
    out += [sentence("plan-picked-when-unknown", name=name) for name in late]
    idle = sorted({r["item"] for r in records if r["hours"] is None})
    out += [sentence("plan-no-hours", names=Names(tuple(idle)))] if idle else []
    return out + Whole(plan, words).missing_of_use()
