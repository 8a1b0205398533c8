"""The formulas of glut: each gives the column for all lines of the plan, and the tree for one."""

from __future__ import annotations

from ledger.figures import Figure, choose, known_where
from ledger.messages import fixed
from ledger.questions.glut.gather import Found

__all__ = ["figures"]


def figures(found: Found) -> dict[str, Figure]:
    """Return every figure of glut by the name of its column; a row is a line of the plan."""
    put_up, one = found.which("way"), found.made_as
    fresh = (found.units * one.fresh).called("fresh", unit="kg")
    stays = found.as_it_is.called("stays", text=lambda row: fixed(found.lines[row][0].way))
    hours = (found.units * one.hours).called("hours", unit="hours")
    return {
        "kg": choose(put_up, fresh, stays),
        "jars": known_where(found.which("jar"), found.units, "not-in-jars", "jars"),
        "loads": known_where(
            found.loads.values > 0, found.loads.called("loads"), "no-loads", "loads"
        ),
        "hours": known_where(put_up, hours, "no-hours", "hours"),
        "still_wanted": known_where(found.which("ev"), found.wanted, "not-wanted", "jars"),
    }
