"""Why a grade says so: everything that was said, each with what came."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.messages import measured, sentence
from ledger.messages.units import unit
from ledger.projections.base import Node
from ledger.questions.ahead.graded import KINDS, Graded
from ledger.questions.shared.arithmetic import quotient, total
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_FIGURES = (
    "graded", "held", "share_held", "expected", "below", "above", "score", "score_of_base", "open",
)  # fmt: skip


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``runs-out``, or ``runs-out/flour`` for one item.
    field : str, optional
        A column of the answer; default: ``held``.

    Raises
    ------
    NotFound
        When nothing of the kind was said, or there is no such figure.
    """
    from ledger.questions.came_true.scores import graded

    said, _, name = key.partition("/")
    kind = said.replace("-", " ")
    item = state.facts.find(name) if name else None
    of_kind = [one for one in graded(state) if one.kind == kind]
    some = [one for one in of_kind if not name or one.item == item]
    if kind not in KINDS or not some:
        raise NotFound(
            "address",
            f"there is no grade {key!r}",
            "Take an address from `croftbook show came-true --json`",
        )
    figure = field or "held"
    check_figure("came-true", figure, _FIGURES)
    known = [one for one in some if one.held is not None]
    if figure == "open":
        return _count(
            state, sentence("why-not-known-yet"), [(one, 1.0) for one in some if one.held is None]
        )
    if figure.startswith("score"):
        return _score(state, kind, figure, known, of_kind)
    return _share(state, kind, figure, known)


def _share(state: State, kind: str, figure: str, known: list[Graded]) -> Node:
    from ledger.questions.came_true.scores import CHANCES, EXPECTED, side_of

    count = _count(state, sentence("why-said-known"), [(one, 1.0) for one in known])
    label = sentence("why-came") if kind in CHANCES else sentence("why-held")
    held = _count(state, label, [(one, float(bool(one.held))) for one in known])
    if figure == "graded":
        return count
    if figure == "held":
        return held
    if figure in ("below", "above"):
        sign = -1 if figure == "below" else 1
        label = sentence("why-graded-below" if figure == "below" else "why-graded-above")
        return _count(state, label, [(one, float(side_of(one) == sign)) for one in known])
    if figure == "share_held":
        return quotient(sentence("why-share-held"), "0 to 1", held, count)
    if kind not in CHANCES:
        return Node(sentence("why-share-should-hold"), EXPECTED[kind], "0 to 1")
    parts = [_leaf(state, one, one.said[0]) for one in known]
    return quotient(
        sentence("why-mean-chances-said"),
        "0 to 1",
        total(sentence("why-sum"), "0 to 1", *parts),
        count,
    )


def _score(
    state: State, kind: str, figure: str, known: list[Graded], of_kind: list[Graded]
) -> Node:
    """Return the mean of how far each was off: the pinball loss, or the square of a chance's."""
    from ledger.questions.came_true.scores import errors_of, graded, scored

    off = scored(kind, known, of_kind, errors_of(graded(state)))
    if not off:
        return Node(sentence("why-nothing-score"), None, "")
    is_own = figure == "score"
    parts = [Node(_line(state, one), own if is_own else base, "") for one, own, base in off]
    count = Node(sentence("why-said-known"), float(len(off)), "times")
    label = sentence("why-how-far-off") if is_own else sentence("why-how-far-base-rate-off")
    return quotient(label, "", total(sentence("why-sum"), "", *parts), count)


def _count(state: State, label: str, some: list[tuple[Graded, float]]) -> Node:
    return total(label, "times", *(_leaf(state, one, value) for one, value in some))


def _leaf(state: State, one: Graded, value: float) -> Node:
    return Node(_line(state, one), value, "0 to 1" if 0 < value < 1 else "times")


def _line(state: State, one: Graded) -> str:
    """Say in one line what was said when, and what came."""
    said, came = _said(state, one)
    return sentence(
        "why-graded",
        day=label_day(one.day),
        name=state.facts.names[one.item],
        said=said,
        came=came,
    )


def _said(state: State, one: Graded) -> tuple[str, str]:
    """Return what was said of it, and what came, in words."""
    if one.kind in ("lasts till more comes", "brings enough"):
        happened = sentence("why-it-came" if one.held else "why-it-did-not-come")
        return measured(_percent(one.said[0])), _not_yet() if one.held is None else happened
    if one.kind == "runs out":
        first, last = (label_day(one.day + int(x * 7 + 0.01)) for x in one.said[::2])
        return sentence("why-stretch", first=first, last=last), _on(one, "why-not-gone-yet")
    if one.kind == "keeps":
        until = label_day(one.day + round(one.said[0] * 7))
        return sentence("why-until", day=until), _on(one, "why-nothing-spoiled")
    named = unit("g" if one.kind == "yield" else _unit(state, one.item))
    ends = [_number(x) for x in (one.said[::2] if len(one.said) == 3 else one.said[:1])]
    if len(ends) == 2:
        said = sentence("why-span-of", low=ends[0], high=ends[1], unit=named)
    elif one.kind == "yield":
        said = sentence("why-amount-at-least", n=ends[0], unit=named)
    else:
        said = sentence("why-amount-of", n=ends[0], unit=named)
    if one.came is None:
        return said, _not_yet()
    return said, sentence("why-came-amount", n=_number(one.came), unit=named)


def _not_yet() -> str:
    return sentence("why-not-known-yet")


def _on(one: Graded, otherwise: str) -> str:
    if one.held is None:
        return _not_yet()
    if one.came_on is None:
        return sentence(otherwise)
    return sentence("why-came-on", day=label_day(one.came_on))


def _unit(state: State, item: int) -> str:
    from ledger.questions.shared.common import UNITS

    return str(UNITS[state.facts.measure[item]])


def _number(value: float) -> str:
    return measured(f"{value:,.0f}" if value >= 100 else f"{value:.3g}")


def _percent(chance: float) -> str:
    return f"{np.clip(chance, 0, 1):.0%}".replace("%", " %")
