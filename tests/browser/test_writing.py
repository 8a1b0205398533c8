"""The common six written by form, corrected and taken back; every refusal beside its box."""

from __future__ import annotations

import pytest
from browser_tools import READ_MS, settled

BOX = "#rows-{} > .row:nth-child({}) input >> nth=0"


def box(page, name, row=1):
    return page.locator(BOX.format(name, row))


def field(page, label):
    return page.get_by_label(label, exact=True).first


def choose(page, label, option):
    field(page, label).select_option(option)


def write(page):
    page.click("#form-write")
    page.wait_for_selector("#form-said [role=alert], #form-said p")
    return page.inner_text("#form-said")


def write_next(page, text):
    """Write a line in the form that stands there, and wait until it is empty again."""
    page.wait_for_timeout(READ_MS)
    box(page, "lines").fill(text)
    page.click("#form-write")
    page.wait_for_function("() => !document.querySelector('#rows-lines input').value")


def test_first_entry_takes_four_taps_and_one_text(own_empty, open_page):
    page = open_page(own_empty)
    taps = []
    ways = ("Write", "Picked")  # a new book's Today asks for the household first
    links = [page.get_by_role("link", name=name, exact=True).last for name in ways]
    for locator in (*links, box(page, "lines")):
        locator.tap()
        taps.append(locator)
    page.keyboard.type("31 lb plums")
    page.locator("#form-write").tap()
    taps.append("write")
    page.wait_for_selector("text=Written down")
    assert len(taps) <= 4
    shelf = own_empty.book.show("shelf").records()
    assert [(r["item"], r["left"]["text"], r["on"]) for r in shelf] == [
        ("plums", "31 lb", own_empty.book.today().isoformat())
    ]
    assert page.wrong == []


def test_amount_is_understood_at_once_and_names_are_offered(demo, open_page):
    page = open_page(demo, "/write?kind=harvested")
    box(page, "lines").type("31 lb 8 oz plum")
    page.wait_for_selector("text=31 lb 8 oz (14.3 kg) of plum")
    box(page, "lines").fill("2 lb tom")
    page.locator(".said .chip", has_text="tomato").first.click()
    page.wait_for_selector("text=of tomato")
    assert box(page, "lines").input_value() == "2 lb tomato"


def test_basket_of_several_lines(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=bought")
    box(page, "lines").fill("10 lb sugar")
    page.locator("#rows-lines > .row:nth-child(1)").get_by_label("Paid").fill("7.90")
    page.get_by_role("button", name="Another: What and how much").click()
    box(page, "lines", 2).fill("24 lids")
    page.locator("#rows-lines > .row:nth-child(2)").get_by_label("Paid").fill("6")
    field(page, "Shop").fill("corner shop")
    assert "Written down" in write(page)
    (row,) = own_empty.book.history(kind="bought")
    assert row.line == "bought 10 lb sugar, 24 lids at corner shop for 7.90, 6"


def test_batch_shows_its_cost_before_it_is_written_and_changes_jar_cost(own_empty, open_page):
    book = own_empty.book
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "8.00"})
    book.write("harvested", {"item": "plum", "amount": "16 lb"})
    page = open_page(own_empty, "/write?kind=put_up")
    field(page, "Makes").fill("plum butter")
    choose(page, "Method", "boiling water")
    box(page, "used").fill("16 lb plum")
    page.get_by_role("button", name="Another: What went in").click()
    box(page, "used", 2).fill("3 lb sugar")
    box(page, "made").fill("12 half-pint jars")
    page.wait_for_selector("text=at least $0.20 a half-pint jar")
    assert book.history(kind="put_up") == []
    assert "Written down" in write(page)
    shown = page.locator(".form input[id^='{'], .form textarea[id^='{']")
    assert {one.input_value() for one in shown.all()} == {""}  # choices, too, are empty again
    page.wait_for_timeout(READ_MS)
    page.click("#form-write")  # so there is nothing to write
    settled(page)
    assert "Written down" in page.inner_text("#form-said")
    page.goto(own_empty.address + "/jar-cost")
    page.wait_for_selector("#page .answer >> text=at least $0.20")
    page.get_by_text("Every batch", exact=True).click()
    page.wait_for_selector("#page .more td >> text=$2.40 >> visible=true")
    assert page.wrong == []


def test_meal_practice_and_count(own_demo, open_page):
    book = own_demo.book
    page = open_page(own_demo, "/write?kind=eaten")
    box(page, "ate").fill("1 lb bread")
    field(page, "People").fill("6")
    assert "Written down" in write(page)
    page.goto(own_demo.address + "/write?kind=practised")
    page.wait_for_selector("#form-write")
    field(page, "Skill").fill("grafting")
    box(page, "people").fill("Ada")
    assert "Written down" in write(page)
    page.goto(own_demo.address + "/write?kind=counted")
    page.wait_for_selector("#form-write")
    box(page, "lines").fill("4 lb sugar")
    assert "Written down" in write(page)
    assert [book.history(kind=k)[0].on for k in ("eaten", "practised", "counted")] == [
        book.today().isoformat()
    ] * 3


