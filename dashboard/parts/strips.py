"""Choices of a few as chips in a row: links, as each stands in the address and can be sent."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html

__all__ = ["strip", "switch"]

_AT_ONCE = 30
"""Chips seen at once; the others are folded."""


def strip(
    ask: Ask,
    name: str,
    label: str,
    chosen: str,
    options: Sequence[tuple[str, str]],
    *,
    leave: Sequence[str] = (),
) -> Component | None:
    """Return chips of which one is chosen; None where there is nothing to choose between.

    Parameters
    ----------
    ask : Ask
    name : str
        The choice's name in the address.
    label : str
        What is chosen, for those who hear the page.
    chosen : str
        The value that holds.
    options : sequence of (value, text)
        What is chosen most first; the value that the page has by itself may be empty.
    leave : sequence of str
        Other choices that mean nothing any more once this one changes.
    """
    if len(options) < 2:
        return None
    other: dict[str, str | None] = dict.fromkeys(leave)
    chips = [
        html.Li(
            html.A(
                text,
                href=ask.link(**other, **{name: value}),
                className="chip",
                **{"data-goes": "1", **({"aria-current": "true"} if value == chosen else {})},
            )
        )
        for value, text in options
    ]
    at = next((n for n, (value, _) in enumerate(options) if value == chosen), 0)
    if at >= _AT_ONCE:  # what is chosen is seen
        chips.insert(0, chips.pop(at))
    rest = chips[_AT_ONCE:]
    parts: list[Any] = [
        html.Ul(chips[:_AT_ONCE], className="strip", role="list", **{"aria-label": label})
    ]
    if rest:
        summary = html.Summary(ask.words("strip.more", n=len(rest)))
        parts.append(
            html.Details(
                [summary, html.Ul(rest, className="chips", role="list", **{"aria-label": label})]
            )
        )
    return html.Div(parts)


def switch(
    ask: Ask, name: str, value: str, label: str, note: str = "", *, is_on: bool = True
) -> Component:
    """Return a switch: a link that turns it, as what it says stands in the address.

    Parameters
    ----------
    ask : Ask
    name, value : str
        Its name in the address, and what that says when it is not as it is by itself.
    label, note : str
        What is on, and a quieter word behind it.
    is_on : bool
        How it is by itself.
    """
    is_turned = ask.query.get(name) == value
    shows_on = is_on != is_turned
    inside = [
        html.I(className="knob", **{"aria-hidden": "true"}),
        html.Span([html.B(label), " ", html.Span(note, className="quiet")]),
        html.Span(ask.words("strip.on" if shows_on else "strip.off"), className="heard"),
    ]
    href = ask.link(**{name: None if is_turned else value})
    return dcc.Link(inside, href=href, className="switch" if shows_on else "switch off")
