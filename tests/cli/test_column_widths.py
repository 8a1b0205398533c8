"""Tables on the terminal: no word is cut while there is room for it, and how jars stand goes beneath their row."""

from __future__ import annotations

import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger import Answers, Book
from ledger.cli import _speech
from ledger.cli._columns import column_widths
from ledger.cli._tables import print_answer

YES = Answers(yes=True)
WORDS = st.lists(st.text("abc", min_size=1, max_size=12), min_size=1, max_size=5).map(" ".join)

SAID = {
    "en": (
        "against every published process, 2026-09-13: do not taste, discard",
        {"half-pint", "freezer"},
    ),
    "de": (
        "gegen jede veröffentlichte Vorschrift, 13. Sept. 2026: nicht kosten,",
        {"½-Pint-Gläser", "Gefrierschrank"},
    ),
}


@given(st.integers(2, 6).flatmap(lambda n: st.lists(st.lists(WORDS, min_size=n, max_size=n), min_size=1, max_size=5)),
       st.integers(40, 120))  # fmt: skip
def test_columns_fit_and_words_stay_whole_where_they_can(rows, width):
    widths = column_widths(rows, [False] * len(rows[0]), width)
    words = [max(len(w) for row in rows for w in row[at].split()) for at in range(len(rows[0]))]
    whole = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    room = width - len(widths)
    assert sum(widths) <= max(room, len(widths))
    if sum(words) <= room:
        assert all(wide >= word for wide, word in zip(widths, words, strict=True))
    if sum(whole) <= room:
        assert widths == whole


@pytest.mark.parametrize("language", ["en", "de"])
def test_how_jars_stand_is_said_beneath_their_row_in_whole_words(
    tmp_path, monkeypatch, capsys, language
):
    with Book.open(tmp_path / "book.sqlite") as book:
        book.write("setting_changed", name="language", value=language, on="2026-01-01")
        book.write("harvested", item="green bean", amount="30 lb", on="2026-09-10", answers=YES)
        body = {"makes": "canned green beans", "method": "boiling water", "minutes": "180",
                "used": [{"item": "green bean", "amount": "14 lb"}],
                "made": [{"jars": 7, "jar": "half-pint jar", "kept": "freezer"}]}  # fmt: skip
        book.write("put_up", body, on="2026-09-12", answers=YES)
        body["made"][0]["kept"] = "shelf"
        book.write("put_up", body, on="2026-09-13", answers=YES)
        monkeypatch.setattr(sys.stdout, "isatty", lambda: False, raising=False)
        monkeypatch.setattr(_speech._Speech, "language", language)
        print_answer(book.show("shelf"))
    said = capsys.readouterr().out
    assert max(map(len, said.splitlines())) <= 80
    standing, whole = SAID[language]
    assert any(line.startswith(f"    {standing}") for line in said.splitlines())
    assert whole <= set(said.split())
