"""Rules 1 to 7 of the reckoning, each worked on paper first; amounts in bare whole units."""

from __future__ import annotations

import pytest

from oracle import reckon
from oracle.tape import Tape, line, lines


@pytest.fixture
def tape():
    return Tape()


def taken(book, cause):
    """Return the allocations of every draw of a cause as [(lot, amount)], in order."""
    return [
        [(one.lot, one.amount) for one in draw.allocations]
        for draw in book.draws
        if draw.cause == cause
    ]


def left(book):
    return {lot.id: lot.left for lot in book.lots.values()}


# Rule 1


def test_correction_keeps_id_and_place(tape):
    first = tape("bought", "2026-01-05", lines(("salt", 100), paid="1"))
    tape("bought", "2026-01-05", lines(("salt", 50), paid="1"))
    tape("bought", "2026-01-05", lines(("salt", 70), paid="1"), replaces=first)
    tape("eaten", "2026-01-06", {"ate": [line("salt", 80)]})
    # the corrected lot is still the first in the queue: 70 of e1, then 10 of e2
    assert taken(reckon(tape.events), "eaten") == [[("e1:1", 70), ("e2:1", 10)]]


def test_strike_takes_back_and_replacing_restores(tape):
    first = tape("bought", "2026-01-05", lines(("salt", 100), paid="1"))
    tape.strike(first, on="2030-01-01")  # a strike's own day counts for nothing
    assert reckon(tape.events, as_of="2026-01-05").lots == {}
    tape("bought", "2026-01-05", lines(("salt", 60), paid="1"), replaces=first)
    assert left(reckon(tape.events)) == {"e1:1": 60}


def test_strike_may_name_any_event_of_an_entry(tape):
    first = tape("bought", "2026-01-05", lines(("salt", 100), paid="1"))
    second = tape("bought", "2026-01-05", lines(("salt", 60), paid="1"), replaces=first)
    tape.strike(second)
    assert reckon(tape.events).lots == {}


def test_known_at_brings_the_old_answer_back(tape):
    first = tape("bought", "2026-01-05", lines(("salt", 100), paid="1"))
    tape("bought", "2026-01-05", lines(("salt", 60), paid="1"), replaces=first)
    assert left(reckon(tape.events, known_at="2026-01-01T00:01:59Z")) == {"e1:1": 100}


def test_as_of_goes_by_the_corrected_day(tape):
    first = tape("bought", "2026-01-05", lines(("salt", 100), paid="1"))
    tape("bought", "2026-02-05", lines(("salt", 100), paid="1"), replaces=first)
    assert reckon(tape.events, as_of="2026-01-31").lots == {}
    assert left(reckon(tape.events, as_of="2026-02-05")) == {"e1:1": 100}


# Rule 2


def test_order_within_a_day_is_phase_then_clock(tape):
    tape("eaten", "2026-01-05", {"ate": [line("salt", 10)]}, at="07:00")
    tape("bought", "2026-01-05", lines(("salt", 10), paid="1"), at="18:00")
    # buying is phase 2 and eating phase 4, whatever the clock says
    assert taken(reckon(tape.events), "eaten") == [[("e2:1", 10)]]


def test_a_weight_corrected_later_holds_for_all_days(tape):
    tape.item("garlic", g_per={"clove": "5", "head": "40"})
    clove = {"basis": "item", "per": "clove", "times": 2500}
    tape("bought", "2026-01-05", {"lines": [line("garlic", 12_500, paid="1", **clove)]})
    tape(
        "item_described", "2026-03-01", {"item": "garlic", "sort": "food", "g_per": {"clove": "6"}}
    )
    # 2.5 cloves x 6 g = 15 g; the weight of a head is another unit and stays
    book = reckon(tape.events, as_of="2026-01-05")
    assert book.lots["e2:1"].whole == 15_000
    assert book.items.weights("garlic").counted("head") == 40


def test_amounts_round_half_to_even(tape):
    tape.item("herb", g_per={"leaf": "0.5"})
    for n, times in enumerate((1, 3, 5), 1):  # 0.5, 1.5, 2.5 mg
        typed = {"basis": "item", "per": "leaf", "times": times}
        tape("bought", "2026-01-05", {"lines": [line("herb", 9, n, paid="1", **typed)]})
    assert [lot.whole for lot in reckon(tape.events).lots.values()] == [2, 2]


def test_a_mass_typed_for_an_item_kept_by_count(tape):
    tape.item("egg", measure="count", g_per={"piece": "50"})
    typed = {"basis": "item", "per": "kg", "times": 1200}
    tape("bought", "2026-01-05", {"lines": [line("egg", 1, paid="4", **typed)]})
    # 1200 g / 50 g = 24 eggs
    assert reckon(tape.events).lots["e2:1"].whole == 24_000


def test_two_names_of_one_thing_are_one_queue(tape):
    tape.item("plum")
    tape.item("prune")
    tape("bought", "2026-01-05", lines(("prune", 30), paid="1"))
    tape("eaten", "2026-01-06", {"ate": [line("plum", 30)]})
    assert reckon(tape.events).unrecorded[0].whole == 30
    tape("item_described", "2026-02-01", {"item": "plum", "sort": "food", "also": ["prune"]})
    book = reckon(tape.events)
    assert taken(book, "eaten") == [[("e3:1", 30)]]
    assert book.lots["e3:1"].item == "plum"


