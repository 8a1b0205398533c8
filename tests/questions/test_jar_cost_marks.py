"""A batch is told by its mark while jars of it are there, and where they were thrown out."""

from __future__ import annotations

import pytest

from ledger import Answers

YES = Answers(yes=True)
DAY = "2026-09-12"
BEANS = {
    "method": "boiling water", "minutes": "180", "altitude": "800 ft", "pack": "raw",
    "makes": "canned green beans", "used": [{"item": "green bean", "amount": "14 lb"}],
    "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}],
}  # fmt: skip
SOUP = {
    "makes": "bean soup", "method": "cook", "used": [{"item": "canned green beans", "amount": "1 quart jar"}],
    "made": [{"amount": "2 qt", "kept": "fridge"}],
}  # fmt: skip
JUICE = {
    "makes": "tomato juice", "method": "cook", "used": [{"item": "tomato", "amount": "2 lb"}],
    "made": [{"amount": "1 qt", "kept": "fridge"}],
}  # fmt: skip
GONE = {
    "there": None,
    "thrown out": ("discarded", {"lines": [{"item": "canned green beans", "amount": "7 quart jars"}], "why": "other"}),
    "eaten": ("eaten", {"ate": [{"item": "canned green beans", "amount": "7 quart jars"}], "people": 6}),
}  # fmt: skip


@pytest.fixture
def book(book, fixed_day):
    """Beans that stand against every published process, and a juice that nothing is said against."""
    for item, price in (("canned green beans", "50"), ("bean soup", "9"), ("tomato juice", "20")):
        book.write("price_seen", item=item, amount="1 qt", price=price, on="2026-09-01")
    book.write("price_seen", item="lid", amount="1", price="0.30", on="2026-09-01", answers=YES)
    for item in ("green bean", "tomato"):
        book.write("harvested", item=item, amount="30 lb", on="2026-09-10")
    book.write("put_up", BEANS, on=DAY, answers=YES)
    book.write("put_up", JUICE, on=DAY, answers=YES)
    return book


@pytest.mark.parametrize("became", GONE)
def test_row_and_note_tell_the_mark_of_what_was_not_eaten(book, became):
    if GONE[became]:
        kind, body = GONE[became]
        book.write(kind, body, on="2026-09-20", answers=YES)
    told = book.show("jar-cost").to_dict()
    beans, juice = told["records"]
    notes = [one for one in told["assumptions"] if one["id"] == "standing"]
    assert juice["standing_text"] is None
    # the reckoning is the same whatever a batch bears: who shows a saving looks at the mark
    assert told["totals"]["saved"] == beans["saved"] + juice["saved"]
    if became == "eaten":
        assert (beans["standing"], beans["standing_text"], notes) == (None, None, [])
        return
    assert beans["standing"] == "against every published process"
    assert beans["standing_text"].startswith(f"{beans['standing']}, {DAY}")
    assert ("discard" in beans["standing_text"]) == (became == "there")
    (said,) = notes
    assert "canned green beans of 2026-09-12" in said["text"]
    assert said["text"].startswith("CAUTION") == (became == "there")


def test_what_was_made_of_them_bears_it_too(book):
    book.write("put_up", SOUP, on="2026-09-14", answers=YES)
    soup = book.show("jar-cost", item="bean soup").records()[0]
    assert soup["standing_text"].startswith("made of canned green beans of 2026-09-12")
