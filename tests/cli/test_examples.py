"""The command line by its own examples: each is typed as its help shows it."""

from __future__ import annotations

import json
import re
import shlex
import shutil

import pytest
from freezegun import freeze_time

from ledger.cli import main
from ledger.cli._root import OTHERS
from ledger.kinds import KINDS
from ledger.projections import PROJECTIONS

WRITES = {kind.command: kind for kind in KINDS.values()}
SHOWN = [
    (command, text.split("      (")[0]) for command in WRITES for text in WRITES[command].typed
]
NEEDED = [
    "buy '30 lb sugar' '48 lid' --paid 20 --paid 9 --on 2026-08-01",
    "harvest '60 lb plum' '4 lb tomato' --on 2026-08-02",
    "recipe 'plum butter' --makes 'plum butter' --uses '16 lb plum' --uses '3 lb sugar' "
    "--yields '11 half-pint jars' --method 'boiling water'",
    "putup 'plum butter' --used '16 lb plum' --used '3 lb sugar' "
    "--made '11 half-pint jars' --method 'boiling water' --minutes 10 --on 2026-08-03",
    "buy '1 pressure canner' --paid 120 --years 20 --on 2026-08-01",
    "putup 'canned green beans' --used '14 lb green bean' --made '7 quart jars' --method pressure "
    "--minutes 25 --psi 11 --gauge dial --on 2026-08-04",
]


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    """Run a line of words on a book named with --book; return status, output and errors."""

    def go(line, *more, book="book.sqlite"):
        words = [*shlex.split(line), *more]
        status = main([*words, "--book", str(tmp_path / book)])
        return status, *capsys.readouterr()

    return go


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """A closed book in which the batch of the examples is written down."""
    file = tmp_path_factory.mktemp("examples") / "book.sqlite"
    with freeze_time("2026-11-01 12:00:00", tz_offset=0):
        for line in NEEDED:
            assert main([*shlex.split(line), "--yes", "--book", str(file)]) == 0
    return file


@pytest.fixture
def kept(run, written, tmp_path):
    """A book of one's own in which the batch of the examples is written down."""
    shutil.copy(written, tmp_path / "book.sqlite")
    return run


def history(run, *more):
    return json.loads(run("history --limit 0 --json", *more)[1])


@pytest.mark.parametrize(("command", "example"), SHOWN)
def test_every_example_writes_what_its_command_says(kept, command, example):
    before = len(history(kept))
    if command == "strike":
        some = history(kept, "--kind", "harvested")[0]["id"]
        example = example.replace("5f0c0a0e", some[:8])
    if command in ("settle", "meter"):
        batch = next(one for one in history(kept, "--kind", "put_up") if "green" in one["line"])
        example = example.replace("5f0c0a0e", batch["id"][:8])
    # for the plum butter of the examples no process is held: it is opened on purpose
    more = ["--knowingly"] if command in ("meal", "give") else []
    status, out, err = kept(example, "--yes", "--json", *more)
    assert status == 0, err
    written = json.loads(out)
    assert written["kind"] == WRITES[command].name
    rows = history(kept)
    assert len(rows) == before + 1 + len(written["described"])
    assert written["id"] in {row["id"] for row in rows}


