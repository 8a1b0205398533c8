"""What batches add of their own, as figures: labour, metered fuel, equipment and jar wear (rule 9)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, choose, said, unpriced
from ledger.messages import fixed
from ledger.questions.costs.durables import DurableFigures
from ledger.replay import COMPONENTS
from ledger.replay.own_costs import Part, energy_price, labour_rate

if TYPE_CHECKING:
    from ledger.questions.costs.sources import Sources
    from ledger.replay import State

__all__ = ["charges_of"]


def charges_of(
    state: State, sources: Sources, durables: DurableFigures
) -> dict[str, list[tuple[Groups, Figure]]]:
    """Return what each row of the system bears of its own, by component of cost."""
    own, count = state.costs.own, state.costs.rows.count
    labour, metered, equipment, wear = own.parts
    wears, loads = durables.tables
    figures = (
        (labour, _labour(state, sources, labour)),
        (metered, _metered(state, sources, metered)),
        (equipment, loads.charged_until_paid(equipment.money, equipment.ev)),
        (wear, wears.charge()),
    )
    out: dict[str, list[tuple[Groups, Figure]]] = {}
    for part, figure in figures:
        charge = figure.called("charge", text=part.label)
        out.setdefault(COMPONENTS[part.component], []).append((Groups(part.row, count), charge))
    return out


def _labour(state: State, sources: Sources, part: Part) -> Figure:
    minutes = said(part.said["minutes"], "minutes", part.ev)
    day = state.moment.on[part.ev]
    return minutes * sources.setting("labour_rate", day, labour_rate, "money per minute")


def _metered(state: State, sources: Sources, part: Part) -> Figure:
    joules, day = said(part.said["joules"], "J", part.ev), state.moment.on[part.ev]
    gas, power = (
        sources.setting(f"price_of_{name}", day, energy_price, "money per J")
        for name in ("gas", "electricity")
    )
    none = unpriced("money", part.name, part.row.size).called(
        "unpriced", item=lambda row: fixed(part.name(row))
    )
    price = choose(part.said["gas"] > 0, gas, power)
    return choose(np.asarray(part.unpriced), none, joules * price)