# Rule 3


def test_trimmings_are_no_part_of_the_lot(tape):
    body = {"lines": [line("plum", 100, trimmed_whole=30), line("pear", 5, 2, trimmed_whole=5)]}
    tape("harvested", "2026-01-05", body)
    assert left(reckon(tape.events)) == {"e1:1": 70}  # an empty lot is not supplied


def test_unsealed_jars_are_a_lot_in_the_fridge(tape):
    tape.item("jam", measure="volume")
    tape.item("jar", sort="jar", measure="count")
    made = {"n": 1, "jars": 4, "unsealed": 1, "jar": "jar", "whole": 1001, "kept": "shelf"}
    tape("put_up", "2026-01-05", batch(made, []))
    # 1001 x 1 / 4 = 250.25 -> 250
    book = reckon(tape.events)
    assert {
        i: (lot.whole, lot.kept, lot.jars) for i, lot in book.lots.items() if lot.item == "jam"
    } == {
        "e3:1": (751, "shelf", 3),
        "e3:1f": (250, "fridge", 1),
    }


def batch(made, used, makes="jam", method="boiling water", **more):
    made = made if isinstance(made, list) else [made]
    return {"makes": makes, "method": method, "used": used, "made": made, **more}


# Rule 4


def test_a_lot_named_today_is_set_aside_from_last_months_meal(tape):
    tape("bought", "2026-01-01", lines(("salt", 10), paid="1"))
    tape("bought", "2026-01-02", lines(("salt", 10), paid="1"))
    tape("eaten", "2026-01-10", {"ate": [line("salt", 8)]})
    tape("eaten", "2026-02-10", {"ate": [line("salt", 6, lot="e1:1")]})
    # 6 of e1 are kept for February: January takes the other 4, then 4 of e2
    assert taken(reckon(tape.events), "eaten") == [[("e1:1", 4), ("e2:1", 4)], [("e1:1", 6)]]


def test_what_exceeds_a_named_lot_goes_oldest_first(tape):
    tape("bought", "2026-01-01", lines(("salt", 10), paid="1"))
    tape("bought", "2026-01-02", lines(("salt", 10), paid="1"))
    tape("eaten", "2026-01-10", {"ate": [line("salt", 7, lot="e2:1")]})
    tape("eaten", "2026-01-11", {"ate": [line("salt", 7, lot="e2:1")]})
    assert taken(reckon(tape.events), "eaten") == [[("e2:1", 7)], [("e2:1", 3), ("e1:1", 4)]]


@pytest.mark.parametrize("lot", ["e9:1", "e3:1", "e4:1", "e5:1u"])
def test_a_lot_that_cannot_be_named_is_passed_over(tape, lot):
    tape("bought", "2026-01-01", lines(("salt", 5), paid="1"))
    tape("bought", "2026-01-02", lines(("salt", 5), paid="1"))
    tape("bought", "2026-01-03", lines(("rice", 5), paid="1"))  # e3:1 of another item
    tape("bought", "2026-03-03", lines(("salt", 5), paid="1"))  # e4:1 arrives later
    tape("eaten", "2026-01-10", {"ate": [line("salt", 12, lot=lot)]})  # e5:1u is unrecorded
    assert taken(reckon(tape.events), "eaten") == [[("e1:1", 5), ("e2:1", 5), ("e5:1u", 2)]]


def test_a_jar_label_names_its_lot(tape):
    tape.item("jam", measure="volume")
    for day, first in (("01", "A-1"), ("02", "A-6")):
        last = f"A-{int(first[2:]) + 4}"
        made = {"n": 1, "jars": 5, "whole": 50, "labels": {"from": first, "to": last}}
        tape("put_up", f"2026-01-{day}", batch(made, []))
    tape("eaten", "2026-02-01", {"ate": [line("jam", 10, lot="A-7")]})
    assert taken(reckon(tape.events), "eaten") == [[("e3:1", 10)]]


def test_a_batch_draws_used_then_fuel_then_lids(tape):
    tape.item("jam", measure="volume")
    tape.item("jar", sort="jar", measure="count")
    tape.item("lid", sort="lid", measure="count")
    made = [
        {"n": 1, "jars": 3, "unsealed": 1, "jar": "jar", "whole": 30},
        {"n": 2, "whole": 5, "amount": "5 ul"},
        {"n": 3, "jars": 2, "jar": "jar", "whole": 40},
    ]
    used = [line("jar", 1000), line("plum", 9, 2)]  # a jar is not matched, and takes no number
    fuel = [{"metered": "gas", "amount": "1 J", "whole": 1, "n": 1}, line("wood", 7, 2)]
    tape("put_up", "2026-01-05", batch(made, used, fuel=fuel, lids="lid"))
    assert [(d.id, d.item, d.whole, d.cause) for d in reckon(tape.events).draws] == [
        ("e4:1", "plum", 9, "used"),
        ("e4:2", "wood", 7, "fuel"),
        ("e4:3", "lid", 3000, "lids"),
        ("e4:4", "lid", 2000, "lids"),
    ]


