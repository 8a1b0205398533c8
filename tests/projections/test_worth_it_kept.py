"""Was it worth it: a glut that nobody ate, and what was fed of it."""

from __future__ import annotations

import pytest
from questions.recomputed import recompute
from worth_it_tools import by_line, near, write


@pytest.fixture
def glut(book, yes, fixed_day):
    """Forty pounds of summer squash: ten eaten, ten to the hens, five on the heap, the rest left."""
    write(book, "item_described", "2026-01-01", item="egg", sort="food", measure="count")
    write(
        book, "item_described", "2026-01-01", item="summer squash", sort="food", measure="mass",
        kcal_per_100g="20",
    )  # fmt: skip
    write(
        book, "item_described", "2026-01-01", item="layer feed", sort="garden input",
        measure="mass", feeds="egg",
    )  # fmt: skip
    write(book, "bought", "2026-05-01", item="layer feed", amount="10 kg", paid="29")
    write(book, "price_seen", "2026-05-01", item="summer squash", amount="1 kg", price="3")
    squash = [{"item": "summer squash", "amount": "40 kg"}]
    write(book, "harvested", "2026-07-01", lines=squash)
    write(book, "eaten", "2026-07-02", ate=[{"item": "summer squash", "amount": "10 kg"}])
    for why, amount in (("fed to animals", "10 kg"), ("composted", "5 kg")):
        lines = [{"item": "summer squash", "amount": amount}]
        write(book, "discarded", "2026-07-03", why=why, lines=lines)
    return book


def test_a_glut_is_worth_the_feed_that_it_spared(glut):
    lines = by_line(glut.show("worth-it", as_of="2026-07-05").to_dict())
    # 10 kg at 20 kcal per 100 g is 2,000 kcal; feed has 2,900 kcal a kg at 2.90: 2.00
    assert lines["garden"]["worth"] == near(120)
    assert lines["lost"]["worth"] == near(-45 + 2)
    assert lines["animals"]["cost"] == near(2)  # no egg was written down, so no feed counts yet
    assert "fed-for-feed" in lines["lost"]["assumptions"]
    assert lines["total"]["net"] == near(120 - 45)  # what one line gains another bears


def test_what_nobody_ate_is_worth_nothing_once_its_keeping_is_over(glut):
    """USDA Handbook 66 (1954): summer squash half a week to a week."""
    before = by_line(glut.show("worth-it", as_of="2026-07-08").to_dict())
    assert "kept too long" not in before
    after = by_line(glut.show("worth-it", as_of="2026-07-09").to_dict())
    assert after["kept too long"]["worth"] == near(-15 * 3)
    assert after["garden"] == {**before["garden"]}
    season = glut.show("season", as_of="2026-07-09").to_dict()["records"][-1]
    assert (season["kept_too_long"], season["glut"]) == (near(45), near(30 - 2 + 15))
    assert season["net"] == near(120 - 45 - 43)


def test_a_count_and_the_households_word_keep_it_longer(glut):
    lines = [{"item": "summer squash", "amount": "15 kg"}]
    write(glut, "counted", "2026-07-08", lines=lines)
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-07-15").to_dict())
    assert "kept too long" in by_line(glut.show("worth-it", as_of="2026-07-16").to_dict())
    write(
        glut, "item_described", "2026-01-01", item="summer squash", sort="food",
        keeps={"shelf": "6 weeks"},
    )  # fmt: skip
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-08-01").to_dict())
    write(glut, "eaten", "2026-08-01", ate=[{"item": "summer squash", "amount": "15 kg"}])
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-10-01").to_dict())


def test_why_opens_what_kept_too_long_and_what_was_fed(glut):
    for line, value in (("kept too long", -45), ("lost", -43)):
        node = glut.why(f"worth-it/2026/{line}", "worth", as_of="2026-09-01")
        assert node.value == near(value)
        assert recompute(node) == near(value)
