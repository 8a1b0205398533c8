"""What happened? The box reads, asks, writes all or nothing, and takes back what it wrote."""

from __future__ import annotations

import uuid

import pytest
from page_tools import text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.happened import button_shown, dangers_of, reading_shown
from dashboard.forms.happening import reading_of, write_said
from dashboard.forms.writing import key_of
from ledger import Answers
from ledger.errors import InputError, NeedsAnswer
from ledger.saying.asking import Reading

YES = Answers(yes=True)


@pytest.fixture
def data(book, fixed_day):
    book.write("harvested", item="plum", amount="30 lb", on="2026-10-10")
    book.write("harvested", item="green bean", amount="30 lb", on="2026-10-10")
    return Data(book)


def shown(data, text, settling=()):
    return reading_shown(ask_of(data, "/write"), reading_of(data, text, settling))


def chips(parts):
    return [
        one.id["chip"].split("\x1f")
        for part in parts
        for one in walk(part)
        if getattr(one, "className", "") and "chip" in one.className.split()
    ]


def settled(chip):
    code, about, n, said = chip
    return [code, about, int(n), said]


def entries(book, kind):
    return [row for row in book.history() if row.kind == kind and row.state == "holds"]


def test_what_is_plain_is_read_and_written_at_once(data, book):
    parts = shown(data, "picked 3 lb plums yesterday")
    assert "Picked 3 lb plum" in text_of(parts[0])
    assert chips(parts) == []
    done = write_said(data, "picked 3 lb plums yesterday", [], str(uuid.uuid4()))
    assert [one.event.on for one in done] == ["2026-10-31"]


def test_a_number_below_zero_is_refused(data, book):
    before = book.log.position()
    with pytest.raises(InputError, match="below zero"):
        write_said(data, "picked -3 lb plums", [], str(uuid.uuid4()))
    assert book.log.position() == before


def test_a_question_is_answered_by_a_chip(data):
    text = "canned 7 quarts of tomato sauce from 35 lb tomatoes"
    asked = write_said(data, text, [], str(uuid.uuid4()))
    assert isinstance(asked, Reading)
    settling = []
    for _ in range(6):
        offered = [
            one
            for one in chips(shown(data, text, settling))
            if one[3] in ("pressure", "new:tomato sauce", "new:tomato")
        ]
        if not offered:
            break
        settling.append(settled(offered[0]))
    done = write_said(data, text, settling, str(uuid.uuid4()))
    assert not isinstance(done, (Reading, NeedsAnswer)), done
    assert [one.body["method"] for one in done if one.event.kind == "put_up"] == ["pressure"]


def test_words_that_found_no_place_are_named_and_nothing_is_written(data, book):
    before = book.log.position()
    text = "picked 7 lb plums / 3 lb -"
    reading = write_said(data, text, [], str(uuid.uuid4()))
    assert isinstance(reading, Reading)
    assert book.log.position() == before
    parts = shown(data, text)
    assert any("3 lb -" in text_of(part) for part in parts)
    left = next(one for one in chips(parts) if one[3] == "out")
    done = write_said(data, text, [settled(left)], str(uuid.uuid4()))
    assert len(done) == 1


def test_two_taps_write_once(data, book):
    id = str(uuid.uuid4())
    for _ in range(2):
        write_said(data, "picked 3 lb plums", [], id)
    assert len([row for row in entries(book, "harvested") if "3 lb plum" in row.line]) == 1


def test_danger_is_asked_before_it_is_written(data, book):
    text = "canned 7 quarts of green beans in boiling water from 14 lb green beans, 60 minutes"
    settling, doubt = [], None
    for _ in range(8):
        done = write_said(data, text, settling, str(uuid.uuid4()))
        if isinstance(done, NeedsAnswer):
            doubt = done
            break
        assert isinstance(done, Reading)
        settling.append(settled(chips(shown(data, text, settling))[0]))
    assert doubt is not None
    assert doubt.code == "low-acid"
    assert entries(book, "put_up") == []


def button(data, text):
    ask, reading = ask_of(data, "/write"), reading_of(data, text, [])
    return button_shown(ask, reading, dangers_of(ask, reading))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "Write it down"),
        ("picked 3 lb plums", "Write 1 thing down"),
        ("picked 3 lb plums; ate 2 lb plums", "Write 2 things down"),
        ("put up 7 quarts green beans, water bath 40 min", "Write it down, marked Do not eat"),
        ("picked 3 lb plums; put up 7 quarts green beans, water bath 40 min",
         "Write 2 things down, jars marked Do not eat"),
    ],
)  # fmt: skip
def test_the_button_counts_what_it_writes(data, text, says):
    assert text_of(button(data, text)) == says


def test_a_meal_of_what_is_not_there_is_asked_about_and_written_with_the_answer(data):
    id, text = str(uuid.uuid4()), "ate 45 lb plums"
    settling = [[*q.key, q.options[0]] for q in reading_of(data, text, []).questions if not q.waits]
    doubt = write_said(data, text, settling, id)
    assert isinstance(doubt, NeedsAnswer)
    assert doubt.code == "not-there"
    from dashboard.forms.writing import key_of

    done = write_said(data, text, [*settling, ["door", "", 0, key_of(doubt)]], id)
    assert [one.event.kind for one in done] == ["eaten"]


def test_a_jar_opened_and_thrown_out_shows_the_cautions(data):
    from dashboard.forms.happened import written_shown

    body = {"makes": "canned plum", "method": "boiling water", "minutes": "25", "pack": "hot",
            "used": [{"item": "plum", "amount": "10 lb"}],
            "made": [{"jars": 5, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    data.book.write("put_up", body, on="2026-10-10", answers=YES)
    text = "opened a quart of canned plums, mould on it, threw it out"
    done = write_said(data, text, [], str(uuid.uuid4()))
    assert [one.event.kind for one in done] == ["discarded"]
    shown_ = text_of(written_shown(ask_of(data, "/write"), done))
    assert "Do not taste food" in shown_
    assert "call emergency services" in shown_


@pytest.mark.parametrize(
    ("text", "stands", "mark"),
    [
        ("put up 9 pints apple sauce from 20 lb apples, boiling water 5 minutes, hot pack",
         "short of it", "do not eat before it is settled"),
        ("put up 5 quarts chicken soup from 10 lb chicken, 4 lb carrots and 1 lb dry pasta, "
         "pressure canner 11 psi 90 minutes", "no published process", "do not taste, discard"),
    ],
)  # fmt: skip
def test_a_batch_that_falls_short_says_so_first_once_it_is_written(data, text, stands, mark):
    from dashboard.forms.happened import written_shown

    settling = [[*q.key, q.options[0]] for q in reading_of(data, text, []).questions if not q.waits]
    done = write_said(data, text, settling, str(uuid.uuid4()))
    if isinstance(
        done, NeedsAnswer
    ):  # asked before it is written, where nothing published is like it
        assert done.code == "low-acid"
        settling.append(["door", "", 0, key_of(done)])
        done = write_said(data, text, settling, str(uuid.uuid4()))
    shown_ = text_of(written_shown(ask_of(data, "/write"), done))
    assert f"These jars are marked: {stands}" in shown_
    assert shown_.index(mark) < shown_.index("put up ")
    assert f"Beside the published schedule: {stands}" in shown_
