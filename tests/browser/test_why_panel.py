"""A large figure opened by keyboard on a phone, down to a leaf; what is said where a branch does not come."""

from __future__ import annotations

import pytest
from browser_tools import axe, settled, shot

from ledger import Answers

OPEN = "#why-panel[open]"


def pick(book, n):
    amount, day = f"{n + 1} oz", book.today().isoformat()
    book.write("harvested", {"item": "plum", "amount": amount}, on=day, answers=Answers(yes=True))


def tab_to(page, which):
    """Go on by the Tab key to an element of the panel."""
    for _ in range(400):
        page.keyboard.press("Tab")
        if page.evaluate(f"document.activeElement.matches({which!r})"):
            return
    raise AssertionError(f"no tab leads to {which}")


def figure_of(page, address, field):
    """Open the arithmetic of a figure as its button on a page does."""
    page.evaluate(
        """([address, field]) => {
          const one = Object.assign(document.createElement('button'), { id: 'opener', textContent: 'open', className: 'opens' });
          one.dataset.why = address; one.dataset.field = field;
          document.querySelector('#page').prepend(one);
        }""",
        [address, field],
    )
    page.locator("#opener").press("Enter")
    page.wait_for_selector("#why-shown .why-tree > li")


COME = "() => !document.querySelector('#why-shown details[open][data-place]')"
FOLDED = "document.activeElement.matches('#why-shown details:not([open]) > summary')"
DEEP = ("our-table/paths/2026-01-01/2026-10-01/bought/mill%20lane%20store/fresh/table", "grams")
LARGE = ("came-true/keeps", "share_held")


def rest_fetched(page, n):
    page.wait_for_function(f"() => document.querySelectorAll('#why-shown .rest > details > ul').length >= {n}")  # fmt: skip


def test_keyboard_goes_down_to_a_leaf_and_back_closes(demo, open_page):
    page = open_page(demo, "/came-true")
    settled(page)
    figure_of(page, *LARGE)
    page.wait_for_selector(OPEN)
    before = page.locator("#why-shown li").count()
    assert 60 < before <= 301
    rests = page.locator("#why-shown .rest > details")
    told = rests.first.locator("> summary").inner_text()
    assert "more" in told
    tab_to(page, "#why-shown .rest > details[data-place] > summary")
    page.keyboard.press("Enter")
    rest_fetched(page, 1)
    assert page.evaluate("document.activeElement.matches('.rest > details[open] > summary')")
    page.keyboard.press("Tab")  # into what came
    assert page.evaluate("document.activeElement.closest('.rest') !== null")
    while page.locator("#why-shown .rest > details[data-place]").count():  # and on to the last one
        waits = page.locator("#why-shown .rest > details[data-place]").last
        one = waits.element_handle()  # it alone: once it has come, the last one is another
        waits.locator("> summary").focus()
        page.keyboard.press("Enter")
        page.wait_for_function("one => !one.dataset.place", arg=one)
    shot(page, "why-rest")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert page.evaluate("document.querySelector('#why-panel').scrollWidth <= innerWidth")
    page.go_back()
    page.wait_for_selector("#why-shown", state="hidden")
    assert page.wrong == []


def test_keyboard_reaches_a_leaf_deep_in_a_tree_and_its_entry(demo, open_page):
    """Line by line from the root: each that folds is opened by Enter, what is not there is fetched, till an entry."""
    page = open_page(demo, "/our-table")
    settled(page)
    figure_of(page, *DEEP)
    page.wait_for_selector(OPEN)
    page.locator("#why-shown .rest > details > summary").last.focus()
    page.keyboard.press("Enter")
    rest_fetched(page, 1)
    steps = 0
    while not page.evaluate("document.activeElement.matches('#why-shown li a')"):
        if page.evaluate(FOLDED):
            page.keyboard.press("Enter")
            page.wait_for_function(COME)
            steps += 1
        page.keyboard.press("Tab")
    assert steps >= 2
    shot(page, "why-leaf")
    page.keyboard.press("Enter")
    page.wait_for_url("**/history?find=**")
    page.wait_for_selector("#why-shown", state="hidden")
    assert page.wrong == []


def test_every_part_of_a_long_sum_is_reached_once(demo, open_page):
    page = open_page(demo, "/came-true")
    settled(page)
    figure_of(page, "came-true/keeps", "graded")
    node = demo.book.why("came-true/keeps", "graded")
    for _ in range(40):
        waits = page.locator("#why-shown details[data-place] > summary")
        if not waits.count():
            break
        page.evaluate("document.querySelectorAll('#why-shown details[data-place]').forEach(one => { one.open = true; })")  # fmt: skip
        page.wait_for_function(COME)
    own = page.locator("#why-shown li:not(.rest)").count()
    assert own == lines(node) > 2000
    assert page.wrong == []


