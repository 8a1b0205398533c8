"""The one clock: everything that asks for the time asks here, so that tests can set it."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

__all__ = ["now", "stamp", "today"]


def now() -> dt.datetime:
    """Return the present moment, aware, in UTC."""
    return dt.datetime.now(dt.UTC)


def today(zone: str | None = None) -> dt.date:
    """Return today's date in `zone` (an IANA name), or where the machine is."""
    if zone:
        try:
            return now().astimezone(ZoneInfo(zone)).date()
        except (ZoneInfoNotFoundError, ValueError):
            pass  # an unknown zone is refused when the setting is written; old books still open
    return now().astimezone().date()


def stamp(moment: dt.datetime | None = None) -> str:
    """Return `moment` (default: now) as RFC 3339 in UTC, microseconds, fixed width.

    Examples
    --------
    >>> stamp(dt.datetime(2026, 9, 2, 8, 30, tzinfo=dt.UTC))
    '2026-09-02T08:30:00.000000Z'
    """
    moment = (moment or now()).astimezone(dt.UTC)
    return moment.strftime("%Y-%m-%dT%H:%M:%S.%fZ")
