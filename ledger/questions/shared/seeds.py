"""Seed on hand: its year, how much is left, the packet's days and how it sprouted, by crop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.methods.frost import Sprouts, sprouts

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Seed", "seeds_of"]


@dataclass(frozen=True)
class Seed:
    """What the newest words say of a crop's seed; each with the event that says it.

    Attributes
    ----------
    year, seeds, days : (int, int) or None
        The value and its event.
    test : (Sprouts, int, int, int) or None
        The test, how many sprouted of how many sown, and its event.
    """

    year: tuple[int, int] | None
    seeds: tuple[int, int] | None
    days: tuple[int, int] | None
    test: tuple[Sprouts, int, int, int] | None


def seeds_of(state: State) -> dict[int, Seed]:
    """Return the seed of each crop, by item: each field by the newest event that says it."""
    return state.once(_seeds)


def _seeds(state: State) -> dict[int, Seed]:
    newest: dict[int, dict[str, Any]] = {}
    for ev, body in state.bodies("seed_checked"):
        item = state.facts.find(body["crop"])
        if item is None:
            continue
        said = newest.setdefault(item, {})
        for name in ("year", "seeds", "days"):
            if name in body:
                said[name] = int(body[name]), ev
        if "sown" in body:
            grew, sown = int(body["sprouted"]), int(body["sown"])
            said["test"] = sprouts(grew, sown), grew, sown, ev
    return {
        item: Seed(said.get("year"), said.get("seeds"), said.get("days"), said.get("test"))
        for item, said in newest.items()
    }
