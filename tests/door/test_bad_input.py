"""Bad input: one clear message that names the field, and a book left byte for byte as it was."""

from __future__ import annotations

import hashlib
import json

import pytest

from ledger import Answers, Book
from ledger.door import Texts
from ledger.errors import InputError, LedgerError, NeedsAnswer, NewerEvent, UnknownKind

PLUM = {"item": "plum", "amount": "31 lb"}
JARS = [{"jars": 11, "jar": "half-pint jar"}]


@pytest.fixture
def stocked(book, fixed_day):
    book.write("harvested", PLUM, on="2026-09-02")
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "7.90"}, on="2026-09-02")
    return book


def digest(book):
    rows = [row for chunk in book.log.read() for row in chunk]
    return hashlib.sha256(repr(rows).encode()).hexdigest()


def refused(book, kind, body, **more):
    """Write what is refused; return the error, after looking that nothing was written."""
    before = digest(book)
    with pytest.raises(LedgerError) as caught:
        book.write(kind, body, **{"on": "2026-09-03", **more})
    assert digest(book) == before
    assert str(caught.value)
    return caught.value


@pytest.mark.parametrize(
    ("kind", "body", "field"),
    [
        ("harvested", {"item": "plum", "amount": "3 smidgen"}, "amount"),
        ("harvested", {"item": "plum", "amount": "-3 lb"}, "amount"),
        ("harvested", {"item": "plum", "amount": "0 lb"}, "amount"),
        ("harvested", {"item": "plum", "amount": "3 lb and 2 heads"}, "amount"),
        ("harvested", {"item": "plum", "amount": 3}, "amount"),
        ("harvested", {"item": "plum"}, "amount"),
        ("harvested", {"item": "plum", "amount": "3 lb", "colour": "blue"}, "colour"),
        ("harvested", {"item": "plum", "amount": "3 lb", "lines": [PLUM]}, "item"),
        ("harvested", {"item": "plum", "amount": "3 lb", "trimmed": "4 lb"}, "trimmed"),
        ("harvested", {"lines": []}, "lines"),
        ("bought", {"item": "sugar", "amount": "3 lb", "paid": "cheap"}, "paid"),
        ("bought", {"item": "sugar", "amount": "3 lb", "paid": "-1"}, "paid"),
        ("bought", {"item": "sugar", "amount": "3 lb", "paid": "1.234567"}, "paid"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": []}, "made"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": [{"kept": "shelf"}]}, "made[0]"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": [{"jars": 0, "jar": "pint jar"}]}, "made[0].jars"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": [{"jars": 2, "jar": "pint jar", "unsealed": 3}]}, "made[0].unsealed"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": [{"jars": 2}]}, "made[0].jar"),
        ("put_up", {"makes": "jam", "method": "boiling water", "used": [PLUM], "made": [{"jars": 2, "jar": "crock"}]}, "made[0].jar"),
        ("put_up", {"makes": "jam", "method": "microwave", "used": [PLUM], "made": JARS}, "method"),
        ("eaten", {"ate": [PLUM], "guests": 2}, "guests"),
        ("eaten", {"ate": [PLUM], "people": 2, "guests": 3}, "guests"),
        ("eaten", {"ate": [PLUM], "left": [{"item": "cake", "amount": "1 lb", "share": "0.7"}, {"item": "pie", "amount": "1 lb", "share": "0.6"}]}, "left"),
        ("eaten", {"ate": [PLUM], "left": [{"item": "cake", "amount": "1 lb"}]}, "left[0].share"),
        ("discarded", {**PLUM, "why": "dropped"}, "why"),
        ("setting_changed", {"name": "altitude", "value": "high"}, "altitude"),
        ("setting_changed", {"name": "colour", "value": "blue"}, "name"),
        ("setting_changed", {"name": "time_zone", "value": "Mars/Base"}, "time_zone"),
        ("item_described", {"item": "garlic", "sort": "food", "food": "99999"}, "food"),
        ("item_described", {"item": "garlic", "sort": "food", "keeps": {"fridge": "a while"}}, "keeps.fridge"),
        ("item_described", {"item": "crock", "sort": "jar", "holds": "3 lb"}, "holds"),
        ("target_set", {"item": "plum", "skill": "grafting"}, "item"),
        ("target_set", {"skill": "grafting"}, "times"),
        ("price_seen", {"item": "plum", "amount": "1 lb"}, "price"),
    ],
)  # fmt: skip
def test_field_is_named(stocked, kind, body, field):
    error = refused(stocked, kind, body)
    assert isinstance(error, InputError)
    assert error.field == field
    assert error.wanted or error.problem


