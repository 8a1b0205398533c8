"""Standing in words, and seasons."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.methods.lapse import KEEPS_DAYS, keeps, season_of_practice, standing

D = dt.date
JAM = [D(2023, 7, 10), D(2023, 8, 20), D(2024, 7, 5), D(2024, 9, 1), D(2025, 7, 20), D(2025, 8, 30)]
days = st.lists(st.dates(D(2015, 1, 1), D(2026, 12, 31)), max_size=25)
ORDER = ["in hand", "going rusty", "out of practice"]


def test_never_practised_was_never_tried():
    found = standing([], D(2026, 1, 1))
    assert (found.word, found.keeps_days) == ("never tried", None)


def test_nobody_makes_jam_in_february():
    found = standing(JAM, D(2026, 2, 15))
    assert (found.word, found.seasonal, found.missed) == ("in hand", True, 0)


@pytest.mark.parametrize(
    ("today", "word", "missed"),
    [
        (D(2026, 7, 1), "in hand", 0),  # the season is on
        (D(2026, 9, 20), "in hand", 0),  # late, and it may still come
        (D(2026, 10, 15), "going rusty", 1),
        (D(2027, 6, 1), "going rusty", 1),
        (D(2027, 10, 15), "out of practice", 2),
        (D(2031, 1, 1), "out of practice", 5),
    ],
)
def test_jam_left_off(today, word, missed):
    found = standing(JAM, today)
    assert (found.word, found.missed) == (word, missed)


def test_season_over_new_year():
    pruning = [D(2023, 12, 20), D(2024, 1, 15), D(2024, 12, 28), D(2025, 2, 1)]
    begins, length = season_of_practice(pruning)
    assert D(2023, 1, 1) + dt.timedelta(begins - 1) == D(2023, 12, 20)
    assert 40 < length < 50
    assert standing(pruning, D(2025, 11, 30)).word == "in hand"
    assert standing(pruning, D(2026, 4, 1)).word == "going rusty"


def test_one_summer_is_not_yet_a_season():
    once = [D(2025, 7, 1), D(2025, 7, 20), D(2025, 8, 10)]
    assert standing(once, D(2026, 3, 1)).word == "going rusty"
    # unless the caller knows that it belongs to the summer
    assert standing(once, D(2026, 3, 1), True).word == "in hand"


def test_bread_every_week():
    bread = [D(2026, 1, 1) + dt.timedelta(7 * i) for i in range(20)]
    limit = standing(bread, bread[-1], False).keeps_days
    assert 110 < limit < 146
    for since, word in [(limit - 1, 0), (limit, 1), (4 * limit, 1), (4 * limit + 1, 2)]:
        assert standing(bread, bread[-1] + dt.timedelta(since), False).word == ORDER[word]


@given(st.lists(st.dates(D(2026, 1, 1), D(2026, 12, 31)), min_size=1, max_size=9))
def test_it_rusts_as_many_days_after_practice_as_it_keeps(practice):
    last = max(practice)
    found = standing(practice, last, False)
    assert found.rusts_on - last == dt.timedelta(found.keeps_days)
    assert standing(practice, found.rusts_on, False).word == "going rusty"
    assert standing(practice, found.rusts_on - dt.timedelta(1), False).word == "in hand"
    assert f"keeps {found.keeps_days} days" in found.because


# once, three weekly, twelve weekly, twelve monthly; a hundred in two years
@pytest.mark.parametrize(
    ("every", "times", "days"),
    [(1, 1, 45), (7, 3, 61), (7, 12, 110), (30, 12, 146), (7.3, 100, 311)],
)
def test_more_and_spread_practice_keeps_longer(every, times, days):
    found = keeps([(round(every * n), 1.0) for n in range(times)])
    assert found == pytest.approx(days, rel=0.015)


@pytest.mark.parametrize(
    ("days", "went", "since", "word"),
    [
        ([0], None, 180, "going rusty"),
        ([0], None, 60, "going rusty"),
        ([0, 9, 20], [1, 2, 2], 5, "out of practice"),
        (range(200), None, 31, "in hand"),
        (range(0, 84, 7), None, 60, "in hand"),
        ([*range(0, 100, 10), 100], [4] * 10 + [1], 1, "going rusty"),
        ([*range(0, 100, 10), 100, 101], [4] * 10 + [1, 2], 1, "out of practice"),
    ],
)
def test_histories_by_hand(days, went, since, word):
    dates = [D(2025, 1, 1) + dt.timedelta(day) for day in days]
    assert standing(dates, dates[-1] + dt.timedelta(since), False, went).word == word


@pytest.mark.parametrize(
    ("went", "says"),
    [
        ([4], "went well once, which keeps 45 days; the last 20 days ago"),
        ([1], "tried once, and it did not go well"),
        ([1, 2], "tried 2 times, none went well"),
        (
            [5, 5, 1],
            "went well 2 times, which keeps 53 days; the last 26 days ago; the last try failed",
        ),
    ],
)
def test_a_standing_says_why_in_one_line(went, says):
    dates = [D(2026, 1, 1) + dt.timedelta(6 * n) for n in range(len(went))]
    assert standing(dates, dates[-1] + dt.timedelta(20), False, went).because == says


history = st.lists(
    st.tuples(st.integers(0, 900), st.sampled_from([0.7, 1.0])), min_size=1, max_size=25
)


@given(history, st.integers(0, 900), st.sampled_from([0.7, 1.0]))
def test_one_more_good_practice_never_shortens_what_is_left(practices, day, quality):
    before = sorted(practices)
    after = sorted([*practices, (day, quality)])
    until = [one[-1][0] + keeps(one) for one in (before, after)]
    assert until[1] >= until[0] - 1e-9


def test_days_to_come_do_not_count():
    assert standing([D(2027, 1, 1)], D(2026, 1, 1)).word == "never tried"


@given(days, st.dates(D(2015, 1, 1), D(2030, 1, 1)), st.integers(1, 700))
def test_standing_only_falls_without_practice(practice, today, later):
    practice = [day for day in practice if day <= today]
    now = standing(practice, today)
    then = standing(practice, today + dt.timedelta(later))
    if practice:
        assert ORDER.index(then.word) >= ORDER.index(now.word)
        assert then.keeps_days is None or then.keeps_days >= KEEPS_DAYS


@given(days)
def test_practice_today_is_in_hand(practice):
    today = D(2027, 1, 1)
    assert standing([*practice, today], today).word == "in hand"


@given(days)
def test_season_holds_every_day(practice):
    part = season_of_practice(practice)
    if part is not None:
        begins, length = part
        for day in practice:
            assert (day.timetuple().tm_yday - begins) % 365 < length


def test_known_season_may_be_longer_than_half_a_year():
    tomato = [
        D(2025, 3, 1),
        D(2025, 5, 20),
        D(2025, 7, 20),
        D(2025, 10, 20),
        D(2026, 3, 5),
        D(2026, 10, 10),
    ]
    assert season_of_practice(tomato) is None
    assert season_of_practice(tomato, 300) == (60, 234)
    assert standing(tomato, D(2027, 1, 20), True).word == "in hand"
    assert standing(tomato, D(2027, 12, 20), True).word == "going rusty"


@given(days, st.dates(D(2015, 1, 1), D(2030, 1, 1)), st.integers(1, 700))
def test_known_season_only_falls_without_practice(practice, today, later):
    practice = [day for day in practice if day <= today]
    now = standing(practice, today, True)
    then = standing(practice, today + dt.timedelta(later), True)
    if practice:
        assert ORDER.index(then.word) >= ORDER.index(now.word)
    assert standing([*practice, today], today, True).word == "in hand"
