"""The guide is true: on a copy of the packages a kind, a column, a question and a language are added by its words alone."""

from __future__ import annotations

import difflib
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
PACKAGES = ("ledger", "dashboard")
GUIDE = (HOUSE / "DEVELOPERS.md").read_text("utf-8")
KIND, QUESTION = "ledger/kinds/seed_saved.py", "ledger/questions/seed_kept/question.py"
VERB = '\n[[verb]]\nkind = "seed_saved"\nwords = "stowed"\n'


def whole(path):
    """Return the file that the guide shows under a path."""
    found = re.search(rf"`{re.escape(path)}`[^\n]*\n\n```python\n(.*?)```", GUIDE, re.DOTALL)
    assert found, f"the guide shows no {path}"
    return found[1]


def put(copy, path, text):
    (copy / path).parent.mkdir(exist_ok=True)
    (copy / path).write_text(text, "utf-8")


def after(copy, path, line, new):
    """Write a line behind another one."""
    text = (copy / path).read_text("utf-8")
    assert text.count(line) == 1, (path, line)
    (copy / path).write_text(text.replace(line, line + new), "utf-8")


def add_kind(copy):
    put(copy, KIND, whole(KIND))
    after(
        copy,
        "ledger/vocabulary.py",
        '    "strike": "struck",\n',
        '    "keep-seed": "seed_saved",\n',
    )


def add_column(copy):
    shelf = next(p for p in ("ledger/questions/shelf/question.py",) if (copy / p).exists())
    column = '    Column("age_days", "Age", "days", "Days since it came in."),\n'
    after(copy, shelf, '    Column("lot", "Lot", "", "Id of the lot."),\n', column)
    value = '        "age_days": state.as_of_day - int(lots["day"][lot]),\n'
    after(copy, shelf, '        "lot": state.lot_id(lot),\n', value)


def add_question(copy):
    folder = QUESTION.rpartition("/")[0]
    put(copy, QUESTION, whole(QUESTION))
    said = re.search(r"with `(from [^`]*PROJECTION)` in its `__init__.py`", GUIDE)
    init = f'"""Seed kept."""\n\n{said[1]}\n\n__all__ = ["PROJECTION"]\n'
    put(copy, f"{folder}/__init__.py", init)
    line = '    "seed-kept": "ledger.questions.seed_kept",\n'
    after(copy, "ledger/projections/__init__.py", "_MODULES = {\n", line)


def add_verb(copy):
    text = (copy / "ledger/saying/words/en.toml").read_text("utf-8")
    put(copy, "ledger/saying/words/en.toml", text + VERB)


TEN = {
    "told": "told-picked = cueilli : { $lines }",
    "column": """\
column-any-lot = Lot
column-any-item = Article
column-any-on = Jour
column-shelf-on = Depuis
column-shelf-use-by = Avant le
""",
    "table": "table-what = Ce qui s'est passé",
    "command": "command-harvest = noter ce qui a été cueilli, déterré ou ramassé",
    "refusal": """\
refusal-amount-nothing = { $text }, ce n'est rien
    .wanted = Écrivez une quantité au-dessus de zéro
""",
    "cli": "cli-stopped = Arrêté ; rien n'est écrit à moitié.",
}
"""Ten messages of a language, by area; what is not said yet stays English."""


def add_language(copy):
    for area, said in TEN.items():
        put(copy, f"ledger/messages/fr/{area}.ftl", f"{said}\n")
    line = 'LANGUAGES = ("en", "de")\n'
    text = (copy / "ledger/messages/__init__.py").read_text("utf-8")
    assert text.count(line) == 1
    put(copy, "ledger/messages/__init__.py", text.replace(line, 'LANGUAGES = ("en", "de", "fr")\n'))


def texts(top):
    return {
        str(path.relative_to(top)): path.read_text("utf-8")
        for package in PACKAGES
        for path in sorted((top / package).rglob("*"))
        if path.suffix in (".py", ".toml", ".ftl", ".js", ".css")
        and "__pycache__" not in path.parts
    }


def touched(before, now):
    """Return the files that are new, and by file the lines that others gained or lost."""
    new = sorted(set(now) - set(before))
    changed = {}
    for path in before:
        if now[path] != before[path]:
            both = before[path].splitlines(), now[path].splitlines()
            lines = [one for one in difflib.ndiff(*both) if one[:2] in ("+ ", "- ") and one[2:]]
            changed[path] = len(lines)
    return new, changed


@pytest.fixture(scope="module")
def exercise(tmp_path_factory):
    """The copy, what each exercise touched, and what the program in it then did."""
    copy = tmp_path_factory.mktemp("newcomer")
    for package in PACKAGES:
        no_caches = shutil.ignore_patterns("__pycache__")
        shutil.copytree(HOUSE / package, copy / package, ignore=no_caches)
    counts, before = {}, texts(copy)
    for add in (add_kind, add_column, add_question, add_verb, add_language):
        add(copy)
        now = texts(copy)
        counts[add.__name__] = touched(before, now)
        before = now
    home = {"PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1", "HOME": str(copy)}
    home |= {name: str(copy / name) for name in ("XDG_DATA_HOME", "XDG_CACHE_HOME")}
    done = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("newcomers_walk.py")), str(copy)],
        cwd=copy, env={**os.environ, **home}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return counts, json.loads(done.stdout)


