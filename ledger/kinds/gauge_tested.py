"""A canner's gauge held against a right one: how far it reads high or low."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Annotated, Any

from ledger.errors import InputError
from ledger.items import near_misses
from ledger.kinds import telling
from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Known, Resolver
from ledger.messages import Choice, Code, Message, Typed, fixed, measured, sentence


class GaugeTested(Struct, kw_only=True):
    """Which gauge was tested, what it reads too high or too low, and by whom."""

    gauge: Annotated[
        Text, about("Gauge", "Which gauge: the canner's name as equipment, or dial", "dial")
    ]
    reads: Annotated[
        Text,
        about(
            "Reads", "What it reads too high (+) or too low (-), in psi; 0 where right", "+2 psi"
        ),
    ]
    by: Annotated[Text | None, about("By", "Who tested it", "extension office")] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    reads = body["reads"]
    number = reads.removesuffix(" psi").lstrip("+-")
    way = "right" if number == "0" else "low" if reads.startswith("-") else "high"
    return sentence(
        "gauge-reads",
        way=Choice(way),
        name=body["gauge"],
        n=measured(number),
        by=body.get("by") or None,
    )


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    reads = body["reads"]
    number = reads.removesuffix(" psi").lstrip("+-")
    way = "right" if number == "0" else "low" if reads.startswith("-") else "high"
    told = {"gauge": body["gauge"], "n": telling.measure(number), "reads": Choice(way)}
    if body.get("by"):
        return Message.of("told-gauge-by", **told, by=body["by"])
    return Message.of("told-gauge", **told)


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


def resolve(body: Body, lines: Resolver) -> Body:
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


def _gauge(text: str, catalogue: Known) -> str:
    name = " ".join(text.split())
    if name.lower() in ("dial", "dial gauge"):
        return "dial"
    if "weight" in name.lower():
        raise InputError(
            "gauge",
            Message.of("gauge-reads-nothing", name=Typed(name)),
        )
    facts = catalogue.facts(name)
    if facts is not None and facts.sort == "equipment":
        return catalogue.name(name)
    near = near_misses(name, catalogue.names())
    problem = (
        Message.of("gauge-no-equipment", name=Typed(name))
        if facts is None
        else sentence(
            "gauge-other-sort", name=Typed(name), sort=fixed(facts.sort) if facts.sort else None
        )
    )
    raise InputError(
        "gauge",
        problem,
        Message.of("gauge-name-canner", near=Typed(near[0]) if near else None),
    )


def _reads(text: str) -> str:
    said = " ".join(text.replace("−", "-").split())
    match = _READS.fullmatch(said)
    if match is None:
        raise InputError("reads", Message.of("gauge-no-reading", text=Typed(text)))
    try:
        number = _number(match["number"])
    except ArithmeticError:
        raise InputError("reads", Message.of("gauge-no-reading", text=Typed(text))) from None
    unit = match["unit"].lower().rstrip(".")
    if unit in _PSI_IN:
        psi = (number / _PSI_IN[unit]).quantize(Decimal("0.01")).normalize()
        sign = "-" if match["sign"] == "-" or (match["word"] or "").lower() == "low" else "+"
        raise InputError(
            "reads",
            Message.of(
                "gauge-other-unit",
                text=Typed(text),
                unit=Code(match["unit"]),
                sign=Code(sign),
                psi=Code(f"{psi:f}"),
                sign2=Code(sign),
                psi2=Code(f"{psi:f}"),
            ),
        )
    if unit not in _PSI:
        raise InputError("reads", Message.of("gauge-not-psi", text=Typed(text)))
    if number == 0:
        return "0 psi"
    sign = match["sign"] or {"high": "+", "low": "-"}.get((match["word"] or "").lower(), "")
    if not sign:
        raise InputError("reads", Message.of("gauge-no-direction", text=Typed(text)))
    if (
        match["sign"]
        and match["word"]
        and (match["sign"] == "-") != (match["word"].lower() == "low")
    ):
        raise InputError("reads", Message.of("gauge-both-directions", text=Typed(text)))
    if number > _MOST:
        raise InputError(
            "reads",
            Message.of("gauge-beyond-dial", text=Typed(text), most=_MOST),
        )
    return f"{sign}{number.normalize():f} psi"


def _number(text: str) -> Decimal:
    over, _, under = text.replace(",", ".").partition("/")
    return (Decimal(over) / Decimal(under or 1)).quantize(Decimal("0.0001"))


KIND = Kind(
    name="gauge_tested",
    command="gauge",
    title="Gauge tested",
    summary="write down what a canner's gauge read when it was tested",
    body=GaugeTested,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("gauge",),
    typed=(
        'gauge dial --reads "+2 psi" --by "extension office"',
        'gauge "pressure canner" --reads 0 --on 2026-06-01',
    ),
    tell=tell,
    says=says,
    form=Form(("gauge", "reads", "by"), icon="clock"),
    example={"gauge": "dial", "reads": "+2 psi", "by": "extension office"},
)
