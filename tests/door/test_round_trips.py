"""What is exported comes back: the same bytes, the same content, the same answers."""

from __future__ import annotations

import contextlib
import itertools
import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from strategies import books
from strategies.catalog import NICKNAMES

from ledger import Answers, Book
from ledger.kinds import to_stored
from ledger.log import chained, read_heads

MERGED = set(NICKNAMES.values())
"""A second name of an item, which is stored as the first one once the two are merged."""

LINE = {"kind": "harvested", "on": "2026-09-02", "body": {"item": "plum", "amount": "2 lb"}}


CHAINED = ("seq", "id", "kind", "v", "on", "at", "recorded_at", "typed_at", "by", "replaces")
FORGED = "hash: does not follow"


def export(book, name="export.jsonl"):
    path = Path(book.log.path).with_name(name)
    book.export_file(path)
    return path


def stored(book):
    return [row[1:6] + row[8:11] for chunk in book.log.read() for row in chunk]


def events(lines):
    return ((n, 0, {k: v for k, v in e.items() if v is not None and k != "seq"}) for n, e in lines)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(books(max_size=30))
def test_random_book_survives_every_way_through_a_file(random):
    """Typed in from stored lines, exported, imported verbatim, and into a book that has some."""
    with tempfile.TemporaryDirectory() as folder:
        first = Book.open(Path(folder) / "first.sqlite")
        done = first.import_events(events(enumerate(random, 1)), answers=Answers(yes=True))
        assert done.bad == []
        assert done.known == 0
        for event in random:  # bodies stay as they were, but for what the door fills in
            kept = json.loads(first.log.get(event["id"]).body)
            plain = {k: v for k, v in event["body"].items() if not isinstance(v, list)}
            plain = {k: v for k, v in plain.items() if k != "item" or v not in MERGED}
            assert plain.items() <= kept.items()
            for name in ("lines", "used", "made", "ate", "left"):
                for line, own in zip(event["body"].get(name, ()), kept.get(name, ()), strict=True):
                    plain_line = {k: v for k, v in line.items() if k != "item" or v not in MERGED}
                    assert plain_line.items() <= own.items()
        path = export(first, "first.jsonl")
        second = Book.open(Path(folder) / "second.sqlite")
        assert second.import_file(path).bad == []
        assert export(second, "second.jsonl").read_bytes() == path.read_bytes()
        assert second.log.head() == first.log.head()
        third = Book.open(Path(folder) / "third.sqlite")
        third.write("practised", {"skill": "grafting", "people": ["Ada"]}, on="2023-01-01")
        assert third.import_file(path, answers=Answers(yes=True)).bad == []
        assert stored(third)[1:] == stored(first)
        again = first.import_file(path)
        assert (again.written, again.bad, again.known) == (0, [], first.log.position())
        for book in (first, second, third):
            assert book.check().is_whole
            book.close()


def test_head_is_kept_beside_an_export(book, fixed_day):
    book.write("harvested", LINE["body"], on="2026-09-02")
    path = export(book)
    assert read_heads(path)["home"] == book.log.head()
    assert book.check(head=path).chain.whole
    assert sorted(p.name for p in path.parent.glob("*export*")) == [
        "export.jsonl",
        "export.jsonl.head",
    ]


def test_export_that_fails_leaves_what_was_there(book, fixed_day, tmp_path):
    book.write("harvested", LINE["body"], on="2026-09-02")
    (tmp_path / "folder").mkdir()
    from ledger import InputError

    with pytest.raises(InputError, match="cannot be written"):
        book.export_file(tmp_path / "folder")
    assert not list(tmp_path.glob(".*part"))


@pytest.fixture
def exported(book, fixed_day, tmp_path):
    book.write("harvested", LINE["body"], on="2026-09-02")
    book.write("bought", {"item": "sugar", "amount": "1 lb", "paid": 1}, on="2026-09-02")
    return [json.loads(line) for line in export(book).read_text().splitlines()]


def take(tmp_path, lines, **more):
    path = tmp_path / "changed.jsonl"
    path.write_text("".join(json.dumps(line) + "\n" for line in lines))
    with Book.open(tmp_path / "other.sqlite") as other:
        done = other.import_file(path, **more)
        return done, other.log.position()


