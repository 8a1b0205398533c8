"""The vocabulary: what can happen in a household, each kind described once in a file of its own.

- ``_fields``, ``_lines``: the types that bodies are made of.
- ``_kind``: what a description holds. ``_read``: typed input and stored text to bodies and back.
- one file a kind; adding a kind is that file and one line in `KINDS`.

Imports nothing of the rooms to its right: no store, no replay.
"""

from ledger.kinds import (
    bought,
    checked,
    counted,
    discarded,
    eaten,
    flock_counted,
    frost_seen,
    gauge_tested,
    given_away,
    harvested,
    item_described,
    meter_read,
    person_described,
    planted,
    practised,
    price_seen,
    put_up,
    received,
    recipe_written,
    seed_checked,
    setting_changed,
    struck,
    target_set,
)
from ledger.kinds.kind import Kind, Phase
from ledger.kinds.methods import CANNING, METHODS, kept_by
from ledger.kinds.reading import (
    check_typed,
    decode_stored,
    kind_of,
    lean,
    newer_than_this,
    read_stored,
    tell,
    to_stored,
    upcast,
)

__all__ = [
    "CANNING",
    "KINDS",
    "METHODS",
    "Kind",
    "Phase",
    "check_typed",
    "decode_stored",
    "kept_by",
    "kind_of",
    "lean",
    "newer_than_this",
    "read_stored",
    "tell",
    "to_stored",
    "upcast",
]

KINDS: dict[str, Kind] = {
    module.KIND.name: module.KIND
    for module in (
        item_described,
        planted,
        harvested,
        bought,
        received,
        recipe_written,
        put_up,
        eaten,
        given_away,
        discarded,
        counted,
        gauge_tested,
        checked,
        price_seen,
        practised,
        target_set,
        person_described,
        seed_checked,
        frost_seen,
        flock_counted,
        meter_read,
        setting_changed,
        struck,
    )
}
"""Every kind by its stored name, in the order in which help and forms list them."""
