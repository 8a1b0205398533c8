"""Hens: how many of them lay, what a dozen takes, and how long the feed lasts."""

from __future__ import annotations

__all__ = ["USUAL_LB", "days_of_feed", "hen_day_lay", "lb_per_dozen"]

USUAL_LB = 0.25
"""Pounds of feed a hen and day where no feed is written down: from memory, common practice."""


def hen_day_lay(eggs: float, hen_days: float) -> float | None:
    """Return eggs / hen-days; None without hens."""
    return eggs / hen_days if hen_days > 0 else None


def lb_per_dozen(feed_lb: float, eggs: float) -> float | None:
    """Return pounds of feed for a dozen eggs; None without eggs."""
    return feed_lb / (eggs / 12) if eggs > 0 else None


def days_of_feed(feed_lb: float, hens: float, lb_a_day: float) -> float | None:
    """Return the days that feed lasts hens of which each eats so many pounds a day."""
    return feed_lb / (hens * lb_a_day) if hens > 0 and lb_a_day > 0 else None
