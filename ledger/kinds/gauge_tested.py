"""A canner's gauge held against a right one: how far it reads high or low."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Struct


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
    said = (
        "reads right"
        if number == "0"
        else f"reads {number} psi too {'low' if reads.startswith('-') else 'high'}"
    )
    by = f" (tested by {body['by']})" if body.get("by") else ""
    return f"gauge {body['gauge']} {said}{by}"


KIND = Kind(
    name="gauge_tested",
    command="gauge",
    title="Gauge tested",
    summary="write down what a canner's gauge read when it was tested",
    body=GaugeTested,
    phase=Phase.FACTS,
    tell=tell,
    example={"gauge": "dial", "reads": "+2 psi", "by": "extension office"},
)
