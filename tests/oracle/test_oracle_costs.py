"""Rules 8 to 10: the cost of lots and batches, each worked on paper first."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from oracle import reckon
from oracle.tape import Tape, line, lines

KG = 1_000_000  # mg
LITER = 1_000_000  # ul


@pytest.fixture
def tape():
    return Tape()


def garden(book, *lots):
    return [book.lots[lot].figures.cost["garden"] for lot in lots]


def cost(book, lot):
    """Return a lot's components that are not zero."""
    return {name: value for name, value in book.lots[lot].figures.cost.items() if value}


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


# Rule 8: garden


def test_inputs_of_a_crop_are_spread_evenly_by_amount(tape):
    tape.item("manure", sort="garden input", measure="volume")
    tape("bought", "2026-03-01", lines(("manure", 50), paid="12", for_crop="plum"))
    tape("harvested", "2026-08-01", {"lines": [line("plum", 50, trimmed_whole=20)]})
    tape("harvested", "2026-09-01", lines(("plum", 10), ("pear", 99)))
    # 30 and 10 of 40 bear 12: 9 and 3; pears nothing
    book = reckon(tape.events, as_of="2026-12-31")
    assert garden(book, "e3:1", "e4:1", "e4:2") == [9, 3, 0]


def test_a_season_is_provisional_until_its_last_day_is_over(tape):
    tape("harvested", "2026-08-01", lines(("plum", 30)))
    assert reckon(tape.events, as_of="2026-12-31").lots["e1:1"].figures.provisional
    assert not reckon(tape.events, as_of="2027-01-01").lots["e1:1"].figures.provisional


def test_an_input_after_the_last_harvest_waits_for_the_next_season(tape):
    tape.item("manure", sort="garden input", measure="volume", feeds="plum")
    tape("setting_changed", "2030-01-01", {"name": "season_starts", "value": "1 October"})
    tape("harvested", "2026-08-01", lines(("plum", 30)))
    tape("bought", "2026-08-02", lines(("manure", 50), paid="6"))
    assert [i.amount for i in reckon(tape.events, as_of="2026-12-31").carried_forward] == [6]
    tape("harvested", "2026-10-02", lines(("plum", 10)))
    # October starts the next season, and the setting holds for the whole book
    book = reckon(tape.events)
    assert garden(book, "e3:1", "e5:1") == [0, 6]


def test_an_input_on_the_day_of_the_last_harvest_belongs_to_it(tape):
    tape.item("manure", sort="garden input", measure="volume", feeds="plum")
    tape("bought", "2026-08-01", lines(("manure", 50), paid="6"))
    tape("harvested", "2026-08-01", lines(("plum", 30)))
    assert garden(reckon(tape.events), "e3:1") == [6]


def test_inputs_for_no_crop_are_shared_by_shop_value(tape):
    tape.item("manure", sort="garden input", measure="volume")
    tape("price_seen", "2026-07-01", line("plum", KG, price="1"))
    tape("price_seen", "2026-08-15", line("plum", KG, price="3"))
    tape("price_seen", "2026-07-01", line("pea", 2 * KG, price="8"))
    tape("bought", "2026-07-02", lines(("manure", 50), paid="32"))
    tape("harvested", "2026-08-01", lines(("plum", 5 * KG), ("pea", 5 * KG), ("herb", 5 * KG)))
    tape("harvested", "2026-09-01", lines(("plum", 5 * KG)))
    # plums 5 x 1 + 5 x 3 = 20, peas 5 x 4 = 20; 40 for 15 kg, so 5 kg of herb count 40/3
    # 32 shared as 20 : 20 : 40/3 = 3 : 3 : 2 gives 12, 12, 8; the plums by amount, 6 and 6
    book = reckon(tape.events)
    assert garden(book, "e6:1", "e6:2", "e6:3", "e7:1") == [6, 12, 8, 6]


def test_with_no_crop_priced_inputs_are_shared_by_weight(tape):
    tape.item("manure", sort="garden input", measure="volume")
    tape.item("egg", measure="count", g_per={"piece": "50"})
    tape("bought", "2026-07-02", lines(("manure", 50), paid="12"))
    tape("harvested", "2026-08-01", lines(("plum", 3 * KG), ("egg", 20_000)))
    # 3 kg to 20 x 50 g = 1 kg
    assert garden(reckon(tape.events), "e4:1", "e4:2") == [9, 3]


