"""The one verdict on a batch, whatever its method; and the caution before it is written down."""

from __future__ import annotations

from functools import lru_cache

from ledger.published.batch import BatchDone
from ledger.published.danger import caution_for
from ledger.published.judging import CANNING, Judgement, judge
from ledger.published.other import OTHER_METHODS, has_figures, judge_other
from ledger.published.sealed import is_judged, judge_sealed

__all__ = ["caution_before", "has_verdict", "verdict_of"]


def has_verdict(batch: BatchDone) -> bool:
    """Return whether a batch is judged: canned, closed up for shelf or cellar, in oil, or in a table."""
    return batch.method in CANNING or has_figures(batch.makes, batch.method) or is_judged(batch)


@lru_cache(4096)
def verdict_of(batch: BatchDone) -> Judgement:
    """Return a batch beside what is published for its method; the same batch is judged once."""
    if batch.method in CANNING:
        return judge(batch)
    if batch.method in OTHER_METHODS and has_figures(batch.makes, batch.method):
        return judge_other(batch)
    return judge_sealed(batch)


def caution_before(batch: BatchDone | None) -> str | None:
    """Return the caution that goes before a batch is written down; None where nothing calls for it.

    Parameters
    ----------
    batch : BatchDone or None
        As far as it has been typed.
    """
    return None if batch is None else caution_for(verdict_of(batch).danger)
