"""Tables on the terminal: no word is cut while there is room for it, and how jars stand goes beneath their row."""

from __future__ import annotations

import sys

import pytest

from ledger import Answers, Book
from ledger.cli import _speech
from ledger.cli._tables import print_answer

YES = Answers(yes=True)

SAID = {
    "en": (
        "against every published process, 2026-09-13: do not taste, discard",
        {"half-pint", "freezer"},
    ),
    "de": (
        "gegen jede veröffentlichte Vorschrift, 13. Sept. 2026: nicht kosten,",
        {"Gläser", "Gefrierschrank"},
    ),
}


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
