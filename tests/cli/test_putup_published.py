"""A batch at the command line beside what is published; cautions; slips of a digit.

Snap beans under pressure: pints 20 minutes, quarts 25 minutes, 11 psi dial gauge at 0 to 2,000 ft, 12 at 2,001
to 4,000 ft (USDA AIB 539, as in entry 01600883 of Michigan State University Extension's database).
"""

from __future__ import annotations

import json

import pytest

from ledger import Book
from ledger.cli import main

BEANS = [
    "--used",
    "14 lb green bean",
    "--method",
    "pressure",
    "--gauge",
    "dial",
    "--pack",
    "hot",
    "--headspace",
    "1 in",
]


@pytest.fixture
def run(tmp_path, monkeypatch, capsys, fixed_day):
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "book.sqlite"))

    def go(*words):
        status = main([*words])
        out, err = capsys.readouterr()
        return status, out, err

    go("setting", "altitude", "2600 ft", "--on", "2026-01-01")
    go("harvest", "60 lb green bean", "31 lb tomato", "--on", "2026-08-01")
    return go


def test_quarts_processed_like_pints_fall_short(run):
    status, out, _ = run(
        "putup",
        "canned green bean",
        *BEANS,
        "--made",
        "7 quart jars",
        "--minutes",
        "20",
        "--psi",
        "12",
        "--on",
        "2026-08-02",
        "--yes",
    )
    assert status == 0
    assert "published schedule: short of it" in out
    assert "minutes" in out


def test_caution_is_shown_once(run):
    words = [*BEANS, "--made", "7 quart jars", "--minutes", "25", "--psi", "12", "--yes"]
    first = run("putup", "canned green bean", *words, "--on", "2026-08-02")
    again = run("putup", "canned green bean", *words, "--on", "2026-08-03")
    assert "botulism" in first[2].lower()
    assert "botulism" not in again[2].lower()
    assert "published schedule: as published" in again[1]


def test_slip_of_a_digit_is_asked_about(run):
    words = [
        "--used",
        "31 lb tomato",
        "--method",
        "boiling water",
        "--minutes",
        "45",
        "--on",
        "2026-08-02",
    ]
    status, out, err = run("putup", "crushed tomatoes", *words, "--made", "170 pint jars")
    assert (status, out) == (2, "")
    assert "170" in err


def test_slip_is_taken_and_noted_with_yes(run):
    words = ["--method", "pressure", "--minutes", "20", "--on", "2026-08-02", "--yes"]
    made = ["--used", "31 lb green bean", "--made", "70 pint jars"]
    status, out, err = run("putup", "canned green bean", *made, *words)
    assert status == 0
    assert "31 lb gave 70 pints" in err
    assert "put up 70" in out


def test_json_holds_the_findings(run):
    words = [*BEANS, "--made", "7 quart jars", "--minutes", "20", "--psi", "12", "--yes"]
    _, out, _ = run("putup", "canned green bean", *words, "--on", "2026-08-02", "--json")
    (record,) = json.loads(out)["as_published"]
    (short,) = [f for f in record["findings"] if f["kind"] == "short of it"]
    assert (short["field"], short["published"], short["done"]) == ("minutes", 25, 20)


