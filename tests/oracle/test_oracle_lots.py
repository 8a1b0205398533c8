"""Rule 8: gardens, gifts and shop prices, each worked on paper first."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from oracle import reckon
from oracle.measures import Strand
from oracle.tape import Tape, cost, line, lines

KG = 1_000_000  # mg
LITER = 1_000_000  # ul


@pytest.fixture
def tape():
    return Tape()


def garden(book, *lots):
    return [book.lots[lot].figures.cost["garden"] for lot in lots]


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
        found = reckon(tape.events).prices.of(Strand("jam", "mass"), on)
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
    assert book.prices.of(Strand("jam", "volume"), book.as_of).each * LITER == 10
    assert book.prices.of(Strand("pickle", "volume"), book.as_of) is None
