"""Was that batch processed as a published, tested table says; and how is it published?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ledger.errors import NotFound
from ledger.messages import Message, Typed, joined, sentence
from ledger.projections.base import Answer, Assumption, Column, Option, Projection
from ledger.published import (
    SHORT,
    Danger,
    Finding,
    Judgement,
    after_batch,
    batch_as_typed,
    caution_before,
    caution_for,
    unsealed_jars,
)
from ledger.questions.as_published import asked as published_ask
from ledger.questions.as_published import why as published_why
from ledger.questions.as_published.figures import figures
from ledger.questions.as_published.gather import Judged, One
from ledger.questions.as_published.records import batches, judgement_of, schedules_of
from ledger.questions.as_published.words import below, counted
from ledger.questions.shared.common import answer
from ledger.questions.shared.standing import standings
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`; null for a question."),
    Column("on", "Day", "day", "When it was put up; null for a question.", main=True),
    Column("item", "Item", "", "What was made, as the household calls it.", main=True),
    Column("product", "Published product", "", "What it was compared with; null where none or several fit."),
    Column("schedule", "Schedule", "", "The printed line compared with; null where none or several fit."),
    Column("standing", "Standing", "", "The gravest kind among the findings.", main=True),
    Column("batch", "Batch", "", "Id of the batch's entry; null for a question.", main=True),
    Column("published.minutes", "Published minutes", "minutes", "As printed; null where nothing is, or it depends."),
    Column("published.psi", "Published pressure", "psi", "As printed; null for boiling water."),
    Column("published.headspace_in", "Published headspace", "in", "As printed, in inches."),
    Column("published.acid", "Published acid", "", "For each jar, any one of them; null where none is asked for."),
    Column("done.minutes", "Minutes", "minutes", "As written down; null is not recorded."),
    Column("done.psi", "Pressure", "psi", "As written down."),
    Column("done.headspace_in", "Headspace", "in", "As written down, in inches."),
    Column("done.acid", "Acid", "", "As written down."),
    Column("findings", "Findings", "", "Field by field: published, done, kind and text."),
    Column("text", "What was found", "", "What is not as published, in words."),
    Column("advice", "What to do", "", "As the documents say it, each with its document."),
    Column("source", "Source", "", "Documents of the published figures."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_QUESTION = ("product", "jar", "pack", "method", "gauge", "altitude")


def build(
    state: State,
    *,
    batch: str | None = None,
    item: str | None = None,
    freezer_off: str | None = None,
    keeping: bool = False,
    **question: str | None,
) -> Answer:
    """Return one record a batch; or, with a question, one record a whole printed process.

    Parameters
    ----------
    state : State
    batch : str, optional
        Only the batch whose entry id begins so.
    item : str, optional
        Only what makes this item.
    freezer_off : str, optional
        ``30 h``: what the chart for a power cut says of each lot in the freezer.
    keeping : bool
        What the charts say of keeping each lot that is left.
    **question
        ``product, jar, pack, method, gauge, altitude``: how is it published?

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When an altitude or a time cannot be read, or a question names no product.
    NotFound
        When there is no such batch.
    """
    assumptions = [Assumption("caution", SHORT)]
    grave: list[str] = []
    if freezer_off:
        records, totals = published_ask.power_cut(state, freezer_off)
    elif keeping:
        records, totals = published_ask.keeping(state)
    elif any(question.get(name) for name in _QUESTION):
        records, totals, more = published_ask.question(state, question)
        assumptions += more
        printed = any(record.get("schedule") for record in records)
        method = question.get("method") or (None if printed else "boiling water")
        typed = batch_as_typed({"makes": question.get("product"), "method": method, "acid": True})
        grave = [said] if (said := caution_before(typed)) else []
    else:
        records, grave, more = _batches(state, batch, item)
        assumptions += more
        totals = counted([record["standing"] for record in records])
    ids = [one.id for one in assumptions]
    assumptions = [Assumption("low-acid", one, stands_first=True) for one in grave] + assumptions
    for record in records:
        record.setdefault("assumptions", ids)
    return answer(state, "as-published", COLUMNS, records, totals=totals, assumptions=assumptions)


def _batches(
    state: State, batch: str | None, item: str | None
) -> tuple[list[dict[str, Any]], list[str], list[Assumption]]:
    wanted = None if item is None else state.facts.find(item)
    schedules, set_by = schedules_of(state), False
    chosen: list[One] = []
    grave: list[tuple[Danger, bool]] = []
    there = (
        set() if batch else set(state.lots["ev"][published_ask.with_something_left(state)].tolist())
    )
    every = batches(state)
    if batch is None and item is None:
        state.once(standings).look_behind([ev for ev, _ in every])
    for ev, body in every:
        entry = state.entry_id(ev)
        if batch is not None and not entry.startswith(batch):
            continue
        if item is not None and (wanted is None or state.facts.find(body["makes"]) != wanted):
            continue
        found = judgement_of(state, ev, body, schedules)
        chosen.append(One(ev, body, found, state.once(standings).made_of(ev)))
        if (danger := found.danger) is not None:
            # what is to be done within two hours is not for a later day, nor for what is eaten up
            grave.append((danger, int(state.moment.on[ev]) < state.as_of_day and ev not in there))
        set_by = set_by or not body.get("altitude")
    if batch is not None and not chosen:
        _check_batch(state, batch)
    return (
        _records(state, chosen),
        _cautions(grave),
        published_ask.settings_used(state) if set_by else [],
    )


def _check_batch(state: State, batch: str) -> None:
    """Refuse an id that no batch begins with; one that tables hold nothing for is there all the same."""
    if not any(state.entry_id(ev).startswith(batch) for ev in state.events("put_up").tolist()):
        raise NotFound("batch", Message.of("refusal-no-such-batch", text=Typed(batch)))


def _cautions(several: list[tuple[Danger, bool]]) -> list[str]:
    """Return a caution for each sort of danger, its foods named once, the gravest first.

    Short of a sort all of which is over.
    """
    sorts: dict[Danger, dict[str, None]] = {}
    lasting: set[Danger] = set()
    for one, is_over in sorted(
        several, key=lambda pair: (pair[0].pressure, pair[0].oil, pair[0].acid, pair[0].ruled_out)
    ):
        sort = replace(one, names=(), against=True)
        sorts.setdefault(sort, {}).update(dict.fromkeys(one.names))
        if not is_over or sort.oil:
            lasting.add(sort)
    said = [
        caution_for(replace(sort, names=tuple(names)), short=sort not in lasting)
        for sort, names in sorts.items()
    ]
    return [one for one in said if one]


def _records(state: State, chosen: Sequence[One]) -> list[dict[str, Any]]:
    """Return the record of each batch, kept as long as nothing that it follows from is another."""
    kept, day = state.lasting(_records), state.as_of_day
    fresh = [one for one in chosen if not _lasts(kept.get(one.ev), one, day)]
    judged = Judged(state, fresh)
    known = figures(judged)
    for row, one in enumerate(fresh):
        told = {name: _told(figure.told(row)) for name, figure in known.items()}
        kept[one.ev] = one, day, _record(state, one, judged.found[row], told)
    return [dict(kept[one.ev][2]) for one in chosen]


def _lasts(known: tuple[One, int, dict[str, Any]] | None, one: One, day: int) -> bool:
    return (
        known is not None
        and known[0].found is one.found
        and known[0].part == one.part
        and known[1] == day
    )


def _told(value: float | str | None) -> float | str | None:
    """Return a figure for an answer, whole where it is."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _record(state: State, one: One, found: Judgement, told: dict[str, Any]) -> dict[str, Any]:
    entry, day, body = state.entry_id(one.ev), int(state.moment.on[one.ev]), one.body
    days = state.as_of_day - day
    advice = after_batch(found, days * 24.0 if days > 0 else None) if _canned(body) else []
    if not advice and _canned(body) and any(made.get("unsealed") for made in body["made"]):
        advice = unsealed_jars()
    return {
        "why": f"as-published/{entry}",
        "batch": entry,
        "on": day_text(day),
        "item": body["makes"],
        "product": found.product,
        "schedule": found.schedule,
        **told,
        "findings": [finding(each) for each in found.findings],
        "text": _text(found),
        "advice": [
            sentence("published-with-source", text=each.text, source=each.source) for each in advice
        ],
        "source": "; ".join(found.sources) or None,
    }


