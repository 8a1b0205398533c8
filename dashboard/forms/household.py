"""The household in one short form: language, people, measures, altitude and gauge, each an ordinary setting."""

from __future__ import annotations

import re
import uuid
from collections.abc import Mapping

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.elements import dcc, html
from dashboard.parts.alive import Box
from dashboard.words import LANGUAGES, Words
from ledger.door import Answers, Entry, Written

__all__ = ["CHOSEN", "TOLD", "household_form", "is_told", "write_household"]

TOLD = ("language", "people", "measures", "altitude", "gauge")
"""Settings that the form holds, in its order."""
_USUAL = {"language": "en", "measures": "us"}
_UNIT = {"us": "ft", "uk": "ft", "metric": "m"}
_CHOICES = {
    "language": tuple(LANGUAGES),
    "measures": ("us", "metric", "uk"),
    "gauge": ("dial", "weighted"),
}
CHOSEN = tuple(_CHOICES)
"""Those that are chosen by a chip, and not typed."""


def held(data: Data) -> dict[str, str]:
    """Return what holds now of the form's settings, empty where nothing was said."""
    catalogue = data.book.catalogue()
    return {name: catalogue.setting(name) or _USUAL.get(name, "") for name in TOLD}


def is_told(ask: Ask) -> bool:
    """Return whether any of the form's settings was said."""
    catalogue = ask.data.book.catalogue()
    return any(catalogue.setting(name) for name in TOLD)


def household_form(ask: Ask) -> Component:
    """Return the form, filled with what holds now."""
    words, now = ask.words, {**held(ask.data), **_proposed(ask)}
    example = {"people": "4", "altitude": words(f"begin.altitude_{now['measures']}")}
    fields = [
        _picked(words, name, now[name])
        if name in _CHOICES
        else _typed(words, name, now[name], example[name])
        for name in TOLD
    ]
    return html.Div(
        [
            dcc.Store(id="house-id", data=str(uuid.uuid4())),
            *fields,
            html.P(words("begin.altitude_why"), className="quiet small"),
            html.Div(
                html.Button(
                    words("begin.write"), id="house-write", type="button", className="button wide",
                    n_clicks=0,
                ),
                className="stick",
            ),
        ],
        className="house",
    )  # fmt: skip


def _proposed(ask: Ask) -> dict[str, str]:
    """Return what is marked where nothing was said yet: kilograms where another language than English is spoken."""
    known = ask.data.book.catalogue()
    spoken = ask.words.language
    proposed = {"language": spoken, "measures": "metric"} if spoken != "en" else {}
    return {name: value for name, value in proposed.items() if not known.setting(name)}


def _typed(words: Words, name: str, value: str, example: str) -> Component:
    box = Box(
        id=f"house-{name}", label=words(f"begin.{name}"), value=value, placeholder=example,
        inputMode="numeric" if name == "people" else None, autoComplete="off",
    )  # fmt: skip
    return html.Div(box, className="ask-one")


def _picked(words: Words, name: str, value: str) -> Component:
    chips = [
        html.Button(
            words(f"begin.{name}_{one}"), type="button", className="chip", disable_n_clicks=True,
            **{"data-sets": f"house-{name}", "data-text": one, "aria-pressed": str(one == value).lower()},
        )
        for one in _CHOICES[name]
    ]  # fmt: skip
    return html.Div(
        [
            html.Div(words(f"begin.{name}"), id=f"label-{name}", className="box-label"),
            dcc.Store(id=f"house-{name}", data=value),
            html.Div(chips, className="chips", role="group", **{"aria-labelledby": f"label-{name}"}),
        ],
        className="ask-one",
    )  # fmt: skip


def write_household(data: Data, said: Mapping[str, str | None], id: str) -> list[Written]:
    """Write what was said and differs from what holds; all of it or nothing.

    Parameters
    ----------
    data : Data
    said : mapping of str to str or None
        By setting; a height without a unit is in the feet or metres of the measures.
    id : str
        Of the form: sent twice, it writes once.

    Raises
    ------
    LedgerError
        When a value cannot be one, or the book cannot be written to.
    """
    now = held(data)
    measures = said.get("measures") or now["measures"]
    entries = []
    for name in TOLD:
        value = (said.get(name) or "").strip()
        if name == "altitude" and re.fullmatch(r"\d+([.,]\d+)?", value):
            value = f"{value} {_UNIT.get(measures, 'ft')}"
        if not value or value == now[name]:
            continue
        own = str(uuid.uuid5(uuid.UUID(id), name))
        body = {"name": name, "value": value}
        entries.append(Entry("setting_changed", body, on=data.today().isoformat(), id=own))
    return data.book.enter_all(entries, Answers()) if entries else []
