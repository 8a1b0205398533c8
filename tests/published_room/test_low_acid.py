"""Food of little acid in boiling water: said first, and said of nothing else.

What is low in acid: USDA Complete Guide to Home Canning (2015), guides 3 (tomatoes), 4 (vegetables)
and 5 (meats), whose tables print a pressure process only.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from ledger.published import (
    BatchDone,
    JarsDone,
    Used,
    batch_as_typed,
    before_batch,
    caution_before,
    doubts_of,
)
from ledger.published.finding import find, lines_of
from ledger.reference.schedules import products


def caution(makes, method, used=()):
    return caution_before(batch_as_typed({"makes": makes, "method": method, "used": list(used)}))


WORDS = ("boiling water", "water-bath", "Water bath", "steamer", "open kettle", "oven")


@pytest.mark.parametrize("method", WORDS)
@pytest.mark.parametrize(
    "food", ["green beans", "carrots", "corn", "beets", "asparagus", "chicken", "stock", "peas", "dry beans"]
)  # fmt: skip
def test_food_published_for_pressure_only_is_said_first(food, method):
    said = caution(food, method)
    assert said.startswith(f"CAUTION: {food}: food of little acid.")
    assert "botulism" in said
    assert "do not taste" in said


@pytest.mark.parametrize("method", ["pressure", "freeze", "dry", "ferment", "cellar", None])
def test_other_methods_are_let_be(method):
    assert caution("green beans", method) is None


@pytest.mark.parametrize("product", sorted(products()))
def test_every_published_product_by_its_own_tables(product):
    name = products()[product].label
    fit = find(name).candidates
    boiled = any(lines_of(one, "boiling water") for one in fit)
    tomato = products()[product].group == "tomato" or "fig" in name or "Asian" in name
    if boiled and tomato:
        return  # on the border: the caution stands until its acid is written down, tested below
    assert (caution(name, "boiling water") is None) == boiled


@pytest.mark.parametrize("food", ["crushed tomatoes", "figs", "Asian pears"])
def test_food_on_the_border_is_cautioned_until_its_acid_is_written_down(food):
    said = {"makes": food, "method": "boiling water", "used": [f"10 lb {food}"]}
    assert caution_before(batch_as_typed(said)).startswith(f"CAUTION: {food}")
    assert caution_before(batch_as_typed({**said, "acid": ["1 tbsp lemon juice"]})) is None


@pytest.mark.parametrize(
    ("makes", "used", "named"),
    [
        ("leek pot", ["3 lb leek", "1 lb potato"], "leek pot, leek, potato"),
        ("tomato sauce", ["20 lb tomato", "2 lb pepper", "1 tbsp salt"], "pepper"),
        ("apple butter", ["10 lb apple", "2 lb pumpkin"], "pumpkin"),
        ("pumpkin butter", ["5 lb pumpkin", "2 lb sugar"], "pumpkin butter, pumpkin"),
        ("green tomato chutney", ["4 lb green tomato", "2 lb onion", "1 qt vinegar"], "onion"),
        ("garlic in oil", ["1 lb garlic", "1 qt olive oil"], "garlic in oil, garlic"),
    ],
)
def test_a_mixture_is_named_by_what_makes_it_so(makes, used, named):
    assert caution(makes, "boiling water", used).startswith(f"CAUTION: {named}: ")


@pytest.mark.parametrize(
    ("makes", "used"),
    [
        ("plum butter", ["16 lb plum", "3 lb sugar"]),
        ("tomato sauce", ["20 lb tomato", "1 cup bottled lemon juice"]),
        ("pickled beets", ["7 lb beet", "1 qt vinegar"]),
        ("strawberry jam", ["4 lb strawberry", "sugar"]),
        (None, ["bean"]),
    ],
)
def test_nothing_is_said_where_nothing_is_known_to_be_low_in_acid(makes, used):
    assert caution(makes, "boiling water", used) is None


def test_pumpkin_butter_is_warned_of_and_butter_is_no_bean():
    for said in ("pumpkin butter", "mashed squash", "Kürbismus"):
        assert "Not to be canned at home" in find(said).text
    assert "Not to be canned" not in find("plum butter").text
    assert "lima_beans_shelled" not in (*find("plum butter").near, *find("pumpkin butter").near)


@pytest.mark.parametrize(
    "said",
    [
        {"equipment": ["oven"]},
        {"note": "open kettle"},
        {"method": "cook", "note": "turned upside down"},
    ],
)
def test_what_closes_no_jar_is_told_without_a_method_or_a_place(said):
    """Rules 1.4, 2.1 and 5.3: jars on the shelf unless somebody says the fridge; the graver reading holds."""
    batch = {"makes": "carrots", "used": ["5 lb carrot"], "made": ["7 pint jars"], **said}
    assert caution_before(batch_as_typed(batch)).startswith("CAUTION: carrots, carrot")
    assert caution_before(batch_as_typed({**batch, "method": "pressure"})) is not None
    acid = {**batch, "makes": "plum jam", "used": ["5 lb plum"]}
    assert caution_before(batch_as_typed(acid)) is None


def test_jars_said_to_stand_in_the_fridge_are_let_be():
    batch = {
        "makes": "carrots",
        "method": "cook",
        "note": "in the oven",
        "made": ["7 pint jars fridge"],
    }
    assert caution_before(batch_as_typed(batch)) is None


@pytest.mark.parametrize(
    ("tool", "said"),
    [("oven", "an oven"), ("open kettle", "an open kettle"), ("microwave", "a microwave oven")],
)
def test_nothing_is_shown_to_be_done_in_what_closes_no_jar(tool, said):
    """UIUC_UNSAFE, KSU_OPENKETTLE: no process for any food."""
    for more in (
        {"method": tool},
        {"method": "boiling water", "done_with": tool},
        {"done_with": tool},
    ):
        found = before_batch("applesauce", jar="pint jar", altitude_ft=F(500), **more)
        assert (found.processes, found.needs, found.steps) == ((), (), ())
        assert found.questions[0].startswith(
            f"{said}: no process is published for it with any food"
        )
    assert before_batch("applesauce", jar="pint jar", altitude_ft=F(500)).processes


def test_a_steamer_takes_the_boiling_water_time_of_acid_food_alone():
    """NCHFP_STEAM: acid food, at most 45 minutes."""
    found = before_batch("applesauce", jar="pint jar", method="steam", altitude_ft=F(500))
    assert [one.minutes for one in found.processes] == [15]
    assert "at most 45 minutes" in found.questions[0]
    low = before_batch("carrots", jar="pint jar", method="steam", altitude_ft=F(500))
    assert not low.processes
    assert "for acid food only" in low.questions[0]


def test_jars_closed_in_an_oven_are_asked_about_where_the_fridge_is_taken_for_granted():
    jars, used = (JarsDone("pint jar", 7),), (Used("carrot", "5 lb"),)
    done = BatchDone("carrots", "cook", jars, used, note="sealed in the oven", kept=("fridge",))
    assert [one.code for one in doubts_of(done)] == ["place"]
    assert doubts_of(replace(done, note="")) == []
    assert doubts_of(replace(done, kept=("shelf",))) == []


@pytest.mark.parametrize("method", ["boiling water", "oven", "open kettle"])
@pytest.mark.parametrize("food", ["tomatoes", "figs"])
def test_food_published_with_its_acid_is_sent_to_no_pressure_canner(food, method):
    said = caution(food, method, [f"10 lb {food}"])
    assert "with all its acid" in said
    assert "an oven" in said
    assert "pressure" not in said
    assert "within 2 hours refrigerate" in said
    assert "pressure canner only" in caution("green beans", method)
