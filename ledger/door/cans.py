"""Bought cans of what the book knows fresh: asked about, so that they are kept apart as a ware of their own.

Six cans of tomatoes under the name of the picked ones would be dated, counted and eaten as fresh tomatoes.
"""

from __future__ import annotations

import re
from typing import Any

from ledger.door.answers import Answers
from ledger.errors import NeedsAnswer
from ledger.kinds import IN_HOUSE
from ledger.known.catalogue import Catalogue
from ledger.messages import Sentence, sentence

__all__ = ["asked_of", "in_cans", "settled_cans", "ware_of"]

_CANS = re.compile(r"\b(cans?|tins?|dosen?|büchsen?)\b", re.IGNORECASE)


def in_cans(amount: str) -> bool:
    """Return whether an amount is of cans: ``6 cans``, ``2 Dosen``."""
    return bool(_CANS.search(amount))


def ware_of(catalogue: Catalogue, item: str, language: str | None) -> str | None:
    """Return the name of a fresh food out of cans; None of what is not fresh by its name."""
    from ledger.published.fresh import is_fresh

    facts = catalogue.facts(item)
    if not is_fresh(item, facts.food if facts else None):
        return None
    return f"{item} aus der Dose" if language == "de" else f"canned {item}"


def asked_of(item: str, ware: str) -> Sentence:
    """Return the question whether cans of it are kept apart."""
    return sentence("doubt-cans", name=item, ware=ware)


def settled_cans(
    catalogue: Catalogue, kind: str, body: dict[str, Any], answers: Answers
) -> dict[str, Any]:
    """Return a typed body in which cans of a fresh food bear the name of the canned ware.

    Raises
    ------
    NeedsAnswer
        Nobody said whether they are meant as the fresh food.
    """
    name = IN_HOUSE.get(kind)
    if name is None:
        return body
    several = body.get(name)
    lines = [body] if several is None else several
    if not isinstance(lines, list) or not all(isinstance(one, dict) for one in lines):
        return body
    fields = ["item" if several is None else f"{name}[{n}].item" for n in range(len(lines))]
    out = [
        {**line, "item": _kept_as(catalogue, line, field, answers)} if "item" in line else line
        for line, field in zip(lines, fields, strict=True)
    ]
    return out[0] if several is None else {**body, name: out}


def _kept_as(catalogue: Catalogue, line: dict[str, Any], field: str, answers: Answers) -> Any:
    """Return the item of a line, or the canned ware where that was the answer."""
    item = line["item"]
    if not isinstance(item, str) or not in_cans(str(line.get("amount", ""))):
        return item
    ware = ware_of(catalogue, item, catalogue.setting("language"))
    if ware is None:
        return item
    taken = answers.choose(NeedsAnswer("cans", field, asked_of(item, ware), ware))
    return ware if taken else item
