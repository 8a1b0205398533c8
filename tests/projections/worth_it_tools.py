"""What tests of worth-it share: one small season with every line of it, and a check of every tree."""

from __future__ import annotations

import math

import pytest
from questions.recomputed import recompute

VARIANTS = ({}, {"durables": True}, {"prices": True})


def near(value):
    """A cent in a thousand: amounts are kept in whole milligrams and microlitres."""
    return pytest.approx(value, rel=1e-4, abs=1e-4)


def by_line(answer):
    return {record["line"]: record for record in answer["records"]}


def close(mine, theirs):
    return math.isclose(mine or 0.0, theirs or 0.0, rel_tol=1e-9, abs_tol=1e-6)


def write(book, kind, on, **body):
    return book.write(kind, body, on=on)


def small_season(book, yes):
    """Write down one small season, every line of it."""
    write(book, "setting_changed", "2026-01-01", name="labour_rate", value="12 per hour")
    write(book, "item_described", "2026-01-01", item="egg", sort="food", measure="count")
    write(
        book,
        "item_described",
        "2026-01-01",
        item="layer feed",
        sort="garden input",
        measure="mass",
        feeds="egg",
    )
    write(book, "bought", "2026-01-02", item="kettle", amount="1", paid="40", years="20")
    write(book, "bought", "2026-01-02", item="quart jar", amount="10", paid="20", uses="10")
    write(book, "bought", "2026-01-02", item="lid", amount="20", paid="4")
    book.write(
        "bought",
        {"item": "tomato food", "amount": "5 lb", "paid": "30", "for_crop": "tomato"},
        on="2026-05-01",
        answers=yes,
    )
    write(book, "bought", "2026-05-01", item="layer feed", amount="50 lb", paid="18")
    write(book, "price_seen", "2026-05-01", item="tomato", amount="1 lb", price="2")
    write(book, "price_seen", "2026-05-01", item="egg", amount="12", price="3")
    write(book, "price_seen", "2026-05-01", item="tomato sauce", amount="1 qt", price="5")
    write(book, "bought", "2026-05-02", item="salt", amount="2 lb", paid="2")
    work = [{"person": "Ada", "minutes": "120"}]
    write(book, "harvested", "2026-08-01", lines=[{"item": "tomato", "amount": "30 lb"}], work=work)
    write(book, "harvested", "2026-08-01", lines=[{"item": "egg", "amount": "24"}])
    write(
        book,
        "received",
        "2026-08-01",
        how="gift",
        lines=[{"item": "plum", "amount": "4 lb", "value": "6"}],
    )
    body = {
        "makes": "tomato sauce", "method": "boiling water",
        "used": [{"item": "tomato", "amount": "20 lb"}, {"item": "salt", "amount": "1 lb"}, {"item": "plum", "amount": "1 lb"}],
        "made": [{"jars": 5, "jar": "quart jar"}], "equipment": ["kettle"],
        "work": [{"person": "Ada", "minutes": "60"}],
    }  # fmt: skip
    book.write("put_up", body, on="2026-08-02", answers=yes)
    write(
        book,
        "given_away",
        "2026-08-03",
        how="sold",
        got="5",
        lines=[{"item": "tomato", "amount": "2 lb"}],
    )
    write(
        book,
        "given_away",
        "2026-08-03",
        how="gift",
        lines=[{"item": "tomato sauce", "amount": "1 qt"}],
    )
    write(
        book, "discarded", "2026-08-04", why="spoiled", lines=[{"item": "tomato", "amount": "3 lb"}]
    )
    return book


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    for part in node.parts:
        check(part)
