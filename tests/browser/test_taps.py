"""Taps and texts of what is written most, counted on a phone from Today; a box tapped to be typed into is its text."""

from __future__ import annotations

import pytest
from browser_tools import settled
from conftest import copied

from ledger import Answers

OPENS = "[id^='{\"opens\"']"
BILL = """mill lane store
flour 25 lb  13.36
oats 5 lb  8.65
sugar 10 lb  9.20
salt 3 lb  2.10
rice 10 lb  12.40
butter 2 lb  8.98
milk 1 gallon  4.29
coffee 2 lb  17.50
Total 76.48"""


class Thumb:
    """A thumb that counts what it does on a page, all in sight of it."""

    def __init__(self, page):
        self.page, self.taps, self.texts = page, 0, 0

    def tap(self, which):
        self.taps += 1
        at = self.page.locator(which) if isinstance(which, str) else which
        at.first.tap()  # which waits for it, and brings it into sight

    def type(self, which, text):
        self.texts += 1
        self.page.locator(which).first.fill(text)

    @property
    def count(self):
        return self.taps, self.texts


@pytest.fixture(scope="module")
def house(serve, demo_file, tmp_path_factory):
    """The sample household, with a kettle of tomato puree that waits to be put up."""
    book = copied(demo_file, tmp_path_factory.mktemp("taps"))
    yes = Answers(yes=True)
    lines = [
        {"item": "tomato puree", "amount": "12 qt"},
        {"item": "bottled lemon juice", "amount": "1 pint"},
    ]
    book.write("received", lines=lines, how="gift", answers=yes)
    with book, serve(book) as served:
        yield served


@pytest.fixture
def thumb(house, open_page):
    page = open_page(house, "/")
    settled(page)
    yield Thumb(page)
    assert page.wrong == []


def newest(served, kind):
    return served.book.history(kind=kind)[0].line


def tile(kind):
    return f"#page .tile[href='/write?kind={kind}']"


def read(page):
    """Wait until all that was typed is read, with nothing asked."""
    page.wait_for_selector(".read")
    page.wait_for_function("document.querySelector('#happened-write').textContent.includes('1')")
    assert page.locator(".read.ask").count() == 0


def written(page):
    page.wait_for_selector("#form-said .written, #said .written")


def test_a_picking_takes_two_taps_and_a_text(house, thumb):
    thumb.tap(tile("harvested"))
    thumb.type("#rows-lines input >> nth=0", "31 lb plums")
    thumb.tap("#form-write")
    written(thumb.page)
    assert thumb.count == (2, 1)
    assert newest(house, "harvested") == "picked 31 lb plum"


def test_said_in_the_box_it_takes_a_tap_less(house, thumb):
    thumb.type("#happened-text", "picked 30 lb plums")
    read(thumb.page)
    thumb.tap("#happened-write")
    written(thumb.page)
    assert thumb.count == (1, 1)
    assert newest(house, "harvested") == "picked 30 lb plum"


def test_a_batch_from_a_recipe_takes_four_taps(house, thumb):
    thumb.tap(tile("put_up"))
    thumb.page.wait_for_selector("#form-write")
    thumb.tap(thumb.page.get_by_role("link", name="plain tomato sauce", exact=True))
    thumb.tap("[data-just]")
    thumb.tap("#form-write")
    written(thumb.page)
    assert thumb.count == (4, 0)
    line = newest(house, "put_up")
    assert line.startswith("put up 7 quart jars of tomato sauce")
    assert "10.5 qt tomato puree" in line


def test_a_meal_of_three_takes_a_tap_and_a_text(house, thumb):
    """One less than was reached for: the box on Today takes all three in one breath."""
    thumb.type("#happened-text", "ate a quart of tomato sauce, 12 oz pasta and 4 eggs")
    read(thumb.page)
    thumb.tap("#happened-write")
    written(thumb.page)
    assert thumb.count == (1, 1)
    assert newest(house, "eaten") == "ate 1 quart jar tomato sauce, 12 oz pasta, 4 egg"


def test_a_shop_of_eight_takes_three_taps_and_a_text(house, thumb):
    thumb.tap(tile("bought"))
    thumb.page.wait_for_selector("#bill-paste", state="attached")
    thumb.tap(thumb.page.get_by_text("Paste the whole receipt"))
    thumb.type("#bill-paste", BILL)
    says = "document.querySelector('#bill-says').textContent"
    thumb.page.wait_for_function(f"() => {says} === '8 things, $76.48'")
    thumb.tap("#form-write")
    written(thumb.page)
    assert thumb.count == (3, 1)
    assert "25 lb flour, 5 lb oats, 10 lb sugar, 3 lb salt and 4 more" in newest(house, "bought")


def test_an_entry_is_put_right_in_two_taps_and_a_text(house, thumb):
    house.book.write("harvested", item="plum", amount="13 lb", answers=Answers(yes=True))
    thumb.page.reload()
    settled(thumb.page)
    thumb.tap("#page .lately a[href*='kind=harvested&replaces=']")
    thumb.type("#rows-lines input >> nth=0", "31 lb plum")
    thumb.tap("#form-write")
    written(thumb.page)
    assert thumb.count == (2, 1)
    assert newest(house, "harvested") == "picked 31 lb plum"


def test_a_jar_is_opened_in_two_taps(house, thumb):
    thumb.tap(".bar a[href='/shelf']")
    thumb.page.wait_for_selector(OPENS)
    thumb.tap(OPENS)
    written(thumb.page)
    assert thumb.count == (2, 0)
    assert newest(house, "eaten").startswith("ate 1 ")
