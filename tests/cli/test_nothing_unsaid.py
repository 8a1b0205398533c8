"""Whatever the command prints is a text of a catalogue, or what the household wrote down.

Literal texts of the German catalogue get other vowels, and what somebody wrote is set between marks
where a message says it: what is left in plain letters is neither, and would be English for everyone.
"""

from __future__ import annotations

import json
import re
import sys
from collections import defaultdict
from pathlib import Path

import click
import pytest
from rich.console import Console

from ledger import Book
from ledger.cli import _speech, _tables, _trees, main
from ledger.cli._show import COMMANDS
from ledger.errors import LedgerError
from ledger.messages.catalogue import speaker
from ledger.projections import PROJECTIONS
from ledger.reference.schedules import products

LETTERS = str.maketrans("aeiouAEIOU", "àéîöûÀÉÎÖÛ")
SAID = re.compile(r"‹[^‹›]*›")
AS_TYPED = re.compile(
    r"`[^`]*`|\[[0-9a-f]{8}[^\]]*\]|-> .*|\[àngénömmén: [^\]]*\]|\[véröfféntlîcht: [^\]]*\]"
    r"|--f[oö]r [a-z, ]+|--[\w-]+|^\[\d+\] .*|\b(?:kcal|psi|kPa|EUR|USD|bushel|peck|und|oder|Jan|Feb|Apr|Mai|Juni|Juli|Aug|Sept|Okt|Nov|Dez)\b",
    re.MULTILINE,
)
"""Commands, ids of entries and assumptions, documents; units, currencies; lists and days of Babel."""
OPTIONS = {
    "how-long": [{"without": ["shop"]}, {"without": ["power"]}, {"to_add": True}],
    "mentions": [{"of": "plum"}],
    "touched": [{"item": "tomato sauce"}, {"item": "tomato sauce", "back": True}],
    "shelf": [{}, {"items": True}, {"over_time": "tomato sauce"}],
    "glut": [{"as_of": "2026-08-20"}],
    "as-published": [{}, {"keeping": True}, {"product": "green beans", "method": "pressure"}, {"freezer_off": "30 h"}],
    "stocking-up": [{"budget": "20", "price_rise": "10", "shortage": "8"}],
    "know-how": [{}, {"year_sheet": "2025"}, {"curve": "tomato sauce"}],
    "whole-year": [{}, {"weeks": True}, {"limits": True}],
}  # fmt: skip
"""Ways to ask a question; of others: as it is, and with each of its flags."""
REMARKS = re.compile(r"\b(?:Frozen|Best quality|Dried|Refrigerated|Keeps|Stored)\b.*")
"""Remarks of the published tables, as they are packed beside their documents."""


@pytest.fixture
def marked(monkeypatch):
    """German with other vowels, and marks around what messages were given as text."""
    german = speaker("de")
    monkeypatch.setattr(german, "_literal", lambda text: text.translate(LETTERS))
    monkeypatch.setattr(german.language, "isolated", lambda name: f"‹{name}›" if name else "")
    monkeypatch.setattr(_speech._Speech, "language", "de")
    monkeypatch.setattr(_speech._Speech, "is_chosen", True)
    monkeypatch.setattr(_speech, "begin", lambda _args: None)
    for printing in (_tables, _trees):
        monkeypatch.setattr(
            printing,
            "console_of",
            lambda markup=True: Console(
                file=sys.stdout,
                highlight=False,
                soft_wrap=True,
                markup=markup,
                emoji=False,
                width=4000,
            ),
        )


class Written:
    """What the household wrote down, and names of published products: looked for longest first."""

    def __init__(self, texts):
        self._of = defaultdict(set)
        for text in texts:
            words = re.findall(r"\w+", text.lower())
            if words:
                self._of[words[0]].add(tuple(words))

    def left(self, text):
        """Return the words of a text that stand in nothing that was written."""
        words = [one.lower() for one in re.findall(r"\w+", text)]
        out, at = [], 0
        while at < len(words):
            fits = [one for one in self._of[words[at]] if tuple(words[at : at + len(one)]) == one]
            if fits:
                at += max(map(len, fits))
                continue
            out.append(words[at])
            at += 1
        return {one for one in out if len(one) > 2 and re.fullmatch("[a-z]*[aeiou][a-z]*", one)}