def lines(node):
    return 1 + sum(lines(part) for part in node.parts)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_what_was_fetched_is_in_order_for_axe(demo, open_page, width, scheme):
    page = open_page(demo, "/worth-it", width=width, scheme=scheme)
    settled(page)
    figure_of(page, "worth-it/2026/total", "net_per_hour")
    page.wait_for_selector(OPEN)
    for _ in range(3):
        page.evaluate("[...document.querySelectorAll('#why-shown details')].slice(0, 25).forEach(one => { one.open = true; })")  # fmt: skip
        page.wait_for_function(COME)
    shot(page, f"why-{width}-{scheme}")
    assert axe(page) == []
    assert page.wrong == []


def test_arithmetic_prints_as_it_stands_open(demo, open_page):
    page = open_page(demo, "/worth-it", width=1280)
    settled(page)
    figure_of(page, "worth-it/2026/total", "net_per_hour")
    page.wait_for_selector(OPEN)
    page.emulate_media(media="print")
    assert page.locator("#frame").is_hidden()
    assert page.locator("#why-panel h2").is_visible()
    closed = page.locator("#why-shown details:not([open]) > summary >> visible=true")
    assert closed.count() >= 2  # their lines belong to the sum
    assert page.locator("#why-shown details:not([open]) > ul >> visible=true").count() == 0
    high = "document.querySelector('#why-panel').getBoundingClientRect().height"
    assert page.evaluate(high) > page.evaluate("document.querySelector('.why-tree').scrollHeight")
    assert page.evaluate("document.querySelector('#why-panel').getBoundingClientRect().left") == 0
    assert page.pdf(format="A4").count(b"/Type /Page\n") == 1
    shot(page, "why-print", full_page=True)
    page.evaluate("document.querySelectorAll('#why-shown details').forEach(one => { one.open = true; })")  # fmt: skip
    page.wait_for_function(COME)
    whole = page.pdf(format="A4")
    assert whole.count(b"/Type /Page\n") > 3  # nothing is cut at the foot of the first sheet
    page.emulate_media(media="screen")
    page.go_back()
    page.wait_for_selector("#why-shown", state="hidden")
    page.emulate_media(media="print")
    assert page.locator("#frame").is_visible()


def test_without_the_house_a_sentence_stands_in_the_branch_and_it_can_be_opened_again(
    demo, open_page
):
    page = open_page(demo, "/came-true")
    settled(page)
    figure_of(page, *LARGE)
    page.wait_for_selector(OPEN)
    page.context.set_offline(True)
    waits = page.locator("#why-shown .rest > details").first
    waits.locator("> summary").press("Enter")
    assert "cannot be reached" in waits.locator("> .trouble").inner_text()
    assert waits.get_attribute("aria-busy") is None
    page.keyboard.press("Escape")
    page.wait_for_selector("#why-shown", state="hidden")
    page.locator("#opener").evaluate("one => { one.dataset.field = 'graded'; }")
    page.locator("#opener").press("Enter")  # another figure, which is not here
    page.wait_for_selector(f"{OPEN} >> text=cannot be reached")
    shot(page, "why-away")
    assert axe(page) == []
    page.go_back()
    page.context.set_offline(False)
    page.locator("#opener").evaluate("one => { one.dataset.field = 'share_held'; }")
    page.locator("#opener").press("Enter")
    page.wait_for_selector("#why-shown .why-tree > li")
    waits = page.locator("#why-shown .rest > details").first
    waits.locator("> summary").press("Enter")
    waits.locator("> ul").first.wait_for()
    assert waits.locator("> .trouble").count() == 0


def test_a_branch_that_changed_meanwhile_is_opened_anew(own_empty, open_page):
    book = own_empty.book
    for n in range(400):
        pick(book, n)
    page = open_page(own_empty, "/season")
    settled(page)
    figure_of(page, book.show("season").frame["why"][0], "picked_g")
    page.wait_for_selector(OPEN)
    first = page.locator("#why-shown .why-tree > li").first.inner_text()
    waits = page.locator("#why-shown details[data-place]").last
    pick(book, 3)
    waits.locator("> summary").press("Enter")
    waits.locator("> .trouble .opens").press("Enter")
    page.wait_for_function(
        """was => document.querySelector('#why-shown .why-tree > li').innerText !== was
            && !document.querySelector('#why-shown .trouble')""",
        arg=first,
    )
