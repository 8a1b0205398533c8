"""The vocabulary: what can happen in a household, each kind described whole in a file of its own.

- ``fields``, ``parts``: the types that bodies are made of. ``methods``: ways of putting up.
- ``resolving``: what a kind may ask of the door. ``kind``: what a description holds.
- one file a kind, and a line each in ``ledger.vocabulary``; nothing else lists them.
- ``reading``: typed input and stored text to bodies and back. ``describing``: fields as people type
  them. ``telling``: lines in words. ``upcasting``: older bodies.

Imports nothing of the rooms to its right: no store, no door, no replay.
"""

from ledger.kinds.kind import ORIGINS, ROLES, SUPPLIED, Form, Kind, Phase
from ledger.kinds.methods import CANNING, METHODS, kept_by
from ledger.kinds.reading import (
    check_typed,
    decode_stored,
    kind_of,
    lean_body,
    newer_than_this,
    read_stored,
    tell,
    tell_stored,
    to_stored,
    upcast,
)
from ledger.kinds.registry import IN_HOUSE, KINDS

__all__ = [
    "CANNING",
    "IN_HOUSE",
    "KINDS",
    "METHODS",
    "ORIGINS",
    "ROLES",
    "SUPPLIED",
    "Form",
    "Kind",
    "Phase",
    "check_typed",
    "decode_stored",
    "kept_by",
    "kind_of",
    "lean_body",
    "newer_than_this",
    "read_stored",
    "tell",
    "tell_stored",
    "to_stored",
    "upcast",
]
