"""What a form asks before it writes: the question, its likely answer, and danger in its own colour."""

from __future__ import annotations

from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.low_acid import caution_parts
from dashboard.forms.writing import LOW_ACID, key_of
from dashboard.parts.alerts import alert
from dashboard.parts.danger import said_of
from ledger.errors import DANGER, NeedsAnswer

__all__ = ["doubt_shown"]


def doubt_shown(ask: Ask, doubt: NeedsAnswer, button: str = "accept") -> Any:
    """Return a doubt with the buttons that answer it.

    Parameters
    ----------
    button : str
        What the id of a button calls the answer: who asks hears its own buttons.
    """
    words = ask.words
    if doubt.code in (DANGER, "open-standing"):
        return _opened(ask, doubt, button)
    if doubt.code == LOW_ACID:
        return _done_so(ask, doubt, button)
    answer = words.said(doubt.offered) if doubt.offered else words("word.yes")
    buttons = [_answer(words("forms.yes", answer=answer), {button: key_of(doubt)})]
    if doubt.code == "near-miss":  # elsewhere, no is said by changing the box
        buttons.append(_answer(words("forms.no_new"), {button: f"no:{key_of(doubt)}"}))
    return alert(
        [html.P(words.refusal(doubt)), html.Div(buttons, className="tools")],
        title=words("forms.sure"),
    )


def _opened(ask: Ask, doubt: NeedsAnswer, button: str) -> Any:
    """Return the question before a marked jar is opened: to leave it is offered first."""
    words, is_danger = ask.words, doubt.code == DANGER
    ways = [dcc.Link(words("danger.leave"), href="/shelf", className="button")]
    if is_danger:
        of = "jar" if ":" in doubt.about else "batch"  # lots are named by batch and number
        href = f"/write?kind=discarded&{of}={doubt.about}"
        ways.insert(0, dcc.Link(words("danger.discard"), href=href, className="button"))
    anyway = html.Button(
        words("danger.anyway"), id={button: key_of(doubt)}, type="button",
        className="button quiet-button", n_clicks=0,
    )  # fmt: skip
    title = words("danger.before" if is_danger else "danger.before_open")
    return html.Div(
        [
            html.H2(title),
            html.P(said_of(ask, doubt.question)),
            html.Div([*ways, anyway], className="tools"),
        ],
        className="danger" if is_danger else "caution grave",
        role="alert",
    )


def _done_so(ask: Ask, doubt: NeedsAnswer, button: str) -> Any:
    """Return the question before a batch of little acid is written down: nothing is the first way."""
    words = ask.words
    head, why, do, sources = caution_parts(ask, doubt.question)
    anyway = html.Button(
        words("danger.done_so"), id={button: key_of(doubt)}, type="button",
        className="button quiet-button", n_clicks=0,
    )  # fmt: skip
    return html.Div(
        [
            html.H2(words("danger.before_batch")),
            html.P(head),
            why,
            do,
            html.P(words("danger.not_done" if button == "accept" else "danger.not_said")),
            html.Div([anyway], className="tools"),
            sources,
        ],
        className="danger",
        role="alert",
    )


def _answer(text: str, id: dict[str, str]) -> Any:
    return html.Button(text, id=id, type="button", className="button", n_clicks=0)
