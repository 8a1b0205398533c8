"""A meter read: of a freezer's plug, the stove, or the water."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct


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


KIND = Kind(
    name="meter_read",
    command="meter",
    title="Meter read",
    summary="write down what a meter of electricity or water shows",
    body=MeterRead,
    phase=Phase.FACTS,
    tell=tell,
    example={"meter": "freezer", "reads": "412.6 kWh"},
)
