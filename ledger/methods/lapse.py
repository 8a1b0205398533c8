"""How far a skill has lapsed: how long its good practices keep it, or the seasons missed.

Practice spread over time keeps longest (Cepeda, Vul, Rohrer, Wixted and Pashler, Psychological
Science 19, 2008, summary read), what was learnt fades with a power of time (Wixted and Carpenter,
Psychological Science 18, 2007; Anderson and Schooler 1991, from memory), and a try that failed does
not count. How long a first practice keeps, and how fast that grows, are our own choice, set so that
about a dozen spaced practices reach the 6.5 months after which half of what training gained is gone
where accuracy counts (Tatel and Ackerman, Psychological Bulletin, doi 10.1037/bul0000481, abstract).
A skill that belongs to a season is judged by seasons: nobody makes jam in February.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from ledger.messages import joined, sentence

__all__ = [
    "KEEPS_DAYS",
    "SEASON_DAYS",
    "Standing",
    "keeps",
    "season_of_practice",
    "standing",
]

YEAR = 365
#: Days that one good practice keeps a skill, and the power by which more of them do. Our choice.
KEEPS_DAYS, KEEPS_POWER = 45.0, 0.6
#: A gap of so many days makes a practice count half. Our choice.
SPACING_DAYS = 14.0
#: What a practice that went 3 of 5 counts, and the least that a better one counts after such. Ours.
MIDDLING, LEAST = 0.7, 0.31
#: Up to so many times as long it is going rusty. Our choice.
RUSTY = 4
#: A season may come so much later than ever before. Our choice.
LATE_DAYS = 30
#: Longest season of a skill that is known to have one: from sowing to the last picking it may
#: take more than half of the year. Our choice; longer, and a late season would never end.
SEASON_DAYS = 300


def keeps(practices: Sequence[tuple[int, float]]) -> float:
    """Return the days for which good practices keep a skill, from the last of them on.

    min(45 E^0.6, 365) with E = sum of quality x spacing x fade at the last one; spacing is 1 for the
    first, else 1 - 1/(1 + gap/14 days), and fade (1 + age/365 days)^-0.5.

    Parameters
    ----------
    practices : sequence of (int, float)
        Day and quality (above 0, up to 1) of each good practice, days rising.

    Returns
    -------
    float
        0 without any.

    Notes
    -----
    The gap of a full practice is that since the last full one, of a middling one that since the last
    of either; so one more good practice never shortens what a skill has left.

    Examples
    --------
    >>> round(keeps([(0, 1.0)])), round(keeps([(7 * week, 1.0) for week in range(12)]))
    (45, 110)
    """
    if not practices:
        return 0.0
    last = practices[-1][0]
    told, before, full = 0.0, None, None
    for day, quality in practices:
        if before is None:
            spacing = 1.0
        elif quality < 1:
            spacing = _spacing(day - before)
        elif full is None:
            spacing = max(LEAST, _spacing(day - before))
        else:
            spacing = _spacing(day - full)
        told += quality * spacing * (1 + (last - day) / YEAR) ** -0.5
        before = day
        full = day if quality >= 1 else full
    return float(min(KEEPS_DAYS * told**KEEPS_POWER, YEAR))


def _spacing(gap: float) -> float:
    return 1 - 1 / (1 + gap / SPACING_DAYS)


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
    keeps_days : int or None
        How many whole days its good practices keep it, from the last of them; None where it is judged by seasons,
        or none went well.
    seasonal : bool
        Whether it was judged by seasons.
    missed : int or None
        Of a seasonal skill: whole seasons since the last one with practice.
    because : str
        The reason in one line.
    """

    word: str
    keeps_days: int | None
    seasonal: bool
    missed: int | None
    because: str
    rusts_on: dt.date | None = None
    season_on: dt.date | None = None


