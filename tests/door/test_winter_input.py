"""People, frosts, meters, hens and seed: what is refused, by field and in words."""

from __future__ import annotations

import pytest

from ledger.errors import InputError
from ledger.kinds import KINDS, tell

ON = "2026-11-01"
BAD = [
    ("person_described", {"person": "Ada", "sex": "female"}, "age", "is missing"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 121}, "age", "out of range"),
    ("person_described", {"person": "Ada", "sex": "female", "age": -1}, "age", ""),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "born": "1987-04-12"}, "age", "besides"),
    ("person_described", {"person": "Ada", "sex": "female", "born": "2027-04-12"}, "born", "after"),
    ("person_described", {"person": "Ada", "sex": "female", "born": "1887-04-12"}, "born", "years ago"),
    ("person_described", {"person": "Ada", "sex": "x", "age": 39}, "sex", ""),
    ("person_described", {"person": "Ben", "sex": "male", "age": 39, "state": "pregnant"}, "state", "sex male"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 7, "state": "nursing"}, "state", "age of 7"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "since": "2026-06-01"}, "since", "needs a state"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "weight": "62 kg"}, "height", "is missing"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "weight": "620 kg", "height": "1.6 m"}, "weight", "out of range"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "weight": "62 kg", "height": "16 m"}, "height", "out of range"),
    ("person_described", {"person": "Ada", "sex": "female", "age": 39, "weight": "62 l", "height": "1.6 m"}, "weight", "not a weight"),
    ("frost_seen", {"frost": "last of spring", "seen": "2027-05-01"}, "seen", "after"),
    ("frost_seen", {"frost": "last of spring", "seen": "1749-05-01"}, "seen", "too long ago"),
    ("frost_seen", {"frost": "spring", "seen": "2026-05-01"}, "frost", ""),
    ("frost_seen", {"frost": "last of spring"}, "seen", "is missing"),
    ("meter_read", {"meter": "freezer", "reads": "412"}, "reads", "not a reading"),
    ("meter_read", {"meter": "freezer", "reads": "412 kg"}, "reads", "not a reading"),
    ("meter_read", {"meter": "stove", "reads": "412 kWh", "before": "400 kWh"}, "batch", "is missing"),
    ("flock_counted", {}, "hens", "is missing"),
    ("flock_counted", {"hens": -2}, "hens", ""),
    ("flock_counted", {"hens": 6, "hatched": "2027-01-01"}, "hatched", "after"),
    ("seed_checked", {"crop": "carrot"}, "year", "is missing"),
    ("seed_checked", {"crop": "carrot", "sown": 20}, "sprouted", "is missing"),
    ("seed_checked", {"crop": "carrot", "sown": 20, "sprouted": 21}, "sprouted", "more than the 20 sown"),
    ("seed_checked", {"crop": "carrot", "sown": 0, "sprouted": 0}, "sown", "is 0"),
    ("seed_checked", {"crop": "carrot", "year": 2030}, "year", "out of range"),
    ("seed_checked", {"crop": "carrot", "days": 3}, "days", "out of range"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "body", "field", "problem"), BAD)
def test_refused_by_field(book, fixed_day, kind, body, field, problem):
    with pytest.raises(InputError) as refused:
        book.write(kind, body, on=ON)
    assert refused.value.field == field
    assert problem in refused.value.problem
    assert book.log.position() == 0


def test_what_a_batch_took_of_a_meter(book, fixed_day, yes):
    from ledger.door import Entry

    book.write(
        "bought", {"lines": [{"item": "plum", "amount": "4 lb", "paid": "3"}]}, on="2026-09-01"
    )
    made = book.enter(
        Entry("put_up", {"makes": "plum jam", "method": "boiling water", "used": [{"item": "plum", "amount": "4 lb"}],
                         "made": [{"jars": 4, "jar": "half-pint jar"}]}, on="2026-09-02"), answers=yes,
    )  # fmt: skip
    body = {"meter": "stove", "reads": "1203.4 kWh", "before": "1201.1 kWh"}
    written = book.write("meter_read", {**body, "batch": made.event.id[:8]}, on="2026-09-02")
    assert written.body["batch"] == made.event.id
    with pytest.raises(InputError, match="backwards"):
        book.write(
            "meter_read", {**body, "before": "1300 kWh", "batch": made.event.id}, on="2026-09-02"
        )
    with pytest.raises(InputError, match="other units"):
        book.write(
            "meter_read", {**body, "before": "12 L", "batch": made.event.id}, on="2026-09-02"
        )
    with pytest.raises(InputError, match="not a batch"):
        book.write("meter_read", {**body, "batch": written.event.id}, on="2026-09-02")


@pytest.mark.parametrize(
    ("kind", "body", "line"),
    [
        ("person_described", {"person": "Ada", "sex": "female", "age": 39, "state": "nursing", "activity": "hard"},
         "Ada at the table (female, 39 years, nursing, hard work)"),
        ("person_described", {"person": "Ben", "sex": "male", "born": "1984-04-12", "table": "away"},
         "Ben at the table (male, born 1984-04-12, away from the table)"),
        ("frost_seen", {"frost": "first of fall", "seen": "2026-10-01"}, "first frost of fall on 2026-10-01"),
        ("meter_read", {"meter": "freezer", "reads": "412.6 kWh"}, "meter freezer reads 412.6 kWh"),
        ("flock_counted", {"hens": 6, "hatched": "2025-04-10"}, "6 hens, hatched 2025-04-10"),
        ("seed_checked", {"crop": "carrot", "year": 2025, "sown": 20, "sprouted": 13},
         "seed of carrot (of 2025, 13 of 20 sprouted)"),
    ],
)  # fmt: skip
def test_told_in_a_line(kind, body, line):
    assert tell(kind, body) == line
    assert KINDS[kind].command


@pytest.mark.parametrize(
    ("name", "value", "good"),
    [("helper_wage", "15.00", True), ("helper_wage", "fifteen", False), ("freezer_room", "15 cu ft", True),
     ("freezer_room", "15 kg", False), ("flour_enriched", "no", True), ("salt_iodised", "perhaps", False)],
)  # fmt: skip
def test_settings(book, fixed_day, name, value, good):
    if good:
        book.write("setting_changed", {"name": name, "value": value}, on=ON)
        return
    with pytest.raises(InputError):
        book.write("setting_changed", {"name": name, "value": value}, on=ON)
