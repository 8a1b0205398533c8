"""A batch that was looked up: which publication says so, where the tables here could not."""

from __future__ import annotations

from typing import Annotated, Any

from ledger.kinds.fields import Note, Text, about
from ledger.kinds.kind import Form, Kind, Phase
from ledger.kinds.parts import Struct
from ledger.kinds.resolving import as_typed
from ledger.messages import Code, Message


class Checked(Struct, kw_only=True):
    """Which batch was looked up, in which publication, and what that says."""

    batch: Annotated[
        Text, about("Batch", "The entry of the batch", "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11")
    ]
    publication: Annotated[
        Text,
        about("Publication", "Which tested publication covers it", "state bulletin 270, page 12"),
    ]
    says: Annotated[
        Text | None, about("Says", "What it says", "raw pack, quarts, 25 minutes at 12 psi")
    ] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "")] = None


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    says = f": {body['says']}" if body.get("says") else ""
    return f"looked up batch {body['batch'][:8]} in {body['publication']}{says}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    return Message.of(
        "told-looked-up",
        batch=Code(body["batch"][:8]),
        publication=body["publication"],
        says=body.get("says") or None,
    )


KIND = Kind(
    name="checked",
    command="settle",
    title="Looked up",
    summary="settle a batch that is to check yourself: which publication covers it",
    body=Checked,
    phase=Phase.FACTS,
    supplies={},
    draws=(),
    resolve=as_typed,
    words=("batch",),
    typed=(
        'settle 5f0c0a0e --publication "state bulletin 270, page 12" --says "raw pack, quarts, 25 minutes at 12 psi"',
    ),
    tell=tell,
    says=says,
    form=Form(("batch", "publication", "says"), icon="check"),
    example={
        "batch": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11",
        "publication": "state bulletin 270, page 12",
        "says": "raw pack, quarts, 25 minutes at 12 psi",
    },
)