def standing(
    days: Sequence[dt.date],
    today: dt.date,
    season: bool | None = None,
    went: Sequence[float | None] | None = None,
) -> Standing:
    """Say how a skill stands today.

    From the last good practice on it is in hand for as many whole days as its good practices keep it
    (`keeps`, a part of a day counting as one): of 45 days, on the 45th after it, it is going rusty; up to
    four times as long, then out of practice. Good is what went 3 of 5 or better, or
    what nobody said anything of. After a try that failed it is not better than going rusty; after two,
    and where none ever went well, it is out of practice. Of a seasonal skill the seasons that passed
    without it count: none, in hand; one, going rusty; more, out of practice.

    Parameters
    ----------
    days : sequence of date
        Days of practice; those after `today` do not count.
    today : date
        The day to judge on.
    season : bool, optional
        Whether the skill belongs to a part of the year (at most `SEASON_DAYS` long). When not
        given it does if it was practised in two years or more, always within one half of the year.
    went : sequence of float or None, optional
        How each went, 1 to 5, in the order of `days`; None or NaN where nobody said.

    Returns
    -------
    Standing

    References
    ----------
    See the module. The constants and the counting of seasons are our own choice.
    """
    now = today.toordinal()
    marks = [None] * len(days) if went is None else list(went)
    tries = [
        (day.toordinal(), _quality(mark))
        for day, mark in zip(days, marks, strict=True)
        if day.toordinal() <= now
    ]
    tries.sort(key=lambda one: one[0])
    if not tries:
        return Standing("never tried", None, bool(season), None, sentence("skills-no-practice"))
    good = [one for one in tries if one[1] > 0]
    failed = next((at for at, one in enumerate(reversed(tries)) if one[1] > 0), len(tries))
    if not good:
        text = sentence("skills-none-well", n=len(tries))
        return Standing("out of practice", None, bool(season), None, text)
    part = _season_of(good, season)
    if part is not None:
        missed = _seasons_missed(dt.date.fromordinal(good[-1][0]), today, part)
        word = ORDER[min(missed, 2)]
        because: list[str] = [sentence("skills-seasons-missed", n=missed)]
        limit = None
    else:
        limit = math.ceil(keeps(good))
        past = now - good[-1][0]
        word = ORDER[(past >= limit) + (past > RUSTY * limit)]
        because = [
            sentence("skills-keeps", n=len(good), days=limit),
            sentence("skills-last", n=past),
        ]
    if failed:
        word = max(word, ORDER[min(failed, 2)], key=ORDER.index)
        because.append(sentence("skills-failed-lately", n=failed))
    rusts = None
    if limit is not None and word == ORDER[0]:
        rusts = dt.date.fromordinal(good[-1][0] + limit)
    return Standing(
        word, limit, part is not None, missed if part else None, joined("; ", because), rusts,
        None if part is None else _next_season(today, part),
    )  # fmt: skip


def _next_season(today: dt.date, part: tuple[int, int]) -> dt.date:
    """Return the next first day of a part of the year, after today."""
    for year in (today.year, today.year + 1):
        begins = dt.date.fromordinal(_before(year) + part[0])
        if begins > today:
            return begins
    return dt.date.fromordinal(_before(today.year + 2) + part[0])


ORDER = ("in hand", "going rusty", "out of practice")


def _quality(went: float | None) -> float:
    """Return what a practice counts: 0 for a failure."""
    if went is None or math.isnan(went) or went > 3:
        return 1.0
    return MIDDLING if went >= 3 else 0.0


def _season_of(good: Sequence[tuple[int, float]], season: bool | None) -> tuple[int, int] | None:
    """Return the part of the year of a skill that has one."""
    spans_years = good[-1][0] - good[0][0] > YEAR // 2
    if season is False or not (season or spans_years):
        return None
    dates = (dt.date.fromordinal(day) for day, _ in good)
    return season_of_practice(dates, SEASON_DAYS if season else YEAR // 2)


def _seasons_missed(last: dt.date, today: dt.date, part: tuple[int, int]) -> int:
    """Count the seasons that ended between the one of the last practice and today."""
    begins, length = part
    # years turn in the middle of the time without practice, so that a season stays whole
    turn = begins - (YEAR - length) // 2
    shift = dt.timedelta(days=turn - 1)
    turned = today - shift
    ended = turned.timetuple().tm_yday > begins - turn + length + LATE_DAYS
    return max(0, turned.year - (last - shift).year - (0 if ended else 1))
