"""What each durable earned: the gain of the batches and harvests that it served.

A gain is what was made at shop prices less its cost without own time and without the wear of
durables; it is shared over the durables that served, by the wear of this use. What batches took
on to other batches gains there, what was lost or kept too long gains nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS
from ledger.questions.garden.uneaten import uneaten
from ledger.questions.worth_it.gather import Lots
from ledger.replay import COMPONENTS, ORIGINS, tables

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.garden import Part

    Array = np.ndarray[Any, Any]

__all__ = ["Earned", "Use", "kept_shares", "uses_of"]

_WEAR = [COMPONENTS.index("equipment"), COMPONENTS.index("jar_wear")]
_ROLE = {name: code for code, name in enumerate(tables.ROLES)}


@dataclass(frozen=True)
class Use:
    """One use of a durable: a batch's loads or jars, or a harvest lot."""

    item: int
    ev: int
    day: int
    times: float
    weight: float
    """Wear of this use as if its price were never used up, by which the gain is shared."""
    gain: float
    """Of the whole batch or lot, before wear; money."""
    share: float
    """This durable's part of the gain, 0 to 1."""

    @property
    def earned(self) -> float:
        """Return what this use earned."""
        return self.gain * self.share


def kept_shares(state: State) -> tuple[Array, Array]:
    """Return the part of each lot that went into batches or was sown, and that was lost."""
    draw, lot, amount = state.allocations
    share = amount / state.lots["whole"][lot]
    role, ev = state.draws["role"], state.draws["ev"]
    events = state.journal.tables["events"]
    lost = events["kind"][ev] == list(KINDS).index("discarded")
    lost |= (role == len(tables.ROLES)) & (events["cause"][ev] != tables.CAUSES.index("eaten"))
    onward = (role >= _ROLE["seed"]) & (role <= _ROLE["lids"])
    size = state.lots["ev"].size
    return (
        np.bincount(lot, share * onward[draw], size),
        np.bincount(lot, share * lost[draw], size),
    )


class Earned:
    """Uses of every durable that was bought, by item."""

    def __init__(self, state: State) -> None:
        self.state, self.lots = state, Lots(state)
        self.on, self.lost = kept_shares(state)
        late = state.once(uneaten)
        np.add.at(self.lost, late.lot, late.share)
        lots = self.lots
        self.gain = lots.known * (1 - self.on - self.lost) - lots.cost * (1 - self.on)
        # What has no price gains nothing that anybody knows of.
        self.gain[np.isnan(lots.worth)] = 0.0
        self.uses: dict[int, list[Use]] = {}
        self._batches()
        self._garden()

    def _add(self, use: Use) -> None:
        self.uses.setdefault(use.item, []).append(use)

    def _batches(self) -> None:
        """Share each batch's gain over its equipment and its jars."""
        state = self.state
        served = uses_of(state)
        size = len(state.journal)
        made = np.flatnonzero(
            (state.lots["origin"] == ORIGINS.index("batch")) & np.isnan(state.lots["share"])
        )
        ev = state.lots["ev"][made]
        gain = np.bincount(ev, self.gain[made], size)
        cost = np.bincount(ev, self.lots.cost[made], size)
        moved = np.bincount(ev, self.lots.cost[made] * self.on[made], size)
        priced = np.bincount(ev, ~np.isnan(self.lots.worth[made]), size) > 0
        wear = np.zeros(size)
        for part in state.costs.own.parts:
            if part.component in _WEAR:
                wear += np.bincount(part.ev, part.money, size)
        stays = 1 - np.divide(moved, cost, out=np.zeros(size), where=cost > 0)
        total = np.where(priced, gain + wear * stays, 0.0)
        weights: dict[int, float] = {}
        for at, _, _, weight in served:
            weights[at] = weights.get(at, 0.0) + weight
        for at, item, times, weight in served:
            share = weight / weights[at] if weights[at] else 0.0
            self._add(
                Use(item, at, int(state.moment.on[at]), times, weight, float(total[at]), share)
            )

    def _garden(self) -> None:
        """Share each harvest's gain over the inputs with years that its season bore."""
        state, garden = self.state, self.state.costs.garden
        lasting: dict[tuple[int, int], list[tuple[Part, float, float]]] = {}
        for part in garden.parts:
            if part.season is None or not part.source.years:
                continue
            for crop, share in garden.shares(part.season, part.crop).items():
                lasting.setdefault((part.season, crop), []).append(
                    (part, part.money * share, share)
                )
        names = state.facts
        keys = zip(garden.season_of.tolist(), garden.item.tolist(), strict=True)
        for lot, key in zip(state.costs.harvest_lots.tolist(), keys, strict=True):
            parts = lasting.get(key)
            if not parts:
                continue
            worn = sum(money for _, money, _ in parts)
            borne = garden.by_crop.get(key, 0.0)
            part_of_lot = self.lots.cost[lot] / borne if borne else 0.0
            gain = float(self.gain[lot] + worn * part_of_lot * (1 - self.on[lot]))
            if np.isnan(self.lots.worth[lot]):
                gain = 0.0
            ev, day = int(state.lots["ev"][lot]), int(state.lots["day"][lot])
            for part, money, of_part in parts:
                item = names.find(part.source.label)
                if item is not None:
                    share = money / worn if worn else 0.0
                    times = part_of_lot * of_part
                    self._add(Use(item, ev, day, times, money * part_of_lot, gain, share))


def uses_of(state: State) -> list[tuple[int, int, float, float]]:
    """Return (batch, item, times, wear as if never used up) of jars and equipment, in book order."""
    costs, facts, moment = state.costs, state.facts, state.moment
    table, entries = state.journal.tables["equipment"], costs.rows.entries
    rows = moment.rows(state.journal, "equipment")
    rows = rows[costs.rows.pot_of[table["ev"][rows]] >= 0]
    jarred = np.flatnonzero(entries["jar"] >= 0)
    ev = np.concatenate([table["ev"][rows], entries["ev"][jarred]]).astype(np.int64)
    named = facts.canon[table["item"][rows]]
    item = np.concatenate([named, entries["jar"][jarred]]).astype(np.int64)
    loads = costs.rows.loads_of[table["ev"][rows]]
    times = np.concatenate([loads, entries["jars"][jarred]]).astype(float)
    weight = costs.durables.per_uses(item, moment.on[ev], times) * times
    order = np.argsort(moment.rank[ev], kind="stable")
    order = order[~np.isnan(weight[order])]
    columns = (ev[order], item[order], times[order], weight[order])
    return list(zip(*(column.tolist() for column in columns), strict=True))
