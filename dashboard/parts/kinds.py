"""Which icon an entry of a kind bears."""

from __future__ import annotations

__all__ = ["icon_of"]

_ICONS = {
    "harvested": "picked", "bought": "bought", "put_up": "put-up", "eaten": "ate",
    "practised": "practised", "counted": "counted", "planted": "planted", "received": "given",
    "given_away": "given", "discarded": "lost", "price_seen": "price", "seed_checked": "planted",
    "flock_counted": "hen", "frost_seen": "freezer", "gauge_tested": "clock",
    "checked": "check", "target_set": "list", "meter_read": "clock",
}  # fmt: skip


def icon_of(kind: str) -> str:
    """Return the icon's name."""
    return _ICONS.get(kind, "write")
