"""Questions to the published tables: how is it published, and what of a stopped freezer?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message, joined, measured, sentence
from ledger.messages import fixed as word
from ledger.messages.units import amount
from ledger.projections.base import Assumption
from ledger.published import (
    Before,
    Process,
    altitude_ft,
    before_batch,
    freezer_off,
    holds_for,
    hours_of,
    label,
)
from ledger.published.words import acid_text, fixed, plain, says
from ledger.questions.as_published.words import documents, process_words
from ledger.questions.shared.common import LISTED_FROM
from ledger.questions.shared.keeping import keeping_of
from ledger.replay import KEPT
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["keeping", "power_cut", "question", "settings_used", "with_something_left"]


def settings_used(state: State) -> list[Assumption]:
    """Return the altitude and gauge that are set, as assumptions with their events."""
    out = []
    for name in ("altitude", "gauge"):
        value = state.settings.newest(name)
        if value is not None:
            said = (
                sentence("published-altitude-set", altitude=measured(value))
                if name == "altitude"
                else sentence("published-gauge-set", gauge=fixed(value))
            )
            events = tuple(
                state.event_id(ev)
                for ev, body in state.bodies("setting_changed")
                if body["name"] == name
            )
            out.append(Assumption(f"{name}-set", said, events))
    return out


def question(
    state: State, asked: Mapping[str, str | None]
) -> tuple[list[dict[str, Any]], dict[str, Any], list[Assumption]]:
    """Return records, totals and assumptions of "how is it published?"."""
    product = asked.get("product")
    if not product:
        raise InputError(
            "product", Message.of("refusal-missing"), Message.of("refusal-name-product")
        )
    height = asked.get("altitude") or state.settings.newest("altitude")
    gauge = asked.get("gauge") or state.settings.newest("gauge")
    found = before_batch(
        product,
        jar=asked.get("jar"),
        pack=asked.get("pack"),
        method=asked.get("method"),
        gauge=gauge,
        altitude_ft=altitude_ft(height),
    )
    records = [_process(product, one, found) for one in found.processes]
    if not records:
        records = [_none(product, found)]
    totals: dict[str, Any] = {
        "in_words": process_words(found),
        "needs": {one.what: _with_source(one.amount, one.source) for one in found.needs},
        "steps": {str(n): _with_source(s.text, s.source) for n, s in enumerate(found.steps, 1)},
        "questions": {f"? {n}": text for n, text in enumerate(found.questions, 1)},
    }
    notes = [Assumption(f"note-{n}", text) for n, text in enumerate(found.notes, 1)]
    from_set = not asked.get("altitude") or not asked.get("gauge")
    return records, totals, [*notes, *(settings_used(state) if from_set else [])]


def _with_source(text: str, source: str) -> str:
    return sentence("published-with-source", text=text, source=source)


def _process(product: str, one: Process, found: Before) -> dict[str, Any]:
    line, only_as = one.schedule, found.only_as
    text = found.said(one)
    if only_as:  # the product before its figures: they hold for nothing else
        text = joined("", (only_as, " ", label(line.product), ": ", one.text))
    kind = "as published" if one.confirmed else "not recorded"
    figures: dict[str, Any] = {
        "minutes": one.minutes,
        "psi": one.psi,
        "headspace_in": plain(one.headspace_in),
        "acid": acid_text(line),
    }
    return {
        "item": label(line.product) if only_as else product,
        "product": label(line.product),
        "schedule": line.id,
        "standing": word("printed" if one.confirmed else "not confirmed, look it up", "standing"),
        **{f"published.{name}": value for name, value in figures.items()},
        "findings": [
            {"field": "process", "published": line.id, "done": None, "kind": kind, "text": text}
        ],
        "text": text,
        "advice": [],
        "source": one.where,
    }


def _none(product: str, found: Before) -> dict[str, Any]:
    fit = found.match.candidates
    said = (*([found.only_as] if found.only_as else []), *found.questions)
    text = joined(" ", said) or sentence("published-none-printed")
    is_open = bool(fit) and says(text, "finding-at-what-altitude")
    field = "altitude" if is_open else "product"
    kind = "not recorded" if is_open else "no published process"
    finding = {"field": field, "published": None, "done": product, "kind": kind, "text": text}
    return {
        "item": product,
        "product": label(fit[0]) if len(fit) == 1 else None,
        "standing": kind,
        "findings": [finding],
        "text": text,
        "advice": [],
    }


def keeping(state: State) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """Return one record a lot with something left: the published period for it, with its source."""
    records = []
    for lot in with_something_left(state):
        found = keeping_of(state, lot)
        kept = KEPT[int(state.lots["kept"][lot])] if state.lots["kept"][lot] >= 0 else None
        span = None if found is None else found.span
        text = (
            sentence("published-nothing-held")
            if found is None
            else joined("", [amount(found.span), ": ", found.text, "."])
        )
        records.append(
            {
                "why": f"shelf/{state.lot_id(lot)}",
                "on": day_text(int(state.lots["day"][lot])),
                "item": state.facts.names[int(state.lots["item"][lot])],
                "standing": amount(span) if span else word("nothing published", "standing"),
                "findings": [
                    {
                        "field": "storage",
                        "published": span,
                        "done": kept,
                        "kind": "not recorded" if span else "no published process",
                        "text": text,
                    }
                ],
                "text": text,
                "advice": [],
                "source": None if found is None else found.source,
            }
        )
    return records, {"in_words": documents(records)}


def with_something_left(state: State) -> list[int]:
    """Return lots of food that are listed on the shelf."""
    least = np.array([LISTED_FROM[m] for m in state.facts.measure])
    rows = np.flatnonzero(state.left > 0).tolist()
    return [
        lot
        for lot in rows
        if state.left[lot] >= max(int(least[state.lots["item"][lot]]), 1)
        and state.facts.facts[int(state.lots["item"][lot])].sort in (None, "food")
    ]


def power_cut(state: State, text: str) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """Return one record for each lot in the freezer, by the published chart."""
    hours = hours_of(text)
    freezer = KEPT.index("freezer")
    rows = [lot for lot in with_something_left(state) if state.lots["kept"][lot] == freezer]
    names = [state.facts.names[int(state.lots["item"][lot])] for lot in rows]
    records = []
    for lot, one in zip(rows, freezer_off(hours, names) if names else [], strict=True):
        found = {
            "field": "freezer",
            "published": one.kind,
            "done": text,
            "kind": "not recorded" if one.kind else "no published process",
            "text": one.text,
        }
        records.append(
            {
                "why": f"shelf/{state.lot_id(lot)}",
                "item": one.item,
                "standing": word("look at each package", "standing"),
                "findings": [found],
                "text": one.text,
                "advice": [],
                "source": one.source,
            }
        )
    held = holds_for(hours)
    said = _with_source(held.text, held.source)
    return records, {"freezer off": said, "in_words": [said, *documents(records)]}
