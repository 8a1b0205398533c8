"""The command line: what is typed, what comes out, and what a refusal says."""

from __future__ import annotations

import json

import pytest

from ledger.cli import main
from ledger.cli._root import OTHERS
from ledger.kinds import KINDS


@pytest.fixture
def run(tmp_path, monkeypatch, capsys, fixed_day):
    """Run a command on a book of its own; return status, standard output and standard error."""
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "book.sqlite"))

    def go(*words):
        status = main([*words])
        out, err = capsys.readouterr()
        return status, out, err

    return go


@pytest.fixture
def batch(run):
    run(
        "buy",
        "10 lb sugar",
        "24 lid",
        "12 half-pint jar",
        "--paid",
        "8",
        "--paid",
        "6",
        "--paid",
        "12",
        "--on",
        "2026-09-01",
    )
    run("harvest", "31 lb plum", "--on", "2026-09-02")
    words = [
        "--used",
        "16 lb plum",
        "--used",
        "3 lb sugar",
        "--made",
        "11 half-pint jars",
        "--method",
        "boiling water",
        "--minutes",
        "10",
    ]
    return run("putup", "plum butter", *words, "--on", "2026-09-03")


WRITES = {kind.command: kind for kind in KINDS.values()}


def test_root_help_lists_every_kind(run):
    _, out, _ = run("--help")
    said = " ".join(out.split())
    for kind in KINDS.values():
        assert f" {kind.command} {kind.summary}" in said


@pytest.mark.parametrize("command", [*WRITES, *OTHERS])
def test_every_command_teaches_by_example(run, command):
    status, out, _ = run(command, "--help")
    assert status == 0
    assert f"croftbook {command}" in out
    assert "Example" in out


@pytest.mark.parametrize(
    "command", [name for name in WRITES if name not in ("strike", "discard", "give", "settle")]
)
def test_each_writing_command_takes_its_own_example(run, command):
    import shlex

    example = shlex.split(WRITES[command].typed[0].replace("\\\n", " "))
    status, out, err = run(*example, "--yes", "--json")
    assert status == 0, err
    assert json.loads(out)["kind"] == WRITES[command].name


def test_batch_ends_with_its_cost_per_jar(batch):
    status, out, _ = batch
    assert status == 0
    # 2.40 sugar + 11 x 0.25 lids + 11 x 1.00 / 10 years wear = 6.25, 0.5682 a jar; wear is not paid out
    assert "11 half-pint jars: 0.57 a jar, 6.25 USD in all, 5.15 of that out of pocket" in out


def test_near_command_is_offered(run):
    status, out, err = run("harvst", "1 lb plum")
    assert (status, out) == (2, "")
    assert "Did you mean 'harvest'?" in err


@pytest.mark.parametrize(
    "words",
    [
        ("harvest", "3 T sugar"),
        ("harvest", "-3 lb plum"),
        ("harvest", "31 lb plum", "--on", "someday"),
        ("buy", "10 lb sugar"),
        ("buy", "10 lb sugar", "--paid", "lots"),
        ("strike", "ffffffff", "--why", "x"),
        ("show", "weather"),
        ("why", "jar-cost/nothing:1"),
        ("import", "nowhere.jsonl"),
        ("meal", "--ate", "1 lb plum", "--people", "six"),
        ("setting", "altitude", "high"),
    ],
)
def test_bad_input_is_status_two_and_one_message(run, batch, words):
    before = run("history", "--json", "--limit", "0")[1]
    status, out, err = run(*words)
    assert (status, out) == (2, "")
    assert err.strip()
    assert "Traceback" not in err
    assert run("history", "--json", "--limit", "0")[1] == before


def test_doubt_off_a_terminal_is_refused_and_taken_with_yes(run, batch):
    assert run("harvest", "1 lb plumm")[0] == 2
    status, out, _ = run("harvest", "1 lb plumm", "--yes", "--json")
    assert status == 0
    assert json.loads(out)["body"]["lines"][0]["item"] == "plum"


@pytest.mark.parametrize(
    ("word", "day"),
    [
        ("today", "2026-11-01"),
        ("yesterday", "2026-10-31"),
        ("friday", "2026-10-30"),
        ("3 days ago", "2026-10-29"),
        ("sunday", "2026-10-25"),
    ],
)
def test_days_in_words(run, word, day):
    assert json.loads(run("harvest", "1 lb plum", "--on", word, "--json")[1])["on"] == day


def test_answers_as_json_csv_and_a_table_of_eighty_columns(run, batch):
    answer = json.loads(run("show", "jar-cost", "--json")[1])
    assert answer["records"][0]["jars"] == 11
    assert run("show", "shelf", "--csv")[1].startswith("why,lot,eat_first,")
    for name in ("jar-cost", "shelf"):
        out = run("show", name)[1]
        assert "\x1b" not in out
        assert max(map(len, out.splitlines())) <= 80
    tree = json.loads(run("why", answer["records"][0]["why"], "--json")[1])
    assert tree["how"] == "quotient"
    assert "a jar" not in run("why", answer["records"][0]["why"])[2]


