"""Why a figure of power and water says so: the tree of its formula at one batch, or lot in the freezer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Figure, Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.power_and_water.figures import figures
from ledger.questions.power_and_water.freezer_share import Freezer
from ledger.questions.power_and_water.gather import Loads
from ledger.questions.shared.opening import no_record, opened

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "kwh": "power-heat",
    "loads": "power-canner-loads",
    "load-estimate": "power-load-estimate",
    "estimate": "power-stove-heat",
    "jars": "power-all-jars",
    "bad": "why-bad",
    "bad-part": "why-bad-part",
    "bad-jars": "why-its-jars",
    "unsealed": "power-unsealed",
    "good_jars": "power-good-jars",
    "kwh_per_good_jar": "power-good-jar",
    "no-good-jar": "power-no-good-jar",
    "jars-per-load": "power-jars-per-load",
    "capacity": "power-jars-full-loads",
    "a-jar": "power-a-jar",
    "a-full-jar": "power-jar-of-full-loads",
    "saved": "power-full-load-saves",
    "full_load_saves": "power-full-load-saves",
    "loads-full": "power-loads-full",
    "no-capacity": "power-no-capacity",
    "water_l": "power-water-meter",
    "water-not-read": "power-water-not-read",
    "usual-water": "power-water-canner",
    "water-of-load": "power-load-from-memory",
    "water_per_good_jar": "power-water-good-jar",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""

_OF_FREEZER = {
    **COST_LABELS,
    "kwh": "power-electricity-lot",
    "lb_months": "power-kept",
    "all-kept": "power-all-kept",
    "part": "power-part",
    "money": "power-cost",
    "price": "power-price-electricity",
    "no-price": "power-no-price",
    "not-known": "power-not-known",
    "year": "power-year-2",
    "used": "power-days",
    "to-a-year": "power-year",
    "a-year": "power-year-3",
    "days": "power-days-2",
    "as-bought": "why-text",
    "stays": "power-stays",
    "stayed": "power-stayed",
    "grams": "why-mass-g",
    "pounds": "power-pounds",
    "months": "power-months",
    "per-lb": "power-per-pound",
    "per-month": "power-per-month",
}


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        A batch's id, or ``freezer/`` and a lot's.
    field : str, optional
        A column of the answer; default: heat of a good jar, or electricity of the lot.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    is_lot = key.startswith("freezer/")
    known, row = _lot(state, key.removeprefix("freezer/")) if is_lot else _batch(state, key)
    figure = field or next(iter(known))
    labels = _OF_FREEZER if is_lot else LABELS
    return opened(state, "power-and-water", (known, figure), row, labels, deep)


def _batch(state: State, key: str) -> tuple[dict[str, Figure], int]:
    ids = [state.entry_id(ev) for ev in state.once(Loads).evs]
    if key not in ids:
        raise no_record("power-and-water", key)
    return state.once(figures), ids.index(key)


def _lot(state: State, lot_id: str) -> tuple[dict[str, Figure], int]:
    freezer, lot = state.once(Freezer), state.lot_ids.get(lot_id, -1)
    rows = (freezer.lots == lot).nonzero()[0].tolist()
    if not rows:
        raise NotFound("address", Message.of("refusal-no-lot-in-freezer", text=Typed(lot_id)))
    return freezer.of, rows[0]