def _canned(body: Mapping[str, Any]) -> bool:
    return body["method"] in ("boiling water", "pressure")


def _text(found: Judgement) -> str:
    telling = [one.text for one in found.findings if one.kind != "as published"]
    return joined(" ", [found.summary, *telling])


def finding(one: Finding) -> dict[str, Any]:
    """Return a finding as in ``--json``."""
    return {
        "field": one.field,
        "published": one.published,
        "done": one.done,
        "kind": one.kind,
        "text": one.text,
    }


PROJECTION = Projection(
    name="as-published",
    title="As published",
    question="Was that batch processed as a published, tested table says; and how is it published?",
    columns=COLUMNS,
    build=build,
    dated="on",
    why=published_why.why,
    below=below,
    options=(
        Option("product", "how is this published", '"green beans"'),
        Option("jar", "in which jar", '"quart jar"'),
        Option("pack", "hot or raw pack", "hot", choices=("hot", "raw")),
        Option("method", "by which method", "pressure", choices=("boiling water", "pressure")),
        Option("gauge", "with which gauge; else the setting", "dial", choices=("dial", "weighted")),
        Option("altitude", "at which altitude; else the setting", '"2600 ft"'),
        Option("item", "only batches that make this item", '"plum butter"'),
        Option("batch", "only this batch (the beginning of its id)", "5f0c0a0e"),
        Option("freezer_off", "the freezer was off: for how long", '"30 h"'),
        Option(
            "keeping",
            "how long what is left keeps by the published charts",
            "--keeping",
            kind="flag",
        ),
    ),
)