def chain_anew(lines):
    """Give each line the hash that follows; what cannot be hashed keeps its own."""
    with contextlib.suppress(TypeError):
        for before, line in itertools.pairwise(lines):
            fields = [line.get(name) for name in CHAINED]
            line["hash"] = chained(before["hash"], [*fields, to_stored(line["body"])])


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"on": "2026-09-03"}, FORGED),
        ({"body": {"item": 3}}, FORGED),
        ({"seq": 7}, "event 2 is missing"),
        ({"seq": "two"}, "no line of an export"),
        ({"recorded_at": None}, "no line of an export"),
        ({"on": "2026-02-30"}, "not a day"),
        ({"v": 9}, "version 9"),
        ({"body": {"lines": [{"item": "plum", "amount": "2 lb"}]}}, "lacks its number"),
        ({"body": {"item": 3}}, "item"),
    ],
)
def test_changed_export_is_refused_whole(exported, tmp_path, change, says):
    exported[1] |= change
    if says != FORGED:  # the chain is written anew, so that only the content is left to refuse
        chain_anew(exported)
    done, written = take(tmp_path, exported)
    assert done.bad[0].number == 2
    assert says in done.bad[0].problem
    assert written == 0


def test_whole_export_recorded_in_time_to_come_is_kept_and_told_of(exported, tmp_path):
    for line in exported[1:]:
        line["recorded_at"] = "2027-06-01T00:00:00.000000Z"
    chain_anew(exported)
    done, written = take(tmp_path, exported)
    assert (done.bad, written) == ([], len(exported))
    assert sum("is still to come and is kept" in str(note) for note in done.notes) == written - 1


def test_export_with_its_head_cut_off_is_refused(exported, tmp_path):
    done, written = take(tmp_path, exported[1:])
    assert "the lines before it are missing" in done.bad[0].problem
    assert written == 0


def test_typed_lines_may_follow_an_export(exported, tmp_path):
    done, written = take(tmp_path, [*exported, LINE])
    assert (done.bad, written) == ([], len(exported) + 1)


def test_typed_import_keeps_moments_only_in_an_empty_book(tmp_path, fixed_day):
    moment = "2026-09-02T18:00:00.000000Z"
    done, _ = take(tmp_path, [{**LINE, "recorded_at": moment}])
    assert done.bad == []
    with Book.open(tmp_path / "other.sqlite") as other:
        assert {row.recorded_at for row in other.history()} == {moment}
    later = {**LINE, "recorded_at": "2026-09-01T18:00:00.000000Z"}
    take(tmp_path, [later])
    with Book.open(tmp_path / "other.sqlite") as other:
        assert other.history()[0].recorded_at.startswith("2026-11-01T12")


def test_moments_that_go_back_are_refused(tmp_path, fixed_day):
    moments = ("2026-09-02T18:00:00Z", "2026-09-02T17:00:00Z")
    done, written = take(tmp_path, [{**LINE, "recorded_at": m} for m in moments])
    assert "Sort the file" in done.bad[0].problem
    assert written == 0


def test_same_file_twice_changes_nothing(book, fixed_day, tmp_path, yes):
    path = tmp_path / "typed.jsonl"
    body = {"makes": "jam", "method": "cook", "used": [{"item": "plums", "amount": "3 lb"}],
            "made": [{"amount": "11 1/2 pint jars"}], "acid": {"acid": "lemon juice", "amount": "1 tbsp"}}  # fmt: skip
    meal = {
        "ate": [{"item": "plumm", "amount": "1 lb"}],
        "left": {"item": "pie", "amount": "1 lb", "share": 0.5},
    }
    lines = [
        {**LINE, "id": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"},
        {"kind": "put_up", "on": "2026-09-02", "id": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c12", "body": body},
        {"kind": "eaten", "on": "2026-09-02", "id": "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c13", "body": meal},
    ]  # fmt: skip
    path.write_text("\n".join(map(json.dumps, lines)))
    first = book.import_file(path, answers=yes)
    head = book.log.head()
    again = book.import_file(path, answers=Answers(yes=True))
    assert (first.written, first.bad) == (3, [])
    assert (again.written, again.known, again.bad) == (0, 3, [])
    assert book.log.head() == head


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ({"bed": "orchard"}, {}),
        ({}, {"bed": "orchard"}),
        ({"kept": "cellar"}, {}),
        ({"trimmed": "1 lb"}, {}),
    ],
)
def test_field_said_once_and_not_again_is_other_content(book, fixed_day, first, second):
    from ledger import InputError

    id_ = "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"
    book.write("harvested", {**LINE["body"], **first}, on="2026-09-02", id=id_)
    with pytest.raises(InputError, match="other content"):
        book.write("harvested", {**LINE["body"], **second}, on="2026-09-02", id=id_)
