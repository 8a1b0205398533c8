"""What a batch takes against what is there: ingredients, jars, lids, canner loads."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.amounts import format_whole
from ledger.door import jars_per_load
from ledger.items import item_key
from ledger.kinds import CANNING
from ledger.known import Catalogue
from ledger.messages.units import amount, together
from ledger.questions.shared.common import LISTED_FROM
from ledger.questions.shared.jars import jar_totals

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["JarNeed", "Need", "Plan", "plan_of"]


@dataclass(frozen=True)
class Need:
    """An ingredient: how much is wanted, and how much is there (None: nothing was written down)."""

    item: str
    wanted: str
    there: str | None


@dataclass(frozen=True)
class JarNeed:
    """Jars of one size with their lids: wanted, empty or in hand, and loads of the canner (or None)."""

    jar: str
    jars: int
    empty: int
    lid: str
    lids: int
    loads: int | None
    per_load: int | None


@dataclass(frozen=True)
class Plan:
    """What a batch takes."""

    needs: tuple[Need, ...]
    jars: tuple[JarNeed, ...]


def plan_of(state: State, catalogue: Catalogue, body: dict[str, Any]) -> Plan:
    """Return what a batch's body takes against what a moment of the book has."""
    measures = catalogue.setting("measures", default="us") or "us"
    needs = []
    for line in body.get("used", ()):
        number = state.facts.find(line["item"])
        there = None
        if number is not None:
            texts = []
            for strand in state.facts.strands.several(number):
                measure, left = state.facts.measure[strand], _left(state, strand)
                if left >= LISTED_FROM[measure]:  # less is what rounding leaves
                    texts.append(amount(format_whole(left, measure, measures=measures)))
            there = together(texts) if texts else None
        needs.append(Need(line["item"], line["amount"], there))
    empties = state.once(jar_totals)
    loads = jars_per_load(catalogue.setting("jars_per_load"))
    jars = []
    for made in body.get("made", ()):
        if not made.get("jars"):
            continue
        lid = (
            made.get("lids")
            or body.get("lids")
            or catalogue.lids_of.get(item_key(made["jar"]), "lid")
        )
        number = state.facts.find(lid)
        per_load = loads.get(made["jar"]) if body.get("method") in CANNING else None
        jars.append(
            JarNeed(
                jar=made["jar"],
                jars=int(made["jars"]),
                empty=empties.get(made["jar"], {}).get("empty", 0),
                lid=lid,
                lids=0 if number is None else _left(state, number) // 1000,
                loads=math.ceil(int(made["jars"]) / per_load) if per_load else None,
                per_load=per_load,
            )
        )
    return Plan(tuple(needs), tuple(jars))


def _left(state: State, item: int) -> int:
    return int(state.left[state.lots["item"] == item].sum())