def events(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        return book.log.position()


@pytest.mark.parametrize(("jar", "minutes"), [("pint", 20), ("quart", 25)])
def test_before_shows_the_process_and_writes_nothing(run, tmp_path, jar, minutes):
    held = events(tmp_path)
    words = ["--made", f"7 {jar} jars", "--pack", "raw", "--gauge", "dial"]
    status, out, _ = run("putup", "green beans", *words, "--before")
    assert status == 0
    assert f"{minutes} minutes at 12 psi on a dial gauge" in out
    assert "guide 4 p 9" in out
    assert "vouches for no food" in out
    assert events(tmp_path) == held


def test_before_takes_altitude_as_given_before_the_setting(run):
    words = ["--made", "7 quart jars", "--pack", "raw", "--gauge", "dial", "--altitude", "1000 ft"]
    _, out, _ = run("putup", "green beans", *words, "--before", "--json")
    (found,) = json.loads(out)
    assert [(p["minutes"], p["psi"]) for p in found["processes"]] == [(25, 11)]


def test_before_reads_a_recipe_and_writes_nothing(run, tmp_path):
    made = [
        "--makes",
        "canned green bean",
        "--uses",
        "14 lb green bean",
        "--yields",
        "7 quart jars",
    ]
    wrote, _, refused = run("recipe", "our beans", *made, "--method", "pressure", "--yes")
    assert wrote == 0, refused
    held = events(tmp_path)
    words = ["--recipe", "our beans", "--gauge", "dial", "--pack", "hot", "--before"]
    status, out, err = run("putup", *words)
    assert status == 0, err
    assert "hot pack, quarts, 25 minutes at 12 psi" in out
    assert events(tmp_path) == held


def test_before_of_a_name_without_process_gives_no_figures(run):
    status, out, _ = run("putup", "cream of leek soup", "--made", "7 quart jars", "--before")
    assert status == 0
    assert "No process can be shown" in out
    assert " psi" not in out


BOILED = ["--used", "14 lb snap bean", "--made", "7 quart jars", "--method"]


@pytest.mark.parametrize("method", ["boiling water", "water-bath", "oven"])
def test_little_acid_in_boiling_water_is_said_before_any_question_or_refusal(run, method):
    status, out, err = run("putup", "snap beans", *BOILED, method, "--went", "9")
    assert status == 2  # the mark, or the method's word, is refused after
    assert out == ""
    assert err.startswith("CAUTION: snap beans, snap bean: food of little acid.")
    assert err.index("botulism") < err.index("croftbook: ")


def test_little_acid_is_said_once_and_before_what_was_written(run):
    done = ["--minutes", "60", "--yes", "--on", "2026-08-02"]
    words = ["--used", "14 lb green bean", "--made", "7 quart jars", "--method", "boiling water"]
    status, out, err = run("putup", "canned green bean", *words, *done)
    assert status == 0
    assert err.startswith("CAUTION: canned green bean, green bean: ")
    assert err.count("CAUTION: ") == 1
    assert "as published" not in out.partition("published schedule: ")[2].splitlines()[0]
    asked = run("show", "as-published")[1]
    assert asked.startswith("CAUTION: canned green bean, green bean: ")


def test_question_of_little_acid_in_boiling_water_begins_with_the_caution(run):
    words = ["as-published", "--product", "carrots", "--method", "boiling water"]
    assert run("show", *words)[1].startswith("CAUTION: carrots: food of little acid.")
    assert "CAUTION" not in run("show", *words[:-1], "pressure")[1]


def test_long_comparison_is_pointed_to(run):
    words = ["--used", "20 lb tomato", "--used", "2 lb green bean", "--made", "7 quart jars"]
    done = ["--method", "pressure", "--minutes", "25", "--yes", "--on", "2026-08-02"]
    status, out, _ = run("putup", "garden pot", *words, *done)
    assert status == 0
    assert "For comparison only" not in out
    assert "what to do, and documents: croftbook show as-published --batch " in out


def test_batches_are_told_line_by_line_within_eighty_columns(run):
    made = ("--made", "7 quart jars", "--minutes")
    run(
        "putup", "canned green bean", *BEANS, *made, "25", "--psi", "12", "--on", "2026-08-02", "-y"
    )
    run(
        "putup", "canned green bean", *BEANS, *made, "20", "--psi", "12", "--on", "2026-08-03", "-y"
    )
    status, out, _ = run("show", "as-published", "--as-of", "2026-08-10")
    assert status == 0
    lines = out.splitlines()
    assert all(len(line) <= 80 for line in lines)
    at = next(n for n, line in enumerate(lines) if "short of it" in line)
    assert lines[at + 1].startswith("    minutes: Published: 25 minutes (quarts, hot pack")
    # a batch that is as published takes one line
    good = next(line for line in lines if "as published" in line)
    assert lines[lines.index(good) + 1] == lines[at]
    assert "2 batches: 1 short of it, 1 as published." in out


def test_one_batch_says_what_was_reached_and_what_to_do(run):
    made = ("--made", "7 quart jars", "--minutes", "20", "--psi", "12", "--on", "2026-08-03", "-y")
    run("putup", "canned green bean", *BEANS, *made)
    _, listed, _ = run("show", "as-published", "--as-of", "2026-08-03", "--json")
    batch = json.loads(listed)["records"][0]["batch"]
    _, out, _ = run("show", "as-published", "--as-of", "2026-08-03", "--batch", batch[:8])
    text = " ".join(out.split())
    assert "as published: product, method, jar, pack, gauge, altitude, pressure, headspace" in text
    assert "That is 5 minutes short." in text
    assert "document: Preserving Food Safely database" in text
    assert "within 2 hours; only jars that had the right process and did not seal" in text


def test_a_process_names_each_document_once(run):
    words = ("--product", "green beans", "--jar", "quart jar", "--pack", "raw", "--gauge", "dial")
    _, out, _ = run("show", "as-published", *words)
    assert "25 minutes at 12 psi on a dial gauge" in " ".join(out.split())
    assert out.count("guide 4 p 9") == 1
    assert "6. Let steam flow for 10 minutes before closing the vent. [4]" in out
    assert "[2] common practice, no source" in out


def test_what_an_entry_cannot_hold_is_left_to_the_reader(run):
    run("harvest", "20 lb apple", "--on", "2026-09-01")
    words = ("--used", "10 lb apple", "--made", "1 lb", "--method", "dry", "--on", "2026-09-02")
    status, out, _ = run("putup", "dried apple", *words, "--yes")
    assert status == 0
    assert "to check yourself" in out
    _, asked, _ = run("show", "as-published", "--as-of", "2026-09-02", "--json")
    (record,) = json.loads(asked)["records"]
    assert record["standing"] == "to check yourself"
    assert {one["kind"] for one in record["findings"]} == {"to check yourself"}


@pytest.mark.parametrize(("product", "said"), [("pumpkin butter", True), ("plum butter", False)])
def test_a_question_without_a_method_says_little_acid_where_nothing_is_printed(run, product, said):
    _, out, _ = run("show", "as-published", "--product", product)
    assert out.startswith(f"CAUTION: {product}") == said


def test_several_products_of_one_name_are_told_apart(run):
    _, out, _ = run("putup", "tomatoes", "--made", "7 quart jars", "--before", "--gauge", "dial")
    lines = [line for line in out.splitlines() if " minutes " in line and "[" in line]
    printed = lines[: next(n for n, line in enumerate(lines) if not line.startswith("tomatoes,"))]
    assert len(printed) > 3
    assert "In this order (for the first of them):" in out


def test_one_batch_is_whole_and_its_cautions_agree(run):
    words = ["--used", "14 lb cucumber", "--used", "2 qt vinegar 5%", "--used", "3 qt water"]
    done = ["--method", "boiling water", "--minutes", "10", "--altitude", "500 ft"]
    run("putup", "dill pickle", *words, *done, "--made", "7 quart jars", "--on", "2026-08-02", "-y")
    _, out, err = run("show", "as-published", "--as-of", "2026-08-04", "--item", "dill pickle")
    text = " ".join(f"{out} {err}".split())
    for said in (
        "Done: 8 cup, where 10.5 is printed",
        "That is 5 minutes short.",
        "headspace: Published headspace: 1/2 in.",
        "method: Published for boiling water.",
        "More than 2 hours after the process, or where that is not known: do not taste it",
    ):
        assert said in text
    assert "..." not in out
    assert "with all its acid" in text
    assert "pressure" not in text.partition("As of")[0].partition("; see")[0]


def test_batch_that_is_not_there_is_refused(run):
    status, _, err = run("show", "as-published", "--batch", "WRONG")
    assert status == 2
    assert "there is no batch 'WRONG'" in err


STEW = ["beef stew", "--used", "3 lb beef", "--used", "2 lb potato", "--method", "cook"]


def test_jars_of_a_cook_without_a_place_are_told_where_they_are_taken_to_stand(run):
    status, _, err = run("putup", *STEW, "--made", "4 quart jars")
    assert status == 0
    assert "Where do the jars of beef stew stand? No place was said" in err
    assert "3 to 4 days" in err
    assert "USDA Food Safety and Inspection Service" in err
    assert "Taken: in the refrigerator" in err
    for place in ("fridge", "shelf"):
        assert "No place was said" not in run("putup", *STEW, "--made", f"4 quart jars {place}")[2]


def test_jars_of_an_oven_without_a_place_stay_marked_once_written(run):
    oven = ["--note", "closed in the oven", "--json"]
    status, out, err = run("putup", *STEW, "--made", "4 quart jars", *oven)
    assert status == 0
    assert err.startswith("CAUTION: ")
    assert json.loads(out)["as_published"][0]["standing"] == "against every published process"
    shelf = run("show", "shelf")[1]
    assert "against every published process" in " ".join(shelf.split())
    cold = run("putup", *STEW, "--made", "5 quart jars fridge", *oven, "--yes")
    assert not json.loads(cold[1]).get("as_published")


def test_each_sort_of_danger_has_its_own_caution(run):
    for food in ("green beans", "tomatoes", "figs"):
        made = ["--used", f"12 lb {food}", "--made", "4 quart jars"]
        run("putup", food, *made, "--method", "boiling water", "--minutes", "60", "--yes")
    first, second = (
        one for one in run("show", "as-published")[1].split("\n\n") if one.startswith("CAUTION")
    )
    assert "green bean:" in first
    assert "whole published pressure process anew" in " ".join(first.split())
    assert "tomato, fig" in second
    assert "pressure" not in second
