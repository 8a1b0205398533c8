"""When do we start indoors, set out, sow, sow again and stop, and is there seed enough?"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.messages import Choice, Code, Day, Message, Names, sentence
from ledger.messages import measured as digits
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.shared.common import answer
from ledger.questions.shared.frosts import Frosts, frosts_of
from ledger.questions.shared.sown import Dates, Sown, sown_of
from ledger.questions.when_to_sow.risk import risk_of
from ledger.questions.when_to_sow.why import why
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build", "year_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("crop", "Crop", "", "A crop that was planted, or that next season's plan has.", main=True),
    Column("indoors_from", "Indoors from", "day", "First day to start it indoors; null where it is sown outdoors, or no frost days are known.", main=True),
    Column("indoors_to", "Indoors to", "day", "Last day to start it indoors."),
    Column("out_from", "Out from", "day", "First day to sow it outdoors or to set it out; null without frost days.", main=True),
    Column("out_how", "How", "", "sow or set out.", main=True),
    Column("weeks", "Weeks", "", "The same in weeks from the last spring frost: what is known without frost days."),
    Column("soil_min_f", "Soil at least", "deg F", "Soil that warm, or it does not come up."),
    Column("soil_best_f", "Soil best", "deg F", "At which it comes up best."),
    Column("again_days", "Again every", "days", "Sow again so often; null where it is sown once.", main=True, rare=True),
    Column("again_on", "Again on", "", "The days of it, up to the last sowing."),
    Column("last_sowing", "Last sowing", "day", "Last day that still ripens before the fall frost; null without frost days.", main=True),
    Column("last_sowing_days", "Before the frost", "days", "How many days before the first fall frost that is; null where the days to the harvest are not known."),
    Column("spring_frost_day", "Spring frost", "day of the year", "Last spring frost at the risk chosen."),
    Column("fall_frost_day", "Fall frost", "day of the year", "First fall frost at the risk chosen."),
    Column("days_to_harvest", "To harvest", "days", "From sowing, or from setting out where `counted_from` says so; the packet's before the table's."),
    Column("days_from", "Says", "", "packet or table."),
    Column("counted_from", "Counted from", "", "sowing or set out."),
    Column("seed_year", "Seed of", "", "The year of the seed; null where it is not written down."),
    Column("germination", "Sprouts", "0 to 1", "By the newest test; null without one."),
    Column("germination_low", "Sprouts, low", "0 to 1", "Lower end of its 95 per cent range (Wilson)."),
    Column("germination_high", "Sprouts, high", "0 to 1", "Upper end."),
    Column("standard", "Standard", "0 to 1", "What the Federal Seed Act asks of seed sold."),
    Column("seed_note", "Seed", "", "Whether the test meets the standard, and whether the seed is older than it keeps."),
    Column("plants", "Plants", "plants", "Of next season's plan; null without one."),
    Column("seeds_wanted", "Seeds wanted", "seeds", "Plants / germination; null without both."),
    Column("seeds_left", "Seeds left", "seeds", "As written down; null where not."),
    Column("to_order", "To order", "seeds", "Wanted less left; null where either is not known.", main=True, rare=True),
    Column("from_memory", "From memory", "", "Which figures of the table are recalled and not read."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State, *, risk: str | float | None = None, year: str | int | None = None
) -> Answer:
    """Return one record a crop, by when it is begun.

    Parameters
    ----------
    state : State
    risk : text or float, optional
        Share of years whose spring frost comes later, or whose fall frost earlier; default 0.1.
    year : text or int, optional
        Default: the year whose spring frost is still ahead.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When the risk or the year is not what it may be.
    """
    chance = risk_of(risk)
    frosts = frosts_of(state)
    when = year_of(state, frosts, chance, year)
    records = [_record(one, chance, when) for one in sown_of(state, chance, when)]
    records.sort(key=lambda r: (_first(r) is None, _first(r) or "", r["crop"]))
    totals: dict[str, Any] = {"year": str(when), "in_words": _words(state, frosts, chance, when)}
    totals["missing"] = _missing(frosts, records)
    notes = _notes(frosts, chance)
    for record in records:
        record["assumptions"] = [note.id for note in notes]
    return answer(state, "when-to-sow", COLUMNS, records, totals=totals, assumptions=notes)


def _first(record: dict[str, Any]) -> str | None:
    first: str | None = record["indoors_from"] or record["out_from"]
    return first


def year_of(state: State, frosts: Frosts, risk: float, year: str | int | None) -> int:
    """Return the year asked for, or the one whose spring frost is still ahead.

    Raises
    ------
    InputError
        When it is no year.
    """
    today = dt.date.fromisoformat(day_text(state.as_of_day))
    if year is not None:
        if not str(year).isdigit() or not 1900 <= int(year) <= 9000:
            raise InputError(
                "year",
                Message.of("refusal-not-a-year", text=Code(repr(year))),
                Message.of("refusal-like-next-year"),
            )
        return int(year)
    found = frosts.at(risk, spring=True)
    gone = today.timetuple().tm_yday > (found.day if found else 182)
    return today.year + 1 if gone else today.year


def _record(one: Sown, risk: float, year: int) -> dict[str, Any]:
    d: Dates = one.dates
    seeds = {name: one.cells[name] for name in ("seeds_wanted", "seeds_left", "to_order")}
    whole = {name: None if number is None else int(number) for name, number in seeds.items()}
    return {
        **one.cells,
        **whole,
        "why": f"when-to-sow/{year}/{risk:g}/{one.name}",
        "crop": one.name,
        "indoors_from": d.iso(d.indoors_from),
        "indoors_to": d.iso(d.indoors_to),
        "out_from": d.iso(d.out_from),
        "out_how": one.how,
        "weeks": one.weeks_text,
        "again_on": [d.iso(day) for day in d.again],
        "last_sowing": d.iso(d.last),
        "days_from": one.days_from,
        "counted_from": one.row.counted_from if one.row else None,
        "from_memory": (one.row.memory or None) if one.row else None,
        "seed_year": str(one.seed.year[0]) if one.seed and one.seed.year else None,
        "seed_note": one.note,
    }


def _words(state: State, frosts: Frosts, risk: float, year: int) -> list[str]:
    out: list[str] = []
    for spring in (True, False):
        found = frosts.at(risk, spring=spring)
        if found is None:
            continue
        count = len(frosts.spring if spring else frosts.fall)
        day = dt.date(year, 1, 1) + dt.timedelta(days=round(found.day) - 1)
        out.append(
            sentence(
                "sowing-frost",
                of=Choice("spring" if spring else "fall"),
                day=Day(day.isoformat()),
                share=round(risk * 100) if found.how == "share of years" else None,
                n=count,
            )
        )
    return out


def _missing(frosts: Frosts, records: list[dict[str, Any]]) -> list[str]:
    out: list[str] = []
    if not frosts.spring:
        out.append(sentence("sowing-no-last-spring-frost-written"))
    if not frosts.fall:
        out.append(sentence("sowing-no-fall-frost"))
    if frosts.odd:
        years = digits(", ".join(map(str, frosts.odd)))
        out.append(sentence("sowing-left-out-spring-frost-not", list=years))
    unknown = [r["crop"] for r in records if r["weeks"] is None]
    if unknown:
        out.append(sentence("sowing-table-does-not-say-when", names=Names(tuple(unknown))))
    no_weeks = [r["crop"] for r in records if r["weeks"] and r["weeks"].endswith("no weeks")]
    if no_weeks and frosts.spring:
        out.append(sentence("sowing-no-day-sow-table-has", names=Names(tuple(no_weeks))))
    untested = [r["crop"] for r in records if r["seed_year"] and r["germination"] is None]
    if untested:
        out.append(sentence("sowing-seed-not-tested-lay-out", names=Names(tuple(untested))))
    if not records:
        out.append(sentence("sowing-no-crop-planted-yet-no"))
    return out


def _notes(frosts: Frosts, risk: float) -> list[Assumption]:
    out = [
        Assumption(
            "weeks",
            sentence("sowing-weeks-soil-days-those-extension"),
        ),
        Assumption(
            "fall",
            sentence("sowing-last-sowing-days-harvest-shorter"),
        ),
        Assumption(
            "picking",
            sentence("sowing-what-picked-again-again-picked"),
        ),
    ]
    few = [
        name
        for name, years in (("spring", frosts.spring), ("fall", frosts.fall))
        if 0 < len(years) < 10
    ]
    if few:
        out.append(
            Assumption(
                "few-years",
                sentence("sowing-few-years", of=Choice("-".join(few))),
            )
        )
    else:
        out.append(
            Assumption(
                "risk",
                sentence("sowing-risk", n=round(risk * 100)),
            )
        )
    return out


PROJECTION = Projection(
    name="when-to-sow",
    title="When to sow",
    question="When do we start indoors, set out, sow, sow again and stop, and is there seed enough?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("risk", "part of years whose frost comes later in spring, or earlier in fall (0.1 unless said)", "0.2"),
        Option("year", "the year to sow in", "2027"),
    ),
)  # fmt: skip
