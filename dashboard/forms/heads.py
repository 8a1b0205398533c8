"""What each step of a batch's form says in a line: what stands in its boxes, jars drawn as jars."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.forms.process import how_said
from dashboard.forms.reading import Typed
from dashboard.parts.boards import size_of
from dashboard.parts.keeping import named
from dashboard.parts.kitchen import kitchen
from dashboard.parts.marks import jar_row

__all__ = ["STEPS", "heads_of"]

STEPS = ("what", "out", "done")
_DRAWN = 60
"""Up to so many jars are drawn one by one."""


def heads_of(
    ask: Ask, typed: Typed, body: Mapping[str, Any], each: str = ""
) -> dict[str, list[Any]]:
    """Return the line of each of `STEPS`.

    Parameters
    ----------
    ask : Ask
    typed : Typed
    body : mapping
        The same as an entry's body; empty while it cannot be read.
    each : str
        What a jar costs.
    """

    def said(name: str) -> list[str]:
        rows = sorted((row, text) for (one, row), text in typed.boxes.items() if one == name)
        return [text.strip() for _, text in rows if (text or "").strip()]

    words = ask.words
    what, times = [*said("recipe"), *said("makes")][:1], said("times")[:1]
    if what and said("recipe"):
        key = "batch.once" if times in ([], ["1"]) else "batch.times"
        what = [words(key, what=what[0], n="".join(times))]
    used = kitchen(", ".join(said("used")))
    under = html.Span(used, className="quiet") if used else None
    return {
        "what": _head(words("batch.step_what"), named("".join(what)), under),
        "out": _out(ask, said("made"), body.get("made") or [], each),
        "done": [html.H2(how_said(ask, "".join(said("method"))))],
    }


def _out(ask: Ask, said: list[str], made: list[Mapping[str, Any]], each: str) -> list[Any]:
    """Return what came out: jars as spoken and drawn, anything else as it is written."""
    words = ask.words
    jars = [one for one in made if one.get("jars") and one.get("jar")]
    text = ", ".join(said)
    if made and len(jars) == len(made):
        text = words.listed(words.jars(one["jars"], one["jar"]) for one in jars)
    is_drawn = 0 < sum(one["jars"] for one in jars) <= _DRAWN
    marks = [(one["jars"], size_of(one["jar"]), "none") for one in jars]
    drawn = jar_row(marks, "") if is_drawn else None
    cost = html.Span(f", {each}", className="cost") if text and each else None
    return _head(words("batch.step_out"), kitchen(text), cost, drawn)


def _head(name: str, says: str, *more: Any) -> list[Any]:
    """Return a step's name while nothing is said in it; else what is said, and more of it."""
    if not says:
        return [html.H2(name)]
    return [html.Span(f"{name}: ", className="heard"), html.B(says), *more]
