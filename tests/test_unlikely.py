"""What is unlikely of an entry is asked of a person, and of nobody else."""

from __future__ import annotations

import pytest

from ledger.door import Answers, Entry
from ledger.errors import NeedsAnswer


def asked(book, kind, on="2026-08-10", **body):
    """Return the questions that an entry raises, every one answered with yes."""
    doubts = []
    answers = Answers(ask=lambda doubt: bool(doubts.append(doubt)) or True)
    book.ask(Entry(kind, body, on=on), answers)
    return [(doubt.code, doubt.question, doubt.offered) for doubt in doubts]


def line(amount, item, **more):
    return {"amount": amount, "item": item, **more}


@pytest.fixture
def kitchen(book, yes):
    for day in ("2026-08-01", "2026-08-02", "2026-08-03"):
        book.write("harvested", {"lines": [line("20 lb", "plum")]}, on=day, answers=yes)
        paid = [line("10 lb", "sugar", paid="8.90")]
        book.write("bought", {"lines": paid}, on=day, answers=yes)
    return book


def test_more_than_is_there_is_asked_about(kitchen):
    ((code, question, offered),) = asked(kitchen, "eaten", ate=[line("80 lb", "plum")])
    assert code == "not-there"
    assert question == (
        "80 lb of plum are taken, and the book has 60 lb left on that day; is the amount right?"
    )
    assert offered == "it is right, and 20 lb counts as unrecorded"


def test_what_was_there_on_its_own_day_counts(kitchen):
    assert asked(kitchen, "eaten", ate=[line("20 lb", "plum")], on="2026-08-01") == []
    ((code, *_),) = asked(kitchen, "eaten", ate=[line("30 lb", "plum")], on="2026-08-01")
    assert code == "not-there"


def test_what_never_came_in_is_not_asked_about(kitchen):
    """Salt is in every meal and in few books."""
    assert asked(kitchen, "eaten", ate=[line("1 oz", "salt")]) == []


def test_a_scale_may_differ_a_little(kitchen):
    assert asked(kitchen, "eaten", ate=[line("61 lb", "plum")]) == []


@pytest.mark.parametrize(("amount", "codes"), [("150 lb", []), ("200 lb", ["far-more"])])
def test_ten_times_the_usual_is_asked_about(kitchen, amount, codes):
    found = asked(kitchen, "harvested", lines=[line(amount, "plum")])
    assert [code for code, *_ in found] == codes


@pytest.mark.parametrize(
    ("paid", "codes"),
    [("8.90", []), ("20", []), ("0", []), ("89.00", ["price"]), ("0.89", ["price"])],
)
def test_a_slipped_point_in_a_price_is_asked_about(kitchen, paid, codes):
    found = asked(kitchen, "bought", lines=[line("10 lb", "sugar", paid=paid)])
    assert [code for code, *_ in found] == codes
    if codes:
        assert "at the price last seen it would be 8.90" in found[0][1]


def test_a_price_seen_is_looked_at_too(kitchen):
    found = asked(kitchen, "price_seen", item="sugar", amount="10 lb", price="120")
    assert [code for code, *_ in found] == ["price"]


def test_what_a_count_finds_is_not_asked_about(kitchen):
    assert asked(kitchen, "counted", lines=[line("900 lb", "plum")]) == []


def test_a_script_is_not_asked_and_nothing_is_written(kitchen):
    position = kitchen.log.position()
    for answers in (Answers(), Answers(yes=True)):
        kitchen.ask(Entry("eaten", {"ate": [line("900 lb", "plum")]}, on="2026-08-10"), answers)
    assert kitchen.log.position() == position


def test_no_refuses(kitchen):
    entry = Entry("eaten", {"ate": [line("900 lb", "plum")]}, on="2026-08-10")
    with pytest.raises(NeedsAnswer, match="the book has 60 lb left"):
        kitchen.ask(entry, Answers(ask=lambda doubt: False))


def test_an_entry_that_was_written_before_raises_nothing(kitchen):
    entry = Entry("eaten", {"ate": [line("80 lb", "plum")]}, on="2026-08-10")
    entry.id = "01890000-0000-7000-8000-000000000001"
    kitchen.enter(entry, Answers())
    doubts = []
    kitchen.ask(entry, Answers(ask=lambda doubt: bool(doubts.append(doubt)) or True))
    assert doubts == []


BEANS = {"sort": "food", "food": "Beans, snap, green, raw", "measure": "mass"}
CANNED = {
    "makes": "green bean",
    "used": [line("14 lb", "green bean")],
    "made": [{"jar": "quart jar", "jars": 7}],
    "method": "pressure",
    "minutes": 25,
    "psi": "11",
    "gauge": "dial",
    "pack": "raw",
    "headspace": "1 in",
    "altitude": "900 ft",
}


@pytest.fixture
def jars(book, yes):
    book.write("item_described", {"item": "green bean", **BEANS}, answers=yes)
    picked = {"lines": [line("14 lb", "green bean")]}
    book.write("harvested", picked, on="2026-08-01", answers=yes)
    book.write("put_up", CANNED, on="2026-08-01", answers=yes)
    return book


def test_beans_by_weight_that_would_come_out_of_their_jars_are_asked_about(jars, yes):
    jars.write("harvested", {"lines": [line("9 lb", "green bean")]}, on="2026-08-09", answers=yes)
    frozen = {"makes": "green bean", "made": [{"amount": "3 lb"}], "method": "freeze"}
    used = [line("5 lb", "green bean")]
    ((code, question, offered),) = asked(jars, "put_up", **frozen, used=used)
    assert code == "out-of-jars"
    assert question.startswith(
        "5 lb of green bean would come out of jars put up on 1 Aug 2026 (pressure)"
    )
    assert "from lot" in question
    assert offered == "it was those jars"


@pytest.mark.parametrize("gone_on", ["2026-08-15", "2026-08-20", "2026-08-25", None])
def test_a_count_is_tried_only_where_jars_were_there_on_its_day(jars, yes, monkeypatch, gone_on):
    """What was opened the same day may have been there when it was counted."""
    if gone_on:
        jars.write("eaten", {"ate": [line("7 quart jars", "green bean")]}, on=gone_on, answers=yes)
    tried, doubts = [], []
    once = jars.trial
    monkeypatch.setattr(jars, "trial", lambda *given: tried.append(1) or once(*given))
    body = {"lines": [line("2 lb", "green bean")]}
    heard = Answers(ask=lambda doubt: bool(doubts.append(doubt.code)) or True)
    jars.write("counted", body, on="2026-08-20", answers=heard)
    assert len(tried) == (gone_on != "2026-08-15")
    assert ("out-of-jars" in doubts) == (gone_on in ("2026-08-25", None))
    tried.clear()
    jars.write("counted", body, on="2026-07-20", answers=heard)
    assert tried == []  # they came later


def test_jars_and_a_named_lot_are_no_question(jars):
    assert asked(jars, "eaten", ate=[line("1 quart jar", "green bean")]) == []
    lot = jars.show("shelf").records()[0]["lot"]
    assert asked(jars, "eaten", ate=[line("1 lb", "green bean", lot=lot)]) == []
    assert asked(jars, "eaten", ate=[line("1 lb", "plum")]) == []
