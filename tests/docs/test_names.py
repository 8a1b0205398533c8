"""Public names, the command line and the kinds stay together; every stored version stays readable."""

from __future__ import annotations

import dataclasses
import json
import re
from pathlib import Path

import pytest

import ledger
from ledger import errors
from ledger.cli._root import OTHERS
from ledger.errors import NewerEvent, UnknownKind
from ledger.kinds import KINDS, check_typed, decode_stored, tell, to_stored, upcast
from ledger.vocabulary import VOCABULARY

OPEN = {
    "makes": "canned green beans", "method": "pressure", "minutes": "25", "psi": "11", "gauge": "dial",
    "used": [{"item": "green bean", "amount": "14 lb"}], "made": [{"jars": 7, "jar": "quart jar"}],
}  # fmt: skip
"""A batch that says too little to be judged."""
KEPT = Path(__file__).parents[1] / "kinds" / "kept"
VERSIONS = [(kind.name, v) for kind in KINDS.values() for v in range(1, kind.v + 1)]
TREE = [
    value
    for value in vars(errors).values()
    if isinstance(value, type) and issubclass(value, errors.LedgerError)
]


def test_every_public_name_resolves():
    assert ledger.__all__
    for name in ledger.__all__:
        assert getattr(ledger, name) is not None, name
    assert len(set(ledger.__all__)) == len(ledger.__all__)


def test_commands_and_their_help_are_those_of_the_kinds():
    assert list(VOCABULARY.values()) == list(KINDS)
    assert len({kind.command: kind for kind in KINDS.values()}) == 23
    assert not set({kind.command: kind for kind in KINDS.values()}) & set(OTHERS)


def drawn():
    """Yield each error drawn in the docstring's tree with its parent and the built-in beside it."""
    above = {}
    pattern = r"^ {4}([| ]*)(?:\+-- )?([A-Z]\w+)(?: \((\w+)\))?(?: {2,}|$)"
    for bars, name, built_in in re.findall(pattern, errors.__doc__ or "", re.MULTILINE):
        depth = len(bars) // 4 + (name != "LedgerError")
        above[depth] = name
        yield name, above.get(depth - 1), built_in


def test_the_tree_of_errors_is_drawn_as_it_is():
    tree = list(drawn())
    assert sorted(name for name, _, _ in tree) == sorted(error.__name__ for error in TREE)
    for name, parent, built_in in tree:
        bases = {base.__name__ for base in getattr(errors, name).__bases__}
        assert parent is None or parent in bases, name
        assert not built_in or built_in in bases, name


def test_every_error_is_public():
    assert sorted(error.__name__ for error in TREE) == errors.__all__


@pytest.mark.parametrize(("name", "v"), VERSIONS)
def test_body_of_every_version_is_still_read(name, v):
    text = (KEPT / f"{name}.v{v}.json").read_text("utf-8").rstrip("\n")
    body = decode_stored(name, v, text)
    assert check_typed(KINDS[name], body)
    assert tell(name, body).strip()
    if v == KINDS[name].v:
        assert to_stored(body) == text  # canonical, to the byte: its hash still follows


def test_no_kept_body_is_of_an_unknown_kind():
    assert {path.name for path in KEPT.glob("*")} == {f"{n}.v{v}.json" for n, v in VERSIONS}


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_what_the_door_stores_today_is_the_kept_form(kind, book, fixed_day, yes):
    """A changed stored form without a new version would leave old books unreadable."""
    kept = json.loads((KEPT / f"{kind.name}.v{kind.v}.json").read_text("utf-8"))
    if kind.name == "struck":
        first = book.write("harvested", {"item": "plum", "amount": "3 lb"}, id=kept["id"])
        assert first.event.id == kept["id"]
        example = {**kind.example, "id": kept["id"]}
    elif kind.name == "checked":
        book.write("put_up", OPEN, id=kept["batch"], on="2026-09-01", answers=yes)
        example = {**kind.example, "batch": kept["batch"]}
    else:
        example = kind.example
    written = book.write(kind.name, example, on="2026-09-02", answers=yes)
    assert json.loads(written.event.body) == kept


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_newer_body_is_refused_by_name(kind):
    with pytest.raises(NewerEvent) as refused:
        decode_stored(kind.name, kind.v + 1, "{}", seq=7)
    assert kind.name in str(refused.value)
    assert "event 7" in str(refused.value)
    assert f"version {kind.v + 1}" in str(refused.value)
    with pytest.raises(NewerEvent):
        decode_stored(kind.name, 0, "{}")


def test_unknown_kind_is_refused_by_name():
    with pytest.raises(UnknownKind, match="event 3: unknown kind 'dreamt'"):
        decode_stored("dreamt", 1, "{}", seq=3)


def test_old_bodies_are_raised_step_by_step(monkeypatch):
    """Version 1 said `weight`, 2 said `amount`, 3 has lines: each step knows only its own."""

    def renamed(body):
        return {"amount" if key == "weight" else key: value for key, value in body.items()}

    def listed(body):
        return {"lines": [{**body, "n": 1}]}

    kind = dataclasses.replace(KINDS["harvested"], v=3, upcasters={1: renamed, 2: listed})
    newest = {"lines": [{"item": "plum", "amount": "3 lb", "n": 1}]}
    old = {"item": "plum", "weight": "3 lb"}
    assert upcast(kind, 1, dict(old)) == newest
    assert upcast(kind, 2, {"item": "plum", "amount": "3 lb"}) == newest
    assert upcast(kind, 3, newest) == newest
    with pytest.raises(NewerEvent, match="up to 3"):
        upcast(kind, 4, newest)
    monkeypatch.setitem(KINDS, "harvested", kind)
    assert decode_stored("harvested", 1, json.dumps(old)) == newest
