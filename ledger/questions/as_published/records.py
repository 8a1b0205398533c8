"""Batches and lots of a book, as the published tables want them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ledger.items import item_key
from ledger.messages import Day, sentence
from ledger.published import (
    FIRST,
    BatchDone,
    Doubt,
    Finding,
    Judgement,
    batch_of,
    doubts_of,
    has_verdict,
    verdict_of,
)
from ledger.published.judging import CANNING
from ledger.published.words import fixed
from ledger.questions.shared.common import grams_of_line
from ledger.questions.shared.gauges import GaugeOff, gauge_tests, off_of, with_gauge
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.shared.stands import Standing
    from ledger.replay import State

__all__ = [
    "batch_done",
    "batches",
    "doubts_before",
    "first_caution",
    "has_judgement",
    "judged",
    "judgement_of",
    "schedules_of",
    "with_parts",
]


def schedules_of(state: State) -> dict[str, str]:
    """Return the schedule that each recipe names, by the recipe's key: the same dict while they do."""
    out: dict[str, str] = {}
    for _, body in state.bodies("recipe_written"):
        if body.get("schedule"):
            out[item_key(body["recipe"])] = str(body["schedule"])
    kept: dict[str, str] = state.lasting(schedules_of).setdefault("now", out)
    if kept != out:
        kept = state.lasting(schedules_of)["now"] = out
    return kept


def batches(state: State) -> list[tuple[int, dict[str, Any]]]:
    """Return (event, body) of every batch that gets a verdict, in order.

    Canned, or of a method that tables hold figures for; and every batch, however made, that left a
    closed jar outside fridge and freezer, or stands in oil.
    """
    return state.once(_batches)


def _batches(state: State) -> list[tuple[int, dict[str, Any]]]:
    evs = state.events("put_up").tolist()
    judged = state.journal.of_bodies(evs, has_judgement)
    return [(ev, state.body(ev)) for ev, is_so in zip(evs, judged, strict=True) if is_so]


def has_judgement(body: Mapping[str, Any]) -> bool:
    """Return whether a batch gets a verdict."""
    return body["method"] in CANNING or has_verdict(batch_of(body))


def batch_done(
    state: State, ev: int, body: Mapping[str, Any], schedules: Mapping[str, str]
) -> BatchDone:
    """Return a batch with the household's altitude and gauge of that day, weights, and its true pressure."""
    recipe = body.get("recipe") or body["makes"]
    on = schedules.get(item_key(str(recipe))), off_of(state, ev, body)
    known = state.lasting(batch_done).get(ev)
    if known is None or known[:2] != on:
        known = state.lasting(batch_done)[ev] = *on, _batch_done(state, ev, body, *on)
    done: BatchDone = known[2]
    return done


def _batch_done(
    state: State, ev: int, body: Mapping[str, Any], schedule: str | None, off: GaugeOff | None
) -> BatchDone:
    day = int(state.moment.on[ev])
    batch = batch_of(
        body,
        altitude=state.settings.on("altitude", day),
        gauge=state.settings.on("gauge", day),
        schedule=schedule,
        grams=lambda line: _grams(state, line),
    )
    return batch if off is None else replace(batch, psi=off.psi)


def _grams(state: State, line: Mapping[str, Any]) -> float | None:
    return grams_of_line(state, state.facts.find(line["item"]), line)


def judgement_of(
    state: State, ev: int, body: Mapping[str, Any], schedules: Mapping[str, str]
) -> Judgement:
    """Return a batch beside what is published, at the true pressure of its gauge."""
    tests, kept = state.once(gauge_tests), state.lasting(judgement_of)
    known = kept.get(ev)
    if known is None or known[0] is not schedules or known[1] is not tests:
        done = batch_done(state, ev, body, schedules)
        found = known[3] if known is not None and known[2] is done else None
        if found is None:
            found = with_gauge(judged(done), off_of(state, ev, body))
        known = kept[ev] = schedules, tests, done, found
    judgement: Judgement = known[3]
    return judgement


def with_parts(found: Judgement, part: Standing | None) -> Judgement:
    """Return a judgement that is never better than the jars that went into the batch."""
    if part is None or not part.is_marked:
        return found
    text = sentence(
        "finding-made-of",
        item=part.item,
        day=Day(day_text(part.day)),
        standing=fixed(part.standing),
    )
    one = Finding("ingredients", None, part.item, part.standing, text)
    return replace(found, findings=(one, *found.findings))


def judged(batch: BatchDone) -> Judgement:
    """Return a batch beside what is published for its method."""
    return verdict_of(batch)


def first_caution(state: State) -> str | None:
    """Return the cautions to show once: before the book holds a canning batch; else None."""
    canned = any(body["method"] in CANNING for _, body in batches(state))
    return None if canned else FIRST


def doubts_before(state: State, body: Mapping[str, Any], day: int) -> list[Doubt]:
    """Return what to ask before a batch is written down: slips of a digit by published figures.

    Parameters
    ----------
    state : State
        The book as it is.
    body : mapping
        Of the ``put_up``, its lines with `whole` where they are known.
    day : int
        When it was put up (days since 1970).
    """
    from ledger.door import jars_per_load

    loads = jars_per_load(state.settings.on("jars_per_load", day))
    weights = [_grams(state, line) for line in body.get("used", ())]
    kcal = 0.0
    for line, grams in zip(body.get("used", ()), weights, strict=True):
        item = state.facts.find(line["item"])
        per = None if item is None else state.facts.kcal_per_gram(item)
        kcal += (grams or 0.0) * (per or 0.0)
    made = state.facts.find(body["makes"])
    each = [grams_of_line(state, made, one) for one in body.get("made", ())]
    weighed = [grams for grams in each if grams is not None]
    grams_made = sum(weighed) if weighed and len(weighed) == len(each) else None
    batch = batch_of(body, grams=lambda line: _grams(state, line))
    return doubts_of(batch, loads=loads, kcal=kcal, grams_made=grams_made)
