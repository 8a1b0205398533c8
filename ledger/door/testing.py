"""A gauge's test and a batch that was looked up: what they say, read before it is stored."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from ledger.door.catalogue import Catalogue
from ledger.door.lines import Lines
from ledger.errors import InputError, NotFound
from ledger.items import near_misses
from ledger.log import Writing

__all__ = ["check_batch", "gauge_tested"]

_READS = re.compile(
    r"(?P<sign>[+-]?)\s*(?P<number>\d{1,4}(?:[.,]\d{1,4})?|\d{1,2}/\d{1,2})\s*(?P<unit>(?!high|low)[a-z./]*)\s*(?P<word>high|low)?",
    re.IGNORECASE,
)
_PSI = ("", "psi", "lb", "lbs", "pounds", "lb/sq.in")
_PSI_IN = {"kpa": Decimal("6.894757"), "bar": Decimal("0.06894757"), "mbar": Decimal("68.94757")}
"""One psi in these units (NIST SP 811)."""
_MOST = 20
"""Dials of canners run from 0 to 20 psi: a gauge cannot be further off."""
_LIKE = 'Write it like "+2 psi" where it reads two too high, "-1 psi" where it reads one too low'


def gauge_tested(body: dict[str, Any], lines: Lines) -> dict[str, Any]:
    """Return a test with its gauge by the book's own name, and its reading as ``+2 psi``.

    Raises
    ------
    InputError
        Naming `gauge` or `reads`.
    """
    return {
        **body,
        "gauge": _gauge(body["gauge"], lines.catalogue),
        "reads": _reads(body["reads"]),
    }


def _gauge(text: str, catalogue: Catalogue) -> str:
    name = " ".join(text.split())
    if name.lower() in ("dial", "dial gauge"):
        return "dial"
    if "weight" in name.lower():
        raise InputError(
            "gauge",
            f"{name!r} reads nothing that could be off: a weighted gauge is not tested so",
            "Name the canner with the dial gauge, or dial; correct the batches where a weight was wrong",
        )
    facts = catalogue.facts(name)
    if facts is not None and facts.sort == "equipment":
        return catalogue.name(name)
    near = near_misses(name, catalogue.names())
    hint = f"did you mean {near[0]!r}? Else name" if near else "Name"
    problem = (
        f"{name!r} is no piece of equipment in this book"
        if facts is None
        else f"{name!r} is {facts.sort or 'no equipment'}, not equipment"
    )
    raise InputError("gauge", problem, f"{hint} a canner that batches name, or write dial")


def _reads(text: str) -> str:
    said = " ".join(text.replace("−", "-").split())
    match = _READS.fullmatch(said)
    if match is None:
        raise InputError("reads", f"{text!r} is not a reading", _LIKE)
    try:
        number = _number(match["number"])
    except ArithmeticError:
        raise InputError("reads", f"{text!r} is not a reading", _LIKE) from None
    unit = match["unit"].lower().rstrip(".")
    if unit in _PSI_IN:
        psi = (number / _PSI_IN[unit]).quantize(Decimal("0.01")).normalize()
        sign = "-" if match["sign"] == "-" or (match["word"] or "").lower() == "low" else "+"
        raise InputError(
            "reads",
            f"{text!r} is in {match['unit']}, and gauges are compared in psi",
            f'It comes to {sign}{psi:f} psi: write "{sign}{psi:f} psi" if that is meant',
        )
    if unit not in _PSI:
        raise InputError("reads", f"{text!r} is not in psi", _LIKE)
    if number == 0:
        return "0 psi"
    sign = match["sign"] or {"high": "+", "low": "-"}.get((match["word"] or "").lower(), "")
    if not sign:
        raise InputError("reads", f"{text!r} does not say whether too high or too low", _LIKE)
    if (
        match["sign"]
        and match["word"]
        and (match["sign"] == "-") != (match["word"].lower() == "low")
    ):
        raise InputError("reads", f"{text!r} says both too high and too low", _LIKE)
    if number > _MOST:
        raise InputError(
            "reads",
            f"{text!r} is more than a dial of 0 to {_MOST} psi can be off",
            "Write only what it reads too high or too low, in psi",
        )
    return f"{sign}{number.normalize():f} psi"


def _number(text: str) -> Decimal:
    over, _, under = text.replace(",", ".").partition("/")
    return (Decimal(over) / Decimal(under or 1)).quantize(Decimal("0.0001"))


def check_batch(tx: Writing, catalogue: Catalogue, id: str) -> str:
    """Return the entry of the batch that was looked up.

    Raises
    ------
    NotFound, InputError
        When there is none, it is no batch, or it was taken back.
    """
    event = tx.get(id)
    if event is None:
        raise NotFound(
            "batch",
            f"there is no entry {id[:60]!r}",
            "Take an id from `croftbook show as-published`",
        )
    if event.kind != "put_up":
        raise InputError(
            "batch",
            f"{id[:8]} is {event.kind}, not a batch",
            "Take an id from `croftbook show as-published`",
        )
    entries = catalogue.entries(tx)
    if entries.is_struck(id):
        raise InputError("batch", f"{id[:8]} was taken back", "Look up a batch that still counts")
    return entries.root(id)
