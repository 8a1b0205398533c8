"""By when a lot wants eating, for the order of the shelf; what nobody knows is never put last."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ledger.kinds import KINDS
from ledger.messages import Names, sentence
from ledger.projections.base import Assumption
from ledger.published.fresh import is_fresh
from ledger.questions.shared.best_until import best_until
from ledger.questions.shared.use_by import days_of, is_marked
from ledger.reference.storage import fresh_life
from ledger.replay import KEPT
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ledger.replay import State

__all__ = ["FRESH", "UNKNOWN", "Wanting", "wanting", "wanting_said"]

FRESH, UNKNOWN = "fresh-as-published", "fresh-not-known"
"""What the day of fresh food rests on: a published storage life, or that none is known."""
_TEXTS = {FRESH: "shelf-fresh-published", UNKNOWN: "shelf-fresh-unknown"}
_PUT_UP, _EATEN = (list(KINDS).index(name) for name in ("put_up", "eaten"))


class Wanting(NamedTuple):
    """The day by which a lot wants eating (since 1970), and what that rests on; empty: its own day."""

    day: int
    rests: str = ""


def wanting(state: State, lot: int) -> Wanting | None:
    """Return by when a lot wants eating; None where that is not known and it is not fresh.

    The day until which it is at its best; else, of fresh food, the early end of its published
    storage life; else the day on which it came, as it may not keep at all.
    """
    best = best_until(state, lot)
    if best is not None:
        return Wanting(best.day)
    if not _is_fresh(state, lot):
        return None
    name, came = state.facts.names[int(state.lots["item"][lot])], int(state.lots["day"][lot])
    life = fresh_life(name)
    day = None if life is None else days_of(came, f"{float(life.low):g} {life.unit}")
    return Wanting(came, UNKNOWN) if day is None else Wanting(day, FRESH)


def _is_fresh(state: State, lot: int) -> bool:
    """Return whether a lot is fresh food: as it came, or cooked; not in jars, not frozen."""
    lots, facts = state.lots, state.facts
    item, ev = int(lots["item"][lot]), int(lots["ev"][lot])
    in_jars, place = bool(lots["jars"][lot]), KEPT[int(lots["kept"][lot])]
    if facts.sort[item] != SORTS.index("food") or in_jars or place == "freezer":
        return False
    kind = int(state.journal.tables["events"]["kind"][ev])
    if kind == _EATEN:
        return not is_marked(state, lot)
    if kind == _PUT_UP:
        return state.body(ev)["method"] == "cook" and not is_marked(state, lot)
    return is_fresh(facts.names[item], facts.facts[item].food)


def wanting_said(found: Iterable[tuple[str, Wanting | None]]) -> list[Assumption]:
    """Return what the order of fresh food rests on, of (item, wanting), in words."""
    names: dict[str, list[str]] = {UNKNOWN: [], FRESH: []}
    for item, one in found:
        if one is not None and one.rests and item not in names[one.rests]:
            names[one.rests].append(item)
    return [
        Assumption(rests, sentence(_TEXTS[rests], names=Names(tuple(several), most=8)))
        for rests, several in names.items()
        if several
    ]
