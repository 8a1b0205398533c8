"""The examples of a German help: each is typed as it is shown, into a German book."""

from __future__ import annotations

import re
import shlex
from importlib.resources import files

import pytest

from ledger import Book
from ledger.cli import main
from ledger.kinds import KINDS
from ledger.kinds.describing import fields_of
from ledger.messages import speaker
from ledger.messages.helps import example_of

OF_KINDS = {
    f"example-{kind.command}-{n}": f"croftbook {text}"
    for kind in KINDS.values()
    for n, text in enumerate(kind.typed, 1)
}
SHOWN = [one for one in OF_KINDS if speaker("de").own(one)]
LATER = ("example-settle-1", "example-strike-1")
"""Those of an entry that only their own book has."""
NEEDED = (
    'recipe Pflaumenmus --makes Pflaumenmus --uses "7 kg Pflaumen" --yields "11 Viertellitergläser" '
    "--method Wasserbad",
    'harvest "80 kg Pflaumen" --on 2026-08-02',
    'buy "20 kg Zucker" --paid 20 --on 2026-08-02',
    'putup Pflaumenmus --used "7 kg Pflaumen" --used "1,5 kg Zucker" --made "11 Viertellitergläser" '
    "--method Wasserbad --minutes 10 --on 2026-08-03",
)


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    place = str(tmp_path / "book.sqlite")
    with Book.open(place) as book:
        book.write("setting_changed", name="language", value="de", on="2026-01-01")
        book.write("setting_changed", name="measures", value="metric", on="2026-01-01")

    def call(
        line,
    ):  # for the plum butter of the examples no process is held: it is opened on purpose
        knowingly = ["--knowingly"] if line.split(" ")[0] in ("meal", "give") else []
        status = main([*shlex.split(line), "--yes", *knowingly, "--book", place])
        return status, capsys.readouterr().err

    for line in NEEDED:
        assert call(line)[0] == 0, line
    return call


@pytest.mark.parametrize("id_", [one for one in SHOWN if one not in LATER])
def test_a_german_example_is_taken_by_a_german_book(run, id_):
    line = speaker("de").text(id_).split("      (")[0].removeprefix("croftbook ")
    status, errors = run(line)
    assert status == 0, errors


def test_the_english_ones_are_those_of_the_kinds():
    assert {one: speaker("en").text(one) for one in SHOWN} == {one: OF_KINDS[one] for one in SHOWN}


def test_every_example_of_a_field_is_one_that_a_field_has():
    has = {
        (kind.name, field.name): field.help.partition(", e.g. ")[2]
        for kind in KINDS.values()
        for field in fields_of(kind)
    }
    german = {
        example_of(kind, name, text, "de")
        for (kind, name), text in has.items()
        if example_of(kind, name, text, "de") != text
    }
    text = files("ledger.messages").joinpath("de", "example.ftl").read_text("utf-8")
    assert set(re.findall(r"^example-field-\S+ = (.*)$", text, re.MULTILINE)) == german
