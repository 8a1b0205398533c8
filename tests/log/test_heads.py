"""Heads kept beside a file: written whole, read back, refused when they are something else."""

from __future__ import annotations

import json

import pytest

from ledger.errors import BookReadOnly, InputError
from ledger.log import Head, backup, head_file, keep_heads, read_heads, verify


def test_heads_are_read_back(path):
    heads = {"home": Head(3, "abc"), "Großmutter's": Head(0, "")}
    where = keep_heads(path, heads)
    assert where == head_file(path)
    assert read_heads(path) == read_heads(where) == heads
    assert set(json.loads(where.read_text("utf-8"))["home"]) == {"seq", "hash", "at"}
    assert [one.name for one in path.parent.iterdir()] == [where.name]


def test_other_households_heads_stay(path):
    keep_heads(path, {"home": Head(3, "abc")})
    keep_heads(path, {"other": Head(1, "d")})
    keep_heads(path, {"home": Head(4, "e")})
    assert read_heads(path) == {"home": Head(4, "e"), "other": Head(1, "d")}


@pytest.mark.parametrize("content", ["", "[]", '{"home": 3}', '{"home": {"seq": "x"}}', "\x00"])
def test_file_of_something_else_holds_no_heads(path, content):
    head_file(path).write_text(content)
    with pytest.raises(InputError, match="no heads"):
        read_heads(path)


def test_missing_file_is_said_so(path):
    with pytest.raises(InputError, match="no file"):
        read_heads(path)


def test_heads_in_no_folder_are_refused(tmp_path):
    with pytest.raises(BookReadOnly):
        keep_heads(tmp_path / "nowhere" / "x", {})


def test_check_uses_the_head_beside_the_book(tmp_path, path, log, event):
    with log.writing() as tx:
        tx.append_many([event(), event()])
    backup(log, tmp_path / "copy.db")
    assert verify(log).tail == "whole as far as the kept head tells"
    keep_heads(path, {"home": Head(9, "abc")})
    assert verify(log).tail == "cut off after 2"


@pytest.mark.parametrize("target", ["book.db", "."])
def test_backup_onto_the_book_or_a_folder_is_refused(path, log, event, target):
    with log.writing() as tx:
        tx.append(event())
    with pytest.raises(InputError, match=r"itself|folder"):
        backup(log, path.parent / target, force=True)
    assert log.count() == 1
