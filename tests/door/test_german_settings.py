"""A setting's number may have a decimal comma where the language has one, as the page shows it."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from ledger import Book, InputError
from ledger.cli._root import root
from ledger.cli._speech import _Speech

TYPED = {
    "helper_wage": ("15,50", "15.50"),
    "labour_rate": ("12,00 per hour", "12.00 per hour"),
    "price_of_electricity": ("0,17 per kWh", "0.17 per kWh"),
    "interest_rate": ("2,5 %", "2.5 %"),
    "freezer_room": ("7,5 cu ft", "7.5 cu ft"),
    "altitude": ("820,5 m", "820.5 m"),
    "jars_per_load": ("quart jar: 7, pint jar: 9", "quart jar: 7, pint jar: 9"),
}


@pytest.mark.parametrize("name", TYPED)
def test_a_german_number_is_kept_with_a_point(book, name):
    typed, kept = TYPED[name]
    book.write("setting_changed", name="language", value="de", on="2026-01-01")
    written = book.write("setting_changed", name=name, value=typed, on="2026-01-02")
    assert written.body["value"] == kept


def test_an_english_book_takes_no_comma(book):
    with pytest.raises(InputError):
        book.write("setting_changed", name="helper_wage", value="15,50", on="2026-01-02")


@pytest.mark.parametrize(("name", "value"), [("language", "de"), ("currency", "EUR")])
def test_a_household_abroad_is_pointed_to_its_measures(tmp_path, name, value):
    with Book.open(str(tmp_path / "book.sqlite")) as book:
        first = book.write("setting_changed", name=name, value=value, on="2026-01-01")
        assert [one.says.id for one in first.notes] == ["doubt-measures-unset"]
        assert first.notes[0].endswith("croftbook setting measures metric")
        book.write("setting_changed", name="measures", value="metric", on="2026-01-01")
        again = book.write("setting_changed", name=name, value=value, on="2026-01-02")
        assert again.notes == []


@pytest.mark.parametrize(
    ("name", "value"), [("language", "en"), ("currency", "USD"), ("people", "4")]
)
def test_a_household_at_home_in_pounds_is_not(tmp_path, name, value):
    with Book.open(str(tmp_path / "book.sqlite")) as book:
        assert book.write("setting_changed", name=name, value=value, on="2026-01-01").notes == []


@pytest.mark.parametrize(("code", "asks"), [("de", True), ("en", False)])
def test_an_empty_book_asks_for_language_and_money_where_german_is_spoken(
    tmp_path, monkeypatch, code, asks
):
    place = str(tmp_path / "book.sqlite")
    monkeypatch.setattr(_Speech, "language", code)
    monkeypatch.setattr(_Speech, "is_chosen", True)
    done = CliRunner().invoke(root, [], env={"CROFTBOOK": place})
    assert ("setting language de" in done.output) is asks
    assert ("setting currency EUR" in done.output) is asks
    assert ('altitude "800 m"' in done.output) is asks
    assert "setting measures metric" in done.output
