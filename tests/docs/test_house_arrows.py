"""Arrows of the house: no circles between modules, no private imports across rooms."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
CIRCLES = 0
"""Rings of modules that import each other, in functions too: none, and none is let in."""
PRIVATE = 0
"""Files that import a private module or name of another room, once a module: none likewise."""


def files():
    """Return every module of the sources by its dotted name."""
    return {
        ".".join(path.relative_to(HOUSE).with_suffix("").parts).removesuffix(".__init__"): path
        for top in ("ledger", "dashboard")
        for path in sorted((HOUSE / top).rglob("*.py"))
    }


MODULES = files()


def for_types(node):
    """Return whether a block is one that only a type checker reads."""
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)


@cache
def imports(name):
    """Return (module, name) of everything a module imports of the house."""
    return tuple(imported(ast.parse(MODULES[name].read_text("utf-8"))))


def imported(tree):
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if for_types(node):
            continue
        # An import is a statement: of a line without a block, nothing below it is one.
        waiting += [one for one in ast.iter_child_nodes(node) if not isinstance(one, ast.expr)]
        if isinstance(node, ast.ImportFrom) and node.module and not node.level:
            for one in node.names:
                whole = f"{node.module}.{one.name}"
                yield (whole, "") if whole in MODULES else (node.module, one.name)
        elif isinstance(node, ast.Import):
            yield from ((one.name, "") for one in node.names)


@cache
def graph():
    """Return the modules of the house that each module imports."""
    return {name: {m for m, _ in imports(name) if m in MODULES and m != name} for name in MODULES}


def reached(name):
    """Return the modules that can be come to from one."""
    seen, stack = set(), [name]
    while stack:
        for other in graph()[stack.pop()] - seen:
            seen.add(other)
            stack.append(other)
    return seen


@cache
def circles():
    """Return the rings of modules that can be come to from each other."""
    to = {name: reached(name) for name in MODULES}
    rings = {
        frozenset(other for other in to[name] if name in to[other])
        for name in MODULES
        if name in to[name]
    }
    return sorted(sorted(ring) for ring in rings)


def room(name):
    parts = name.split(".")
    return ".".join(parts[:2]) if parts[0] == "ledger" else parts[0]


def is_private(module, name):
    words = [*module.split("."), name]
    return any(word.startswith("_") and not word.startswith("__") for word in words)


@cache
def private_imports():
    return sorted(
        {
            (name, module)
            for name in MODULES
            for module, said in imports(name)
            if module.split(".")[0] in ("ledger", "dashboard")
            and is_private(module, said)
            and room(module) != room(name)
        }
    )


def test_circles_grow_no_more():
    found = circles()
    assert len(found) <= CIRCLES, found


def test_private_imports_grow_no_more():
    found = private_imports()
    assert len(found) <= PRIVATE, found


@pytest.mark.parametrize(
    "clean", ["ledger.figures", "ledger.questions", "ledger.kinds", "ledger.known"]
)
def test_new_rooms_have_no_private_files_and_import_none(clean):
    mine = [name for name in MODULES if name.startswith(clean)]
    assert [name for name in mine if is_private(name, "")] == []
    assert [pair for pair in private_imports() if pair[0] in mine] == []
    assert [ring for ring in circles() if set(ring) & set(mine)] == []


def test_figures_stand_on_numpy_alone():
    mine = [name for name in MODULES if name.startswith("ledger.figures")]
    assert {
        m for name in mine for m in graph()[name] if not m.startswith("ledger.figures")
    } == set()


def test_formulas_index_nothing_and_begin_nothing():
    """A file of formulas imports no numpy, and no word with which a figure begins."""
    for name in MODULES:
        if name.startswith("ledger.questions.") and name.endswith(".figures"):
            used = set(imports(name))
            assert not {module for module, _ in used if module.startswith("numpy")}, name
            assert not {said for _, said in used} & {"said", "assumed", "unpriced"}, name
