"""Before a batch: process, needs, reminders; as it is written: slips asked about; other methods."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from ledger import Book
from ledger.published import (
    BatchDone,
    JarsDone,
    Used,
    before_batch,
    boiling_point_f,
    doubts_of,
    expected_jars,
    judge_other,
    unsealed_jars,
)
from ledger.published.finding import find, only_as
from ledger.published.other import has_figures
from ledger.published.words import label, says
from ledger.questions.as_published.words import process_words
from ledger.reference.schedules import products


def test_one_process_with_needs_and_steps():
    found = before_batch(
        "green beans",
        jar="quart jar",
        pack="raw",
        method="pressure",
        gauge="dial",
        altitude_ft=F(2600),
    )
    (one,) = found.processes
    assert (one.minutes, one.psi, one.headspace_in) == (25, 12, 1)
    needs = {need.what: need.amount for need in found.needs}
    assert needs["quart jars"] == "7"
    assert needs["new lids"] == "7"
    assert any("14 lb" in amount for amount in needs.values())
    assert all(step.source for step in found.steps)
    assert [s.text for s in found.steps if "25 minutes" in s.text and "12 psi" in s.text]
    assert not found.questions


def test_options_are_shown_side_by_side():
    found = before_batch(
        "crushed tomatoes", jar="pint", gauge="weighted", method="pressure", altitude_ft=F(900)
    )
    assert [(p.minutes, p.psi) for p in found.processes] == [(20, 5), (15, 10), (10, 15)]


def test_unknown_altitude_is_asked_for():
    found = before_batch("green beans", jar="quart jar")
    assert found.processes == ()
    assert any("altitude" in q for q in found.questions)


def test_method_that_is_not_printed_is_said():
    found = before_batch("green beans", jar="quart jar", method="boiling water", altitude_ft=F(100))
    assert found.processes == ()
    assert any("published for pressure only" in q for q in found.questions)


@pytest.mark.parametrize("jar", ["half-gallon jar", "1 l jar"])
def test_jar_that_is_not_printed_is_said(jar):
    found = before_batch(
        "green beans", jar=jar, method="pressure", gauge="dial", altitude_ft=F(100)
    )
    assert found.processes == ()
    assert any("not for a" in q for q in found.questions)


def test_short_process_takes_sterile_jars():
    """Bulletin 539: sterile jars where the boiling-water process is under 10 minutes."""
    jam = before_batch("strawberry jam", jar="half-pint jar", altitude_ft=F(500))
    assert any("sterile" in step.text for step in jam.steps)
    higher = before_batch("strawberry jam", jar="half-pint jar", altitude_ft=F(2600))
    assert not any("sterile" in step.text for step in higher.steps)


# Published quantities, typed from the "Quantity" lines of the same documents: pounds for 7 quarts and 9 pints
@pytest.mark.parametrize(
    ("words", "jar", "pounds"),
    [
        ("green beans", "quart jar", "14"), ("green beans", "pint jar", "9"), ("carrots", "quart jar", "17.5"),
        ("beets", "pint jar", "13.5"), ("whole kernel corn", "quart jar", "31.5"),
        ("crushed tomatoes", "quart jar", "22"),
        ("tomato juice", "quart jar", "23"), ("asparagus", "pint jar", "16"), ("spinach", "quart jar", "28"),
        ("kidney beans", "quart jar", "5"), ("applesauce", "quart jar", "21"), ("grape juice", "quart jar", "24.5"),
        ("grapes", "pint jar", "9"), ("apples", "pint jar", "12.25"),
    ],
)  # fmt: skip
def test_fresh_produce_for_a_load_as_printed(words, jar, pounds):
    found = before_batch(words, jar=jar)
    assert any(need.amount.startswith(f"about {pounds} lb") for need in found.needs)


@pytest.mark.parametrize(
    ("feet", "degrees"), [(0, 212.0), (2000, 208.4), (5000, 202.9), (8000, 197.4)]
)
def test_boiling_point_is_information(feet, degrees):
    """Water at 5,000 ft boils at about 203 degrees F: common extension tables (from memory)."""
    assert boiling_point_f(feet) == pytest.approx(degrees, abs=0.2)


def sauce(jars, pounds=31.0, loads=None):
    used = (Used("tomato", f"{pounds} lb", pounds * 453.59237),)
    return BatchDone(
        "tomato sauce", "boiling water", (JarsDone("pint jar", jars),), used, loads=loads
    )


def test_slip_of_a_digit_is_asked_about():
    """31 lb: by the bushel of 53 lb and 7 to 12 quarts of sauce, 8 to 15 pints."""
    (doubt,) = doubts_of(sauce(70))
    assert "31 lb gave 70 pints: published range 8 to 15" in doubt.question
    assert doubt.question.endswith("?")
    assert doubts_of(sauce(12)) == []
    assert [d.code for d in doubts_of(sauce(1))] == ["yield"]


def test_published_range_of_plums():
    """A bushel of 56 lb gives 22 to 36 quarts: 31 lb give 12.2 to 19.9, or 24 to 40 pints."""
    low, high, _ = expected_jars("plums", F(31), "pint")
    assert (low, high) == (24, 40)
    assert expected_jars("plums", F(31), "quart")[:2] == (12, 20)


def test_jars_a_load_are_asked_about():
    assert [d.code for d in doubts_of(sauce(12, loads=1))] == ["load"]
    assert doubts_of(sauce(12, loads=2)) == []
    assert doubts_of(sauce(12, loads=1), loads={"pint jar": 14}) == []


def test_energy_beyond_fat_is_asked_about():
    assert [d.code for d in doubts_of(sauce(12), kcal=100_000, grams_made=5000)] == ["energy"]
    assert doubts_of(sauce(12), kcal=2500, grams_made=5000) == []


@pytest.mark.parametrize(
    ("salt", "pounds", "kind"),
    [
        ("3 tbsp", 5, "as published"), ("15 tbsp", 25, "as published"), ("3/4 cup", 25, "as published"),
        ("1/2 cup", 25, "short of it"), ("2 cup", 25, "beyond it"), ("10 oz", 25, "to check yourself"),
        ("7 oz", 25, "short of it"),
    ],
)  # fmt: skip
def test_salt_in_kraut(salt, pounds, kind):
    """Michigan State University 01600078: 3 tbsp for 5 lb; 3/4 cup for 25 lb; both as printed."""
    grams = 283.5 if "oz" in salt else None
    used = (Used("cabbage", f"{pounds} lb", pounds * 453.59237), Used("salt", salt, grams))
    found = {f.field: f for f in judge_other(BatchDone("sauerkraut", "ferment", (), used)).findings}
    assert found["salt"].kind == kind


@pytest.mark.parametrize(
    ("inches", "kind"),
    [
        (None, "not recorded"),
        (F(1, 2), "short of it"),
        (F(1), "to check yourself"),
        (F(3, 2), "as published"),
    ],
)
def test_headspace_in_the_freezer(inches, kind):
    batch = BatchDone("winter soup", "freeze", (JarsDone("quart jar", 7),), headspace_in=inches)
    found = {f.field: f for f in judge_other(batch).findings}
    assert found["headspace"].kind == kind


def test_conditioning_and_vinegar_are_asked_about():
    dried = {f.field: f for f in judge_other(BatchDone("dried apple", "dry")).findings}
    assert "about 7 days" in dried["conditioning"].published
    assert "135 to 140" in dried["temperature"].published
    pickles = BatchDone("onions", "pickle cold", (), (Used("vinegar", "1 qt"),))
    (acid,) = judge_other(pickles).findings
    assert (acid.field, acid.kind) == ("acid", "to check yourself")
    assert "strength was not written down" in acid.text


def test_jars_that_did_not_seal_by_citation():
    texts = [one.text for one in unsealed_jars()]
    assert any("Within 24 hours" in text for text in texts)
    assert any("refrigerator" in text for text in texts)
    assert any("1 1/2 in of room" in text for text in texts)


@pytest.mark.parametrize(
    ("method", "makes", "kept", "standing"),
    [
        ("jam uncooked", "freezer jam", ("freezer",), "as published"),
        ("jam uncooked", "freezer jam", ("shelf",), "against every published process"),
        ("jam uncooked", "freezer jam", ("freezer", "cellar"), "against every published process"),
        ("pickle cold", "cold pickles", ("fridge",), "to check yourself"),
        ("pickle cold", "cold pickles", ("shelf",), "against every published process"),
        ("ferment", "kimchi", ("fridge",), "no published process"),
    ],
)
def test_where_it_is_kept_counts(method, makes, kept, standing):
    """Uncooked jam, 3 weeks in a refrigerator, else a freezer: entry 01600300 of the MSU database."""
    used = (Used("vinegar 5%", "1 qt"), Used("cucumber", "4 lb"))
    batch = BatchDone(makes, method, (JarsDone("pint jar", 4),), used, kept=kept)
    found = judge_other(batch)
    assert found.standing == standing
    assert all("safe" not in one.text for one in found.findings)


@pytest.mark.parametrize(
    ("makes", "held"),
    [("sauerkraut", True), ("kimchi", True), ("sourdough starter", False), ("hard cider", False)],
)
def test_bread_starters_and_drinks_are_for_other_tables(makes, held):
    assert has_figures(makes, "ferment") is held


# Guide 6 of AIB 539 prints pickles of these vegetables, and no guide prints them by themselves.
@pytest.mark.parametrize(
    ("food", "product"),
    [
        ("zucchini", "pickled bread-and-butter zucchini"),
        ("zucchini in water", "pickled bread-and-butter zucchini"),
        ("onion", "pickled pearl onions"),
        ("cauliflower", "pickled cauliflower or Brussels sprouts"),
        ("Blumenkohl", "pickled cauliflower or Brussels sprouts"),
        ("cucumber", "quick fresh-pack dill pickles"),
    ],
)
def test_plain_food_is_told_from_the_pickle_that_is_printed(food, product):
    found = before_batch(food, jar="pint jar", altitude_ft=F(500))
    assert says(found.only_as, "finding-none-for")
    assert food in found.only_as
    assert product in found.only_as
    lines = process_words(found, whole=True)
    assert lines[0] == found.only_as
    minutes = [line for line in lines if "minutes in boiling water" in line]
    assert minutes
    assert all(
        line.startswith(f"{label(one.schedule.product)}: ")
        for line, one in zip(minutes, found.processes, strict=True)
    )


def test_plain_food_is_told_so_before_the_altitude_is_known():
    found = before_batch("zucchini", jar="pint jar")
    assert not found.processes
    assert process_words(found, whole=True)[0] == found.only_as


def test_food_with_a_process_by_another_method_is_told_so():
    found = before_batch("banana pepper", method="boiling water", altitude_ft=F(500))
    assert says(found.only_as, "finding-none-with")
    assert before_batch("banana pepper", method="pressure", altitude_ft=F(500)).only_as is None


def test_names_of_products_are_no_plain_food():
    names = [name for one in products().values() for name in (*one.names, one.label)]
    assert [name for name in names if only_as(name, find(name).candidates)] == []
    for name in ("jam", "potato soup", "Zwiebeln in Essig", "pickled courgettes", "green beans"):
        assert not only_as(name, find(name).candidates)


@pytest.mark.parametrize(
    ("food", "method"),
    [
        ("zucchini", None),  # kinds.csv: no process alone, only pickled
        ("zucchini", "pressure"),
        ("mashed pumpkin", "pressure"),  # KSU_PUMPKIN: no process in any canner
        ("green beans", "boiling water"),  # pressure only (USDA Complete Guide, guide 4)
        ("green beans", "oven"),
        ("broccoli", None),
    ],
)
def test_nothing_is_to_be_ready_for_a_process_that_is_not_there(food, method):
    found = before_batch(food, jar="pint jar", method=method, altitude_ft=F(500), jars=9)
    assert found.needs == ()
    assert not any("ready" in line for line in process_words(found, whole=True))
    good = before_batch("green beans", jar="pint jar", method="pressure", altitude_ft=F(500))
    assert "new lids" in [need.what for need in good.needs]


def test_a_recipe_beside_plain_food_is_told_so_before_its_minutes():
    """Chile peppers are printed plain, in chile con carne, in salsa and in vinegar (guides 3 to 6)."""
    found = before_batch("chile", altitude_ft=F(500), gauge="dial")
    lines = [line for line in process_words(found, whole=True) if " minutes " in line]
    plain = [line for line in lines if line.startswith("peppers, hot or sweet: hot pack")]
    others = [line for line in lines if ": by that recipe only: " in line]
    assert len(plain) == 2
    assert {line.partition(":")[0] for line in others} == {
        "chile con carne",
        "chile salsa (hot tomato-pepper sauce)",
        "pickled hot peppers",
    }
    assert len(plain) + len(others) == len(found.processes)
    assert before_batch("beans", altitude_ft=F(500)).recipes == ()
    assert before_batch("pickled beets", altitude_ft=F(500)).recipes == ()
    assert any(note.startswith("chile con carne: ") for note in found.notes)


def test_page_of_a_plain_food_names_the_pickle_first(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        book.write("setting_changed", name="altitude", value="500 ft", on="2026-01-01")
        records = list(book.show("as-published", product="zucchini").records())
        assert records
        for record in records:
            assert record["item"] == "pickled bread-and-butter zucchini"
            assert says(record["text"], "finding-only-as")
            assert "zucchini: hot pack" in record["text"]
