"""The shelf's taps, the bill, the basket and a jar in danger, in a browser."""

from __future__ import annotations

from browser_tools import settled

OPENS = "[id^='{\"opens\"']"


def kinds(served):
    return [row.kind for row in served.book.history() if row.state == "holds"]


def test_a_jar_is_opened_in_one_tap_and_undone(own_demo, open_page):
    page = open_page(own_demo, "/shelf")
    settled(page)
    before = kinds(own_demo)
    buttons = page.locator(OPENS)
    button = buttons.nth(buttons.count() - 1)
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    button.dblclick()  # the second tap of two is none
    page.wait_for_selector("#said .written")
    # where a thumb just wrote, nothing listens for two seconds, whatever is drawn there now
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    assert kinds(own_demo) == ["eaten", *before]
    page.wait_for_timeout(4_000)  # the page was drawn anew meanwhile; the card stays
    page.get_by_role("button", name="Undo").click()
    page.wait_for_selector("#said >> text=Taken back")
    assert kinds(own_demo)[0] == "struck"
    assert page.wrong == []


def test_jars_in_danger_stand_first_without_a_button(own_empty, open_page):
    book = own_empty.book
    from ledger import Answers

    yes = Answers(yes=True)
    book.write("harvested", item="green bean", amount="20 lb", answers=yes)
    body = {"makes": "canned green bean", "method": "boiling water", "minutes": "180",
            "used": [{"item": "green bean", "amount": "14 lb"}],
            "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    book.write("put_up", body, answers=yes)
    for path in ("/", "/shelf"):
        page = open_page(own_empty, path)
        page.wait_for_selector(".danger[role=alert]")
        top = page.locator(".danger").bounding_box()["y"]
        assert top < page.locator("#page .sec").first.bounding_box()["y"]
        assert page.locator(OPENS).count() == 0
        assert page.wrong == []


def test_a_pasted_receipt_is_summed_and_written(own_demo, open_page):
    page = open_page(own_demo, "/write?kind=bought")
    page.get_by_text("Paste the whole receipt").click()
    page.fill("#bill-paste", "mill lane store\nflour 25 lb  13.36\noats 5 lb  8.65\nTotal 22.01")
    page.wait_for_function(
        "() => document.querySelector('#bill-says').textContent === '2 things, $22.01'"
    )
    page.click("#form-write")
    page.wait_for_selector("#form-said .written")
    row = own_demo.book.history(kind="bought")[0]
    assert "25 lb flour, 5 lb oats at mill lane store for 13.36, 8.65" in row.line
    page.wait_for_selector("#bill-says >> text=Nothing yet")
    assert page.wrong == []


def test_what_is_ticked_on_one_phone_is_ticked_on_the_other_and_fills_the_bill(own_demo, open_page):
    page, other = open_page(own_demo, "/shopping"), open_page(own_demo, "/shopping")
    name = page.inner_text(".want .what >> nth=0")
    page.click(".want >> nth=0")
    page.wait_for_selector(".want.got")
    other.reload()
    other.wait_for_selector(".want.got")
    assert other.inner_text(".want.got .what") == name
    other.click(".stick a")
    other.wait_for_selector("#bill-says")
    other.wait_for_function(
        "() => document.querySelector('#bill-says').textContent.startsWith('1 thing,')"
    )
    assert name.lower() in other.input_value("#rows-lines input >> nth=0")
    assert page.wrong + other.wrong == []
