"""How far a skill has lapsed: its own rhythm, its season, and what is known of forgetting.

The words rest on two published findings. Half of what training gained is gone after about 6.5
months without use where accuracy counts, 11 for mixed tasks, 13 for speed (Tatel and Ackerman,
Psychological Bulletin, doi 10.1037/bul0000481, abstract). After more than a year without any,
the loss is large: d = -1.4 (Arthur, Bennett, Stanush and McNelly, Human Performance 11, 1998,
abstract). A skill that belongs to a season is judged by seasons: nobody makes jam in February.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from ledger.errors import InputError

__all__ = [
    "HALF_LOST_MONTHS",
    "LOSS_AFTER_A_YEAR",
    "LOSS_PER_MONTH",
    "SEASON_DAYS",
    "Standing",
    "gain_kept",
    "rhythm",
    "savings",
    "season_of_practice",
    "standing",
]

Task = Literal["accuracy", "mixed", "speed"]

#: Months without use until half of the gain from training is gone (Tatel and Ackerman).
HALF_LOST_MONTHS: dict[str, float] = {"accuracy": 6.5, "mixed": 11.0, "speed": 13.0}
#: Loss a month without use, in standard deviations (Tatel and Ackerman).
LOSS_PER_MONTH: dict[str, float] = {"accuracy": 0.08, "mixed": 0.06, "speed": 0.06}
#: Effect of more than 365 days without practice, d (Arthur and others 1998).
LOSS_AFTER_A_YEAR = -1.4

YEAR = 365
MONTH = 365.25 / 12
#: In hand up to so many times its own rhythm. Our choice.
RHYTHMS = 3
#: A skill practised daily is not called rusty within a month: 0.08 standard deviations at most.
FLOOR_DAYS = 30
#: A season may come so much later than ever before. Our choice.
LATE_DAYS = 30
#: Longest season of a skill that is known to have one: from sowing to the last picking it may
#: take more than half of the year. Our choice; longer, and a late season would never end.
SEASON_DAYS = 300


def gain_kept(months: float, task: Task = "mixed") -> float:
    """Return the share of what training gained that is still there.

    A straight line through the published point of half the gain, as the published loss is so
    much a month; never below 0. Beyond that point it is an extrapolation.

    Parameters
    ----------
    months : float
        Months without use, 0 or more.
    task : {'accuracy', 'mixed', 'speed'}
        What counts in the skill.

    Returns
    -------
    float
        From 0 to 1.

    Raises
    ------
    InputError
        When the months are negative.

    References
    ----------
    Tatel and Ackerman, Psychological Bulletin, doi 10.1037/bul0000481 (abstract).

    Examples
    --------
    >>> gain_kept(6.5, "accuracy")
    0.5
    """
    if months < 0:
        raise InputError("months", f"{months:g} months", "Give 0 or more")
    return max(0.0, 1.0 - 0.5 * months / HALF_LOST_MONTHS[task])


def savings(minutes: float) -> float:
    """Return Ebbinghaus's savings in per cent after some minutes: 100 k / ((log10 t)^c + k).

    The classic curve of forgetting for nonsense syllables, kept as a yardstick and not used
    for skills, which fade far more slowly.

    Parameters
    ----------
    minutes : float
        Since learning, 1 or more.

    Raises
    ------
    InputError
        When it is below one minute, where the formula has no value.

    References
    ----------
    Ebbinghaus (1885): k = 1.84, c = 1.25; the form from memory.
    """
    if minutes < 1:
        raise InputError("minutes", f"{minutes:g} minutes", "Give 1 or more")
    k, c = 1.84, 1.25
    return 100 * k / (math.pow(math.log10(minutes), c) + k)


def rhythm(days: Iterable[dt.date]) -> float | None:
    """Return the median gap in days between the days on which a skill was practised.

    Parameters
    ----------
    days : iterable of date
        In any order; several on one day count once.

    Returns
    -------
    float or None
        None from fewer than two days.
    """
    return _median_gap(sorted({day.toordinal() for day in days}))


def _median_gap(numbers: Sequence[int]) -> float | None:
    gaps = sorted([b - a for a, b in pairwise(numbers)])
    middle = len(gaps) // 2
    if not gaps:
        return None
    return float(gaps[middle]) if len(gaps) % 2 else (gaps[middle - 1] + gaps[middle]) / 2


@lru_cache(maxsize=1024)
def _before(year: int) -> int:
    """Return the number of the last day before a year."""
    return dt.date(year, 1, 1).toordinal() - 1


def season_of_practice(days: Iterable[dt.date], at_most: int = YEAR // 2) -> tuple[int, int] | None:
    """Return the part of the year that holds all practice, if it is short enough for a season.

    Parameters
    ----------
    days : iterable of date
        The days of practice.
    at_most : int
        Longest part, in days, that still is a season; half of the year when not given.

    Returns
    -------
    tuple of int or None
        First day of the year (1 to 366) and length in days; the part may run over New Year.
        None without any day, or when practice is spread over more than `at_most` days of it.
    """
    of_year = sorted({day.toordinal() - _before(day.year) for day in days})
    if not of_year:
        return None
    turns = [*of_year[1:], of_year[0] + YEAR]
    gap, begins = max((b - a, b) for a, b in zip(of_year, turns, strict=True))
    length = YEAR - gap + 1
    return ((begins - 1) % YEAR + 1, length) if length <= at_most else None


@dataclass(frozen=True)
class Standing:
    """How a skill stands.

    Attributes
    ----------
    word : str
        ``in hand``, ``going rusty``, ``out of practice`` or ``never tried``.
    rhythm_days : float or None
        Median gap between days of practice.
    days_since : int or None
        Since the last one.
    seasonal : bool
        Whether it was judged by seasons.
    missed : int or None
        Of a seasonal skill: whole seasons since the last one with practice.
    because : str
        The reason in words.
    """

    word: str
    rhythm_days: float | None
    days_since: int | None
    seasonal: bool
    missed: int | None
    because: str


def standing(days: Sequence[dt.date], today: dt.date, season: bool | None = None) -> Standing:
    """Say how a skill stands today.

    Practised at its own rhythm it is in hand up to three times its median gap (at least 30
    days, at most 198: half of the gain where accuracy counts is gone by then); up to a year
    it is going rusty; beyond it is out of practice. Of a seasonal skill the seasons that
    passed without it count: none, in hand; one, going rusty; more, out of practice.

    Parameters
    ----------
    days : sequence of date
        Days of practice; those after `today` do not count.
    today : date
        The day to judge on.
    season : bool, optional
        Whether the skill belongs to a part of the year (at most `SEASON_DAYS` long). When not
        given it does if it was practised in two years or more, always within one half of the year.

    Returns
    -------
    Standing

    References
    ----------
    Tatel and Ackerman (doi 10.1037/bul0000481); Arthur and others (1998). The multiples of the
    rhythm and the counting of seasons are our own choice.
    """
    now = today.toordinal()
    dates = {number: day for day in days if (number := day.toordinal()) <= now}
    numbers = sorted(dates)
    gap = _median_gap(numbers)
    if not dates:
        return Standing("never tried", None, None, bool(season), None, "no practice written down")
    since = now - numbers[-1]
    spans_years = numbers[-1] - numbers[0] > YEAR // 2
    longest = SEASON_DAYS if season else YEAR // 2
    may = season is not False and (season or spans_years)
    part = season_of_practice(dates.values(), longest) if may else None
    if part is not None:
        missed = _seasons_missed(dates[numbers[-1]], today, part)
        word = ("in hand", "going rusty", "out of practice")[min(missed, 2)]
        reason = {0: "its season has not passed without it", 1: "one season passed without it"}
        text = reason.get(missed, f"{missed} seasons passed without it")
        return Standing(word, gap, since, True, missed, text)
    half = HALF_LOST_MONTHS["accuracy"] * MONTH
    limit = half if gap is None else min(max(RHYTHMS * gap, FLOOR_DAYS), half)
    if since <= limit:
        return Standing("in hand", gap, since, False, None, f"last practised {since} days ago")
    if since <= YEAR:
        text = f"{since} days without practice, against {limit:.0f} that keep it"
        return Standing("going rusty", gap, since, False, None, text)
    return Standing("out of practice", gap, since, False, None, f"{since} days without practice")


def _seasons_missed(last: dt.date, today: dt.date, part: tuple[int, int]) -> int:
    """Count the seasons that ended between the one of the last practice and today."""
    begins, length = part
    # years turn in the middle of the time without practice, so that a season stays whole
    turn = begins - (YEAR - length) // 2
    shift = dt.timedelta(days=turn - 1)
    turned = today - shift
    ended = turned.timetuple().tm_yday > begins - turn + length + LATE_DAYS
    return max(0, turned.year - (last - shift).year - (0 if ended else 1))
