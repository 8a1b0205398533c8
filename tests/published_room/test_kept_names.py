"""What the names of published products say is kept in a file, which is believed only if it is right."""

from __future__ import annotations

import pytest

from ledger import cache
from ledger.published import finding


@pytest.fixture
def place(monkeypatch, tmp_path):
    """Keep what is kept in a folder of the test's own; return the file."""
    monkeypatch.setattr(cache, "folder", lambda name: tmp_path / name)
    finding._by_foods.cache_clear()
    yield tmp_path / "tables" / "products-by-foods"
    finding._by_foods.cache_clear()


def again():
    finding._by_foods.cache_clear()
    return finding._by_foods()


def test_what_is_kept_is_what_is_read(place, monkeypatch):
    read = again()
    assert len(read) > 200
    monkeypatch.setattr(finding, "_read_by_foods", pytest.fail)  # the file alone is asked
    assert place.is_file()
    assert again() == read


@pytest.mark.parametrize("at", [0, 31, 32, -1])
def test_a_file_with_one_wrong_byte_is_not_believed(place, at):
    read = again()
    raw = bytearray(place.read_bytes())
    raw[at] ^= 1
    place.write_bytes(raw)
    assert again() == read
    assert bytes(raw) != place.read_bytes()  # and is written anew


@pytest.mark.parametrize("size", [0, 10, 32, 500])
def test_a_file_that_was_cut_off_is_not_believed(place, size):
    read = again()
    place.write_bytes(place.read_bytes()[:size])
    assert again() == read


def test_a_file_of_another_program_is_not_believed(place, monkeypatch):
    read, asked = again(), []
    monkeypatch.setattr(cache, "made_by", lambda: "another")

    def anew():
        asked.append(True)
        return [(["plum"], [], [], ["plums"])]

    monkeypatch.setattr(finding, "_read_by_foods", anew)
    assert again() == {(frozenset({"plum"}), frozenset(), frozenset()): ("plums",)} != read
    assert asked


def test_no_folder_to_write_into_is_no_fault(place, monkeypatch, tmp_path):
    (tmp_path / "tables").write_text("a file where the folder should be")
    assert len(again()) > 200