@pytest.mark.parametrize(
    ("kind", "said", "where", "problem"),
    [
        ("harvested", {"lines": "2 c plum"}, "lines", "not a unit"),
        ("harvested", {"lines": "-3 lb plum"}, "lines", "below zero"),
        ("harvested", {"lines": "0 lb plum"}, "lines", "nothing"),
        ("harvested", {"lines": "3 lb"}, "lines", "names no item"),
        ("harvested", {}, "lines", "missing"),
        ("bought", {"lines": "10 lb sugar", "paid": "a lot"}, "paid", "not a number"),
        ("bought", {"lines": "10 lb sugar"}, "paid", "missing"),
        ("eaten", {"ate": "1 lb bread", "people": "-2"}, "people", ""),
    ],
)
def test_bad_input_is_said_beside_its_box(kind, said, where, problem, empty, open_page):
    page = open_page(empty, f"/write?kind={kind}")
    for name, text in said.items():
        target = box(page, name) if name in ("lines", "ate") else field(page, name.capitalize())
        target.fill(text)
    page.click("#form-write")
    error = page.locator(".box > .wrong").first
    error.wait_for()
    assert problem in error.inner_text()
    marked = page.locator("[aria-invalid=true]").first.get_attribute("id")
    assert f'"field":"{where}"' in marked
    assert empty.book.log.position() == 0
    assert page.wrong == []


