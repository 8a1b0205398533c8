"""A pseudo language: what reaches a person without having gone through a catalogue stays plain, and is found."""

from __future__ import annotations

import pkgutil
import re
from importlib import import_module

import click
import pytest

import ledger.cli
from ledger.cli import _speech, main
from ledger.cli._root import OTHERS, root
from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed, catalogue, texts, units
from ledger.messages.catalogue import HERE, Catalogue, Speaker
from ledger.messages.language import language
from ledger.vocabulary import VOCABULARY

for _one in pkgutil.iter_modules(ledger.cli.__path__):
    import_module(
        f"ledger.cli.{_one.name}"
    )  # what is first read under the pseudo language would keep it

LETTERS = str.maketrans("aeiou", "àéîöû")


def pseudo(text):
    return text.translate(LETTERS)


class Pseudo(Speaker):
    """English with other letters, but for what is typed as it stands."""

    def _literal(self, text):
        return pseudo(text)


@pytest.fixture
def in_pseudo(monkeypatch):
    say = Pseudo(language("en"), Catalogue(HERE / "en"))
    monkeypatch.setattr(catalogue, "speaker", lambda _code: say)
    monkeypatch.setattr(_speech._Speech, "language", "de")
    monkeypatch.setattr(_speech._Speech, "is_chosen", True)
    monkeypatch.setattr(_speech, "begin", lambda _args: None)
    for kept in (texts._kept_sentence, texts.fixed, units.unit, units.amount):
        kept.cache_clear()
    yield say
    for kept in (texts._kept_sentence, texts.fixed, units.unit, units.amount):
        kept.cache_clear()  # what was said here is said nowhere else


TYPED = re.compile(r"--[\w-]+|(?<!\w)-\w\b|croftbook [^\n]*|\b[\w.-]+\.(?:json|html|ics|csv)\b")


def plain(text, typed):
    """Return the words of a text that went through no catalogue."""
    words = re.findall(r"\b[a-z]*[aeiou][a-z]*\b", TYPED.sub(" ", text))
    return {one for one in words if len(one) > 2 and one not in typed}


def typed_words(command):
    """Return what a command names as it is typed: its words, options and their choices."""
    found = {"croftbook", "home", "en", "de"}
    for param in command.params:
        found.update(re.findall(r"[a-z]+", " ".join([param.name or "", *param.opts])))
        found.update(re.findall(r"[a-z]+", " ".join(map(str, getattr(param.type, "choices", ())))))
        found.update(re.findall(r"[a-z]+", str(param.default or "")))
    for line in getattr(command, "examples", ()):
        found.update(re.findall(r"[a-z]+", line))
    return found


@pytest.mark.parametrize("name", [one for one in (*VOCABULARY, *OTHERS) if one != "circle"])
def test_help_says_nothing_that_is_in_no_catalogue(in_pseudo, capsys, name):
    command = root.get_command(click.Context(root), name)
    assert main([name, "--help"]) == 0
    out = capsys.readouterr().out
    assert pseudo("Options") in out
    fields = " ".join(re.findall(r"é\.g\. [^\n]+|\(öné öf: [^)]*\)", out))  # examples and choices
    known = typed_words(command) | set(re.findall(r"[a-z]+", fields))
    if isinstance(command, click.Group):
        known |= {part for one in command.list_commands(None) for part in one.split("-")}
    lines = [one for one in out.split("\n\n") if "croftbook" not in one or "é" in one]
    body = re.sub(r"(?s)é\.g\..*?(?=\n  -|\Z)|\(öné.*?\)", " ", "\n\n".join(lines))
    assert plain(body, known) == set()


def test_root_help_and_errors_of_use_are_in_the_catalogues(in_pseudo, capsys):
    assert main(["--help"]) == 0
    out = capsys.readouterr().out
    begin = out.index(pseudo("Options"))
    assert plain(out[begin:], {*VOCABULARY, *OTHERS}) == set()
    for words, typed in (
        (["harvest", "1 lb plum", "--bde", "x"], {"bed", "bde", "by", "yes"}),
        (["harvst"], {"harvst", "harvest"}),
        (["spent", "--by", "week"], {"by", "week", "shop", "item", "month"}),
        (["serve", "--port", "abc"], {"port", "abc"}),
        (["undo", "one", "two"], {"one", "two"}),
    ):
        assert main(words) == 2
        said = re.sub(r"`[^`]*`", "", capsys.readouterr().err)
        assert plain(said.removeprefix("croftbook: "), typed) == set(), said


def test_a_refusal_is_said_by_its_message_in_any_language(in_pseudo):
    known = Names((Code("put_up"), Code("eaten")))
    error = InputError("kind", Message.of("refusal-no-kind", kind=Typed("zz")),
                       Message.of("refusal-one-of", known=known))  # fmt: skip
    assert str(error) != ""
    assert (
        _speech.refused(error)
        == "kind: "
        + pseudo("there is no kind")
        + " 'zz'. "
        + pseudo("Write one of: ")
        + "put_up, eaten"
    )
    assert error.says("refusal-no-kind")
    moved = error.at("lines[0].kind", beside="3 lb plum")
    assert moved.message == error.message
    assert "(3 lb plum)" in moved.problem
