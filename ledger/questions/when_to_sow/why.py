"""Why a figure of when-to-sow says so: frosts seen, the table's row, the packet and the test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Node
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.shared.opening import no_record, opened
from ledger.questions.shared.sowing import sowing
from ledger.questions.shared.sown import crops_of
from ledger.questions.when_to_sow.risk import risk_of

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "frost-spring": "why-frost-spring",
    "frost-fall": "why-frost-fall",
    "frost-latest": "why-frost-latest",
    "frost-earliest": "why-frost-earliest",
    "frost-passed": "why-frost-passed",
    "days-of-packet": "sowing-days-of-packet",
    "table-low": "sowing-table-low",
    "table-high": "sowing-table-high",
    "days-of-table": "sowing-days-harvest-middle-table",
    "days-unknown": "sowing-days-unknown",
    "weeks-to-set-out": "sowing-weeks-to-set-out",
    "days-a-week": "why-days-a-week",
    "shorter-days": "sowing-shorter-days",
    "picking": "sowing-picking",
    "frost-kills": "sowing-frost-kills",
    "to-setting-out": "sowing-to-setting-out",
    "last_sowing_days": "sowing-last-before-frost",
    "of-table": "sowing-table-sowing",
    "not-in-table": "sowing-not-in-table",
    "sprouted": "sowing-sprouted",
    "laid-out": "sowing-laid-out",
    "germination": "sowing-germination",
    "no-test": "sowing-no-test",
    "range-end": "sowing-end-per-cent-range-wilson",
    "plants": "sowing-plants-plan",
    "not-planned": "sowing-not-planned",
    "plants-by-germination": "sowing-plants-germination",
    "seeds_wanted": "sowing-seeds-wanted",
    "seeds_left": "sowing-seeds-left",
    "seeds-left-unknown": "sowing-seeds-left-unknown",
    "missing": "sowing-order",
    "to_order": "sowing-order",
    "nothing-to-order": "sowing-nothing-order",
    "not-known": "sowing-not-known",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``2027/0.1/tomato``.
    field : str, optional
        A column of the answer; default: the days of the last sowing before the frost.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    year, _, rest = key.partition("/")
    text, _, name = rest.partition("/")
    crops = state.once(crops_of)
    rows = [row for row, one in enumerate(crops) if one.name == name]
    if not year.isdigit() or not rows:
        raise no_record("when-to-sow", key)
    figures = sowing(state, crops, risk_of(text))
    figure = field or "last_sowing_days"
    return opened(state, "when-to-sow", (figures, figure), rows[0], LABELS, deep)