def test_doubt_is_asked_and_taken(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    box(page, "lines").fill("12 ton plum")
    page.evaluate(
        """() => new Promise((done) => {
            const answer = () => document.querySelector("#form-said button");
            document.getElementById("form-write").click();
            const look = () => answer() ? done(answer().click()) : requestAnimationFrame(look);
            look();
        })"""
    )  # the second tap of two falls on an answer that nobody can have read
    settled(page)
    assert own_empty.book.log.position() == 0
    page.wait_for_timeout(READ_MS)
    page.get_by_role("button", name="Yes:").click()
    page.wait_for_selector("text=Written down")
    assert own_empty.book.log.position() == 2


@pytest.mark.parametrize("gap", [0, 150, 900], ids=lambda gap: f"{gap}ms")
def test_double_tap_writes_once_and_says_so(gap, own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    box(page, "lines").fill("3 lb plum")
    tap = "() => document.getElementById('form-write').click()"
    page.evaluate(tap)
    page.wait_for_timeout(gap)
    page.evaluate(tap)
    page.wait_for_selector("#form-said >> text=picked 3 lb plum")
    settled(page)
    said = page.inner_text("#form-said")
    assert said.startswith(("Written down", "That was written down already"))
    assert len(own_empty.book.history(kind="harvested")) == 1
    assert page.wrong == []


def test_a_tap_right_after_typing_writes_the_whole_text(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    box(page, "lines").focus()
    page.evaluate(
        """() => {
            document.execCommand("insertText", false, "31 lb plums");
            document.getElementById("form-write").click();
        }"""
    )
    page.wait_for_selector("#form-said >> text=picked 31 lb plums")
    written = own_empty.book.history(kind="harvested")
    assert [row.line for row in written] == ["picked 31 lb plums"]


def test_the_next_entry_of_the_same_form_is_another_one(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    for n in (1, 2):
        write_next(page, "3 lb plum")
        assert page.inner_text("#form-said").startswith("Written down")
        assert len(own_empty.book.history(kind="harvested")) == n


def test_entries_of_another_day_keep_their_day(own_empty, open_page):
    """An old notebook is typed in: its day stays, and one left out is asked for, never taken as today."""
    page = open_page(own_empty, "/write?kind=harvested")
    page.get_by_text("Other day").click()
    box(page, "lines").fill("3 lb plum")
    assert "Look at the boxes" in write(page)
    page.wait_for_selector("text=This is missing. Write it like 2026-09-02")
    day = page.get_by_role("textbox", name="Which day")
    day.fill("2026-09-01")
    for n in (1, 2):
        write_next(page, "3 lb plum")
        assert [r.on for r in own_empty.book.history(kind="harvested")] == ["2026-09-01"] * n
    page.wait_for_timeout(READ_MS)
    page.click("#form-write")  # nothing new was typed
    settled(page)
    assert page.inner_text("#form-said").startswith("Written down")


def test_without_a_connection_it_says_so_and_the_entry_waits(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    settled(page)
    page.context.set_offline(True)
    box(page, "lines").fill("3 lb plum")
    page.click("#form-write")
    page.wait_for_selector("text=No signal. 1 entry waits on this phone.")
    assert box(page, "lines").input_value() == ""
    page.context.set_offline(False)
    page.wait_for_selector("#waiting .waiting-news >> text=picked 3 lb plum")
    assert len(own_empty.book.history(kind="harvested")) == 1


def test_a_page_wanted_without_a_connection_comes_when_it_is_back(own_empty, open_page):
    own_empty.book.write("harvested", {"item": "plum", "amount": "31 lb"})
    page = open_page(own_empty, "/write?kind=harvested")
    settled(page)
    page.context.set_offline(True)
    page.wait_for_selector("#away:not(:empty)")
    page.get_by_role("link", name="Shelf", exact=True).click()
    page.context.set_offline(False)
    page.wait_for_selector("h1 >> text=Shelf")
    page.wait_for_selector("text=31 lb")


def test_correction_and_strike_change_the_figures(own_empty, open_page):
    book = own_empty.book
    first = book.write("harvested", {"item": "plum", "amount": "31 lb"})
    page = open_page(own_empty, "/")
    page.locator(".lately a").first.click()
    page.wait_for_selector("#form-write")
    assert box(page, "lines").input_value() == "31 lb plum"
    box(page, "lines").fill("13 lb plum")
    assert write(page).startswith("Corrected")
    assert book.show("shelf").records()[0]["left"]["text"] == "13 lb"
    page.goto(own_empty.address + "/history")
    page.locator(".entry-fold > summary").first.click()
    page.get_by_role("link", name="Take back").first.click()
    page.get_by_label("Why").fill("written twice")
    page.dblclick("#strike-do")  # the second tap of two is none
    page.wait_for_selector("#strike-said >> text=Taken back")
    settled(page)
    assert page.inner_text("#strike-said").startswith("Taken back")
    page.wait_for_selector("text=Taken back: Picked 13 lb plum")  # the page drawn anew says so, too
    assert book.show("shelf").records() == []
    states = [row.state for row in book.history() if row.entry == first.event.id]
    assert states == ["holds", "struck", "struck"]  # the strike itself, and both words it took back
    assert page.wrong == []


def test_what_is_typed_after_a_correction_is_another_entry(own_empty, open_page):
    book = own_empty.book
    first = book.write("harvested", {"item": "plum", "amount": "31 lb"})
    page = open_page(own_empty, f"/write?kind=harvested&replaces={first.event.id}")
    for amount in ("13 lb plum", "12 lb plum"):
        box(page, "lines").fill(amount)
        assert write(page).startswith("Corrected")
        assert page.locator("#form-write").is_hidden()  # its boxes would take the entry's place
        page.get_by_role("link", name="Correct it").click()
        page.locator("#form-write").wait_for()
        page.wait_for_timeout(READ_MS)
    page.get_by_role("link", name="Write", exact=True).click()
    page.get_by_role("link", name="Picked", exact=True).click()
    box(page, "lines").fill("4 lb pear")
    assert write(page).startswith("Written down")
    shelf = {row["item"]: row["left"]["text"] for row in book.show("shelf").records()}
    assert shelf == {"plum": "12 lb", "pear": "4 lb"}
    assert page.wrong == []


def test_news_of_an_entry_does_not_hold_up_a_link(empty, open_page):
    page = open_page(empty, "/write?kind=harvested")
    settled(page)
    page.evaluate(
        """() => {
            document.getElementById("bar-write").click();
            setTimeout(() => window.dash_clientside.set_props("seen", { data: 99 }), 10);
        }"""
    )
    page.get_by_role("link", name="Picked", exact=True).wait_for()
    assert page.wrong == []


def test_a_form_left_while_typing_leaves_nothing_behind(empty, open_page):
    page = open_page(empty, "/write?kind=put_up")
    field(page, "Makes").fill("plum butter")
    page.get_by_role("link", name="Today", exact=True).click()
    page.wait_for_selector("h1 >> text=Today")
    page.wait_for_timeout(1_000)  # a rest, after which the form would ask what the batch costs
    assert page.wrong == []


def test_two_phones_see_each_other_and_a_form_keeps_its_text(own_empty, open_page):
    own_empty.book.write("harvested", {"item": "plum", "amount": "31 lb"})
    reading, typing = open_page(own_empty, "/shelf"), open_page(own_empty, "/write?kind=harvested")
    box(typing, "lines").fill("half typ")
    reading.locator("summary >> visible=true").first.click()
    writing = open_page(own_empty, "/write?kind=harvested")
    box(writing, "lines").fill("9 lb pear")
    assert "Written down" in write(writing)
    reading.wait_for_selector(
        "li b >> text=pear"
    )  # asked for every three seconds (EVERY_MS in croft.js)
    typing.wait_for_timeout(4_000)
    assert box(typing, "lines").input_value() == "half typ"
    assert reading.wrong + typing.wrong + writing.wrong == []


def test_markup_in_names_is_text(own_empty, open_page):
    book = own_empty.book
    name = "<img src=x onerror=alert(1)>"
    book.write("harvested", {"item": name, "amount": "3 lb"})
    for path in ("/", "/shelf", "/history"):
        page = open_page(own_empty, path)
        page.wait_for_selector(f"text={name}")
        assert page.locator("img[src=x]").count() == 0
        assert page.wrong == []
