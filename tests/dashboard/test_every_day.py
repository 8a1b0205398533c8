"""The pages of every day: jars by a tap, danger that no tap opens, the bill, the basket, the made sheet."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from fontTools.ttLib import TTFont
from page_tools import Drawn, text_of, walk

from dashboard import look
from dashboard.app import make_app
from dashboard.bundle import ASSETS
from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.errands import Errands
from dashboard.forms.billing import bill_lines
from dashboard.forms.shelving import open_jar, put_back
from dashboard.forms.understanding import last_paid, recent_lines
from dashboard.parts.boards import PARTED, boards_of, count_of, marks_of
from ledger import Answers
from ledger.door import Written
from ledger.errors import NeedsAnswer

YES = Answers(yes=True)
ID = "0a1b2c3d-0000-4000-8000-00000000000{}"
JAM = {"makes": "plum jam", "method": "cook", "used": [{"item": "plum", "amount": "6 lb"}],
       "made": [{"jars": 3, "jar": "pint jar", "kept": "fridge"}]}  # fmt: skip
BAD = {"makes": "canned green bean", "method": "boiling water", "minutes": "180",
       "used": [{"item": "green bean", "amount": "14 lb"}],
       "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
KEY = f"plum jam{PARTED}pint jar"


@pytest.fixture
def kitchen(book, fixed_day):
    for item in ("plum", "green bean"):
        book.write("harvested", item=item, amount="40 lb", on="2026-09-01")
    book.write("put_up", JAM, on="2026-09-02", answers=YES)
    return Data(book)


def jars(data, item):
    rows = [row for row in data.show("shelf").records() if row["item"] == item]
    return sum(count_of(row) for row in rows)


def test_a_tap_opens_one_jar_and_another_puts_it_back(kitchen):
    done = open_jar(kitchen, KEY, [], ID.format(1))
    assert isinstance(done, Written)
    assert done.body["ate"][0]["amount"] == "1 pint jar"
    assert jars(kitchen, "plum jam") == 2
    assert open_jar(kitchen, KEY, [], ID.format(1)).is_new is False  # the same tap twice
    assert jars(kitchen, "plum jam") == 2
    assert put_back(kitchen, KEY, "undone") == kitchen.today().isoformat()
    assert jars(kitchen, "plum jam") == 3
    assert put_back(kitchen, KEY, "undone") is None  # nothing more was opened here


def test_no_more_jars_are_opened_than_there_are(kitchen):
    for n in range(3):
        assert isinstance(open_jar(kitchen, KEY, [], ID.format(n)), Written)
    assert open_jar(kitchen, KEY, [], ID.format(4)) is None
    assert jars(kitchen, "plum jam") == 0


def test_a_meal_with_more_in_it_is_not_taken_for_an_opened_jar(kitchen):
    ate = [{"item": "plum jam", "amount": "1 pint jar"}, {"item": "plum", "amount": "1 lb"}]
    kitchen.book.write("eaten", {"ate": ate}, on="2026-10-01", answers=YES)
    assert put_back(kitchen, KEY, "undone") is None


def test_no_tap_opens_a_jar_in_danger(kitchen):
    kitchen.book.write("put_up", BAD, on="2026-09-03", answers=YES)
    drawn = Drawn(ask_of(kitchen, "/shelf"))
    buttons = [one.id for one in drawn.all("Button") if isinstance(getattr(one, "id", None), dict)]
    assert {"opens": KEY} in buttons
    assert not [one for one in buttons if "green bean" in str(one)]
    assert open_jar(kitchen, f"canned green bean{PARTED}quart jar", [], ID.format(1)) is None
    marks = [
        m
        for b in boards_of(kitchen.show("shelf").records())
        for m in marks_of(b, dt.date(2026, 11, 1))
    ]
    assert marks == [(7, "qt", "bad"), (3, "pt", "a1")]  # those in danger first, none of them green
    assert drawn.text.index("Do not eat") < drawn.text.index("jars not marked")
    for item in ("Canned green bean", "canned green bean"):
        eaten_next = text_of(Drawn(ask_of(kitchen, "/")).parts).split("What happened?")[1]
        assert item not in eaten_next.split("Written lately")[0]


def test_a_jar_that_is_to_be_looked_up_is_asked_about_first(kitchen):
    body = {
        **BAD,
        "makes": "mystery relish",
        "used": [{"item": "plum", "amount": "6 lb"}],
        "minutes": "10",
    }
    kitchen.book.write("put_up", body, on="2026-09-03", answers=YES)
    rows = [r for r in kitchen.show("shelf").records() if r["item"] == "mystery relish"]
    key = f"mystery relish{PARTED}quart jar"
    done = open_jar(kitchen, key, [], ID.format(1))
    assert done is None if boards_of(rows)[0].is_grave else isinstance(done, NeedsAnswer)
    assert jars(kitchen, "mystery relish") == 7


def test_a_receipt_becomes_lines_of_the_bill(kitchen):
    kitchen.book.write("bought", item="sugar", amount="10 lb", paid="7.90", shop="mill lane store")
    read = bill_lines(kitchen, "mill lane store\nsugar 10 lb  8.10\nplum 2 lb  3.00\nTotal 11.10")
    assert read["lines"] == [("10 lb sugar", "8.10"), ("2 lb plum", "3")]
    assert (read["shop"], read["receipt_total"]) == ("mill lane store", "11.10")
    assert bill_lines(kitchen, "nothing of it is one")["lines"] == []


def test_last_price_is_that_of_just_so_much(kitchen):
    kitchen.book.write("bought", item="sugar", amount="10 lb", paid="7.90", shop="mill lane store")
    assert last_paid(kitchen, "sugar", "10 lb") == ("7.90", "mill lane store")
    assert last_paid(kitchen, "sugar", "5 lb") is None
    assert recent_lines(kitchen, "bought", "lines") == ["10 lb sugar"]


def test_basket_is_kept_for_every_phone_and_emptied_by_the_bill(tmp_path):
    one, other = Errands(tmp_path / "a" / "list.json"), Errands(tmp_path / "a" / "list.json")
    assert one.ticked() == []
    one.tick("butter")
    other.tick("flour")
    assert one.ticked() == ["butter", "flour"]
    other.tick("butter")
    one.empty(["flour", "nothing"])
    assert one.ticked() == other.ticked() == []
    one.file.write_text("{broken")
    assert one.ticked() == []


def test_every_list_names_its_book(kitchen, monkeypatch, tmp_path):
    monkeypatch.setattr("dashboard.errands.user_data_path", lambda *_, **__: tmp_path)
    assert Errands.of(kitchen).file == Errands.of(Data(kitchen.book)).file
    assert Errands.of(kitchen).file.parent == tmp_path


def test_serif_is_one_weight_with_the_letters_of_both_languages():
    face = TTFont(io.BytesIO(look.font()))
    letters = set(face.getBestCmap())
    assert {ord(one) for one in "AZaz0189äöüßÄÖÜ½¼–−’“„€"} <= letters
    assert "fvar" not in face  # no other weights are sent along
    assert len(look.font()) < 40_000


def test_made_sheet_is_sent_under_its_version(book):
    client = make_app(book).server.test_client()
    page = client.get("/").text
    assert f'href="{look.sheet_link()}"' in page
    assert page.count('rel="stylesheet"') == 1
    rules = (ASSETS / "croft.css").read_text("utf-8")
    assert look.sheet().index("--paper:") < look.sheet().index(rules)  # what is made comes first
    answer = client.get(look.sheet_link())
    assert answer.mimetype == "text/css"
    assert "immutable" in answer.headers["Cache-Control"]
    assert client.get(look.FONT).mimetype == "font/woff2"


def test_page_that_a_device_chose_no_scheme_for_follows_its_system(book):
    client = make_app(book).server.test_client()
    assert '<body class="auto">' in client.get("/").text
    client.set_cookie("scheme", "dark")
    assert '<body class="dark">' in client.get("/").text
    client.set_cookie("scheme", "<script>")
    assert '<body class="auto">' in client.get("/").text


def test_every_icon_that_pages_name_is_drawn(demo):
    known, seen = look.sheet(), set()
    for path in ("/", "/shelf", "/shopping", "/write", "/write?kind=put_up"):
        address, _, search = path.partition("?")
        drawn = Drawn(ask_of(demo, address, f"?{search}"))
        names = {
            name
            for one in walk(drawn.parts)
            for name in str(getattr(one, "className", "")).split()
            if name.startswith("ic-")
        }
        seen |= names
        assert {name for name in names if f".{name}{{" not in known} == set()
    assert {"ic-picked", "ic-minus", "ic-fridge", "ic-share", "ic-warn"} <= seen
