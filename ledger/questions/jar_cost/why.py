"""Why a figure of the jar-cost answer says so: the tree of its formula at one made entry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.jar_cost.figures import entries, figures
from ledger.questions.shared.opening import opened

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    "made": "why-made",
    "jars": "why-jars",
    "not-in-jars": "why-not-in-jars",
    "not-by-volume": "why-not-by-volume",
    "per-quart": "why-per-quart",
    "per-litre": "why-per-litre",
    "per-ml": "why-per-ml",
    "per-hour": "why-per-hour",
    "quarts": "why-quarts",
    "litres": "why-litres",
    "cost.out_of_pocket": "why-cost-out-of-pocket",
    "bad": "why-bad",
    "bad-part": "why-bad-part",
    "bad-jars": "why-its-jars",
    "failed": "why-bad",
    "good": "why-good",
    "minutes": "why-minutes-of-work",
    "hours": "why-hours-of-work",
    "share": "why-share",
    "volume_ml": "why-volume-ml",
    "mass_g": "why-mass-g",
    "cost_per_jar": "why-cost-per-jar",
    "per_jar.bought_ingredients": "why-per-jar-bought-ingredients",
    "per_jar.garden": "why-per-jar-garden",
    "per_jar.given": "why-per-jar-given",
    "per_jar.lids": "why-per-jar-lids",
    "per_jar.jar_wear": "why-per-jar-jar-wear",
    "per_jar.fuel": "why-per-jar-fuel",
    "per_jar.equipment": "why-per-jar-equipment",
    "per_jar.labour": "why-per-jar-labour",
    "before-labour": "why-cost-before-labour",
    "per_jar.before_labour": "why-per-jar-before-labour",
    "shop_price_per_jar": "why-shop-price-per-jar",
    "saved_per_jar": "why-saved-per-jar",
    "saved_per_jar_before_labour": "why-saved-per-jar-before-labour",
    "cost_per_good_jar": "why-cost-per-good-jar",
    "cost_per_quart": "why-cost-per-quart",
    "cost_per_liter": "why-cost-per-liter",
    "out_of_pocket_per_quart": "why-out-of-pocket-per-quart",
    "labour_hours": "why-hours",
    "shop_price_per_quart": "why-shop-price-per-quart",
    "saved_per_quart": "why-saved-per-quart",
    "shop_price_per_liter": "why-shop-price-per-litre",
    "saved_per_liter": "why-saved-per-litre",
    "same-from-shop": "why-same-from-shop",
    "saved": "why-saved",
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
    return opened(state, "jar-cost", (known, name), row, LABELS, deep)


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
