"""Run in a copy of the packages, by the program that is there: what a newcomer's kind does. Prints JSON."""

from __future__ import annotations

import contextlib
import io
import json
import sys
from pathlib import Path

from dash.development.base_component import Component

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.forms.callbacks import boxes_of
from dashboard.forms.form import form_of
from dashboard.forms.reading import Typed
from dashboard.forms.writing import write_form
from ledger import Book
from ledger.cli import main
from ledger.docs import write as write_docs
from ledger.messages.checking import check_folder


def run(*words):
    """Run a command; return its status, output and errors."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = main(list(words))
    return {"status": status, "out": out.getvalue(), "err": err.getvalue()}


def walk(part):
    for one in part if isinstance(part, (list, tuple)) else [part]:
        if isinstance(one, Component):
            yield one
            yield from walk(getattr(one, "children", None))


def by_form(path):
    """Draw the kind's form, fill its boxes and send it; return what it says and what was written."""
    with Book.open(path) as book:
        data = Data(book)
        ask = ask_of(data, "/write", "?kind=seed_saved")
        page = str(draw_page(ask))
        parts = [one for one in walk(form_of(ask, "seed_saved")) if isinstance(getattr(one, "id", None), dict)]  # fmt: skip
        parts = [one for one in parts if one.id.get("part") == "box"]
        boxes = boxes_of([one.id for one in parts], [one.value for one in parts])
        boxes |= {("lines", 0): "25 g beet seed", ("year", 0): "2025"}
        outcome = write_form(
            data, words_of(data), Typed("seed_saved", day="2026-09-05", boxes=boxes)
        )
        return {
            "boxes": sorted({name for name, _ in boxes}),
            "errors": {str(box): text for box, text in outcome.errors.items()},
            "trouble": str(outcome.trouble or outcome.doubt or ""),
            "body": outcome.written and outcome.written.body,
            "tile": "Kept seed" in str(draw_page(ask_of(data, "/write"))),
            "page": "Kept seed" in page or "Write down seed kept for sowing" in page,
            "history": "Kept 25 g beet seed of 2025" in str(draw_page(ask_of(data, "/history"))),
        }


def in_french(book, folder):
    """Set a language of ten messages; return what is said in it, and what its folder lacks."""
    picked = run("harvest", "31 lb plum", "--on", "2026-09-02", "--book", book)
    lacking = check_folder(folder / "ledger/messages/fr", folder / "ledger/messages/en", "fr")
    return {
        "picked": picked,
        "set": run("setting", "language", "fr", "--book", book),
        "history": run("history", "--limit", "0", "--book", book),
        "shelf": run("show", "shelf", "--as-of", "2026-10-01", "--book", book),
        "refused": run("harvest", "0 lb plum", "--book", book),
        "help": run("harvest", "--help", "--book", book),
        "faults": [str(one) for one in lacking],
    }


def main_walk(folder):
    book, other = str(folder / "book.sqlite"), str(folder / "other.sqlite")
    day = ("--as-of", "2026-10-01", "--json")
    rows = ("on,kind,item,amount,year", "2026-09-06,keep-seed,kale seed,12 g,2024")
    (folder / "sheet.csv").write_text("\n".join(rows))
    save = ("keep-seed", "40 g carrot seed", "--year", "2026", "--sprouts", "85")
    return {
        "typed": run(*save, "--on", "2026-09-02", "--json", "--book", book),
        "help": run("keep-seed", "--help"),
        "root": run("--help"),
        "nothing": run("keep-seed", "0 g carrot seed", "--book", book),
        "counted": run("count", "30 g carrot seed", "--on", "2026-09-10", "--book", book),
        "sown": run(
            "plant",
            "carrot",
            "--seed",
            "10 g carrot seed",
            "--on",
            "2026-09-20",
            "--book",
            book,
            "--yes",
        ),
        "said": run("say", "stowed 50 g garlic", "--on", "2026-09-04", "--yes", "--book", book),
        "form": by_form(book),
        "sheet": run("import", str(folder / "sheet.csv"), "--book", book, "--yes"),
        "shelf": run("show", "shelf", *day, "--book", book),
        "question": run("show", "seed-kept", *day, "--book", book),
        "history": run("history", "--limit", "0", "--json", "--book", book),
        "check": run("check", "--book", book),
        "exported": run("export", str(folder / "book.jsonl"), "--book", book),
        "imported": run("import", str(folder / "book.jsonl"), "--book", other),
        "again": run("show", "shelf", *day, "--book", other),
        "french": in_french(book, folder),
        "docs": sorted(path.name for path in write_docs(folder / "docs")),
    }


if __name__ == "__main__":
    json.dump(main_walk(Path(sys.argv[1])), sys.stdout)
