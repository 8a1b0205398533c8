"""Why a figure of worth-it says so: the tree of its sums at one line, down to events."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.shared.opening import opened
from ledger.questions.worth_it import durables_why as worth_durables_why
from ledger.questions.worth_it import prices_why as worth_prices_why
from ledger.questions.worth_it.figures import SUMS, figures
from ledger.questions.worth_it.gather import LINE_OF, LINES
from ledger.questions.worth_it.span import span_of
from ledger.questions.worth_it.sums import Sums, sums_of

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    **GARDEN_LABELS,
    "at-shop": "why-at-shop",
    "posting": "why-feed-came",
    "beyond-its-cost": "why-beyond-its-cost",
    "metered": "why-metered",
    "own-time": "why-own-time",
    "added": "why-added",
    "taken-off": "why-taken-off",
    "of-line": "why-of-line",
    "of-many": "why-of-line",
    "note": "why-of-line",
    "sum.money_in": "why-sum-money-in",
    "sum.money_out": "why-sum-money-out",
    "sum.worth": "why-sum-worth",
    "sum.cost": "why-sum-cost",
    "sum.labour": "why-sum-labour",
    "sum.minutes": "why-sum-minutes",
    "gains": "why-gains",
    "net": "why-net",
    "net_per_hour": "why-net-an-hour",
    "after_labour": "why-after-labour",
    "for_other_seasons": "why-for-other-seasons",
}
"""What the figures are called, by the ids of their labels."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``2026/garden`` (and ``2026/garden/tomato`` for one item of it), ``durable/ITEM``, or
        ``2026/preserving/plum butter`` with a column of ``--prices``.
    field : str, optional
        A column of the answer; default: net, earned, or saved.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such line or item, or no such figure of it.
    """
    head, _, rest = key.partition("/")
    if head == "durable":
        return worth_durables_why.why(state, rest, field, deep)
    line, _, item = rest.partition("/")
    if not head.isdecimal() or line not in (*LINES, "total"):
        raise _unknown(key)
    if item and (field is None or field not in SUMS):
        return worth_prices_why.why(state, int(head), line, item, field)
    known, row = _row(sums_of(state, span_of(state, head)), line, item, key)
    name = field or "net"
    return opened(state, "worth-it", (known, name), row, LABELS, deep)


def _row(sums: Sums, line: str, item: str, key: str) -> tuple[dict[str, Figure], int]:
    posted = sums.posted
    has = posted.line.size if line == "total" else (posted.line == LINE_OF[line]).any()
    number = sums.state.facts.find(item) if item else None
    if not has or (item and (number is None or line == "total")):
        raise _unknown(key)
    if number is not None:
        return figures(sums.of_item(LINE_OF[line], number)), 0
    if line == "total":
        return figures(sums.whole), 0
    return figures(sums.by_line), LINE_OF[line]


def _unknown(key: str) -> NotFound:
    return NotFound(
        "address",
        Message.of("refusal-no-line", text=Typed(key)),
    )
