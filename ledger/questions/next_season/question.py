"""What to grow next season: jars and plates wanted, back to pounds, plants and beds."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from ledger.messages import sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.next_season import preserving as next_preserving
from ledger.questions.next_season.says import chance_words
from ledger.questions.next_season.whole import Whole
from ledger.questions.next_season.why import FIGURES, why
from ledger.questions.next_season.words import Words
from ledger.questions.planning.asked import AIMS, asked_of
from ledger.questions.planning.graded import plant_grades
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.shared.common import answer
from ledger.questions.shared.usual_plan import plan_of

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("crop", "Crop", "", "What grows; all its varieties together.", main=True),
    Column("jars_wanted", "Jars", "jars", "Jars a year of everything in jars that the crop goes into, much or little; by the targets, else as many as were eaten and given away in the last 365 days. Null where it goes into none.", main=True),
    Column("fresh_wanted_g", "Fresh", "g", "Wanted a year as it is, eaten, given away or kept for seed, trimmed; null where no weight of the crop is known."),
    Column("into_jars_g", "Into jars", "g", "What those jars take of it, trimmed."),
    Column("otherwise_g", "Otherwise", "g", "What everything else that is made takes of it, trimmed: frozen, dried, fermented, cooked."),
    Column("trimmed_share", "Trimmed", "0 to 1", "Part of what was picked that was trimmed off, in all seasons so far."),
    Column("needed_g.low", "Needed at least", "g", "As picked, in the year of least use and with the batches that took least."),
    Column("needed_g.likely", "Needed (g)", "g", "As picked: (fresh + into jars + otherwise) / (1 - trimmed). Null where no weight of the crop is known."),
    Column("needed_g.high", "Needed at most", "g", "As picked, in the year of most use and with the batches that took most."),
    Column("needed", "Needed", "", "What is likely needed, in words.", main=True),
    Column("yield_g.low", "Yield missed once in ten", "g a plant", "What one plant gives at least in nine years of ten, failed ones counted, against a need that differs, too; null where the yield is not known."),
    Column("yield_g.likely", "Yield", "g a plant", "What one plant gives as often as not in a season that does not fail; of a metre of row or a square metre where plants were never counted; of a whole season where nothing says how much was planted."),
    Column("yield_of", "Yield of", "", "plant, metre of row, square metre or whole season."),
    Column("yield_from", "Yield from", "", "own seasons, published yields, or both, weighed; null where neither tells."),
    Column("own_seasons", "Own seasons", "seasons", "How many finished seasons of one's own could be used."),
    Column("published_from", "Published by", "", "Where the published yield was read; null where none is."),
    Column("plants.likely", "Plants", "plants", "For an even chance; null where plants were never counted or the yield is not known.", main=True),
    Column("plants.nine_in_ten", "9 in 10", "plants", "For nine years in ten, failed ones counted; always a number where the yield is known.", main=True),
    Column("plants.planned", "Planned", "plants", "Those that the beds get, or that stand already; null where no bed is known."),
    Column("row_m", "Row", "m", "Length of row for an even chance, as the crop was planted before; null where rows were never measured."),
    Column("area_m2", "Ground", "m2", "Ground for an even chance, as the crop was spaced before; null where ground and plants were never written down together."),
    Column("ground", "Ground", "", "The same, in words.", main=True),
    Column("spacing_from", "Spacing from", "", "own plantings, or null: no published spacing is reckoned with."),
    Column("bed", "Bed", "", "Where it goes, the bed with most of it first; null where it could not be fitted.", main=True),
    Column("in_beds", "In beds", "", "How many plants (else how much row or ground) in each bed."),
    Column("short_g", "Short", "g", "What is likely lacking of the needed; null where not known."),
    Column("fails", "Fails", "0 to 1", "Chance of a season that brings nothing at all: its own, and half of what the other crops say; null where the yield is not known."),
    Column("chance_short", "Chance short", "0 to 1", "Chance of a season that brings less than is needed, from the plants planned, yields and needs both differing; null where the yield is not known."),
    Column("chance_text", "Chance of\nenough", "", "The chance that it does not, in words.", main=True),
    Column("held_text", "Earlier seasons", "", "Of earlier seasons, how many brought at least the yield that nine of ten should, as it was said before each; null where none was said."),
    Column("because", "Because", "", "What the row rests on, in words."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def build(
    state: State,
    *,
    want: str | Iterable[str] | None = None,
    beds: str | Iterable[str] | None = None,
    rotate: bool = False,
    preserving: bool = False,
    **more: Any,
) -> Answer:
    """Return one record a crop, what is needed most first.

    Parameters
    ----------
    state : State
    want : str or iterable of str, optional
        ``item=amount``: wanted a year instead of the target or last year's use.
    beds : str or iterable of str, optional
        ``bed=area``: ground of a bed instead of what its plantings say; 0 leaves it out.
    rotate : bool
        Keep a crop out of a bed in which its plant family stood the season before.
    preserving : bool
        One record a week and product instead: what is to be put up when.
    **more
        ``for``: what the beds are to bring most of, ``targets`` (default), ``value`` or ``energy``.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`. `totals` has ``season`` (the one planned), ``wanted`` (see
        `ledger.questions.next_season.levers.levers`), ``beds`` (by bed: ``area_m2``, ``free_m2``, and the
        ``crops`` in it with their ground, ``crops_m2``), ``ground_wanted_m2``, ``ground_m2``,
        ``reached`` and ``missing``: sentences.

    Raises
    ------
    InputError
        When an option says nothing that can be reckoned with.
    """
    aim = more.pop("for", None) or more.pop("for_", None)
    if more:
        raise TypeError(f"next-season has no option {next(iter(more))!r}")
    plan = plan_of(state, asked_of(state, want, beds, aim, rotate))
    if preserving:
        return next_preserving.answer_of(plan)
    words = Words(plan)
    records = [_record(plan, words, crop) for crop in plan.crops]
    whole = Whole(plan, words)
    totals = whole.totals()
    totals["in_words"] += _earlier(state, plan, records)
    return answer(
        state, "next-season", COLUMNS, records, totals=totals, assumptions=whole.assumptions(),
    )  # fmt: skip


def _earlier(state: State, plan: Plan, records: list[dict[str, Any]]) -> list[str]:
    """Put beside each crop how many earlier seasons brought at least what was said; say it of all."""
    known = [one for one in plant_grades(state, plan.garden) if one.kind == "yield"]
    for record in records:
        item = state.facts.find(record["crop"])
        held = [bool(one.held) for one in known if one.item == item]
        record["held_text"] = sentence("plan-held", n=sum(held), n2=len(held)) if held else None
    if not known or not records:
        return []
    enough = sum(bool(one.held) for one in known)
    return [sentence("plan-earlier-yields", n=enough, n2=len(known))]


def _record(plan: Plan, words: Words, crop: CropPlan) -> dict[str, Any]:
    growth, ground = crop.growth, crop.value("area_m2")
    in_plants = growth.size == "plants"
    return {
        "why": plan.address(crop.name),
        "crop": crop.name,
        **{name: crop.value(name) for name in FIGURES},
        "needed": words.weight(crop.wanted),
        "yield_of": crop.unit if growth.ahead else None,
        "yield_from": growth.source,
        "own_seasons": len(growth.seasons),
        "published_from": words.published(crop),
        "plants.likely": crop.likely if in_plants else None,
        "plants.nine_in_ten": crop.nine if in_plants else None,
        "plants.planned": crop.placed_plants,
        "ground": words.ground(ground),
        "spacing_from": "own plantings" if growth.space_m2 is not None else None,
        "bed": ", ".join(words.beds(crop)) or None,
        "in_beds": words.in_beds(crop),
        "chance_text": chance_words(crop),
        "because": words.because(crop),
        "assumptions": words.rests_on(crop),
    }


PROJECTION = Projection(
    name="next-season",
    title="Next season",
    question="What must be grown next season for the shelf and the table, and do the beds suffice?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("want", "so much wanted a year instead; may be given again", "'tomato sauce=80 quart jars'", kind="list"),
        Option("for", "what the beds are to bring most of", "value", choices=tuple(AIMS)),
        Option("rotate", "keep a plant family out of the bed it stood in the season before", "--rotate", kind="flag"),
        Option("beds", "so much ground in a bed instead, 0 for none; may be given again", "'east bed=40 sq ft'", kind="list"),
        Option("preserving", "what is to be put up, week by week", "--preserving", kind="flag"),
    ),
    variants={"preserving": next_preserving.COLUMNS},
)  # fmt: skip
