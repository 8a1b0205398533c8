"""A meter read: of a freezer's plug, the stove, or the water."""

from __future__ import annotations

import re
from typing import Annotated, Any

from ledger.errors import InputError
from ledger.kinds import telling
from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import Body, Resolver
from ledger.messages import Code, Message


class MeterRead(Struct, kw_only=True):
    """What a meter showed; with `before` and `batch`, what a batch took of it."""

    meter: Annotated[Text, about("Meter", "Which meter: freezer, stove, water", "freezer")]
    reads: Annotated[Text, about("Reads", "What it shows", "412.6 kWh")]
    before: Annotated[
        Text | None, about("Before", "What it showed before the batch", "409.1 kWh")
    ] = None
    batch: Annotated[
        Text | None, about("Batch", "The batch that took it", "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11")
    ] = None  # fmt: skip
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    of = f" for batch {body['batch'][:8]}" if body.get("batch") else ""
    before = f", {body['before']} before" if body.get("before") else ""
    return f"meter {body['meter']} reads {body['reads']}{before}{of}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    told = {"meter": body["meter"], "reads": telling.measure(body["reads"])}
    before = telling.measure(body["before"]) if body.get("before") else None
    if body.get("batch"):
        batch = Code(body["batch"][:8])
        return Message.of("told-meter-batch", **told, before=before, batch=batch)
    return Message.of("told-meter", **told, before=before)


_READING = re.compile(
    r"(?P<number>\d{1,12}(?:[.,]\d{1,6})?)\s*(?P<unit>kwh|wh|mj|l|liters?|litres?|gal|gallons?|m3|m³|cu ?ft|ft3)\.?",
    re.IGNORECASE,
)


_UNITS = {
    "kwh": ("energy", 1.0), "wh": ("energy", 0.001), "mj": ("energy", 1 / 3.6),
    "l": ("water", 1.0), "liter": ("water", 1.0), "litre": ("water", 1.0),
    "gal": ("water", 3.785411784), "gallon": ("water", 3.785411784),
    "m3": ("water", 1000.0), "m³": ("water", 1000.0),
    "cuft": ("water", 28.316846592), "ft3": ("water", 28.316846592),
}  # fmt: skip
"""Kilowatt hours or litres in one (NIST SP 811)."""


def reading(text: str, field: str = "reads") -> tuple[str, float]:
    """Return what a meter counts (``energy`` or ``water``) and how much, in kWh or litres.

    Raises
    ------
    InputError
        Naming `field`.
    """
    found = _READING.fullmatch(" ".join(text.split()))
    if found is None:
        raise InputError(
            field,
            f"{text!r} is not a reading of electricity or water",
            'Write it like "412.6 kWh" or "1203 L"',
        )
    unit = found["unit"].lower().replace(" ", "")
    what, factor = _UNITS.get(unit) or _UNITS[unit.removesuffix("s")]
    return what, float(found["number"].replace(",", ".")) * factor


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a reading's body; a meter that runs backwards is refused.

    Raises
    ------
    InputError
        Naming `reads` or `before`.
    """
    what, value = reading(body["reads"])
    if ("before" in body) != ("batch" in body):
        lacks = "batch" if "before" in body else "before"
        raise InputError(
            lacks, Message.of("refusal-missing"), "What a batch took needs --before and --batch"
        )
    if "before" in body:
        before_what, before = reading(body["before"], "before")
        if before_what != what:
            raise InputError("before", "is in other units than the reading", "Write both alike")
        if before > value:
            raise InputError(
                "before",
                f"{body['before']} is more than the {body['reads']} after",
                "Write the reading from before the batch; a meter does not run backwards",
            )
    return {**body, "meter": " ".join(body["meter"].split())}


KIND = Kind(
    name="meter_read",
    command="meter",
    title="Meter read",
    summary="write down what a meter of electricity or water shows",
    body=MeterRead,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=resolve,
    words=("meter",),
    typed=(
        'meter freezer --reads "412.6 kWh"',
        'meter water --reads "1203 L" --before "1184 L" --batch 5f0c0a0e',
    ),
    tell=tell,
    says=says,
    form=Form(("meter", "reads"), icon="clock"),
    example={"meter": "freezer", "reads": "412.6 kWh"},
)
