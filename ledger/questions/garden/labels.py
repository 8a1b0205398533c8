"""What figures of the garden are called, by the ids of their labels: sizes, feed that was spared, and work."""

from __future__ import annotations

__all__ = ["LABELS"]

LABELS = {
    "plants": "why-plants",
    "area_m2": "why-area-m2",
    "row_m": "why-row-m",
    "no-size": "why-no-size",
    "no-weight-of": "why-crop-no-weight",
    "never-eaten": "why-never-eaten",
    "feed-spared": "why-feed-spared",
    "taken-weight": "why-taken-weight",
    "its-energy": "why-its-energy",
    "price-of-feed": "why-price-of-feed",
    "paid-for-feed": "why-paid-for-feed",
    "energy-bought": "why-energy-bought",
    "work-part": "why-work-part",
    "work-on-it": "why-work-on-it",
    "minutes": "why-minutes-of-work",
    "hours": "why-hours",
    "per-hour": "why-per-hour",
}
