"""The columns of dealing with others: how, with whom, and what it brought."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.replay.tables import CAUSES

if TYPE_CHECKING:
    from ledger.replay.columns import Array
    from ledger.replay.journal import Journal

__all__ = ["take_bought", "take_given_away", "take_received"]

_CAUSE = {name: code for code, name in enumerate(CAUSES)}


def take_bought(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep in which shop it was bought."""
    events["whom"][np.array(places) - start] = journal.whom.codes([b.shop for b in bodies])


def take_received(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep from whom it was received."""
    events["whom"][np.array(places) - start] = journal.whom.codes([b.source for b in bodies])


def take_given_away(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep how it was given away, to whom, and the money got for it."""
    at = np.array(places) - start
    events["cause"][at] = [_CAUSE[b.how] for b in bodies]
    events["whom"][at] = journal.whom.codes([b.to for b in bodies])
    events["got"][at] = [np.nan if b.got is None else float(b.got) for b in bodies]
