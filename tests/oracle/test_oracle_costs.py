"""Rules 9 and 10: the cost of batches and jars, each worked on paper first."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from oracle import reckon
from oracle.tape import Tape, cost, line, lines


@pytest.fixture
def tape():
    return Tape()


def batch(made, used=(), method="boiling water", makes="jam", **more):
    made = made if isinstance(made, list) else [made]
    return {"makes": makes, "method": method, "used": list(used), "made": made, **more}


def jars(n, whole, count, **more):
    return {"n": n, "jars": count, "jar": "jar", "whole": whole, "kept": "shelf", **more}


@pytest.fixture
def kitchen(tape):
    """Jars at 2.00 with 10 uses, lids at 0.20, a litre of jam in mind: events e1 to e5."""
    tape.item("jam", measure="volume")
    tape.item("jar", sort="jar", measure="count", uses="10")
    tape.item("lid", sort="lid", measure="count")
    tape("bought", "2026-01-01", lines(("jar", 12_000), paid="24"))
    tape("bought", "2026-01-01", lines(("lid", 100_000), paid="20"))
    return tape


# Rule 9


def test_a_canning_batch_has_two_pools(kitchen):
    kitchen("bought", "2026-01-01", lines(("plum", 100), paid="30"))
    kitchen("setting_changed", "2026-01-01", {"name": "price_of_gas", "value": "0.36 per kWh"})
    kitchen("setting_changed", "2026-01-01", {"name": "labour_rate", "value": "6"})
    made = [jars(1, 60, 3, unsealed=1), jars(2, 30, 1), {"n": 3, "whole": 30, "kept": "fridge"}]
    fuel = [{"metered": "gas", "amount": "10 kWh", "whole": 36_000_000, "n": 1}]
    work = [{"person": "Ada", "minutes": "90"}, {"person": "Bo", "minutes": "30"}]
    used = [line("plum", 60)]
    kitchen("put_up", "2026-01-02", batch(made, used, fuel=fuel, work=work, lids="lid"))
    book = reckon(kitchen.events)
    # pot: 18 of plums, 2 h x 6 = 12 of labour, by whole 60 : 30 : 30, the unsealed jar 20 of 60
    # gas 3.60 over 4 jars = 0.90 a jar; a lid 0.20; wear 2.00 / 10 = 0.20
    assert cost(book, "e9:1") == {
        "bought_ingredients": 6, "labour": 4, "fuel": F("1.8"), "lids": F("0.4"),
        "jar_wear": F("0.4"),
    }  # fmt: skip
    assert cost(book, "e9:1f") == {
        "bought_ingredients": 3, "labour": 2, "fuel": F("0.9"), "lids": F("0.2"),
        "jar_wear": F("0.2"),
    }  # fmt: skip
    assert cost(book, "e9:2") == {
        "bought_ingredients": F("4.5"), "labour": 3, "fuel": F("0.9"), "lids": F("0.2"),
        "jar_wear": F("0.2"),
    }  # fmt: skip
    assert cost(book, "e9:3") == {"bought_ingredients": F("4.5"), "labour": 3}
    assert [one.hours for one in book.made] == [1, F(1, 2), F(1, 2)]


@pytest.mark.parametrize(
    ("method", "made", "fuel"),
    [
        ("freeze", [jars(1, 60, 3), {"n": 2, "whole": 20}], [3, 1]),
        ("pressure", [jars(1, 60, 3), {"n": 2, "whole": 20}], [4, 0]),
        ("pressure", [{"n": 1, "whole": 60}, {"n": 2, "whole": 20}], [3, 1]),
    ],
)
def test_fuel_goes_by_whole_or_by_jars(kitchen, method, made, fuel):
    kitchen.item("wood", sort="fuel")
    kitchen("bought", "2026-01-01", lines(("wood", 5), paid="10"))
    kitchen("put_up", "2026-01-02", batch(made, fuel=[line("wood", 2)], method=method, lids="lid"))
    assert [one.figures.cost["fuel"] for one in reckon(kitchen.events).made] == fuel


def test_an_unsealed_jar_bears_the_pot_by_whole_and_the_rest_by_number(kitchen):
    kitchen("bought", "2026-01-01", lines(("plum", 100), paid="10"))
    made = jars(1, 10, 3, unsealed=1)
    kitchen("put_up", "2026-01-02", batch(made, [line("plum", 100)], lids="lid"))
    # 10 x 1 / 3 rounds to 3 units of 10: 3.00 of the pot, but one lid and one use of three
    book = reckon(kitchen.events)
    each = {"lids": F("0.2"), "jar_wear": F("0.2")}
    assert cost(book, "e7:1f") == {"bought_ingredients": 3, **each}
    assert cost(book, "e7:1") == {"bought_ingredients": 7, "lids": F("0.4"), "jar_wear": F("0.4")}


def test_jar_wear_by_years_goes_by_jars_filled_that_year(tape):
    tape.item("jam", measure="volume")
    tape.item("jar", sort="jar", measure="count")
    tape("bought", "2026-01-01", lines(("jar", 10_000), paid="18"))
    tape("bought", "2026-06-01", lines(("jar", 2_000), paid="6", years="4"))
    tape("put_up", "2026-02-01", batch(jars(1, 50, 5)))
    tape("put_up", "2025-12-31", batch(jars(1, 50, 5)))  # of another year, before any was bought
    tape("put_up", "2026-07-01", batch(jars(1, 160, 16)))
    tape("put_up", "2026-08-01", batch(jars(1, 90, 9)))

    def wear(as_of):
        return [one.figures.cost["jar_wear"] for one in reckon(tape.events, as_of=as_of).made]

    # February: 18 / 10 = 1.80 a jar, 10 years; 5 filled of 10: 1.80 / 10 = 0.18, x 5
    assert wear("2026-03-01") == [0, F("0.9")]
    # by the end 30 filled: 1.80 / (10 x 30 / 10) = 0.06 x 5 for February; for July and August
    # 24 / 12 = 2.00, 4 years, 30 / 12 fills a jar: 2.00 / 10 = 0.20, x 16 and x 9
    assert wear("2026-12-31") == [0, F("0.3"), F("3.2"), F("1.8")]


def test_equipment_is_charged_by_load_until_it_is_used_up(tape):
    tape.item("jam", measure="volume")
    tape.item("canner", sort="equipment", measure="count", uses="5")
    tape("bought", "2026-01-01", lines(("canner", 1000), paid="50"))
    for day in (1, 2, 3):
        more = {"equipment": ["canner"]} if day == 1 else {"equipment": ["canner"], "loads": 3}
        tape("put_up", f"2026-02-0{day}", batch(jars(1, 10, 1), **more))
    # 10 a load: 1 load, then 3, then the last 10 of 50
    assert [m.figures.cost["equipment"] for m in reckon(tape.events).made] == [10, 30, 10]


def test_equipment_by_years_goes_by_loads_of_the_year(tape):
    tape.item("jam", measure="volume")
    tape.item("canner", sort="equipment", measure="count", years="5")
    tape("bought", "2026-01-01", lines(("canner", 1000), paid="60"))
    for day in (1, 2):
        more = {"equipment": ["canner"], "loads": 2}
        tape("put_up", f"2026-02-0{day}", batch(jars(1, 10, 1), **more))
    # 60 / (5 x 4 loads / 1 canner) = 3 a load
    assert [m.figures.cost["equipment"] for m in reckon(tape.events).made] == [6, 6]


def test_what_has_no_price_is_named_where_it_enters(tape):
    tape.item("jam", measure="volume")
    fuel = [{"metered": "electricity", "amount": "1 kWh", "whole": 3_600_000, "n": 1}]
    made = [jars(1, 10, 1), {"n": 2, "whole": 10}]
    tape("put_up", "2026-02-01", batch(made, [line("salt", 5)], fuel=fuel, equipment=["canner"]))
    first, second = reckon(tape.events).jar_cost
    assert first["unpriced"] == ["canner", "electricity", "jar", "lid", "salt"]
    assert second["unpriced"] == ["salt"]  # what is not in jars bears no canning fuel


def test_a_setting_holds_from_its_day_and_its_first_value_before_it(tape):
    tape.item("jam", measure="volume")
    for day, rate in (("2026-02-02", "6"), ("2026-02-03", "9")):
        tape("setting_changed", day, {"name": "labour_rate", "value": rate})
    for day in (1, 2, 3):
        work = [{"person": "Ada", "minutes": "60"}]
        tape("put_up", f"2026-02-0{day}", batch({"n": 1, "whole": 10}, work=work))
    assert [m.figures.cost["labour"] for m in reckon(tape.events).made] == [6, 6, 9]


def test_labour_without_a_rate_is_hours_only(tape):
    work = [{"person": "Ada", "minutes": "45"}]
    tape("put_up", "2026-02-01", batch({"n": 1, "whole": 10}, work=work, method="cook"))
    (record,) = reckon(tape.events).jar_cost
    assert (record["labour_hours"], record["cost"]["all_in"]) == (F(3, 4), 0)
    assert not record["at_least"]


# Rule 10


def test_components_pass_through_batches_as_what_they_are(kitchen):
    kitchen("received", "2026-01-01", {"how": "gift", **lines(("plum", 10), value="5")})
    kitchen("put_up", "2026-01-02", batch(jars(1, 40, 2), [line("plum", 10)], lids="lid"))
    used = [line("jam", 30)]
    kitchen("put_up", "2026-01-03", batch({"n": 1, "whole": 8}, used, makes="tart", method="cook"))
    # the jam: 5 given, lids 0.40, wear 0.40; three quarters of it went into the tart
    book = reckon(kitchen.events)
    assert cost(book, "e8:1") == {"given": F("3.75"), "lids": F("0.3"), "jar_wear": F("0.3")}
    figures = book.lots["e8:1"].figures
    assert (figures.all_in, figures.out_of_pocket) == (F("4.35"), F("0.3"))


def test_provisional_passes_into_what_a_harvest_enters(kitchen):
    kitchen("harvested", "2026-01-01", lines(("plum", 10)))
    kitchen("put_up", "2026-01-02", batch(jars(1, 40, 2), [line("plum", 10)], lids="lid"))
    assert reckon(kitchen.events, as_of="2026-12-30").jar_cost[0]["provisional"]
    assert not reckon(kitchen.events, as_of="2027-01-01").jar_cost[0]["provisional"]


def test_cost_per_good_jar_leaves_out_the_bad_ones(kitchen):
    kitchen("bought", "2026-01-01", lines(("plum", 10), paid="18"))
    kitchen("put_up", "2026-01-02", batch(jars(1, 100, 5), [line("plum", 10)], lids="lid"))
    kitchen("discarded", "2026-01-03", {"why": "spoiled", **lines(("jam", 20))})
    kitchen("discarded", "2026-01-04", {"why": "too old", **lines(("jam", 20))})
    # 18 + 5 x (0.20 + 0.20) = 20: 4 a jar, 5 a good jar; too old is not a bad jar
    (record,) = reckon(kitchen.events).jar_cost
    assert (record["cost_per_jar"], record["cost_per_good_jar"]) == (4, 5)
