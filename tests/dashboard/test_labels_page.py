"""Labels: one for each jar, none for a jar in doubt; what a square leads to, and letters by hand."""

from __future__ import annotations

import base64
import re
from urllib.parse import unquote, urlencode

import pytest
from page_tools import Drawn, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from ledger import Answers

YES = Answers(yes=True)
JAM = {
    "makes": "strawberry jam", "method": "boiling water", "minutes": "10", "pack": "hot",
    "altitude": "500 ft", "headspace": "1/4 in",
    "used": [
        {"item": "crushed strawberry", "amount": "5 1/2 cup"}, {"item": "sugar", "amount": "8 cup"},
        {"item": "powdered pectin", "amount": "1 packet"},
    ],
    "made": [{"jars": 8, "jar": "half-pint jar", "kept": "shelf", "labels": {"from": "S26-041", "to": "S26-048"}}],
}  # fmt: skip
BEANS = {
    "makes": "canned green beans", "method": "boiling water", "minutes": "60", "pack": "raw", "altitude": "500 ft",
    "used": [{"item": "green bean", "amount": "14 lb"}], "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}],
}  # fmt: skip


@pytest.fixture
def shelf(book, fixed_day):
    book.write("put_up", JAM, on="2026-10-12", answers=YES)
    return Data(book)


def draw(data, path, **query):
    return Drawn(ask_of(data, path, f"?{urlencode(query)}" if query else ""))


def of_class(drawn, name):
    return [one for one in walk(drawn.parts) if name in str(getattr(one, "className", "")).split()]


def on_paper(drawn):
    """Return the labels of the sheets that are printed; a phone's look at them stands apart."""
    sheets = of_class(drawn, "label-sheet")
    return [
        one for one in walk(sheets) if "jar-label" in str(getattr(one, "className", "")).split()
    ]


def links(drawn):
    return [one.href for one in walk(drawn.parts) if one._type == "Link"]


def test_each_jar_has_a_label_of_its_own(shelf):
    drawn = draw(shelf, "/labels")
    assert len(on_paper(drawn)) == 8
    assert [n for n in range(41, 49) if f"S26-{n}" in drawn.text] == list(range(41, 49))
    squares = [one.src for one in walk(drawn.parts) if one._type == "Img"]
    assert len(set(squares)) == 8
    assert all(one.startswith("data:image/svg+xml") for one in squares)
    assert "8 labels, one sheet." in drawn.text


def test_a_sheet_begun_is_used_up(shelf):
    drawn = draw(shelf, "/labels", sheet="letter", first="9")
    assert "8 labels, 2 sheets." in drawn.text
    assert len(of_class(drawn, "free")) == 8
    assert len(of_class(drawn, "letter")) == 2
    drawn = draw(shelf, "/labels", sheet="a4", first="99999")
    assert len(of_class(drawn, "a4")) == 1


def test_a_jar_in_doubt_has_no_label(shelf, book):
    book.write("put_up", BEANS, on="2026-10-13", answers=YES)
    drawn = draw(shelf, "/labels")
    assert len(on_paper(drawn)) == 8
    assert "Without a label" in drawn.text
    assert any(href.startswith("/as-published?batch=") for href in links(drawn))


def test_a_label_leads_to_its_jar_and_the_form_in_one_tap_each(shelf, book):
    lot = book.show("shelf").rows()[0]["lot"]
    drawn = draw(shelf, "/jar", of=lot[:8] + ":1", label="S26-044")
    assert "strawberry jam, S26-44" in drawn.text
    use = links(drawn)[0]
    assert use.startswith("/write?kind=eaten")
    form = Drawn(ask_of(shelf, "/write", use.partition("/write")[2]))
    values = [getattr(one, "value", None) for one in walk(form.parts)]
    assert "1 half-pint jar strawberry jam from lot S26-44" in values


@pytest.mark.parametrize("letters", ["S26-044", "s26-044"])
def test_letters_typed_by_hand_find_the_jar(shelf, letters):
    assert "strawberry jam, S26-44" in draw(shelf, "/jar", of=letters).text


def test_a_jar_that_is_gone_is_said(shelf, book):
    line = {"item": "strawberry jam", "amount": "1 half-pint jar", "lot": "S26-044"}
    lot = book.show("shelf").rows()[0]["lot"]
    book.write("eaten", {"ate": [line], "people": 2}, on="2026-10-20", answers=YES)
    assert (
        "Jar S26-044 is written down as gone" in draw(shelf, "/jar", of=lot, label="S26-044").text
    )
    assert "No jar with the letters S26-044" in draw(shelf, "/jar", of="S26-044").text
    assert "No jar with the letters <b>" in draw(shelf, "/jar", of="<b>").text


def test_a_jar_in_danger_has_no_button_that_opens_it(shelf, book):
    book.write("put_up", BEANS, on="2026-10-13", answers=YES)
    lot = next(
        one["lot"] for one in book.show("shelf").rows() if one["item"] == "canned green beans"
    )
    drawn = draw(shelf, "/jar", of=lot)
    assert [one.role for one in of_class(drawn, "danger")] == ["alert"]
    assert not any("kind=eaten" in href or "kind=given_away" in href for href in links(drawn))


def test_a_square_is_drawn_by_the_standard(shelf):
    """ISO/IEC 18004: read back in tests/browser/test_labels.py; here, that nothing else is in it."""
    square = next(one.src for one in walk(draw(shelf, "/labels").parts) if one._type == "Img")
    head, _, data = square.partition(",")
    text = base64.b64decode(data).decode() if "base64" in head else unquote(data)
    assert re.match(r"<(\?xml|svg)", text)
    assert "script" not in text
