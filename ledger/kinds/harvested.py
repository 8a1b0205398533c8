"""Something picked, dug, gathered from the household's own ground or animals."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds import telling
from ledger.kinds.fields import Note, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import HarvestLine, Struct, Work
from ledger.kinds.upcasting import LINES


class Harvested(Struct, kw_only=True):
    """A harvest: amounts as picked; what was trimmed off at once is said apart."""

    lines: Annotated[
        list[HarvestLine],
        about("Lines", "What was picked", [{"item": "plum", "amount": "31 lb 8 oz"}]),
    ]
    work: Annotated[
        list[Work] | None,
        about("Work", "Who worked and how long", [{"person": "Ada", "minutes": "40"}]),
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"picked {telling.lines(body['lines'])}"


KIND = Kind(
    name="harvested",
    command="harvest",
    title="Picked",
    summary="write down what was picked, dug or collected",
    body=Harvested,
    phase=Phase.SUPPLY,
    supplies=("lines",),
    tell=tell,
    v=2,
    upcasters=LINES,
    example={"item": "plum", "amount": "31 lb 8 oz", "bed": "orchard"},
)
