"""Something thrown away, fed to animals, composted or lost."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from ledger.kinds import telling
from ledger.kinds.fields import Note, about
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.parts import Line, Struct
from ledger.kinds.upcasting import LINES

Why = Literal[
    "spoiled",
    "seal failed",
    "broken",
    "too old",
    "pests",
    "fed to animals",
    "composted",
    "lost",
    "other",
]


class Discarded(Struct, kw_only=True):
    """What left the shelf without being eaten, and why."""

    lines: Annotated[
        list[Line],
        about(
            "Lines", "What was discarded", [{"item": "plum butter", "amount": "1 half-pint jar"}]
        ),
    ]
    why: Annotated[Why, about("Why", "Why it was discarded", "seal failed")]
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    return f"discarded {telling.lines(body['lines'])} ({body['why']})"


KIND = Kind(
    name="discarded",
    command="discard",
    title="Discarded",
    summary="write down what was thrown away and why",
    body=Discarded,
    phase=Phase.DISCARD,
    draws=("lines",),
    tell=tell,
    v=2,
    upcasters=LINES,
    example={"item": "plum butter", "amount": "1 half-pint jar", "why": "seal failed"},
)
