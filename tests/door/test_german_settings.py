"""A setting's number may have a decimal comma where the language has one, as the page shows it."""

from __future__ import annotations

import pytest

from ledger import InputError

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
