"""No text that this part can print calls anything safe, fine or OK."""

from __future__ import annotations

import ast
import csv
import re
from fractions import Fraction as F
from pathlib import Path

import pytest

import ledger.published
from ledger.published import (
    CAUTIONS,
    FIRST,
    SHORT,
    BatchDone,
    JarsDone,
    Used,
    after_batch,
    judge,
    judge_other,
)
from ledger.published.docs import cautions_text, schedules_text
from ledger.reference._read import rows

FORBIDDEN = re.compile(
    r"\b(safe|safely|safest|safer|unsafe|fine|finely|ok|okay|o\.k\.)\b", re.IGNORECASE
)
#: A title is a name: the database of Michigan State University Extension is called so.
NAMES = re.compile(r"Preserving Food Safely|https?://\S+")
ROOM = Path(ledger.published.__file__).parent
FILES = [
    *ROOM.glob("*.py"),
    *(ROOM.parent / "projections").glob("*published*.py"),
    *(ROOM.parent / "reference").glob("s*.py"),
    ROOM.parent / "reference" / "yields.py",
]


def clean(text):
    return not FORBIDDEN.search(NAMES.sub("", text))


def printed_strings(path):
    """Return every string of a module that is not a docstring."""
    tree = ast.parse(path.read_text("utf-8"))
    docs = set()
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list):
            docs |= {id(n.value) for n in body if isinstance(n, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


def test_the_check_itself_can_fail():
    assert not clean("This jar is safe.")
    assert not clean("That looks OK")
    assert not clean("All fine")
    assert clean("Preserving Food Safely database; food safety service")


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_templates(path):
    assert [text for text in printed_strings(path) if not clean(text)] == []


@pytest.mark.parametrize("table", ["schedules", "storage", "yields", "preserving_sources"])
def test_packaged_tables(table):
    wrong = [v for row in rows(table) for v in row.values() if not clean(v)]
    assert wrong == []


@pytest.mark.parametrize(
    "path", sorted((ROOM.parent / "reference").glob("s*.csv")), ids=lambda p: p.name
)
def test_own_tables(path):
    with path.open(encoding="utf-8", newline="") as file:
        assert [v for row in csv.reader(file) for v in row if not clean(v)] == []


def test_pages_and_cautions():
    assert clean(schedules_text())
    assert clean(cautions_text())
    assert all(clean(text) for text in (SHORT, FIRST, *(t for pair in CAUTIONS for t in pair)))


def outcomes():
    for makes in ("green beans", "tomatoes", "plum butter", "sauerkraut", "soup", "salsa"):
        for method in ("boiling water", "pressure"):
            for minutes in (None, F(5), F(200)):
                yield judge(
                    BatchDone(
                        makes,
                        method,
                        (JarsDone("quart jar", 9),),
                        (Used("onion", "2 lb", 907.0),),
                        minutes,
                    )
                )
                yield judge(
                    BatchDone(
                        makes,
                        method,
                        (JarsDone("1 l jar", 9),),
                        minutes=minutes,
                        altitude_ft=F(9000),
                    )
                )
    for method in ("freeze", "dry", "ferment", "pickle cold", "jam uncooked"):
        yield judge_other(BatchDone("sauerkraut", method, (JarsDone("quart jar", 3),)))


def test_findings_and_advice_made_of_them():
    for found in outcomes():
        texts = [found.summary, *found.notes, *found.sources, *(f.text for f in found.findings)]
        texts += [
            f"{a.text} {a.source}" for a in after_batch(found, 1.0) + after_batch(found, 40.0)
        ]
        assert all(clean(text) for text in texts)