@pytest.fixture(scope="module")
def did(exercise):
    return exercise[1]


def test_a_kind_is_one_file_and_one_line(exercise):
    assert exercise[0]["add_kind"] == ([KIND], {"ledger/vocabulary.py": 1})


def test_a_column_is_one_file(exercise):
    new, changed = exercise[0]["add_column"]
    assert (new, list(changed.values())) == ([], [2])


def test_a_question_is_one_package_and_one_line(exercise):
    new, changed = exercise[0]["add_question"]
    assert {path.rpartition("/")[0] for path in new} == {QUESTION.rpartition("/")[0]}
    assert changed == {"ledger/projections/__init__.py": 1}


def test_a_language_is_one_folder_and_one_word(exercise):
    new, changed = exercise[0]["add_language"]
    assert {path.rpartition("/")[0] for path in new} == {"ledger/messages/fr"}
    assert changed == {"ledger/messages/__init__.py": 2}  # the line as it was, and as it is


def test_the_kind_is_typed_and_resolved(did):
    typed = did["typed"]
    assert typed["status"] == 0, typed["err"]
    (line,) = json.loads(typed["out"])["body"]["lines"]
    said = {"item": "carrot seed", "amount": "40 g", "n": 1, "whole": 40_000, "measure": "mass"}
    assert line == said
    assert json.loads(typed["out"])["body"]["sprouts"] == 85
    assert "Write down seed kept for sowing" in did["help"]["out"]
    assert 'croftbook keep-seed "40 g carrot seed"' in did["help"]["out"]
    assert "keep-seed" in did["root"]["out"]


def test_what_is_wrong_is_refused_by_the_field(did):
    assert did["nothing"]["status"] == 2
    assert "amount: '0 g" in did["nothing"]["err"]


def test_it_is_counted_on_the_shelf_and_drawn_from_it(did):
    rows = json.loads(did["shelf"]["out"])["records"]
    left = {row["item"]: row["left"]["whole"] for row in rows}
    # carrot: 40 g kept, 30 g counted, 10 g sown
    assert left == {
        "carrot seed": 20_000, "garlic": 50_000, "beet seed": 25_000, "kale seed": 12_000,
    }  # fmt: skip
    assert {row["origin"]["grown"] for row in rows} == {1.0}
    assert {row["item"]: row["age_days"] for row in rows}["beet seed"] == 26


def test_it_is_told_in_history(did):
    rows = [row for row in json.loads(did["history"]["out"]) if row["kind"] == "seed_saved"]
    assert {row["line"] for row in rows} == {
        "kept 40 g carrot seed of 2026", "kept 50 g garlic", "kept 25 g beet seed of 2025",
        "kept 12 g kale seed of 2024",
    }  # fmt: skip
    assert "Every amount that came in is there or went out" in did["check"]["out"]


def test_it_leaves_by_an_export_and_comes_back(did):
    assert did["imported"]["status"] == 0, did["imported"]["err"]
    assert json.loads(did["again"]["out"]) == json.loads(did["shelf"]["out"])


def test_it_is_read_by_its_form(did):
    form = did["form"]
    assert (form["errors"], form["trouble"]) == ({}, "")
    assert {"lines", "variety", "year", "sprouts", "note"} <= set(form["boxes"])
    assert form["body"]["year"] == 2025
    assert form["body"]["lines"][0]["whole"] == 25_000
    assert form["tile"]
    assert form["page"]
    assert form["history"]


def test_it_comes_from_a_sheet_and_is_said(did):
    assert did["sheet"]["status"] == 0, did["sheet"]["err"]
    assert did["said"]["status"] == 0, did["said"]["err"]


def test_the_question_answers(did):
    answer = json.loads(did["question"]["out"])
    assert [row["item"] for row in answer["records"]] == [
        "carrot seed", "garlic", "beet seed", "kale seed",
    ]  # fmt: skip
    assert answer["records"][0]["sprouts"] == 85


def test_schema_and_docs_follow(did):
    assert "seed_saved.json" in did["docs"]


def test_the_language_says_what_it_has_and_leaves_the_rest_in_english(did):
    french = did["french"]
    for step in ("picked", "set"):
        assert french[step]["status"] == 0, french[step]["err"]
    assert "cueilli : 31 lb plum" in french["history"]["out"]
    assert "Ce qui s'est passé" in french["history"]["out"]
    assert "02/09/2026" in french["history"]["out"]
    assert "kept 40 g carrot seed of 2026" in french["history"]["out"]
    assert re.search(r"Article +Depuis", french["shelf"]["out"])
    assert "Money in USD" in french["shelf"]["out"]
    assert french["refused"]["status"] == 2
    assert "ce n'est rien. Écrivez une quantité au-dessus de zéro" in french["refused"]["err"]
    assert "Noter ce qui a été cueilli" in french["help"]["out"]
    faults = french["faults"]
    assert not [line for line in faults if "is missing" not in line]
    assert [line for line in faults if "told-bought: is missing" in line]
