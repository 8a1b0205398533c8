"""The registry: every kind there is, a line each."""

from __future__ import annotations

from importlib import import_module

from ledger.kinds.kind import Kind

__all__ = ["KINDS"]

_MODULES = (
    "item_described",
    "planted",
    "harvested",
    "bought",
    "received",
    "recipe_written",
    "put_up",
    "eaten",
    "given_away",
    "discarded",
    "counted",
    "gauge_tested",
    "checked",
    "price_seen",
    "practised",
    "target_set",
    "person_described",
    "seed_checked",
    "frost_seen",
    "flock_counted",
    "meter_read",
    "setting_changed",
    "struck",
)
"""The files of kinds, in the order in which help and forms list them."""


def _kind(module: str) -> Kind:
    """Return the kind that a file describes.

    Raises
    ------
    TypeError
        When it lacks a part, or is called otherwise than its file.
    """
    kind: Kind = import_module(f"ledger.kinds.{module}").KIND
    if kind.name != module:
        raise TypeError(f"ledger/kinds/{module}.py describes a kind called {kind.name!r}")
    return kind


KINDS: dict[str, Kind] = {module: _kind(module) for module in _MODULES}
"""Every kind by its stored name."""
