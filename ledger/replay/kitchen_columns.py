"""The columns of the kitchen: meals, batches, what was discarded and what was counted."""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.items import item_key
from ledger.kinds import KINDS
from ledger.kinds.methods import METHODS
from ledger.replay.line_columns import filled, repeated, take_lids, take_lines
from ledger.replay.tables import CAUSES, GAUGES

if TYPE_CHECKING:
    from ledger.replay.columns import Array
    from ledger.replay.journal import Journal

__all__ = ["take_counted", "take_discarded", "take_eaten", "take_put_up"]

_CAUSE = {name: code for code, name in enumerate(CAUSES)}
_METHOD = {name: code for code, name in enumerate(METHODS)}


def take_eaten(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep how many ate, how many of them were guests, and how it was liked."""
    at = np.array(places) - start
    events["guests"][at] = filled(bodies, "guests", 0)
    for name in ("people", "liked"):
        events[name][at] = np.array(list(map(attrgetter(name), bodies)), np.float64)


def take_discarded(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep why it was discarded."""
    events["cause"][np.array(places) - start] = [_CAUSE[b.why] for b in bodies]


def take_counted(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep what a count found, and what became of what was missing."""
    at = np.array(places) - start
    events["cause"][at] = [_CAUSE[b.missing or "lost"] for b in bodies]
    early = KINDS["counted"].start_phase
    events["phase"][at] = [early if b.when == "start" else KINDS["counted"].phase for b in bodies]
    lists = [b.lines for b in bodies]
    own = [
        item_key(line.item) in {item_key(one) for one in b.home_made or ()}
        for b in bodies
        for line in b.lines
    ]
    lines = [line for several in lists for line in several]
    take_lines(journal, "counts", repeated(places, lists), lines, own=own)


def take_put_up(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep a batch, its labels, equipment and metered fuel; its other lines are taken in next."""
    journal.tables["batches"].extend(
        len(places),
        {
            "ev": places,
            "makes": journal.items.codes([b.makes for b in bodies]),
            "method": [_METHOD[b.method] for b in bodies],
            "loads": [1 if b.loads is None else b.loads for b in bodies],
            "gauge": [GAUGES.index(b.gauge) for b in bodies],
            "went": [b.went or 0 for b in bodies],
        },
    )
    first_lids: dict[str, int] = {}
    for body, ev in zip(bodies, places, strict=True):
        lids = body.lids or "lid"
        for made in body.made:
            if made.jars:
                made.lids = made.lids or lids
                first_lids.setdefault(made.lids, ev)
            if made.labels is not None:
                journal.labels.append((ev, made.n, made.labels.first, made.labels.last))
        if body.equipment:
            codes = journal.items.codes(body.equipment)
            journal.tables["equipment"].extend(len(codes), {"ev": ev, "item": codes})
        for fuel in body.fuel or ():
            if fuel.metered is not None:
                journal.tables["metered"].extend(
                    1, {"ev": ev, "gas": int(fuel.metered == "gas"), "joules": fuel.whole}
                )
        if body.fuel:
            body.fuel = [fuel for fuel in body.fuel if fuel.metered is None]
    take_lids(journal, first_lids)
