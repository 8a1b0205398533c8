"""Finds in the sources which messages are said, and with which parameters."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import ledger.messages
from ledger.messages.catalogue import HERE
from ledger.messages.checking import parameters, read_folder

ROOT = Path(ledger.messages.__file__).parents[2]
SAYS = {"say", "say_", "sentence", "echo", "of", "Misuse", "Refused", "parts", "text"}
"""What takes the id of a message first, and its parameters by name."""
OWN = {"err", "attribute"}


@dataclass(frozen=True)
class Said:
    """A place in the sources where a message is said."""

    where: str
    id: str
    given: frozenset[str] | None


@cache
def read_english():
    """Return the English messages by their id, and what is wrong with their files."""
    return read_folder(HERE / "en")


def english():
    """Return the English messages by their id."""
    return read_english()[0]


@cache
def sources():
    """Return the trees of the sources that say messages, by their path."""
    paths = [*(ROOT / "ledger").rglob("*.py"), *(ROOT / "dashboard").rglob("*.py")]
    return {str(p.relative_to(ROOT)): ast.parse(p.read_text("utf-8")) for p in sorted(paths)}


@cache
def said():
    """Return every call with a literal id; `given` is None where parameters come as a mapping."""
    found = []
    for path, tree in sources().items():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            first = node.args[0]
            if name in SAYS and isinstance(first, ast.Constant) and is_id(first.value):
                names = [one.arg for one in node.keywords]
                given = None if None in names else frozenset(names) - OWN
                found.append(Said(f"{path}:{node.lineno}", first.value, given))
    return found


@cache
def literals():
    """Return every text that stands in the sources."""
    return frozenset(
        node.value
        for tree in sources().values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


@cache
def areas():
    """Return the areas of messages that there are."""
    return {id_.partition("-")[0] for id_ in english()}


def is_id(text):
    """Return whether a text looks like an id of an area that there is."""
    return (
        isinstance(text, str)
        and " " not in text
        and text.partition("-")[0] in areas()
        and "-" in text
    )


def taken(id_):
    """Return the parameters that a message says, its attributes' too."""
    _, entry = english()[id_]
    return frozenset().union(*(parameters(one) for _, one in entry.patterns())) - {"case"}