def texts_in(value):
    """Yield every text within what an entry holds."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, (dict, list)):
        for one in value.values() if isinstance(value, dict) else value:
            yield from texts_in(one)


def written_in(book):
    """Return what stands in a book, its amounts left out, and the names of the tables."""
    texts = set(book.catalogue().names())
    for chunk in book.log.read():
        for row in chunk:
            body = next(one for one in row if str(one).startswith("{"))
            texts.update(text for text in texts_in(json.loads(body)) if not text[:1].isdigit())
    return Written({*texts, "green beans", *(product.label for product in products().values())})


def ways_of(name):
    """Return the options with which a question is asked here."""
    flags = [{one.name: True} for one in PROJECTIONS[name].options if one.kind == "flag"]
    return OPTIONS.get(name, [{}, *flags])


def figures_of(answer):
    """Yield the address and column of one figure of each column of an answer."""
    seen = set()
    addresses = answer.cells.get("why", ())
    for row in {0, len(addresses) // 2} if len(addresses) else ():
        for column in answer.columns:
            value = answer.cells[column.name][row]
            is_figure = column.unit and isinstance(value, (int, float)) and addresses[row]
            if is_figure and column.name not in seen:
                seen.add(column.name)
                yield addresses[row], column.name


def test_tables_and_trees_of_every_question_are_said(demo_file, marked, capsys, fixed_day):
    found, opened = defaultdict(set), set()

    def look(where):
        for line in set(capsys.readouterr().out.splitlines()):
            plain = REMARKS.sub(" ", AS_TYPED.sub(" ", SAID.sub(" ", line)))
            for word in written.left(plain):
                found[word].add(f"{where}: {plain.strip()[:120]}")

    with Book.open(demo_file) as book:
        written, measures = written_in(book), book.setting("measures") or "us"
        for name in PROJECTIONS:
            for options in ways_of(name):
                answer = book.show(name, **options)
                _tables.print_answer(answer, notes=True, measures=measures)
                look(f"show {name} {options}")
                for figure in {
                    *figures_of(answer)
                } - opened:  # other options show some of them again
                    address, column = figure
                    opened.add(figure)
                    try:
                        node = book.why(address, column, as_of=options.get("as_of"))
                    except LedgerError:  # a column that does not open
                        continue
                    _trees.print_tree(node, "USD", measures)
                    look(f"why {address} {column}")
    assert {word: sorted(lines)[:2] for word, lines in found.items()} == {}


@pytest.mark.parametrize("name", list(PROJECTIONS))
def test_help_of_every_question_is_said(marked, capsys, name):
    assert main(["show", name, "--help"]) == 0
    out = capsys.readouterr().out
    assert "Öptîönén" in out
    command = COMMANDS["show"].get_command(click.Context(COMMANDS["show"]), name)
    typed = {word for one in command.params for word in re.findall("[a-z]+", " ".join(one.opts))}
    typed |= {
        word for one in PROJECTIONS[name].options
        for text in (str(one.example), *one.choices) for word in re.findall(r"[a-z]+", text.lower())
    } | {"home"}  # fmt: skip
    lines = [one for one in out.splitlines() if "croftbook" not in one]
    left = Written(()).left(AS_TYPED.sub(" ", SAID.sub(" ", "\n".join(lines))))
    assert left - typed == set()


def test_what_was_told_is_echoed_in_the_language(demo_file, marked, capsys, fixed_day):
    lines = (Path(__file__).parents[1] / "saying/said_en.txt").read_text("utf-8").splitlines()
    told = [line.partition(" => ")[0] for line in lines if " => " in line]
    assert main(["say", "--dry-run", "--book", str(demo_file), "\n".join(told)]) == 0
    out = capsys.readouterr().out
    assert len(out.splitlines()) > 500
    left = {
        line: words
        for line in out.splitlines()
        if (words := Written(()).left(AS_TYPED.sub(" ", SAID.sub(" ", line))))
    }
    assert left == {}
