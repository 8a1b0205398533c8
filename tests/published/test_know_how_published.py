"""The know-how answer against published figures of learning and forgetting, through the ledger.

The source stands at each table; `test_skill.py` holds the bare methods to the same.
"""

from __future__ import annotations

import datetime as dt

import pytest

# Learning-curve coefficient table (textbook table in a problem copy, tutorsglobe.com 52223897),
# read: n: rate: (unit, running total), the first unit taking 1
COEFFICIENTS = {
    5: {70: (0.437, 3.195), 75: (0.513, 3.459), 80: (0.596, 3.738), 85: (0.686, 4.031)},
    10: {70: (0.306, 4.932), 75: (0.385, 5.589), 80: (0.477, 6.315), 85: (0.583, 7.116)},
    15: {70: (0.248, 6.274), 75: (0.325, 7.319), 80: (0.418, 8.511), 85: (0.530, 9.861)},
    20: {70: (0.214, 7.407), 75: (0.288, 8.828), 80: (0.381, 10.485), 85: (0.495, 12.402)},
}
FIRST = dt.date(2026, 7, 1)
TODAY = "2026-11-01"


def batch(book, yes, n, minutes):
    """Write the n-th batch of one jar; without minutes nobody wrote down how long it took."""
    body = {
        "makes": "quince cheese",
        "method": "boiling water",
        "used": [{"item": "quince", "amount": "1 lb"}],
        "made": [{"jars": 1, "jar": "half-pint jar", "kept": "shelf"}],
        "work": [{"person": "Ada", "minutes": str(minutes)}] if minutes is not None else [],
    }
    book.write("put_up", body, on=FIRST + dt.timedelta(n), answers=yes)


def household(answer, skill):
    (found,) = [r for r in answer["records"] if r["skill"] == skill and r["person"] is None]
    return found


@pytest.mark.parametrize("rate", [70, 75, 80, 85])
def test_batches_that_take_the_published_times_show_the_published_curve(book, yes, rate):
    # twenty batches, of which five take the times of one column: 1 minute, then the coefficients
    told = {1: 1.0} | {n: row[rate][0] for n, row in COEFFICIENTS.items()}
    for n in range(1, 21):
        batch(book, yes, n, told.get(n))
    found = household(book.show("know-how", as_of=TODAY).to_dict(), "quince cheese")
    assert found["learning_repetitions"] == 5
    assert found["learning_rate"] == pytest.approx(rate / 100, abs=0.002)
    assert found["learning_rate_low"] <= rate / 100 <= found["learning_rate_high"]
    points = book.show("know-how", as_of=TODAY, curve="quince cheese").to_dict()["records"]
    fitted = [point["fitted_likely"] for point in points]
    for n, row in COEFFICIENTS.items():
        unit, total = row[rate]
        assert fitted[n - 1] == pytest.approx(unit, abs=0.0015)
        assert sum(fitted[:n]) == pytest.approx(total, abs=0.015)


def test_eighty_per_cent_example_takes_three_more_batches(book, yes):
    # business-analysis-made-easy.com, learning curve: 50 minutes first, 40 second, 32 fourth
    for n, minutes in ((1, 50), (2, 40), (3, None), (4, 32)):
        batch(book, yes, n, minutes)
    answer = book.show("know-how", as_of=TODAY).to_dict()
    assert household(answer, "quince cheese")["learning_rate"] is None  # three points only
    for n in (5, 6, 7, 8):  # the eighth, a doubling later, at 80 per cent of 32
        batch(book, yes, n, 25.6 if n == 8 else None)
    batch(book, yes, 9, None)
    for n in range(10, 17):  # and the sixteenth at 80 per cent of that
        batch(book, yes, n, 20.48 if n == 16 else None)
    answer = book.show("know-how", as_of=TODAY).to_dict()
    assert household(answer, "quince cheese")["learning_rate"] == pytest.approx(0.8)
    third = book.show("know-how", as_of=TODAY, curve="quince cheese").to_dict()["records"][2]
    # the same source's exponent, -0.3219, gives the third from the first
    assert third["fitted_likely"] == pytest.approx(50 * 3**-0.3219, abs=0.01)


# Tatel and Ackerman, Psychological Bulletin, doi 10.1037/bul0000481 (abstract, read): half of the
# gain is lost after about 6.5 months without use where accuracy counts. A dozen and a half monthly
# practices keep a skill in hand about so long; four times as long on, it is out of practice.
LAST = dt.date(2026, 6, 1)


@pytest.mark.parametrize(
    ("days", "word"),
    [(150, "in hand"), (230, "going rusty"), (600, "going rusty"), (800, "out of practice")],
)
def test_standing_follows_the_published_loss(book, yes, days, word):
    for n in range(16):
        day = LAST - dt.timedelta(30 * n)
        book.write("practised", {"skill": "whittling", "people": ["Ada"]}, on=day, answers=yes)
    answer = book.show("know-how", as_of=LAST + dt.timedelta(days)).to_dict()
    found = household(answer, "whittling")
    assert (found["standing"], found["days_since"]) == (word, days)
    assert found["keeps_days"] == pytest.approx(6.5 * 365.25 / 12, rel=0.2)
    (text,) = [a["text"] for a in answer["assumptions"] if a["id"] == "practice"]
    assert "10.1037/bul0000481" in text
