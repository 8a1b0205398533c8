"""The formulas of the shelf: each gives the column for all lots, and the tree for one."""

from __future__ import annotations

from ledger.figures import Figure, choose, known_where, total
from ledger.questions.shelf.gather import SIX, Lots, answers_day

__all__ = ["lot_figures"]


def lot_figures(lots: Lots) -> dict[str, Figure]:
    """Return every figure of single lots by the name of its column; a row is a lot."""
    left = lots.left.called("left.whole")
    share = (left / lots.amount.called("the-lot")).called("share_left")
    jars = (lots.jars.called("its-jars") * share).called("jars_left")
    until = lots.terms.day.called("keeps", said=lots.terms.word)
    use_by = known_where(lots.terms.known, until, "keeps-not-said")
    days = (use_by - answers_day(lots.state)).called("days_left", unit="days")
    return {
        "left.whole": left,
        "share_left": share,
        "jars_left": known_where(lots.in_jars, jars, "not-in-jars", "jars"),
        "cost": lots.cost,
        "cost_left": (share * lots.cost).called("cost_left"),
        "use_by": use_by,
        "days_left": known_where(lots.terms.known, days, "keeps-not-said", "days"),
        **_origins(lots),
    }


def _origins(lots: Lots) -> dict[str, Figure]:
    """Return which part of each lot comes from where, by weight; of what has none, how it came in."""
    grams = {name: lots.grams(name) for name in SIX}
    whole = total(*grams.values()).called("all-raw")
    return {
        f"origin.{name}": choose(
            lots.has_weight,
            (one / whole).called("origin", origin=name),
            lots.came_as(name),
        )
        for name, one in grams.items()
    }
