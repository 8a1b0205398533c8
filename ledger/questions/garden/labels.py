"""What figures of the garden are called, by the ids of their labels: feed that was spared, and work."""

from __future__ import annotations

__all__ = ["LABELS"]

LABELS = {
    "never-eaten": "part that was never eaten",
    "feed-spared": "feed that it spared",
    "taken-weight": "a taking",
    "its-energy": "its energy",
    "price-of-feed": "price of feed until then",
    "paid-for-feed": "paid for feed",
    "energy-bought": "energy of feed bought",
    "work-part": "its part of that picking",
    "work-on-it": "work on it",
    "minutes": "minutes of work",
    "hours": "hours",
    "per-hour": "minutes in an hour",
}
