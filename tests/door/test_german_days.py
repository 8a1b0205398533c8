"""Days named in German at the command line, as the household's other words are."""

import datetime as dt

import pytest

from ledger.door.when import day_of
from ledger.errors import InputError

TODAY = dt.date(2026, 9, 2)  # a Wednesday


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("heute", "2026-09-02"),
        ("gestern", "2026-09-01"),
        ("Vorgestern", "2026-08-31"),
        ("Freitag", "2026-08-28"),
        ("letzten Donnerstag", "2026-08-27"),
        ("am Sonntag", "2026-08-30"),
        ("Mittwoch", "2026-08-26"),
        ("vor 3 Tagen", "2026-08-30"),
        ("vor einem Tag", "2026-09-01"),
        ("vor einer Woche", "2026-08-26"),
        ("2. März", "2026-03-02"),
        ("3. Mai", "2026-05-03"),
        ("24. Dez. 2025", "2025-12-24"),
        ("1. Oktober", "2025-10-01"),
        ("2.9.", "2026-09-02"),
        ("3.9.", "2025-09-03"),
        ("24.12.2025", "2025-12-24"),
    ],
)
def test_day_gone_by(said, day):
    assert day_of(said, TODAY) == day


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("morgen", "2026-09-03"),
        ("übermorgen", "2026-09-04"),
        ("nächsten Freitag", "2026-09-04"),
        ("in 3 Wochen", "2026-09-23"),
        ("1. Nov.", "2026-11-01"),
        ("1.3.", "2027-03-01"),
    ],
)
def test_day_to_come(said, day):
    assert day_of(said, TODAY, ahead=True) == day


@pytest.mark.parametrize(
    "said", ["vor Tagen", "31.2.", "2.13.2026", "Frei Tag", "in 3 Wochen", "2.9"]
)
def test_what_is_no_day_is_refused(said):
    with pytest.raises(InputError, match="is not a day"):
        day_of(said, TODAY)