def test_correction_and_strike_change_the_answer_and_stay_in_the_history(run, batch):
    bought = json.loads(run("history", "--kind", "bought", "--json")[1])[0]["id"]
    words = [
        "10 lb sugar",
        "24 lid",
        "12 half-pint jar",
        "--paid",
        "18",
        "--paid",
        "6",
        "--paid",
        "12",
        "--on",
        "2026-09-01",
    ]
    assert run("buy", *words, "--replaces", bought[:8])[0] == 0
    cost = json.loads(run("show", "jar-cost", "--json")[1])["records"][0]["cost"]
    assert cost["bought_ingredients"] == pytest.approx(18 * 3 / 10)
    assert run("strike", bought[:8], "--why", "another household's")[0] == 0
    states = [row["state"] for row in json.loads(run("history", "--limit", "0", "--json")[1])]
    assert "struck" in states


def test_recipe_is_scaled_and_shows_what_it_takes(run, batch):
    words = [
        "--makes",
        "plum butter",
        "--uses",
        "4 lb plum",
        "--uses",
        "1 lb sugar",
        "--yields",
        "4 half-pint jars",
        "--method",
        "boiling water",
    ]
    assert run("recipe", "plum butter", *words)[0] == 0
    status, out, err = run("putup", "plum butter", "--times", "1.5", "--yes", "--on", "2026-09-04")
    assert status == 0
    assert "6 half-pint jars" in out
    assert "6 lb plum" in err
    assert "canner load" in err


def test_files_go_round(run, batch, tmp_path, monkeypatch):
    first, second = tmp_path / "a.jsonl", tmp_path / "b.jsonl"
    assert run("export", str(first))[0] == 0
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "other.sqlite"))
    assert run("import", str(first), "--dry-run")[0] == 0
    assert run("import", str(first))[0] == 0
    assert run("export", str(second))[0] == 0
    assert first.read_bytes() == second.read_bytes()
    assert run("check", "--head", str(first))[0] == 0
    assert run("backup", str(tmp_path / "copy.sqlite"))[0] == 0


@pytest.mark.parametrize("name", ["b.csv", "b.XLSX"])
def test_export_is_no_table(run, tmp_path, name):
    status, _, err = run("export", str(tmp_path / name))
    assert status == 2
    assert "JSON Lines" in err
    assert "--csv" in err
    assert not (tmp_path / name).exists()


def test_bad_import_says_the_line(run, tmp_path):
    path = tmp_path / "bad.jsonl"
    path.write_text('{"kind": "harvested", "on": "2026-09-03", "body": {"item": "plum"}}\n')
    status, _, err = run("import", str(path))
    assert status == 2
    assert "line 1" in err
    assert "amount" in err


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_printed(run, shell):
    assert "_CROFTBOOK_COMPLETE" in run("completion", shell)[1]


@pytest.mark.parametrize(
    "words", [("harvest", "3 lb plum"), ("count", "3 lb plum"), ("say", "picked 3 lb plums")]
)
def test_a_day_to_come_is_asked_of_what_happened(run, words):
    status, _, err = run(*words, "--on", "tomorrow")
    assert status == 2
    assert "on: " in err
    assert "is still to come; is the day right?" in err
    assert run(*words, "--on", "tomorrow", "--yes")[0] == 0


def test_a_setting_may_hold_from_tomorrow_on(run):
    assert run("setting", "labour_rate", "12", "--on", "tomorrow")[0] == 0


@pytest.mark.parametrize(
    ("words", "option"),
    [
        (("strike", "12345678"), "Give it with --why"),
        (("discard", "1 lb plum"), "Give it with --why"),
        (("practise", "canning"), "Give it with --people"),
    ],
)
def test_a_refusal_names_the_option_that_is_missing(run, words, option):
    status, _, err = run(*words)
    assert status == 2
    assert option in err


def test_two_things_in_one_word_are_two_lines(run):
    status, _, err = run("count", "3 quart jars beef stew, 2 lb flour")
    assert status == 2
    assert "'3 quart jars beef stew' and '2 lb flour'" in err
    assert run("count", "2 lb pork and beans")[0] == 0


def test_refusal_names_the_line_as_it_was_typed(run):
    assert run("buy", "10 lb sugar")[2].startswith("croftbook: paid: is missing. What was paid")
    status, out, err = run("buy", "10 lb sugar", "24 lid", "--paid", "7.90", "--paid", "lots")
    assert (status, out) == (2, "")
    assert err.startswith("croftbook: paid: 'lots' is not a number of zero or more")
    assert "(24 lid)" in err
    run("harvest", "1 lb plum")
    err = run("harvest", "10 lb plum", "0 plum")[2]
    assert err.startswith("croftbook: amount: ")
    assert "line 2" in err
    assert "lines[" not in err


