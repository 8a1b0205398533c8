"""Electricity and water per jar, and a freezer's share by lot: plain division, with what a full load saves."""

from __future__ import annotations

__all__ = ["freezer_share", "full_load_saves", "per_jar"]

LB_MONTH_DAYS = 365.2425 / 12


def per_jar(amount: float, jars: float) -> float | None:
    """Return kWh or litres of a load / jars; None without jars."""
    return amount / jars if jars > 0 else None


def full_load_saves(kwh: float, jars: float, capacity: float) -> float | None:
    """Return kWh a jar that the same loads would save if they were full: kwh/jars - kwh/capacity."""
    return None if jars <= 0 or capacity <= 0 else max(kwh / jars - kwh / capacity, 0.0)


def freezer_share(year_kwh: float, lb_months: float, all_lb_months: float) -> float:
    """Return the part of a year's kWh that a lot of so many pound-months bears; 0 of an empty freezer."""
    return year_kwh * lb_months / all_lb_months if all_lb_months > 0 else 0.0
