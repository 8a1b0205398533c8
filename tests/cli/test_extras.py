"""`pip install .` alone runs the main job; what is asked for beyond it says what to install."""

from __future__ import annotations

import importlib.metadata
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
ALONE = """
import sys

class Missing:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in BLOCKED:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)

BLOCKED = set(sys.argv[1].split(","))
sys.meta_path.insert(0, Missing())
from ledger.cli import main
raise SystemExit(main(sys.argv[2:]))
"""


def needed(requirements):
    """Return the canonical names of all that some requirements bring in."""
    found, waiting = set(), [(Requirement(text), "") for text in requirements]
    while waiting:
        need, extra = waiting.pop()
        name = canonicalize_name(need.name)
        if need.marker is not None and not need.marker.evaluate({"extra": extra}):
            continue
        if name in found and not need.extras:
            continue
        found.add(name)
        try:
            requires = importlib.metadata.requires(name) or ()
        except importlib.metadata.PackageNotFoundError:
            continue
        for text in requires:
            waiting += [(Requirement(text), one) for one in (need.extras or {""})]
    return found


@pytest.fixture(scope="module")
def blocked():
    """The modules of every package here that `pip install .` alone does not bring."""
    there = needed(PROJECT["dependencies"]) | {"croftbook"}
    owners = importlib.metadata.packages_distributions().items()
    return ",".join(
        name for name, dists in owners if not there & {canonicalize_name(one) for one in dists}
    )


@pytest.fixture(scope="module")
def alone(blocked, tmp_path_factory):
    folder = tmp_path_factory.mktemp("alone")

    def run(*words, book=folder / "book.sqlite"):
        done = subprocess.run(
            [sys.executable, "-c", ALONE, blocked, *words, "--book", str(book)],
            capture_output=True, check=False, text=True, cwd=folder,
        )  # fmt: skip
        return done.returncode, done.stdout, done.stderr

    return run


def test_extras_are_really_missing(blocked):
    names = set(blocked.split(","))
    assert {"sqlalchemy", "psycopg", "dash", "flask", "plotly", "tornado", "cryptography"} <= names
    assert not {"numpy", "msgspec", "click", "rich", "pandas", "scipy"} & names


def test_main_job_runs_alone(alone):
    wrote = (
        ("harvest", "21 lb tomato", "--bed", "south", "--on", "2026-08-02"),
        ("buy", "5 lb salt", "--paid", "3.40", "--shop", "corner shop", "--on", "2026-08-01", "-y"),
        ("putup", "tomato sauce", "--used", "21 lb tomato", "--made", "7 pint jars", "--method", "boiling water",
         "--minutes", "35", "--on", "2026-08-03", "-y"),
        ("say", "picked 3 lb plums yesterday", "-y"),
        ("meal", "--ate", "1 pint tomato sauce", "--people", "4", "--on", "2026-08-20", "--knowingly", "-y"),
    )  # fmt: skip
    asked = (
        ("show", "jar-cost"), ("show", "shelf", "--csv"), ("show", "our-table", "--json"), ("show", "season"),
        ("why", "1"), ("history",), ("check",), ("export", "out.jsonl"), ("backup", "copy.sqlite"), ("calendar", "c.ics"),
    )  # fmt: skip
    for words in (*wrote, *asked):
        status, out, told = alone(*words)
        assert status == 0, (words, out, told)


@pytest.mark.parametrize(
    ("words", "book", "extra", "what"),
    [
        (("serve", "--no-browser"), None, "dashboard", "the dashboard"),
        (("show", "shelf"), "postgresql://ada@127.0.0.1/croft", "postgres", "a book on PostgreSQL"),
    ],
)
def test_what_is_missing_says_what_to_install(alone, words, book, extra, what):
    status, _, told = alone(*words, **({"book": book} if book else {}))
    assert status == 2
    assert f"{what} needs the package" in told
    assert f"pip install '.[{extra}]'" in told
    assert "Traceback" not in told


def test_every_extra_is_installed_for_the_tests():
    script = (ROOT / "tests" / "run.sh").read_text("utf-8")
    lock = (ROOT / ".ci" / "lock").read_text("utf-8")
    for extra in set(PROJECT["optional-dependencies"]) - {
        "sheets"
    }:  # `test` names its package itself
        assert extra in script.partition("--editable '.[")[2].partition("]")[0].split(",")
        assert f"--extra {extra}" in lock
