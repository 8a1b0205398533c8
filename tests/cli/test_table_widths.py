"""Columns of a table in 80 characters: long German words stay whole where there is room for them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from ledger.cli._columns import broken, widths_of

TEXTS = st.lists(st.text("abc ", max_size=30), min_size=1, max_size=5)


def words(texts):
    return [len(word) for text in texts for word in text.split()]


@given(st.lists(TEXTS, min_size=1, max_size=8), st.integers(10, 120))
def test_columns_fill_no_more_than_the_room(columns, room):
    widths = widths_of(columns, room)
    assert sum(widths) <= max(room, len(columns))
    if sum(max(words(one), default=0) for one in columns) <= room:
        assert all(
            width >= max(words(one), default=0) for width, one in zip(widths, columns, strict=True)
        )


def test_a_long_word_is_whole_beside_a_text_of_several():
    columns = [["Was", "frozen pepper"], ["Wo", "Gefrierschrank"], ["Übrig", "9 Halbpint-Gläser"]]
    assert widths_of(columns, 34) == [10, 14, 10]
    assert broken("9 Halbpint-Gläser", 10) == "9 Halbpint-\nGläser"
    assert broken("9 Halbpint-Gläser", 17) == "9 Halbpint-Gläser"


def test_days_are_never_broken():
    columns = [["Tag", "02.09.2026"], ["Was", "Quittengelee"], ["Wo", "Gefrierschrank"]]
    assert widths_of(columns, 24, {0})[0] == 10
    assert sum(widths_of(columns, 24, {0})) == 24
