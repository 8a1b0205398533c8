"""What is wanted otherwise: sliders whose values stand in the address, and what they ask."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.parts.alive import Slide
from dashboard.parts.choices import drawn_with
from dashboard.parts.keeping import named, spoken
from ledger.projections import Answer

__all__ = ["asked_otherwise", "jars_wanted", "sliders", "wants_of"]

_PREFIX = "want:"
_JARS = 8
"""Things in jars at once."""
_SHOWN = 6
"""Sliders of each sort at once; the others are folded away."""


def asked_otherwise(query: Mapping[str, str]) -> list[str]:
    """Return the names of an address's choices that want something otherwise."""
    return [key for key in query if key.startswith(_PREFIX)]


def wants_of(query: Mapping[str, str], levers: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """Return what an address wants otherwise, as next-season's ``want`` takes it.

    Parameters
    ----------
    query : mapping of str to str
        ``want:tomato sauce`` to ``60``, or to an amount with its unit.
    levers : mapping
        Totals' ``wanted`` of the answer without any wish: number and unit by item.
    """
    out = []
    for key in asked_otherwise(query):
        item, said = key.removeprefix(_PREFIX), query[key].strip()
        lever = levers.get(item)
        if lever is not None and _number(said) is not None:
            said = "0" if not _number(said) else f"{said} {_unit(lever['unit'], _number(said))}"
        out.append(f"{item}={said}")
    return out


def _number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _unit(unit: str, number: float | None) -> str:
    return f"{unit}s" if unit.endswith("jar") and number != 1 else unit


def _said_unit(ask: Ask, lever: Mapping[str, Any], number: float) -> str:
    return ask.words.word("answers", _unit(lever["unit"], number))


def sliders(ask: Ask, levers: Mapping[str, Mapping[str, Any]]) -> Iterator[Component]:
    """Yield a slider for each thing wanted: what is made of the crops, then the crops themselves."""
    words = ask.words
    for sort in ("made", "crop"):
        several = [(i, lever) for i, lever in levers.items() if lever["sort"] == sort]
        if not several:
            continue
        made = [_slider(ask, item, lever) for item, lever in several]
        yield html.H3(words(f"next_season.sort_{sort}"))
        yield html.Div(made[:_SHOWN], className="levers")
        if made[_SHOWN:]:
            summary = html.Summary(words("next_season.more", n=len(made) - _SHOWN))
            moved = any(f"{_PREFIX}{item}" in ask.query for item, _ in several[_SHOWN:])
            yield html.Details([summary, html.Div(made[_SHOWN:], className="levers")], open=moved)


def jars_wanted(ask: Ask, levers: Mapping[str, Mapping[str, Any]], answer: Answer) -> Component:
    """Return what is wanted in jars, each with a link for one less and one for one more.

    Parameters
    ----------
    ask : Ask
    levers : mapping
        Totals' ``wanted`` of the answer without any wish.
    answer : Answer
        The plan, whose plants are told beside the jars of a crop by itself.
    """
    rows = [
        _jars(ask, item, lever)
        for item, lever in levers.items()
        if lever["sort"] == "made" and lever["unit"].endswith("jar")
    ]
    del answer
    if not rows:
        return html.P(ask.words("next_season.no_jars"), className="under")
    parts: list[Component] = [html.Ul(rows[:_JARS], className="rows levers")]
    if rows[_JARS:]:
        summary = html.Summary(ask.words("next_season.more", n=len(rows) - _JARS))
        parts.append(html.Details([summary, html.Ul(rows[_JARS:], className="rows levers")]))
    return html.Div(parts)


def _jars(ask: Ask, item: str, lever: Mapping[str, Any]) -> Component:
    words, name = ask.words, f"{_PREFIX}{item}"
    said = ask.query.get(name)
    asked = None if said is None else _number(said)
    value = round(lever["number"]) if asked is None else max(0, round(asked))
    note = words(f"next_season.by_{'asked' if said is not None else lever['source']}")
    unit = _said_unit(ask, lever, value)

    def step(by: int, mark: str) -> Component:
        told = words(f"next_season.one_{mark}", item=item)
        return html.A(
            html.I(className=f"ic ic-{'minus' if by < 0 else 'plus'}", **{"aria-hidden": "true"}),
            href=ask.link(**{name: str(max(0, value + by))}), className="round",
            **{"aria-label": told, "data-goes": "1"},
        )  # fmt: skip

    count = html.Span(
        [step(-1, "less"), html.B(words.number(value, 6)), step(1, "more")], className="pm"
    )
    what = html.Div(
        [
            html.B(named(spoken(item))),
            html.Br(),
            html.Span(f"{unit}, {note}", className="quiet"),
        ]
    )
    return html.Li([what, count], className="lever")


def _slider(ask: Ask, item: str, lever: Mapping[str, Any]) -> Component:
    words = ask.words
    usual = lever["number"]
    said = ask.query.get(f"{_PREFIX}{item}")
    asked = None if said is None else _number(said)
    value = round(usual) if asked is None else max(0, round(asked))
    most = max(10, 2 * math.ceil(usual), math.ceil(value))
    shown = words("next_season.amount", n=words.number(value), unit=_said_unit(ask, lever, value))
    source = "asked" if said is not None else lever["source"]
    note = words(f"next_season.from_{source}")
    if said is not None:
        note = words("next_season.instead", n=words.number(usual))
    return html.Div(
        [
            html.Div([html.Span(spoken(item)), ": ", html.B(shown), html.Span(f" {note}", className="quiet")]),
            Slide(
                id={"choice": f"{_PREFIX}{item}"}, min=0, max=most, step=1 if most <= 200 else 5,
                value=value, **drawn_with(value),
                **{"aria-label": words("next_season.slider", item=item, unit=_said_unit(ask, lever, 2))},
            ),
        ],
        className="slider",
    )  # fmt: skip
