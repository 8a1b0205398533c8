"""English is said without reading Babel, and as Babel says it (Unicode CLDR, en-GB)."""

from __future__ import annotations

from babel.lists import format_list
from babel.numbers import format_decimal
from hypothesis import given
from hypothesis import strategies as st

from ledger.messages.language import language

ENGLISH = language("en")


@given(st.one_of(st.integers(-(10**9), 10**9), st.floats(-1e9, 1e9)))
def test_numbers_and_their_plurals(value):
    shown = ENGLISH.rounded(value)
    assert ENGLISH.number(value) == format_decimal(shown, format="#,##0.###", locale="en_GB")
    assert ENGLISH.plural(value) == ENGLISH.locale.plural_form(shown)


@given(st.lists(st.text("abc ", min_size=1), min_size=2), st.sampled_from(["standard", "or"]))
def test_lists(texts, style):
    assert ENGLISH.listed(texts, style) == format_list(texts, style=style, locale="en_GB")
