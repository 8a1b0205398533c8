"""What was said beside what came: one `Graded` for each range and chance of each moment.

A range of days is set beside what came once its last day is past, whatever came: were it done as
soon as something came, those that came late would be missing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import msgspec
import numpy as np

from ledger.methods.scoring import chance_widened, widened
from ledger.questions.ahead.came import WEEKS, Came
from ledger.questions.ahead.kept import Said

__all__ = ["KINDS", "Graded", "chances", "grades", "run_outs", "uses"]

KINDS = ("runs out", "used a week", "lasts till more comes", "yield", "brings enough", "keeps")
"""What is said, in the order of the answer."""


@dataclass(frozen=True)
class Graded:
    """One thing said and what came of it.

    Attributes
    ----------
    kind : str
        One of `KINDS`.
    item, day : int
        The item, and the day on which it was said (days since 1970).
    said : tuple of float
        Low, likely and high in weeks or amounts a week; or a chance alone.
    came : float or None
        The same of what came; 1 or 0 for a chance; None: not known yet.
    came_on : int or None
        The day by which that was known.
    held : bool or None
        Of a range: whether it held what came. Of a chance: whether it came. None: still open.
    base : tuple of float
        What the plain mean of the year before would have said, as `said` without its spread.
    of : str
        What it was said of, as it was called then; of what keeps, the lot's id.
    """

    kind: str
    item: int
    day: int
    said: tuple[float, ...]
    came: float | None
    came_on: int | None
    held: bool | None
    base: float = float("nan")
    of: str = ""


def grades(came: Came, said: list[Said]) -> list[Graded]:
    """Return every range and chance of some moments, as they were widened then."""
    out: list[Graded] = []
    for moment in said:
        shown = _shown(moment)
        out += run_outs(came, shown)
        out += uses(came, shown)
        out += chances(came, shown)
    return out


def _shown(moment: Said) -> Said:
    """Return a moment with its ranges as they were shown: widened by the factor of then."""
    factor = moment.factor or 1.0
    if factor == 1.0 or not moment.ranges:
        return moment
    ends = [
        widened(np.array([getattr(one, name) for one in moment.ranges], np.float64).T, factor).T
        for name in ("use", "weeks")
    ]  # what is None is NaN here
    chance = chance_widened(np.array([one.chance for one in moment.ranges], np.float64), factor)
    ranges = [
        msgspec.structs.replace(
            one,
            use=one.use if None in one.use else use.tolist(),
            weeks=one.weeks if None in one.weeks else weeks.tolist(),
            chance=None if one.chance is None else float(new),
        )
        for one, use, weeks, new in zip(moment.ranges, *ends, chance, strict=True)
    ]
    return msgspec.structs.replace(moment, ranges=ranges)


def run_outs(came: Came, moment: Said) -> Iterator[Graded]:
    """Return when each item was said to run out, beside the day on which it would have."""
    for one in moment.ranges:
        item, ends = came.item(one), _ends(one.weeks)
        if item is None or ends is None or not one.stock > 0 or not math.isfinite(ends[2]):
            continue
        first, last = (moment.day + int(x * 7 + 0.01) for x in (ends[0], ends[2]))
        gone = came.gone_on(item, moment.day, one.stock)
        is_over = last < came.last
        held = None if not is_over else gone is not None and first <= gone <= last
        weeks = None
        if is_over:  # what is not gone yet counts as gone today: late by at least that much
            weeks = ((came.last if gone is None else gone) - moment.day) / 7
        base = one.stock / one.plain if one.plain > 0 else math.nan
        yield Graded(
            "runs out",
            item,
            moment.day,
            ends,
            weeks,
            gone if is_over else None,
            held,
            base,
            one.item,
        )


def uses(came: Came, moment: Said) -> Iterator[Graded]:
    """Return the use a week said for the coming twelve weeks, beside what it was."""
    over = moment.day + 7 * WEEKS
    for one in moment.ranges:
        item, ends = came.item(one), _ends(one.use)
        if item is None or ends is None or one.stock <= 0:
            continue
        value = came.used_a_week(item, moment.day)
        if value is None and over <= came.last:
            continue  # seldom there: its use says nothing of what was wanted
        held = None if value is None else bool(ends[0] <= value <= ends[2])
        yield Graded(
            "used a week", item, moment.day, ends, value, None if value is None else over, held,
            one.plain, one.item,
        )  # fmt: skip


def chances(came: Came, moment: Said) -> Iterator[Graded]:
    """Return each chance to last till more comes, beside whether it did."""
    for one in moment.ranges:
        item = came.item(one)
        if item is None or one.chance is None or not one.stock > 0:
            continue
        gone = came.gone_on(item, moment.day, one.stock)
        more = came.next_supply(item, moment.day)
        known = [day for day in (gone, more) if day is not None]
        lasts = None if not known else more is not None and (gone is None or gone >= more)
        yield Graded(
            "lasts till more comes", item, moment.day, (one.chance,),
            None if lasts is None else float(lasts), min(known, default=None), lasts, of=one.item,
        )  # fmt: skip


def _ends(ends: list[float | None]) -> tuple[float, float, float] | None:
    """Return low, likely and high; None where nothing was said."""
    low, likely, high = ends
    return None if low is None or likely is None or high is None else (low, likely, high)
