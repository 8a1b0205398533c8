"""Which batch a jar that failed to seal came from: its own by the day, else it is asked.

Without this the oldest jars would lose it (the reckoning, rule 4), though a seal is looked at within
a day of canning (USDA Complete Guide to Home Canning, guide 1: after cooling 12 to 24 hours).
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from ledger.door.answers import Answers
from ledger.errors import InputError, NeedsAnswer
from ledger.items import item_key
from ledger.kinds.telling import jar_said
from ledger.known.catalogue import Catalogue
from ledger.messages import Day, Message, Names, sentence

__all__ = ["Batch", "batches_for", "jarred_as", "own_batch", "settled_seals"]

SEAL = "seal failed"


@dataclass(frozen=True)
class Batch:
    """Jars of one batch: the lot, the day, how many of which size."""

    lot: str
    on: str
    jars: int
    jar: str

    @property
    def text(self) -> str:
        """Return ``the 7 quart jars of 2026-09-01``."""
        return sentence("doubt-jars-of-day", jars=jar_said(self.jar, self.jars), day=Day(self.on))


def batches_for(
    catalogue: Catalogue, item: str, on: str, jar: str | None = None, many: float = 1
) -> list[Batch]:
    """Return the batches of an item with so many jars (of one size) made by a day, the newest first."""
    wanted, out = catalogue.key(item), []
    for root, (day, makes, made) in catalogue.batches.every():
        if day > on or catalogue.key(makes) != wanted:
            continue
        for one in made:
            if jar in (None, one["jar"]) and one["jars"] >= many:
                lot = f"{root}:{one['n']}"
                out.append(Batch(lot, day, one["jars"], one["jar"]))
    return sorted(out, key=lambda one: one.on, reverse=True)


def jarred_as(catalogue: Catalogue, item: str, on: str) -> list[str]:
    """Return what was put up in jars by a day and may be meant by an item's name, the newest first.

    The item itself where it was; else what has its words among its own: "green beans" of which
    "canned green beans" were put up.
    """
    wanted, words = catalogue.key(item), _stems(catalogue.name(item))
    own, like = [], []
    for _, (day, makes, made) in reversed(list(catalogue.batches.every())):
        if day > on or not made:
            continue
        if catalogue.key(makes) == wanted:
            own.append(catalogue.name(makes))
        elif words < _stems(makes):
            like.append(catalogue.name(makes))
    return list(dict.fromkeys(own or like))


def _stems(name: str) -> set[str]:
    return {word.removesuffix("s") for word in item_key(name).split()}


def own_batch(found: list[Batch], on: str) -> Batch | None:
    """Return the batch that a seal of a day is of: the only one, or the only one of that day or the day before."""
    if len(found) == 1:
        return found[0]
    before = (dt.date.fromisoformat(on) - dt.timedelta(days=1)).isoformat()
    fresh = [one for one in found if one.on in (on, before)]
    return fresh[0] if len(fresh) == 1 else None


def settled_seals(
    catalogue: Catalogue, body: dict[str, Any], on: str, answers: Answers
) -> dict[str, Any]:
    """Return a body of `discarded` whose failed seals name the lot that they come off.

    Raises
    ------
    NeedsAnswer
        Which batch it was is not told by the day.
    InputError
        No jar of the item was put up, but of something made of it: what was picked has no seal.
    """
    if body.get("why") != SEAL:
        return body
    if "lines" not in body:
        return {**body, **_line(catalogue, body, on, answers, "lot")}
    lines = body["lines"]
    if not isinstance(lines, list) or not all(isinstance(one, dict) for one in lines):
        return body
    return {
        **body,
        "lines": [
            {**one, **_line(catalogue, one, on, answers, f"lines[{n}].lot")}
            for n, one in enumerate(lines)
        ],
    }


def _line(
    catalogue: Catalogue, line: dict[str, Any], on: str, answers: Answers, field: str
) -> dict[str, str]:
    item = line.get("item")
    if line.get("lot") or not isinstance(item, str):
        return {}
    found = batches_for(catalogue, item, on, *_jars(line.get("amount")))
    if not found:
        _refuse_fresh(catalogue, line, item, on, field.removesuffix("lot") + "item")
    own = own_batch(found, on)
    if own is None and found:
        question = sentence(
            "doubt-which-unsealed", item=item, jars=Names(tuple(b.text for b in found[:4]))
        )
        answers.settle(
            NeedsAnswer("lot", field, question, sentence("doubt-newest", text=found[0].text))
        )
        own = found[0]
    return {"lot": own.lot} if own else {}


def _refuse_fresh(
    catalogue: Catalogue, line: dict[str, Any], item: str, on: str, field: str
) -> None:
    meant = jarred_as(catalogue, item, on)
    if meant and catalogue.key(item) not in map(catalogue.key, meant):
        raise InputError(
            field,
            Message.of("refusal-no-jar-but", item=item, names=Names(tuple(meant))),
            Message.of("refusal-name-it-so", amount=line.get("amount", "1 jar"), item=meant[0]),
        )


def _jars(amount: Any) -> tuple[str | None, float]:
    """Return the size of jar that an amount names, and how many."""
    from ledger.amounts import parse_amount
    from ledger.errors import LedgerError

    try:
        said = parse_amount(amount) if isinstance(amount, str) else None
    except LedgerError:
        said = None
    if said is None:
        return None, 1
    return said.jar or said.maybe_jar, float(said.jars or 1)