@pytest.mark.parametrize("command", [*WRITES, *OTHERS])
def test_help_fits_and_is_plain(capsys, command):
    assert main([command, "--help"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "\x1b" not in out
    options = out.split("Options:")[1]
    assert max(map(len, options.splitlines())) <= 80


@pytest.mark.parametrize("command", sorted({*WRITES, *OTHERS} - {"completion", "serve"}))
def test_every_command_offers_json(capsys, command):
    words = ["show", "shelf"] if command == "show" else [command]
    main([*words, "--help"])
    assert "--json" in capsys.readouterr().out


@pytest.mark.parametrize(
    "line",
    ["history", "check", "show shelf", "show jar-cost", "export OUT", "backup COPY",
     "import FILE", "import FILE --dry-run"],
)  # fmt: skip
def test_json_is_json_and_nothing_else(kept, tmp_path, line):
    (tmp_path / "in.jsonl").write_text(
        '{"kind": "harvested", "on": "2026-09-02", "body": {"item": "plum", "amount": "1 lb"}}\n'
    )
    for name, file in (("OUT", "out.jsonl"), ("COPY", "copy.sqlite"), ("FILE", "in.jsonl")):
        line = line.replace(name, shlex.quote(str(tmp_path / file)))
    status, out, err = kept(line, "--json")
    assert status == 0, err
    assert json.loads(out) is not None


NEEDS = {"touched": " --item plum"}
"""What a question has to be given."""


@pytest.mark.parametrize("name", list(PROJECTIONS))
def test_every_question_answers_in_three_ways(kept, name):
    asked = f"show {name}{NEEDS.get(name, '')}"
    status, table, err = kept(asked)
    assert status == 0, err
    assert "\x1b" not in table
    assert max(map(len, table.splitlines())) <= 80
    answer = json.loads(kept(asked, "--json")[1])
    status, csv, err = kept(asked, "--csv")
    assert status == 0, err
    assert len(csv.splitlines()) >= 1 + len(answer["records"])


def test_why_prints_a_tree_with_the_figure_of_the_answer(kept):
    record = json.loads(kept("show jar-cost", "--json")[1])["records"][0]
    status, out, _ = kept(f"why {record['why']}")
    assert status == 0
    bound = "≥ " if record["at_least"] else ""
    assert f"cost per jar: {bound}{record['cost_per_jar']:.4f} USD per jar" in out
    lines = out.splitlines()
    assert len(lines) > 3
    assert max(map(len, lines)) <= 80
    assert "\x1b" not in out
    # what it rests on can be found by the ids it prints
    for kind in ("bought", "put_up"):
        ids = [row["id"][:8] for row in history(kept, "--kind", kind)]
        assert any(one in out.replace("\n", "") for one in ids)


def test_history_is_narrowed_by_kind_item_day_and_number(kept):
    assert {row["kind"] for row in history(kept, "--kind", "harvested")} == {"harvested"}
    sugar = [row["kind"] for row in history(kept, "--item", "sugar")]
    assert {"bought", "put_up"} <= set(sugar)
    assert "harvested" not in sugar
    days = {row["on"] for row in history(kept, "--from", "2026-08-02", "--to", "2026-08-02")}
    assert days == {"2026-08-02"}
    assert len(json.loads(kept("history --limit 2 --json")[1])) == 2
    status, out, _ = kept("history --limit 2")
    assert status == 0
    assert re.search(r"2 of \d+; --\w+", out)
    assert max(map(len, out.splitlines())) <= 80


@pytest.mark.parametrize(
    "line",
    [
        "harvest '3 c plum'",
        "harvest '0 lb plum'",
        "harvest '-1 lb plum'",
        "harvest '20000 kg plum'",
        "harvest '1 lb plum' --on 2026-02-30",
        "harvest '1 lb plum' --on 1899-12-31",
        "harvest '1 lb plum' --on 2027-03-01",
        "harvest '1 lb plum' --at 25:00",
        "harvest '1 lb plum' --replaces ffffffff",
        "harvest '1 lb plum' --colour red",
        "buy '1 lb sugar' --paid -3",
        "meal --ate '2 acres plum' --people 6",
        "putup jam --used '1 lb plum' --method 'boiling water'",
        "putup jam --used '1 lb plum' --made '40 lb' --method drying",
        "putup 'no such recipe' --times 2",
        "putup 'plum butter' --times 0",
        "count '1 lb plum' --when noon",
        "setting colour red",
        "setting altitude",
        "strike",
        "price 'sugar' 3",
        "target '3 lb plum' --per fortnight",
        "show shelf --as-of someday",
        "why nowhere/at:all",
        "history --from someday",
        "history --kind harvestd",
        "history --item plumm",
        "history --limit many",
        "import IN --map none.toml",
        "import IN --encoding klingon",
        "import IN --dates ymd",
        "export BOOK",
        "backup BOOK",
    ],
)
def test_refusal_is_two_one_message_and_an_untouched_book(kept, tmp_path, line):
    source = tmp_path / "in.csv"
    source.write_text("on,kind,item,amount\n2026-09-02,harvested,plum,1 lb\n")
    book = tmp_path / "book.sqlite"
    before = book.read_bytes(), history(kept)
    line = line.replace("IN", shlex.quote(str(source))).replace("BOOK", shlex.quote(str(book)))
    status, out, err = kept(line)
    assert (status, out) == (2, ""), err
    assert err.strip()
    assert "Traceback" not in err
    assert "something went wrong" not in err
    assert (book.read_bytes(), history(kept)) == before


def test_entry_is_corrected_and_struck_by_its_short_id(kept):
    first = json.loads(kept("harvest '9 lb quince' --json")[1])["id"]
    status, _, err = kept(f"harvest '4 lb quince' --replaces {first[:8]}")
    assert status == 0, err
    states = {row["id"]: row["state"] for row in history(kept, "--kind", "harvested")}
    assert states[first] == "corrected"
    left = [r for r in json.loads(kept("show shelf --json")[1])["records"] if r["item"] == "quince"]
    assert len(left) == 1
    status, _, err = kept(f"strike {first[:8]} --why 'written twice'")
    assert status == 0, err
    assert not any(
        r["item"] == "quince" for r in json.loads(kept("show shelf --json")[1])["records"]
    )
    status, out, _ = kept(f"strike {first[:8]}")
    assert (status, out) == (2, "")


def test_dry_run_shows_and_writes_nothing(kept, tmp_path):
    source = tmp_path / "in.csv"
    source.write_text("on,kind,item,amount\n2026-09-02,harvested,medlar,3 lb\n")
    before = history(kept)
    status, out, err = kept(f"import {shlex.quote(str(source))} --dry-run")
    assert status == 0, err
    assert "2026-09-02 picked 3 lb medlar" in out
    assert "1 events would be written" in out
    assert history(kept) == before
    assert kept(f"import {shlex.quote(str(source))}")[0] == 0
    assert len(history(kept, "--item", "medlar")) == 2


def test_recipe_by_its_name_is_scaled_and_weighed_against_the_store(kept):
    status, out, err = kept("putup 'plum butter' --times 1.5 --yes")
    assert status == 0, err
    assert "24 lb plum" in err
    assert "4.5 lb sugar" in err
    assert "16 half-pint jars" in err  # and half a jar for the fridge
    assert "canner load" in err
    assert "a jar" in out
    body = json.loads(kept("history --limit 1 --kind put_up --json")[1])[0]
    assert "plum butter" in body["line"]


def test_unknown_shell_is_refused(capsys):
    assert main(["completion", "tcsh"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "bash" in err


def test_sample_prints_its_two_answers_as_json(kept):
    status, out, err = kept("demo --no-serve --json --until 2026-10-01")  # a book that has events
    assert status == 0, err
    answers = json.loads(out)
    assert set(answers) == {"jar-cost", "shelf"}
    assert {row["item"] for row in answers["shelf"]["records"]} >= {"plum butter", "sugar"}
