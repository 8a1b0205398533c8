"""Where food ended: on the table, with guests, given, lost, on hand; and what each path of it holds.

Everything that was there before the first day or came in since is followed to its end, by the same
shares that carry cost; what no end took is on hand on the last day.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.kinds import KINDS
from ledger.questions.food import FoodFigures
from ledger.questions.food.web import BATCH, CAUSE, ROLE
from ledger.questions.periods import Period

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ENDS", "FRESH", "Ends", "Exits"]

ENDS = ("table", "guests", "given", "animals", "sown", "lost", "other use", "on hand")
FRESH = "fresh"
_END = {name: code for code, name in enumerate(ENDS)}
_KIND = {name: code for code, name in enumerate(KINDS)}
_WIDTH = 7
"""Figures of a path: g, kcal, money; whether each is known of any of it; whether there is any."""
_AT_ONCE = 16
"""Places followed in one solve, so that many of them do not fill the memory."""


@dataclass
class Exits:
    """Where lots end: one row an end.

    `at` (the allocation; -1 on hand), `lot`, `part` (of the lot), `end` (place in `ENDS`), `day`
    (of which the price counts), `amount` in whole units; and of rows whose batch left no lot: `row`,
    `row_part`, `row_item`.
    """

    at: Array
    lot: Array
    part: Array
    end: Array
    day: Array
    amount: Array
    row: Array
    row_part: Array
    row_item: Array


class Ends:
    """The ends of one period.

    Attributes
    ----------
    exits : Exits
    """

    def __init__(self, state: State, period: Period) -> None:
        self.state, self.food, self.period = state, state.once(FoodFigures), period
        self.web, self.eaten, self.places = self.food.web, self.food.eaten, self.food.places
        self.exits = self._exits()

    # -- ends ---------------------------------------------------------------------------

    def _exits(self) -> Exits:
        """Return every end in the period, and what is on hand on its last day."""
        web, eaten = self.web, self.eaten
        inside = (web.day >= self.period.start) & (web.day <= self.period.end)
        mine = inside[eaten.at]
        at, ev, end_of = eaten.at[mine], eaten.ev[mine], self._end_of()
        others = np.flatnonzero(inside & (end_of >= 0))
        parts = [
            (at, eaten.home.values[ev], np.full(at.size, _END["table"])),
            (at, eaten.with_guests.values[ev], np.full(at.size, _END["guests"])),
            (others, np.ones(others.size), end_of[others]),
        ]
        at, factor, end = (np.concatenate(several) for several in zip(*parts, strict=True))
        there, left = self._on_hand()
        row, row_part, row_item = self._lost_rows()
        lots = self.state.lots
        return self._of_food(
            Exits(
                np.concatenate([at, np.full(there.size, -1)]),
                np.concatenate([web.lot[at], there]),
                np.concatenate([web.share[at] * factor, left]),
                np.concatenate([end, np.full(there.size, _END["on hand"])]),
                np.concatenate([web.day[at], np.full(there.size, self.period.end)]),
                np.concatenate([web.amount[at] * factor, lots["whole"][there] * left]),
                row,
                row_part,
                row_item,
            )
        )

    def _of_food(self, exits: Exits) -> Exits:
        keep = (exits.part > 0) & (
            self.places.food[exits.lot] | (self.state.lots["origin"][exits.lot] == BATCH)
        )
        return Exits(
            exits.at[keep], exits.lot[keep], exits.part[keep], exits.end[keep], exits.day[keep],
            exits.amount[keep], exits.row, exits.row_part, exits.row_item,
        )  # fmt: skip

    def _end_of(self) -> Array:
        """Return where each allocation ends that is neither eaten nor used; -1 for those."""
        web, state = self.web, self.state
        events = state.journal.tables["events"]
        kind, cause = events["kind"][web.ev], events["cause"][web.ev]
        end = np.full(web.draw.size, -1, np.int64)
        end[web.role == ROLE["seed"]] = _END["sown"]
        end[(web.role == ROLE["lids"]) | (web.role == ROLE["fuel"])] = _END["other use"]
        end[(web.role == ROLE["missing"]) & (cause != CAUSE["eaten"])] = _END["lost"]
        away = web.role == ROLE["lines"]
        end[away & (kind == _KIND["given_away"])] = _END["given"]
        end[away & (kind == _KIND["discarded"])] = _END["lost"]
        end[away & (kind == _KIND["discarded"]) & (cause == CAUSE["fed to animals"])] = _END[
            "animals"
        ]
        return end

    def _on_hand(self) -> tuple[Array, Array]:
        """Return lots with something left at the end of the last day, and the part left."""
        web, lots = self.web, self.state.lots
        gone = web.day <= self.period.end
        taken = np.zeros(lots["whole"].size, np.int64)
        np.add.at(taken, web.lot[gone], web.amount[gone])
        left = lots["whole"] - taken
        there = np.flatnonzero((lots["day"] <= self.period.end) & (left > 0))
        return there, left[there] / lots["whole"][there]

    def _lost_rows(self) -> tuple[Array, Array, Array]:
        """Return batches, and kept parts of meals, of which no lot came: what went in is lost."""
        web, state, rows = self.web, self.state, self.web.rows
        given = np.bincount(rows.gives[1], rows.gives[2], web.count)
        filled = np.bincount(web.row[web.row >= 0], minlength=web.count) > 0
        table = state.journal.tables["batches"]
        makes = dict(zip(table["ev"].tolist(), table["makes"].tolist(), strict=True))
        out = []
        for ev, row in rows.pot.items():
            item = int(state.facts.canon[makes[ev]])
            out.append((ev, row, 1.0 - given[row], item))
        kept = self.eaten.kept.values
        out += [(ev, row, float(kept[ev]) - given[row], -1) for ev, row in rows.meal.items()]
        lost = [
            one[1:]
            for one in out
            if one[2] > 1e-9
            and filled[one[1]]
            and self.period.start <= int(state.moment.on[one[0]]) <= self.period.end
        ]
        numbers = np.array(lost, float).reshape(len(lost), 3).T
        return numbers[0].astype(np.int64), numbers[1], numbers[2].astype(np.int64)

    # -- figures ------------------------------------------------------------------------

    def through(self) -> tuple[Array, Array]:
        """Return what each end went through: the item of a made lot, -1 fresh; for lots and rows."""
        made = self.state.lots["origin"][self.exits.lot] == BATCH
        item = self.state.lots["item"][self.exits.lot]
        return np.where(made, item, -1), self.exits.row_item

    def sums(self) -> dict[tuple[int, int, int], Array]:
        """Return, by (place, item gone through or -1, end), g, kcal, money and what is known."""
        exits, made_of = self.exits, self.web.rows.number_of_lot
        through, row_through = self.through()
        width = len(ENDS)
        key = np.concatenate([(through + 1) * width + exits.end, (row_through + 1) * width + _END["lost"]])  # fmt: skip
        groups, group = np.unique(key, return_inverse=True)
        lots, rows = group[: exits.lot.size], group[exits.lot.size :]
        total = np.zeros((groups.size, len(self.places.every), _WIDTH))
        raw = np.flatnonzero(made_of[exits.lot] < 0)
        figures = self._figures(exits.lot[raw], exits.amount[raw], exits.part[raw], exits.day[raw])
        np.add.at(total, (lots[raw], self.places.of_lot[exits.lot[raw]]), figures)
        made = np.flatnonzero(made_of[exits.lot] >= 0)
        for first in range(0, len(self.places.every), _AT_ONCE):
            some = slice(first, min(first + _AT_ONCE, len(self.places.every)))
            carried, filled = self._carried(some)
            total[:, some] += _gather(groups.size, lots[made], made_of[exits.lot[made]], exits.part[made], filled).reshape(groups.size, some.stop - some.start, _WIDTH)  # fmt: skip
            total[:, some] += _gather(groups.size, rows, exits.row, exits.row_part, carried).reshape(groups.size, some.stop - some.start, _WIDTH)  # fmt: skip
        out = {}
        for number, source in np.argwhere(total[:, :, 6] > 0).tolist():
            item, end = divmod(int(groups[number]), width)
            out[source, item - 1, end] = total[number, source]
        return out

    def _carried(self, some: slice) -> tuple[Array, Array]:
        """Return what rows and made lots carry of some places, shape (.., places x figures)."""
        web = self.web
        source = self.places.of_lot[web.lot[web.raw_in]]
        at = web.raw_in[(source >= some.start) & (source < some.stop)]
        figures = self._figures(web.lot[at], web.amount[at], web.share[at], web.day[at])
        own = np.zeros((web.count, some.stop - some.start, _WIDTH))
        np.add.at(own, (web.row[at], self.places.of_lot[web.lot[at]] - some.start), figures)
        return web.carried(own.reshape(web.count, own.shape[1] * _WIDTH))

    def _figures(self, lot: Array, amount: Array, part: Array, day: Array) -> Array:
        """Return the figures of amounts of raw lots, shape (amounts, 7); value is that of the day."""
        costs, item = self.state.costs, self.state.lots["item"][lot]
        price, ev, _ = costs.prices.of(item, day)
        contents = self.food.contents
        weighed, fed = contents.has_weight[item], contents.has_energy[item]
        return np.stack(
            [
                amount * costs.grams[item],
                amount * costs.kcal[item],
                amount * np.nan_to_num(price),
                part * weighed,
                part * fed,
                part * (ev >= 0),
                part,
            ],
            axis=1,
        )


def _gather(groups: int, group: Array, place: Array, part: Array, figures: Array) -> Array:
    """Return the sum over each group of parts of figures, shape (groups, figures)."""
    from scipy.sparse import csr_array

    if not place.size:
        return np.zeros((groups, figures.shape[1]))
    shape = (groups, figures.shape[0])
    return np.asarray(csr_array((part, (group, place)), shape=shape) @ figures)
