"""What did the season give, per plant and per bed, against last year and what was wanted?"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ledger.errors import InputError
from ledger.messages import Message, Typed
from ledger.projections.base import Answer, Assumption, Column, Compared, Option, Projection
from ledger.questions.answering import answer, assumptions_of
from ledger.questions.season import weeks as by_week
from ledger.questions.season import words
from ledger.questions.season.figures import bed_figures, crop_figures
from ledger.questions.season.records import Recorder
from ledger.questions.season.went import FATES
from ledger.questions.season.why import why
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.questions.garden.field import Field
    from ledger.replay import State

__all__ = ["PROJECTION", "build"]

_FATE_WORDS = {
    "eaten fresh": "Eaten as it was picked, without a batch in between.",
    "put up": "Used in a batch.",
    "given": "Given away, bartered or sold.",
    "lost": "Discarded, fed to animals, or missing at a count.",
    "sown": "Sown again.",
    "on hand": "Still there.",
}

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("season", "Season", "", "The season, by the year in which it begins (`season_starts`)."),
    Column("crop", "Crop", "", "What was grown: a record is one crop, variety and bed, as far as they were written down. A picking or planting that leaves one out belongs to the one record that it fits; where it fits several it stands apart. With `--by crop`: one record a crop.", main=True),
    Column("variety", "Variety", "", "Its variety; null where none was written, or with `--by crop`."),
    Column("bed", "Bed", "", "Its bed; null where none was written, or with `--by crop`.", main=True),
    Column("in_words.picked", "Picked", "", "What was picked, in words.", main=True),
    Column("in_words.yield", "Per plant", "", "Picked per plant, else by row (/ft, /m) or ground (/sq ft, /m2).", main=True),
    Column("in_words.last_season", "Last season", "", "The same of last season, by the same day while this one runs.", main=True),
    Column("in_words.published", "Published", "", "The published range for that much row or ground.", main=True),
    Column("in_words.to_come", "To come", "", "What earlier seasons brought after this day, least to most."),
    Column("in_words.target", "Wanted", "", "The target."),
    Column("plants", "Plants", "plants", "Plants planted, else the most that a picking names; null where a planting does not say."),
    Column("area_m2", "Ground", "m2", "Ground planted; null where a planting does not say."),
    Column("row_m", "Row", "m", "Length of row planted; null where a planting does not say."),
    Column("picked_g", "Picked", "g", "Weight as picked, trimmings included; null where no weight is known."),
    Column("trimmed_g", "Trimmed", "g", "Part of it thrown away at once."),
    Column("kept_g", "Kept", "g", "Picked less trimmed: what inputs, value and target go by."),
    Column("per_plant_g", "Per plant", "g per plant", "Picked, per plant."),
    Column("per_m2_g", "Per square metre", "g per m2", "Picked, per square metre of ground."),
    Column("per_row_m_g", "Per metre of row", "g per m", "Picked, per metre of row."),
    Column("first_on", "First", "day", "Day of the first picking; null before it."),
    Column("last_on", "Last", "day", "Day of the newest picking."),
    Column("inputs", "Inputs", "money", "Its crop's garden inputs of the season, shared by amount after trimming."),
    Column("shop_value", "Shop value", "money", "What is left after trimming, at the shop's price of each day of picking; null where none is known."),
    Column("kept_too_long", "Kept too long", "money", "Of that, what was picked and never eaten, put up or counted until its keeping was over (the later of the household's word and the published storage life)."),
    Column("glut", "Glut", "money", "Of that, what was fed to animals or composted, less what it replaced: feed of the same energy, at its price; compost nothing."),
    Column("net", "Left over inputs", "money", "Shop value of all that was picked, less what was kept too long, less the glut, less inputs; hours are not counted as money. Worth it counts each thing once, so its net is less.", main=True),
    Column("hours", "Hours", "hours", "Work written down with its plantings and pickings; of a picking of several crops, by weight. Null where none was.", main=True),
    Column("net_per_hour", "Net per hour", "money per hour", "Net by hours."),
    *(Column(f"where_it_went.{fate}", fate.capitalize(), "g", f"{text} By the lots of its pickings, oldest taken first.") for fate, text in _FATE_WORDS.items()),
    Column("last_season_g", "Last season", "g", "What the same crop, variety and bed brought in the whole season before; where it changed beds, the same crop and variety (else crop), each plot counted once. Null where nothing was written down."),
    Column("last_season_to_date_g", "Last season to date", "g", "Of that, what had been picked by the same day of the season."),
    Column("last_season_in", "Compared with", "", "Bed (or variety) of last season's figure where it was another."),
    Column("still_to_come_g.low", "To come, least", "g", "Least that an earlier season brought after this day of it, for this many plants (else ground, else row); 0 once the season is over, null without an earlier season."),
    Column("still_to_come_g.likely", "To come, likely", "g", "Middle of the earlier seasons."),
    Column("still_to_come_g.high", "To come, most", "g", "Most of the earlier seasons."),
    Column("published_low_g", "Published, low", "g", "Lowest published yield of that much row or ground; null where none fits."),
    Column("published_high_g", "Published, high", "g", "Highest published yield of it."),
    Column("published_from", "Published in", "", "Where that was published, and what it rests on."),
    Column("target_g", "Target", "g", "The crop's target for the season, shared as inputs are; null without one."),
    Column("short_of_target_g", "Short of target", "g", "What is missing to it, after trimming; 0 when met."),
    Column("provisional", "Provisional", "yes or no", "The season still runs: what it cost can still change."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State,
    *,
    season: str | int | None = None,
    crop: str | None = None,
    bed: str | None = None,
    by: str | None = None,
    weeks: bool = False,
) -> Answer:
    """Return what a season brought, one record a crop, variety and bed.

    Parameters
    ----------
    state : State
    season : str or int, optional
        The year in which it begins; default: the season that holds the answer's day.
    crop, bed : str, optional
        Only this crop, only this bed.
    by : {'crop'}, optional
        One record a crop, varieties and beds together.
    weeks : bool
        One record a crop and week of the season instead.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or as in `by_week.COLUMNS`.

    Raises
    ------
    InputError
        When the season is no year, or the book knows no such crop or bed.
    """
    if by is not None and bed is not None:
        raise InputError("by", Message.of("refusal-by-crop-all-beds"))
    known = state.once(crop_figures if by == "crop" else bed_figures)
    field = known.grown.field
    number, its_bed = field.crop_called(crop), field.bed_called(bed)
    recorder = Recorder(known, season_of(field, season), number, its_bed)
    if weeks:
        return by_week.build(recorder, bed=bed)
    records = [recorder.record(row) for row in recorder.rows]
    ids, assumptions = assumptions_of(state, [r.pop("_mark") for r in records])
    own: dict[str, Assumption] = {}
    for record, several in zip(records, ids, strict=True):
        for one in record.pop("_assumed"):
            own.setdefault(one.id, one)
            several.append(one.id)
        record["assumptions"] = several
    return answer(
        state,
        "season",
        _columns(recorder, records),
        records,
        totals=_totals(recorder, records),
        assumptions=[*assumptions, *own.values()],
    )


def _columns(recorder: Recorder, records: list[dict[str, Any]]) -> tuple[Column, ...]:
    """Return the columns, the narrow table showing what this season has to tell."""
    is_over = recorder.past.is_over
    main = {
        "bed": any(r["bed"] for r in records),
        "in_words.to_come": not is_over and any(r["in_words.to_come"] for r in records),
        "hours": is_over,
    }
    return tuple(replace(c, main=main.get(c.name, c.main)) for c in COLUMNS)


def season_of(field: Field, season: str | int | None) -> int:
    """Return the season asked for, by default the one that holds the answer's day.

    Raises
    ------
    InputError
        When it is no year.
    """
    import numpy as np

    if season is None:
        held = int(field.calendar.of(np.array([field.state.as_of_day]))[0])
        return min(max(held, 2), 9997)  # the calendar has no others
    text = str(season).strip()
    if not (text.isascii() and text.isdigit() and 1 < int(text) < 9998):
        raise InputError("season", Message.of("refusal-not-a-season", text=Typed(text[:40])))
    return int(text)


def _totals(recorder: Recorder, records: list[dict[str, Any]]) -> dict[str, Any]:
    def total(name: str) -> float:
        return sum((float(r[name]) for r in records if r[name] is not None), 0.0)

    calendar = recorder.field.calendar
    first, last = (day(recorder.season) for day in (calendar.first_day, calendar.last_day))
    out: dict[str, Any] = {
        "season": recorder.season,
        "seasons": recorder.field.seasons(),
        "from": day_text(first),
        "to": day_text(last),
        **{
            name: total(name)
            for name in (
                "picked_g",
                "inputs",
                "shop_value",
                "kept_too_long",
                "glut",
                "net",
                "hours",
            )
        },
        **_by_measure(recorder, records),
        "where_it_went": {fate: total(f"where_it_went.{fate}") for fate in FATES},
        "carried_forward": carried_forward(recorder.state),
        "missing": words.missing(recorder, records),
    }
    out["in_words"] = words.in_words(recorder, out, records)
    return out


def carried_forward(state: State) -> dict[str, float]:
    """Return, by crop, the money whose next harvest is still to come (rule 8)."""
    out: dict[str, float] = {}
    for part in state.costs.garden.parts:
        if part.season is None and part.money and not math.isnan(part.money):
            name = state.facts.names[part.crop] if part.crop >= 0 else "no crop"
            out[name] = out.get(name, 0.0) + part.money
    return out


def _by_measure(recorder: Recorder, records: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the weight of what is weighed, now and last season by the same day, and what is counted.

    ``weighed_g``, ``weighed_last_g`` and ``weighed_more_g`` (None without a last season) leave out what is kept by the piece;
    that is ``counted``: crop, pieces in words, and last season's.
    """
    facts, name = recorder.state.facts, _last_of(recorder)
    weighed, last, counted = 0.0, [], []
    for row, r in zip(recorder.rows, records, strict=True):
        if facts.measure[recorder.plot(row).crop] == "count":
            if r["picked_g"]:
                counted.append((r["crop"], r["in_words.picked"], r["in_words.last_season"]))
            continue
        weighed += r["picked_g"] or 0.0
        last += [r[name]] if r[name] is not None else []
    before = sum(last) if last else None
    return {
        "weighed_g": weighed,
        "weighed_last_g": before,
        "weighed_more_g": None if before is None else weighed - before,
        "counted": counted,
    }


def _last_of(recorder: Recorder) -> str:
    return "last_season_g" if recorder.past.is_over else "last_season_to_date_g"


PROJECTION = Projection(
    name="season",
    title="Season",
    question="What did the season give, per plant and per bed, against last year and what was wanted?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("season", "the season that begins in this year; default: the one that runs", "2026"),
        Option("crop", "only this crop", "tomato"),
        Option("bed", "only this bed", '"south bed"'),
        Option("by", "one record a crop, varieties and beds together", "crop", choices=("crop",)),
        Option("weeks", "week by week, against the same week last season", "", kind="flag"),
    ),
    variants={"weeks": by_week.COLUMNS},
    compared=Compared("crop", ("kept_g",), "shop_value", "compare-harvest-worth"),
)