@pytest.mark.parametrize(
    ("word", "day"),
    [
        ("2026-12-24", "2026-12-24"),
        ("1 Nov", "2026-11-01"),
        ("31 Oct", "2027-10-31"),
        ("next friday", "2026-11-06"),
        ("sunday", "2026-11-08"),
        ("monday", "2026-11-02"),
        ("in 3 weeks", "2026-11-22"),
        ("tomorrow", "2026-11-02"),
    ],
)
def test_by_of_a_target_is_a_day_to_come_and_its_writer_a_person(run, word, day):
    status, out, err = run("target", "24 lb plum", "--by", word, "--person", "Ada", "--json")
    assert status == 0, err
    assert json.loads(out)["body"]["by"] == day
    (row,) = json.loads(run("history", "--kind", "target", "--json")[1])
    assert (row["by"], row["line"]) == ("Ada", f"target: 24 lb plum by {day}")


def test_by_of_a_target_that_is_no_day_is_refused(run):
    status, out, err = run("target", "24 lb plum", "--by", "Ada")
    assert (status, out) == (2, "")
    assert err.startswith("croftbook: by: 'Ada' is not a day")
    assert "1 Nov" in err


def test_by_of_a_target_in_a_sheet_is_its_day(run, tmp_path):
    path = tmp_path / "wanted.csv"
    path.write_text(
        "on,kind,item,amount,by,person\n"
        "2026-09-02,target,plum,24 lb,1.12.2026,Ada\n2026-09-02,harvested,pear,2 lb,Ben,\n"
    )
    status, _, err = run("import", str(path), "--dates", "dmy")
    assert status == 0, err
    rows = json.loads(run("history", "--json")[1])
    by = {row["kind"]: (row["by"], row["line"]) for row in rows}
    assert by["target_set"] == ("Ada", "target: 24 lb plum by 2026-12-01")
    assert by["harvested"][0] == "Ben"


def test_backup_replaces_a_file_only_when_told(run, batch, tmp_path):
    copy = tmp_path / "copy.sqlite"
    assert run("backup", str(copy))[0] == 0
    first = copy.read_bytes()
    run("harvest", "1 lb pear")
    status, out, err = run("backup", str(copy))
    assert (status, out) == (2, "")
    assert "is there already" in err
    assert "--force" in err
    assert copy.read_bytes() == first
    assert run("backup", str(copy), "--force")[0] == 0
    assert copy.read_bytes() != first


@pytest.mark.parametrize(
    "option", [("--encoding", "latin-1"), ("--encoding", "utf-16"), ("--dates", "dmy")]
)
def test_options_of_sheets_are_refused_for_json_lines(run, batch, tmp_path, option):
    path = tmp_path / "in.jsonl"
    path.write_text(
        '{"kind": "harvested", "on": "2026-09-03", "body": {"item": "plum", "amount": "1 lb"}}\n'
    )
    status, out, err = run("import", str(path), *option)
    assert (status, out) == (2, "")
    assert option[0].removeprefix("--") in err
    assert run("import", str(path), "--encoding", "UTF-8")[0] == 0


def test_history_says_what_an_item_is_in_words(run):
    words = ["--keeps", "shelf 12 months", "--keeps", "fridge 4 days", "--g-per", "cup 250"]
    run("item", "plum butter", "--sort", "food", *words, "--also", "plum spread")
    (row,) = json.loads(run("history", "--json")[1])
    assert row["line"] == (
        "plum butter is food (one cup 250 g, keeps 12 months on the shelf, 4 days in the fridge, "
        "also plum spread)"
    )


def test_sort_of_an_item_in_the_book_need_not_be_said_again(run, batch):
    assert run("harvest", "3 plum")[0] == 0
    status, _, err = run("item", "Plums", "--g-per", "piece 60")
    assert status == 0, err
    assert run("harvest", "3 plum")[0] == 0
    status, _, err = run("item", "half-pint jar", "--years", "10", "--json")
    assert status == 0, err
    (row,) = json.loads(run("history", "--kind", "item", "--json", "--limit", "1")[1])
    assert row["line"].startswith("half-pint jar is a jar")


def test_sort_of_a_new_item_is_asked_for_by_name(run, batch):
    status, out, err = run("item", "garlic", "--g-per", "clove 5")
    assert (status, out) == (2, "")
    assert "sort: is missing, and 'garlic' is not in the book yet" in err
    assert "--sort: food, jar, lid" in err
    assert "Did you mean 'plum'?" in run("item", "plumm", "--g-per", "piece 60")[2]


def test_count_may_find_nothing(run, batch):
    assert run("count", "0 lb sugar")[0] == 0
    _, out, _ = run("show", "shelf", "--json")
    assert "sugar" not in {record["item"] for record in json.loads(out)["records"]}


def test_uses_and_years_of_an_item_are_numbers(run):
    said = ("--sort", "jar", "--holds", "1 qt", "--uses", "20", "--years", "10")
    status, out, _ = run("item", "stone crock", *said)
    assert status == 0
    assert "20 uses" in out
