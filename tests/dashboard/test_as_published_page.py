"""As published: things are called as they are spoken of, in lines, headings and the sentence."""

from __future__ import annotations

from page_tools import Drawn, text_of

from dashboard.data import Data
from dashboard.drawing import ask_of
from ledger import Answers

BEANS = {
    "makes": "canned green bean", "method": "boiling water", "minutes": "60", "pack": "raw",
    "altitude": "500 ft", "used": [{"item": "green bean", "amount": "14 lb"}],
    "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}],
}  # fmt: skip


def test_things_are_called_as_they_are_spoken_of(book, fixed_day):
    batch = book.write("put_up", BEANS, on="2026-10-12", answers=Answers(yes=True)).event.id
    data = Data(book)
    said = text_of(Drawn(ask_of(data, "/as-published", "")).parts)
    opened = text_of(Drawn(ask_of(data, "/as-published", f"?batch={batch}")).parts)
    assert "7 quarts canned green beans" in said
    assert "Canned green beans 12 Oct" in said
    assert "Canned green beans, 12 Oct 2026" in opened