@pytest.mark.parametrize("on", ["1899-12-31", "2026-02-30", "tomorrowish", "2026-9-2"])
def test_impossible_day_is_refused(stocked, on):
    assert refused(stocked, "harvested", PLUM, on=on).field == "on"


@pytest.mark.parametrize(
    ("kind", "body", "on", "code"),
    [
        ("harvested", PLUM, "2026-11-03", "future"),
        ("harvested", {"item": "plum", "amount": "11 t"}, "2026-09-03", "absurd"),
        ("harvested", {"item": "plumm", "amount": "1 lb"}, "2026-09-03", "near-miss"),
        ("eaten", {"ate": [{**PLUM, "lot": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11:1"}]}, "2026-09-03", "lot"),
        ("eaten", {"ate": [{**PLUM, "lot": "no such label"}]}, "2026-09-03", "lot"),
        ("put_up", {"makes": "plum leather", "method": "dry", "used": [{"item": "plum", "amount": "2 lb"}], "made": [{"amount": "3 lb"}]}, "2026-09-03", "mass-balance"),
        ("put_up", {"makes": "jam", "method": "cook", "used": [PLUM], "made": [{"amount": "11 1/2 pint jars"}]}, "2026-09-03", "jar-fraction"),
    ],
)  # fmt: skip
def test_doubt_is_asked_and_taken_with_yes(stocked, yes, kind, body, on, code):
    error = refused(stocked, kind, body, on=on)
    assert isinstance(error, NeedsAnswer)
    assert error.code == code
    assert stocked.write(kind, body, on=on, answers=yes).is_new


def test_near_miss_takes_the_known_item(stocked, yes):
    written = stocked.write(
        "harvested", {"item": "plumm", "amount": "1 lb"}, on="2026-09-03", answers=yes
    )
    assert written.body["lines"][0]["item"] == "plum"


def test_no_to_a_near_miss_makes_a_new_item(stocked):
    answers = Answers(ask=lambda doubt: doubt.code != "near-miss")
    written = stocked.write(
        "harvested", {"item": "plumb", "amount": "1 lb"}, on="2026-09-03", answers=answers
    )
    assert written.body["lines"][0]["item"] == "plumb"


def test_lot_of_another_item_is_asked_about(stocked):
    lot = stocked.show("shelf").frame.set_index("item").loc["sugar", "lot"]
    assert refused(stocked, "eaten", {"ate": [{**PLUM, "lot": lot}]}).code == "lot"


def test_count_below_what_named_lots_prove_is_asked_about(stocked):
    lot = stocked.show("shelf").frame.set_index("item").loc["plum", "lot"]
    stocked.write(
        "eaten", {"ate": [{"item": "plum", "amount": "20 lb", "lot": lot}]}, on="2026-09-10"
    )
    error = refused(stocked, "counted", {"item": "plum", "amount": "5 lb"}, on="2026-09-05")
    assert error.code == "count-contradicted"


def test_strikes_and_corrections_have_their_rules(stocked):
    plum = stocked.history(kind="harvested")[0].id
    sugar = stocked.history(kind="bought")[0].id
    assert refused(stocked, "harvested", PLUM, replaces=sugar).field == "replaces"
    assert (
        refused(stocked, "harvested", PLUM, replaces="5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11").field
        == "replaces"
    )
    assert (
        refused(stocked, "struck", {"id": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", "why": "x"}).field
        == "id"
    )
    stocked.strike(plum, "written twice")
    assert "taken back already" in str(refused(stocked, "struck", {"id": plum, "why": "again"}))
    strike = stocked.history(kind="struck")[0].id
    assert refused(stocked, "struck", {"id": strike, "why": "x"}).field == "id"
    assert refused(stocked, "harvested", PLUM, replaces=strike).field == "replaces"
    stocked.write("harvested", PLUM, on="2026-09-02", replaces=plum)
    assert "plum" in stocked.show("shelf").frame["item"].tolist()


def test_same_id_same_content_changes_nothing_and_other_is_refused(stocked):
    id_ = "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"
    assert stocked.write("harvested", PLUM, on="2026-09-03", id=id_).is_new
    before = digest(stocked)
    assert not stocked.write(
        "harvested", {"item": "Plums", "amount": "31 lb"}, on="2026-09-03", id=id_
    ).is_new
    assert digest(stocked) == before
    assert refused(stocked, "harvested", {"item": "plum", "amount": "30 lb"}, id=id_).field == "id"


def test_unknown_kind_and_newer_body_are_refused_by_name(stocked, tmp_path):
    with pytest.raises(UnknownKind, match="sown"):
        stocked.write("sown", {})
    line = {"kind": "harvested", "v": 9, "on": "2026-09-03", "body": PLUM}
    path = tmp_path / "newer.jsonl"
    path.write_text(json.dumps(line))
    done = stocked.import_file(path)
    assert done.written == 0
    assert "version 9" in done.bad[0].problem
    assert str(NewerEvent("harvested", 9, 1, 4)).startswith("event 4: harvested has body version 9")


GOOD = json.dumps(
    {"kind": "harvested", "on": "2026-09-03", "body": {"item": "plum", "amount": "1 lb"}}
)
UUID_A = "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"


def with_id(amount):
    return json.dumps(
        {
            "kind": "harvested",
            "on": "2026-09-03",
            "id": UUID_A,
            "body": {"item": "plum", "amount": amount},
        }
    )


@pytest.mark.parametrize(
    ("content", "line", "says"),
    [
        (b"\xff\xfe{", 1, "UTF-8"),
        (GOOD.encode() + b'\n{"kind": "harv', 2, "not whole JSON"),
        (GOOD.encode() + b"\n[1, 2]\n", 2, "not an event"),
        (GOOD.replace("1 lb", "1 lb\\u0000").encode(), 1, "amount"),
        (GOOD.replace("plum", "pl\x00um").encode(), 1, "NUL"),
        (GOOD.replace('"plum"', '"\\ud800"').encode(), 1, "surrogate"),
        (b"x" * 10_000_000 + b"\n" + GOOD.encode(), 1, "million bytes"),
        (f"{with_id('1 lb')}\n{with_id('2 lb')}".encode(), 2, "other content"),
        (GOOD.replace('"on"', '"day"').encode(), 1, "day"),
        (GOOD.replace("harvested", "reaped").encode(), 1, "reaped"),
        (GOOD.replace("2026-09-03", "2026-13-03").encode(), 1, "on"),
        (GOOD.replace('"kind"', '"id": "7", "kind"').encode(), 1, "UUID"),
    ],
)
def test_broken_line_is_reported_by_number_and_nothing_is_written(
    stocked, tmp_path, content, line, says
):
    path = tmp_path / "broken.jsonl"
    path.write_bytes(content)
    before = digest(stocked)
    done = stocked.import_file(path)
    assert digest(stocked) == before
    assert done.bad[0].number == line
    assert says in done.bad[0].problem


def test_good_lines_are_kept_when_asked(stocked, tmp_path):
    path = tmp_path / "half.jsonl"
    path.write_text(f"{GOOD}\n{{\n")
    done = stocked.import_file(path, keep_good=True)
    assert (done.written, done.bad_count, done.is_kept) == (1, 1, True)


def test_dry_run_shows_and_writes_nothing(stocked, tmp_path):
    path = tmp_path / "good.jsonl"
    path.write_text(GOOD)
    before = digest(stocked)
    done = stocked.import_file(path, dry_run=True)
    assert (done.written, done.preview) == (1, ["2026-09-03 picked 1 lb plum"])
    assert digest(stocked) == before


def test_import_takes_and_reports_a_lot_that_is_not_there(stocked, tmp_path):
    path = tmp_path / "lots.jsonl"
    body = {"ate": [{"item": "plum", "amount": "1 lb", "lot": f"{UUID_A}:1"}]}
    path.write_text(json.dumps({"kind": "eaten", "on": "2026-09-04", "body": body}))
    done = stocked.import_file(path)
    assert done.written == 1
    assert "no such lot" in done.notes[0]


def test_missing_file_is_named(stocked):
    with pytest.raises(InputError, match="no file"):
        stocked.import_file("nowhere.jsonl")


def test_empty_book_answers_every_question(tmp_path):
    with Book.open(tmp_path / "new.sqlite") as book:
        assert book.show("jar-cost").frame.empty
        assert book.show("shelf").frame.empty
        assert book.check().is_whole


@pytest.mark.parametrize(
    ("text", "word"),
    [("3 furlong plum", "furlong"), ("3 smidgen plums", "smidgen"), ("2 lbz tomato", "lbz")],
)
def test_word_after_a_number_that_is_no_unit_is_asked_about(stocked, yes, text, word):
    with pytest.raises(NeedsAnswer, match=f"{word}.* is not a unit that is known") as caught:
        Texts(stocked.catalogue()).line(text)
    assert (caught.value.code, caught.value.field) == ("unit", "line")
    assert Texts(stocked.catalogue(), yes).line(text)["item"].startswith(word)


def test_nearest_unit_is_offered(stocked):
    with pytest.raises(NeedsAnswer, match="did you mean 'lb'"):
        Texts(stocked.catalogue()).line("2 lbz tomato")


@pytest.mark.parametrize(
    "text", ["3 green tomato", "2 large egg", "12 quart jar", "24 lids", "3 dozen egg", "6 gizmo"]
)
def test_plain_names_after_a_number_are_items(stocked, text):
    assert Texts(stocked.catalogue()).line(text)["item"]
