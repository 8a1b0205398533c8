"""What the documents say of jars that had the wrong process."""

from __future__ import annotations

from ledger.messages import sentence
from ledger.published.words import cite, cited
from ledger.published.words import figure as shown
from ledger.reference.storage import Figure, figures

__all__ = ["figure", "if_wrong"]


def figure(item: str, condition: str = "", publisher: str = "") -> Figure:
    """Return a figure of the table on jars that failed, by condition and publisher."""
    return next(
        one
        for one in figures("failed_seal", "any_jar", item)
        if condition in one.condition and publisher in one.source.publisher
    )


def if_wrong(*, pressure: bool = True) -> str:
    """Return in two sentences what the documents say of jars that had the wrong process.

    Parameters
    ----------
    pressure : bool
        Whether a pressure process may be published for it; else only cold is left.
    """
    wrong = figure("reprocess_deadline", "wrong process")
    boil = next(f for f in figures("safety", "home_canned_low_acid", "boil_before_eating"))
    hours, where, later = shown(wrong.high), cited(cite(wrong.source)), cited(cite(boil.source))
    if pressure:
        return sentence("published-jars-done-so", n=hours, source=where, source2=later)
    return sentence("published-jars-done-so-cold", n=hours, source=where, source2=later)
