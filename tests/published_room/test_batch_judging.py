"""Batches set beside the tables: as published, and short in one field each."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from ledger.published import (
    KINDS,
    AcidDone,
    BatchDone,
    JarsDone,
    Used,
    after_batch,
    batch_of,
    judge,
)

BEANS = BatchDone(
    "green beans", "pressure", (JarsDone("quart jar", 7),), (Used("green bean", "14 lb", 6350.0),),
    minutes=F(25), gauge="dial", psi=F(12), headspace_in=F(1), pack="raw", altitude_ft=F(2600), loads=1,
)  # fmt: skip
TOMATOES = BatchDone(
    "crushed tomatoes", "boiling water", (JarsDone("pint jar", 9),), (Used("tomato", "14 lb", 6350.0),),
    minutes=F(40), headspace_in=F(1, 2), acid=(AcidDone("lemon juice", "1 tbsp"),), pack="hot",
    altitude_ft=F(2600), loads=1,
)  # fmt: skip
WATER = BatchDone(
    "whole tomatoes", "pressure", (JarsDone("quart jar", 7),), (Used("tomato", "21 lb"),), minutes=F(10), gauge="weighted", psi=F(15),
    headspace_in=F(1, 2), acid=(AcidDone("citric acid", "1/2 tsp"),), pack="raw", altitude_ft=F(5000),
    schedule="tomatoes_whole_in_water", loads=1,
)  # fmt: skip
STOCK = BatchDone(
    "chicken stock", "pressure", (JarsDone("pint jar", 9),), (Used("chicken bones", "8 lb"),), minutes=F(20), gauge="weighted", psi=F(10),
    headspace_in=F(1), pack="hot", altitude_ft=F(300),
)  # fmt: skip
PEACHES = BatchDone(
    "peaches", "boiling water", (JarsDone("quart jar", 7),), (Used("peach", "17 lb", 7711.0), Used("sugar", "2 cup")),
    minutes=F(30), headspace_in=F(1, 2), pack="hot", altitude_ft=F(2500), loads=1,
)  # fmt: skip


@pytest.mark.parametrize("batch", [BEANS, TOMATOES, WATER, STOCK, PEACHES], ids=lambda b: b.makes)
def test_five_as_published(batch):
    found = judge(batch)
    assert found.standing == "as published", [f for f in found.findings if f.kind != "as published"]
    assert found.schedule
    assert found.sources
    assert after_batch(found) == []


@pytest.mark.parametrize(
    ("batch", "change", "field"),
    [
        (BEANS, {"minutes": F(20)}, "minutes"),
        (WATER, {"psi": F(13)}, "psi"),
        (TOMATOES, {"acid": (AcidDone("lemon juice", "1/2 tbsp"),)}, "acid"),
        (STOCK, {"headspace_in": F(1, 2)}, "headspace"),
        (PEACHES, {"minutes": F(25)}, "minutes"),
    ],
)
def test_five_short_in_one_field(batch, change, field):
    found = judge(replace(batch, **change))
    assert [one.field for one in found.of_kind("short of it")] == [field]
    assert found.standing == "short of it"
    assert after_batch(found)


def test_time_of_the_smaller_jar_is_found():
    found = judge(replace(BEANS, minutes=F(20)))
    (minutes,) = found.of_kind("short of it")
    assert (minutes.published, minutes.done) == (25, 20)
    assert "published time for the smaller jar (pints)" in minutes.text


def test_time_of_a_lower_altitude_is_found():
    (minutes,) = judge(replace(PEACHES, minutes=F(25))).of_kind("short of it")
    assert "printed for a lower altitude (0 to 1,000 ft)" in minutes.text


def test_pressure_of_the_other_gauge_is_found():
    (psi,) = judge(replace(BEANS, psi=F(10))).of_kind("short of it")
    assert "weighted gauge" in psi.text


def test_option_for_low_altitude_is_not_recommended_above():
    crushed = replace(
        TOMATOES, method="pressure", gauge="weighted", minutes=F(10), psi=F(15), altitude_ft=F(1001)
    )
    assert judge(replace(crushed, altitude_ft=F(1000))).standing == "as published"
    (minutes,) = judge(crushed).of_kind("short of it")
    assert "not recommended above 1,000 ft" in minutes.text


def test_options_are_never_mixed():
    """Crushed tomatoes, weighted, above 1,000 ft: 20 min at 10 psi or 15 min at 15 psi, not 15 at 10."""
    base = replace(TOMATOES, method="pressure", gauge="weighted", altitude_ft=F(3000))
    assert judge(replace(base, minutes=F(20), psi=F(10))).standing == "as published"
    assert judge(replace(base, minutes=F(15), psi=F(15))).standing == "as published"
    assert judge(replace(base, minutes=F(15), psi=F(10))).standing == "short of it"
    assert judge(replace(base, minutes=F(19), psi=F(14))).standing == "short of it"


def test_parts_of_two_acids_are_not_one():
    halves = (AcidDone("lemon juice", "1/2 tbsp"), AcidDone("citric acid", "1/8 tsp"))
    (acid,) = judge(replace(TOMATOES, acid=halves)).of_kind("short of it")
    assert "do not add up" in acid.text


@pytest.mark.parametrize(
    ("amount", "kind"), [("9 tbsp", "as published"), ("8 tbsp", "short of it")]
)
def test_acid_of_a_batch_is_shared_by_volume(amount, kind):
    found = judge(replace(TOMATOES, acid=(AcidDone("lemon juice", amount, "batch"),)))
    assert next(f for f in found.findings if f.field == "acid").kind == kind


def test_acid_by_weight_is_asked_about():
    found = judge(replace(TOMATOES, acid=(AcidDone("citric acid", "2 g"),)))
    assert next(f for f in found.findings if f.field == "acid").kind == "not recorded"


@pytest.mark.parametrize("name", ["minutes", "psi", "headspace_in", "pack", "altitude_ft", "gauge"])
def test_what_is_not_recorded_is_asked_for(name):
    found = judge(replace(BEANS, **{name: None}))
    assert found.standing == "not recorded"
    field = {"headspace_in": "headspace", "altitude_ft": "altitude"}.get(name, name)
    assert field in {one.field for one in found.of_kind("not recorded")}


def test_missing_altitude_does_not_hide_what_is_short_everywhere():
    found = judge(replace(BEANS, altitude_ft=None, minutes=F(20)))
    assert "minutes" in {one.field for one in found.of_kind("short of it")}
    assert found.published["psi"] is None


def test_missing_pack_counts_where_it_makes_a_difference():
    berries = BatchDone(
        "blackberries", "boiling water", (JarsDone("quart jar", 7),), minutes=F(20), headspace_in=F(1, 2),
        altitude_ft=F(2600), loads=1,
    )  # fmt: skip
    by_field = {f.field: f for f in judge(berries).findings}
    assert by_field["minutes"].kind == "not recorded"
    assert "hot or raw pack" in by_field["minutes"].text
    longer = {f.field: f for f in judge(replace(berries, minutes=F(25))).findings}
    assert longer["minutes"].kind == "as published"


@pytest.mark.parametrize(
    ("altitude", "standing"),
    [
        (F(1000), "beyond"),
        (F(2001, 2), "band"),
        (F(1001), "band"),
        (F(8000), "band"),
        (F(8001), "none"),
        (F(-10), "none"),
    ],
)
def test_borders_of_bands(altitude, standing):
    found = {f.field: f for f in judge(replace(BEANS, altitude_ft=altitude)).findings}
    if standing == "none":
        assert found["altitude"].kind == "no published process"
        assert "minutes" not in found
    else:
        assert found["altitude"].kind == "as published"


def test_altitude_between_two_printed_figures_takes_the_next_band():
    found = judge(replace(PEACHES, altitude_ft=F(2001, 2), minutes=F(25)))
    assert "next band up" in next(f for f in found.findings if f.field == "altitude").text
    assert [f.field for f in found.of_kind("short of it")] == ["minutes"]
    assert judge(replace(PEACHES, altitude_ft=F(1000), minutes=F(25))).standing == "as published"


@pytest.mark.parametrize("jar", ["1 l jar", "half-gallon jar"])
def test_a_jar_larger_than_the_largest_printed_has_no_process(jar):
    found = judge(replace(BEANS, jars=(JarsDone(jar, 7),), minutes=F(25)))
    (one,) = found.of_kind("no published process")
    assert one.field == "jar"
    assert found.published["minutes"] is None


@pytest.mark.parametrize(
    ("jar", "minutes"),
    [("1.5-pint jar", 25), ("500 ml jar", 25), ("half-pint jar", 20), ("12 oz jar", 20)],
)
def test_other_jars_take_the_time_of_the_next_larger_one(jar, minutes):
    """NCHFP_JARSIZE; Kansas State University, canning in odd-sized jars (2022)."""
    batch = replace(BEANS, jars=(JarsDone(jar, 7),), minutes=F(minutes))
    assert judge(batch).standing == "as published"
    assert judge(replace(batch, minutes=F(minutes - 1))).standing == "short of it"


def test_low_acid_food_in_boiling_water_has_no_process():
    found = judge(replace(BEANS, method="boiling water", minutes=F(180), psi=None, gauge=None))
    assert found.standing == "against every published process"
    (one,) = found.of_kind("no published process")
    assert one.field == "method"
    assert "low in acid" in one.text
    assert "do not taste" in " ".join(a.text for a in after_batch(found, hours=48))


def test_pack_that_is_not_published_has_no_process():
    beets = replace(BEANS, makes="beets", used=(), pack="raw", minutes=F(35))
    assert [f.field for f in judge(beets).of_kind("no published process")] == ["pack"]


def test_published_name_with_added_vegetables_is_another_product():
    used = (
        Used("tomato puree", "9 qt", 8760.0),
        Used("onion", "2 lb", 907.0),
        Used("olive oil", "1 cup", 216.0),
    )
    found = judge(replace(TOMATOES, makes="tomato sauce", used=used))
    assert found.standing == "against every published process"
    texts = " ".join(one.text for one in found.of_kind("no published process"))
    assert "whatever its name" in texts
    assert "onion (2 lb) is food of little acid" in texts
    assert "olive oil (1 cup) is fat" in texts


def test_recipe_beyond_its_printed_proportion_is_found():
    used = (Used("tomato", "30 lb", 13608.0), Used("onion", "2 lb", 907.0))
    sauce = replace(BEANS, makes="spaghetti sauce without meat", used=used, pack="hot")
    (one,) = judge(sauce).of_kind("no published process")
    assert "at most 1 cup onion for 30 lb" in one.text
    little = (used[0], Used("onion", "1 cup", 160.0))
    assert judge(replace(sauce, used=little)).standing == "as published"


def test_pickles_with_too_little_vinegar_are_short():
    used = (Used("cucumber", "8 lb", 3628.7), Used("vinegar 5%", "3 cup"), Used("salt", "1 cup"))
    pickles = BatchDone(
        "dill pickles", "boiling water", (JarsDone("pint jar", 8),), used, minutes=F(15), headspace_in=F(1, 2),
        pack="raw", altitude_ft=F(2600), schedule="pickles_dill_quick",
    )  # fmt: skip
    (one,) = judge(pickles).of_kind("short of it")
    assert one.field == "acid"
    enough = (used[0], Used("vinegar 5%", "1 1/2 qt"), used[2])
    assert judge(replace(pickles, used=enough)).standing == "as published"
    unsaid = (used[0], Used("vinegar", "1 1/2 qt"), used[2])
    assert judge(replace(pickles, used=unsaid)).standing == "to check yourself"


def test_recalled_figures_never_give_as_published():
    kraut = BatchDone(
        "sauerkraut", "boiling water", (JarsDone("quart jar", 7),), (Used("sauerkraut", "15 lb"),), minutes=F(60), headspace_in=F(1, 2), pack="hot",
        altitude_ft=F(2600),
    )  # fmt: skip
    found = judge(kraut)
    assert found.standing == "to check yourself"
    assert "as jars that fell short" in after_batch(found)[0].text
    assert "not confirmed" in next(f for f in found.findings if f.field == "minutes").text
    assert judge(replace(kraut, minutes=F(10))).standing == "short of it"


def test_two_sizes_of_jar_are_both_judged():
    both = replace(BEANS, jars=(JarsDone("pint jar", 4), JarsDone("quart jar", 3)), minutes=F(20))
    texts = [f.text for f in judge(both).findings if f.field == "minutes"]
    assert len(texts) == 2
    assert judge(both).standing == "short of it"


def test_load_is_compared_with_the_printed_quantity():
    found = {f.field: f for f in judge(replace(BEANS, jars=(JarsDone("quart jar", 9),))).findings}
    assert found["load"].kind == "beyond it"
    asked = {
        f.field: f
        for f in judge(replace(BEANS, jars=(JarsDone("quart jar", 9),), loads=None)).findings
    }
    assert asked["load"].kind == "not recorded"


def test_every_kind_is_a_known_one():
    for batch in (BEANS, replace(BEANS, minutes=None), replace(BEANS, makes="plum butter")):
        assert {f.kind for f in judge(batch).findings} <= set(KINDS)


def test_more_than_printed_is_said():
    found = judge(replace(BEANS, headspace_in=F(5, 4), minutes=F(30)))
    assert found.standing == "beyond it"
    assert {f.field for f in found.of_kind("beyond it")} == {"headspace", "minutes"}
    assert after_batch(found) == []


def test_jar_kept_back_for_the_fridge_is_not_judged():
    body = {
        "makes": "green beans", "method": "pressure", "used": [], "minutes": "25",
        "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}, {"jars": 1, "jar": "500 ml jar", "kept": "fridge"}],
    }  # fmt: skip
    assert batch_of(body).jars == (JarsDone("quart jar", 7),)


def test_body_of_a_batch_is_read_with_the_settings():
    body = {
        "makes": "green beans", "method": "pressure", "used": [{"item": "green bean", "amount": "14 lb"}],
        "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}, {"amount": "1 cup", "kept": "fridge"}],
        "minutes": "25", "psi": "12", "headspace": "1 in", "pack": "raw", "loads": 1,
    }  # fmt: skip
    batch = batch_of(body, altitude="792.48 m", gauge="dial", grams=lambda _line: 6350.0)
    assert batch.altitude_ft == 2600
    assert judge(batch).standing == "as published"
    assert batch_of(body | {"altitude": "9000 ft"}, altitude="2600 ft").altitude_ft == 9000


@pytest.mark.parametrize(("hours", "words"), [(1.0, "within 2 hours"), (48.0, "do not taste")])
def test_advice_goes_by_the_hours(hours, words):
    advice = after_batch(judge(replace(BEANS, minutes=F(20))), hours=hours)
    assert any(words in one.text for one in advice)
    assert all(one.source for one in advice)