def test_an_input_of_years_counts_part_by_part(tape):
    tape.item("trellis", sort="garden input", measure="count", feeds="pea")
    tape("bought", "2023-04-01", lines(("trellis", 1000), paid="10", years="2.5"))
    for year in (2023, 2025, 2026):
        tape("harvested", f"{year}-06-01", lines(("pea", 7)))
    # 4 in 2023; 4 for 2024, which had no harvest, waits for 2025 and meets the last 2 there
    book = reckon(tape.events)
    assert garden(book, "e3:1", "e4:1", "e5:1") == [4, 6, 0]
    assert sum(i.amount for i in reckon(tape.events, as_of="2024-12-31").carried_forward) == 6


def test_seed_drawn_is_an_input_at_its_cost_as_bought(tape):
    tape.item("seed", sort="supply", measure="count")
    tape("bought", "2026-02-01", lines(("seed", 4000), paid="8"))
    tape("planted", "2026-04-01", {"crop": "pea", "seed": line("seed", 3000)})
    tape("harvested", "2026-06-01", lines(("pea", 7)))
    tape("planted", "2026-07-01", {"crop": "pea", "seed": line("pea", 2)})
    tape("harvested", "2026-09-01", lines(("pea", 5)))
    # 6 over 12 peas; own seed carries no cost
    assert garden(reckon(tape.events), "e4:1", "e6:1") == [F(7, 2), F(5, 2)]


def test_feed_goes_into_the_eggs(tape):
    tape.item("egg", measure="count")
    tape.item("grain", sort="garden input", feeds="egg")
    tape("bought", "2026-02-01", lines(("grain", 4000), paid="8"))
    tape("harvested", "2026-06-01", lines(("egg", 12_000), ("plum", 7)))
    assert garden(reckon(tape.events), "e4:1", "e4:2") == [8, 0]


# Rule 8: what came otherwise, and shop prices


def test_received_has_its_value_and_foraged_nothing(tape):
    tape("received", "2026-01-01", {"how": "barter", **lines(("honey", 10), value="4")})
    tape("received", "2026-01-01", {"how": "gift", **lines(("honey", 10))})
    tape("received", "2026-01-01", {"how": "forage", **lines(("nettle", 10), value="4")})
    book = reckon(tape.events)
    assert [cost(book, f"e{n}:1") for n in (1, 2, 3)] == [{"given": 4}, {}, {}]
    assert not any(lot.figures.at_least for lot in book.lots.values())


@pytest.mark.parametrize(("sort", "component"), [("lid", "lids"), ("fuel", "fuel")])
def test_what_was_not_recorded_costs_the_shop_price(tape, sort, component):
    tape.item("thing", sort=sort)
    tape("price_seen", "2026-01-01", line("thing", 10, price="5"))
    tape("eaten", "2026-01-02", {"ate": [line("thing", 4)]})
    assert cost(reckon(tape.events), "e3:1u") == {component: 2}


def test_without_any_price_it_counts_nothing_and_says_so(tape):
    tape("eaten", "2026-01-02", {"ate": [line("salt", 4)]})
    figures = reckon(tape.events).lots["e1:1u"].figures
    assert (figures.all_in, figures.at_least, figures.unpriced) == (0, True, {"salt"})


def test_the_shop_price_of_a_day_is_looked_for_in_order(tape):
    tape.item("jam", shop_equivalent="spread")

    def price(on):
        found = reckon(tape.events).prices.of("jam", on)
        return (found.each, found.event, found.is_later) if found else None

    day = reckon([], as_of="2026-01-05").as_of
    assert price(day) is None
    tape("price_seen", "2026-02-01", line("spread", 10, price="90"))
    assert price(day) == (9, "e2", True)
    tape("price_seen", "2026-03-01", line("jam", 10, price="80"))
    assert price(day) == (8, "e3", True)  # the first after of the item itself
    tape("price_seen", "2026-01-01", line("spread", 10, price="70"))
    assert price(day) == (7, "e4", False)
    tape("bought", "2025-12-01", lines(("jam", 10), paid="60"))
    assert price(day) == (6, "e5", False)
    tape("bought", "2026-01-05", lines(("jam", 10), paid="50"))
    tape("price_seen", "2026-01-05", line("jam", 10, price="40"))
    assert price(day) == (5, "e6", False)  # a purchase comes after prices on its day


def test_an_equivalent_in_another_measure_goes_through_weights(tape):
    tape.item("jam", measure="volume", shop_equivalent="spread", g_per_ml="1.25")
    tape.item("pickle", measure="volume", shop_equivalent="spread")
    tape("price_seen", "2026-01-01", line("spread", KG, price="8"))
    book = reckon(tape.events, as_of="2026-01-05")
    # a litre of jam weighs 1250 g, at 8 a kilogram
    assert book.prices.of("jam", book.as_of).each * LITER == 10
    assert book.prices.of("pickle", book.as_of) is None


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