def test_a_batch_cannot_use_what_it_makes(tape):
    tape("put_up", "2026-01-05", batch({"n": 1, "whole": 50}, [line("jam", 10, lot="e1:1")]))
    assert taken(reckon(tape.events), "used") == [[("e1:1u", 10)]]


# Rule 5


def test_what_is_missing_is_an_unrecorded_lot_of_that_amount(tape):
    tape("bought", "2026-01-01", lines(("salt", 5), paid="1"))
    tape("eaten", "2026-01-02", {"ate": [line("salt", 3), line("salt", 4, 2)]})
    tape("bought", "2026-01-03", lines(("salt", 5), paid="1"))
    assert left(reckon(tape.events)) == {"e1:1": 0, "e2:2u": 0, "e3:1": 5}
    assert reckon(tape.events).lots["e2:2u"].whole == 2


# Rule 6


def test_a_count_finds_and_misses(tape):
    tape("bought", "2026-01-01", lines(("salt", 5), paid="1"))
    tape("counted", "2026-01-02", lines(("salt", 8)))
    tape("counted", "2026-01-03", {**lines(("salt", 2)), "missing": "eaten"})
    book = reckon(tape.events)
    assert left(book) == {"e1:1": 0, "e2:1c": 2}
    assert (book.lots["e2:1c"].whole, book.lots["e2:1c"].origin) == (3, "found")
    assert taken(book, "missing") == [[("e1:1", 5), ("e2:1c", 1)]]
    assert [draw.as_eaten for draw in book.draws] == [True]


def test_a_count_leaves_what_later_lines_name(tape):
    tape("bought", "2026-01-01", lines(("salt", 10), paid="1"))
    tape("bought", "2026-01-02", lines(("salt", 10), paid="1"))
    tape("counted", "2026-01-05", lines(("salt", 9)))
    tape("eaten", "2026-01-06", {"ate": [line("salt", 4, lot="e1:1")]})
    # r = 4, so the rest (6 + 10) is set to 5: 11 are missing, oldest first
    book = reckon(tape.events)
    assert taken(book, "missing") == [[("e1:1", 6), ("e2:1", 5)]]
    assert left(book) == {"e1:1": 0, "e2:1": 5}
    assert not book.counts[0].contradicted


def test_a_count_leaves_only_what_was_there_and_is_named_later(tape):
    tape("bought", "2026-01-01", lines(("salt", 10), paid="1"))
    tape("eaten", "2026-01-02", {"ate": [line("salt", 3, lot="e1:1")]})  # before the count
    tape("counted", "2026-01-05", lines(("salt", 5)))
    tape("bought", "2026-01-06", lines(("salt", 10), paid="1"))  # after the count
    tape("eaten", "2026-01-07", {"ate": [line("salt", 4, lot="e4:1")]})
    # r = 0: of the 7 that are there 2 are missing
    assert taken(reckon(tape.events), "missing") == [[("e1:1", 2)]]


def test_a_count_below_what_is_named_is_contradicted(tape):
    tape("bought", "2026-01-01", lines(("salt", 10), paid="1"))
    tape("counted", "2026-01-05", lines(("salt", 3)))
    tape("eaten", "2026-01-06", {"ate": [line("salt", 4, lot="e1:1")]})
    book = reckon(tape.events)
    assert book.counts[0].contradicted
    assert taken(book, "missing") == [[("e1:1", 6)]]


def test_a_count_at_the_start_comes_before_the_days_shopping(tape):
    tape("bought", "2026-01-05", lines(("salt", 5), paid="1"))
    tape("counted", "2026-01-05", {**lines(("salt", 2)), "when": "start"})
    assert left(reckon(tape.events)) == {"e2:1c": 2, "e1:1": 5}


# Rule 7


def test_jars_come_back_as_they_are_emptied(tape):
    tape.item("jam", measure="volume")
    tape.item("jar", sort="jar", measure="count")
    tape("bought", "2026-01-01", lines(("jar", 12_000), paid="12"))
    made = {"n": 1, "jars": 10, "unsealed": 2, "jar": "jar", "whole": 1000}
    tape("put_up", "2026-01-02", batch(made, []))
    tape("eaten", "2026-01-03", {"ate": [line("jam", 250)]})
    tape("given_away", "2026-01-04", {"how": "gift", **lines(("jam", 100))})
    tape("discarded", "2026-01-05", {"why": "broken", **lines(("jam", 100))})
    tape("discarded", "2026-01-06", {"why": "seal failed", **lines(("jam", 149))})
    # emptied 250 + 149 = 399 of 1000: floor(3.99 + .001) = 3 back; given and broken: 2 gone
    book = reckon(tape.events)
    jars = book.jars["jar"]
    assert (jars.back, jars.gone, jars.out, jars.empty) == (3, 2, 5, 5)
    # broken 100 + seal failed 149 = 249: 2 jars bad, 8 good
    assert book.made[0].good_jars == 8
