"""Why a figure of the jar-cost answer says so: the tree of its formula at one made entry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node, tree
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.jar_cost.figures import entries, figures
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import StateTeller
from ledger.replay import COMPONENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    "made": "what was made",
    "jars": "jars",
    "not-in-jars": "not in jars",
    "not-by-volume": "not kept by volume",
    "per-quart": "ul in a quart",
    "per-litre": "ul in one of litres",
    "per-ml": "ul in one of ml",
    "per-hour": "minutes in an hour",
    "quarts": "quarts",
    "litres": "litres",
    "cost.out_of_pocket": "out of pocket",
    "bad": "failed, spoiled or broken",
    "bad-part": "part that went bad",
    "bad-jars": "jars of it",
    "failed": "failed, spoiled or broken",
    "good": "good jars",
    "minutes": "minutes of work",
    "hours": "hours of work",
    "share": "this entry's share",
    "volume_ml": "ml",
    "mass_g": "weight",
    "cost_per_jar": "cost per jar",
    **{f"per_jar.{name}": f"{name.replace('_', ' ')} per jar" for name in COMPONENTS},
    "before-labour": "all in, own time left out",
    "per_jar.before_labour": "cost per jar, own time left out",
    "shop_price_per_jar": "shop's price per jar",
    "saved_per_jar": "saved per jar",
    "saved_per_jar_before_labour": "saved per jar, own time left out",
    "cost_per_good_jar": "cost per good jar",
    "cost_per_quart": "cost per quart",
    "cost_per_liter": "cost per litre",
    "out_of_pocket_per_quart": "out of pocket per quart",
    "labour_hours": "hours",
    "shop_price_per_quart": "shop per quart",
    "saved_per_quart": "saved per quart",
    "same-from-shop": "the same from the shop",
    "saved": "saved",
}
"""What the figures are called, by the ids of their labels."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a made entry as a tree.

    Parameters
    ----------
    key : str
        ``<batch id>:<n>``, as in the answer's `why`.
    field : str, optional
        A column of the answer; default: the cost per jar, or of the whole entry without jars.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such made entry, or no such figure of it.
    """
    row = _row(state, key)
    known = state.once(figures)
    default = "cost_per_jar" if state.once(entries).in_jars[row] else "cost.all_in"
    name = "cost.all_in" if field == "cost" else field or default
    check_figure("jar-cost", name, known)
    return tree(known[name], row, StateTeller(state, LABELS), deep)


def _row(state: State, key: str) -> int:
    """Return the made entry that a key names."""
    lot = state.lot_ids.get(key, state.lot_ids.get(f"{key}f"))
    made = state.once(entries)
    rows = [] if lot is None else (made.first == lot).nonzero()[0].tolist()
    if not rows:
        raise NotFound(
            "address",
            Message.of("refusal-no-made-entry", text=Typed(key)),
        )
    return int(rows[0])
