"""A kind is whole or does not import, and no other place lists the kinds."""

from __future__ import annotations

import ast
import dataclasses
from pathlib import Path

import pytest

from ledger.kinds import KINDS, Form, Kind
from ledger.kinds.kind import Origin
from ledger.kinds.resolving import as_typed
from ledger.replay.flows import _ORIGIN, ORIGINS
from ledger.vocabulary import VOCABULARY

HOUSE = Path(__file__).parents[2]
NEEDED = [f.name for f in dataclasses.fields(Kind) if f.default is f.default_factory is dataclasses.MISSING]  # fmt: skip
WHOLE = {field.name: getattr(KINDS["harvested"], field.name) for field in dataclasses.fields(Kind)}
SAYABLE = {"ledger/saying/kinds.py", "ledger/saying/verbless.py"}
"""Which module makes what was said; a kind that neither names is said line by line."""


def test_what_the_guide_calls_needed_has_no_default():
    assert {"body", "phase", "supplies", "draws", "resolve", "words", "typed", "example", "tell", "form"} < set(NEEDED)  # fmt: skip


@pytest.mark.parametrize("part", NEEDED)
def test_a_kind_that_lacks_a_part_does_not_import(part):
    with pytest.raises(TypeError, match=part):
        Kind(**{name: value for name, value in WHOLE.items() if name != part})


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"resolve": as_typed}, "whole units"),
        ({"supplies": {"picked": Origin("grown")}}, "supplies one list"),
        ({"supplies": {"lines": Origin("stolen")}}, "comes from one of"),
        ({"draws": ("ate",)}, "draws on lists"),
        ({"words": ("what",)}, "words are fields"),
        ({"form": Form(("lines", "colour"))}, "form shows fields"),
        ({"typed": ("pick '3 lb plum'",)}, "begin with its command"),
        ({"typed": ()}, "begin with its command"),
        ({"v": 3}, "upcaster"),
    ],
)
def test_parts_that_do_not_go_together_do_not_import(change, said):
    with pytest.raises(TypeError, match=f"'harvested'.*{said}"):
        Kind(**{**WHOLE, **change})


def test_the_registry_holds_every_file_of_a_kind():
    files = {
        path.stem
        for path in (HOUSE / "ledger/kinds").glob("*.py")
        if "\nKIND = Kind(" in path.read_text("utf-8")
    }
    assert files == set(VOCABULARY.values()) == set(KINDS)
    assert len({kind.command for kind in KINDS.values()}) == len(KINDS)


def named(node):
    """Return the kinds that a literal names, in keys of a dict or in what a list holds."""
    parts = node.keys if isinstance(node, ast.Dict) else node.elts
    texts = [one.value for part in parts if part for one in ast.walk(part) if isinstance(one, ast.Constant)]  # fmt: skip
    return {text for text in texts if isinstance(text, str) and text in KINDS}


def test_no_second_list_of_kinds():
    """Six kinds in one literal are a list that a new kind would have to be written into."""
    lists = set()
    for top in ("ledger", "dashboard"):
        for path in (HOUSE / top).rglob("*.py"):
            tree = ast.parse(path.read_text("utf-8"))
            literals = (n for n in ast.walk(tree) if isinstance(n, (ast.Dict, ast.List, ast.Set, ast.Tuple)))  # fmt: skip
            if any(len(named(one)) > 5 for one in literals):
                lists.add(str(path.relative_to(HOUSE)))
    # the door takes a short way for the kinds that are written most; others go the long one
    assert lists == {"ledger/door/alike.py", *SAYABLE}


def test_replay_takes_origins_from_the_kinds():
    codes = list(KINDS)
    said = {
        (name, cause): ORIGINS[_ORIGIN[codes.index(name), cause]]
        for name, cause in [("harvested", 0), ("bought", 0), ("received", 1), ("received", 3), ("put_up", 0), ("eaten", 0)]
    }  # fmt: skip
    # formats.md, rule 11: how something was received is a gift (1), barter (2) or foraged (3)
    assert list(said.values()) == ["grown", "bought", "given", "foraged", "batch", "batch"]


def test_kinds_stand_below_the_door():
    """A kind asks the door through what is handed to it, and imports nothing to its right."""
    right = ("ledger.known", "ledger.log", "ledger.door", "ledger.replay", "ledger.projections", "ledger.cli")  # fmt: skip
    for path in (HOUSE / "ledger/kinds").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module:
                assert not node.module.startswith(right), (path.name, node.module)
