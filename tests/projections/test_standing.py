"""The standing stays with the jar, goes into what is made of it, and ends only by what ends it."""

from __future__ import annotations

import pytest
from jars_in_danger import (
    AGAINST,
    OPEN,
    PUBLISHED,
    QUARTS,
    SHORT,
    YES,
    put_up,
    shelf,
    stands,
)

from ledger.errors import InputError
from ledger.published import GRAVE, MARKED

pytestmark = pytest.mark.usefixtures("fixed_day")


def use(book, item, amount, on, makes="bean soup", **more):
    body = {"makes": makes, "method": "cook", "used": [{"item": item, "amount": amount, **more}],
            "made": [{"amount": "2 qt", "kept": "freezer"}]}  # fmt: skip
    return book.write("put_up", body, on=on, answers=YES).event.id


@pytest.mark.parametrize(
    ("body", "standing", "said"),
    [
        (PUBLISHED, "as published", None),
        (SHORT, "short of it", "short of it, 2026-09-12: do not taste, discard"),
        (AGAINST, "against every published process", "against every published process, 2026-09-12: do not taste, discard"),
        (OPEN, "not recorded", "not recorded, 2026-09-12: write down what is missing before it is eaten"),
    ],
)  # fmt: skip
def test_lot_stands_as_its_batch(book, body, standing, said):
    assert stands(book, put_up(book, body)) == (standing, said)


@pytest.mark.parametrize(
    ("note", "stands_so", "use_by"),
    [
        ("in the oven", "to check yourself", "2026-09-16"),
        ("open kettle", "to check yourself", "2026-09-16"),
        ("", None, None),
    ],
)
def test_jars_of_an_oven_in_the_fridge_have_a_few_days(book, note, stands_so, use_by):
    """Home-canned food once opened: 3 to 4 days refrigerated (USDA FSIS, shelf-stable food safety)."""
    beans = {"makes": "green bean", "method": "boiling water", "note": note or "kept cold",
             "used": [{"item": "green bean", "amount": "4 lb"}],
             "made": [{"jars": 5, "jar": "pint jar", "kept": "fridge"}]}  # fmt: skip
    batch = put_up(book, beans)
    assert stands(book, batch)[0] == stands_so
    assert shelf(book)[f"{batch}:1"]["use_by"] == use_by


def test_acid_food_that_fell_short_says_so(book):
    sauce = {"makes": "apple sauce", "method": "boiling water", "minutes": "5", "pack": "hot", "headspace": "1/2 in",
             "altitude": "800 ft", "used": [{"item": "apple", "amount": "21 lb"}],
             "made": [{"jars": 7, "jar": "pint jar", "kept": "shelf"}]}  # fmt: skip
    batch = put_up(book, sauce)
    assert stands(book, batch)[1] == "short of it, 2026-09-12: do not eat before it is settled"


@pytest.mark.parametrize("process", [
    {"method": "pressure", "minutes": "55", "psi": "11", "gauge": "dial"}, {"method": "boiling water", "minutes": "60"},
])  # fmt: skip
def test_what_a_document_rules_out_is_discarded_however_it_was_canned(book, process):
    """No process in any canner for pumpkin as butter (Kansas State University Extension, 2016)."""
    butter = {"makes": "pumpkin butter", "pack": "hot", "headspace": "1/2 in", "altitude": "800 ft", **process,
              "used": [{"item": "pumpkin", "amount": "8 lb"}, {"item": "sugar", "amount": "3 lb"}],
              "made": [{"jars": 9, "jar": "half-pint jar", "kept": "shelf"}]}  # fmt: skip
    standing, said = stands(book, put_up(book, butter))
    assert standing in GRAVE[:2]
    assert said == f"{standing}, 2026-09-12: not to be canned in any canner; do not taste, discard"
    made = use(book, "pumpkin butter", "1 half-pint jar", "2026-09-20", makes="pie filling")
    assert stands(book, made)[1].endswith("not to be canned in any canner; do not taste, discard")


def test_food_of_little_acid_that_nothing_covers_is_discarded(book):
    """Graver than short of it, and so never said in milder words."""
    refried = {
        **PUBLISHED,
        "makes": "refried beans",
        "used": [{"item": "dry bean", "amount": "5 lb"}],
    }
    assert stands(book, put_up(book, refried)) == (
        "no published process", "no published process, 2026-09-12: do not taste, discard"
    )  # fmt: skip


@pytest.mark.parametrize("depth", [1, 2, 40])
def test_children_keep_it_at_any_depth(book, depth):
    put_up(book, AGAINST)
    item, amount = "canned green beans", "1 quart jar"
    for n in range(depth):
        last = use(book, item, amount, "2026-09-20", makes=f"soup {n}")
        item, amount = f"soup {n}", "2 qt"
    standing, said = stands(book, last)
    assert standing == "against every published process"
    assert said.startswith("made of canned green beans of 2026-09-12, against")


def test_batch_of_good_jars_is_not_called_published(book):
    put_up(book)
    soup = use(book, "canned green beans", "1 quart jar", "2026-09-20")
    assert stands(book, soup) == (None, None)


def test_canned_again_from_bad_jars_is_never_better(book):
    put_up(book, AGAINST)
    again = put_up(book, PUBLISHED, "2026-09-14", but={
        "used": [{"item": "canned green beans", "amount": "7 quart jars"}], "makes": "green beans anew"})  # fmt: skip
    assert stands(book, again)[0] == "against every published process"


def test_leftovers_of_a_meal_keep_it(book):
    put_up(book, AGAINST)
    left = [{"item": "stew", "amount": "1 qt", "kept": "fridge", "share": "0.5"}]
    ate = [{"item": "canned green beans", "amount": "1 quart jar"}]
    meal = book.write("eaten", {"ate": ate, "left": left}, on="2026-09-20", answers=YES).event.id
    assert stands(book, meal)[0] == "against every published process"


@pytest.mark.parametrize("wrong", [AGAINST, SHORT, OPEN], ids=["against", "short", "open"])
def test_opening_counting_renaming_and_striking_something_else_do_not_end_it(book, wrong):
    batch = put_up(book, wrong)
    standing = stands(book, batch)[0]
    ate = {"ate": [{"item": "canned green beans", "amount": "1 cup"}]}
    other = book.write("eaten", ate, on="2026-09-13", answers=YES).event.id
    book.write(
        "counted", item="canned green beans", amount="5 quart jars", on="2026-09-14", answers=YES
    )
    described = {
        "item": "lovely beans",
        "sort": "food",
        "measure": "volume",
        "also": ["canned green beans"],
    }
    book.write("item_described", described, on="2026-09-15", answers=YES)
    book.strike(other, "another meal")
    assert stands(book, batch)[0] == standing


def test_jars_counted_away_and_found_again_keep_it(book):
    put_up(book, AGAINST)
    for on, many in (("2026-09-13", 0), ("2026-09-14", 6), ("2026-09-15", 0), ("2026-09-16", 3)):
        book.write(
            "counted", item="canned green beans", amount=f"{many} quart jars", on=on, answers=YES
        )
    (row,) = [r for r in shelf(book).values() if r["item"] == "canned green beans"]
    assert row["lot"].endswith("c")
    assert row["standing"] == "against every published process"


def test_found_jars_of_an_item_without_a_bad_batch_have_none(book):
    put_up(book)
    book.write(
        "counted", item="canned green beans", amount="0 quart jars", on="2026-09-13", answers=YES
    )
    book.write(
        "counted", item="canned green beans", amount="4 quart jars", on="2026-09-14", answers=YES
    )
    (row,) = [r for r in shelf(book).values() if r["item"] == "canned green beans"]
    assert row["standing"] is None


def test_correction_of_the_entry_ends_it_and_known_at_brings_it_back(book, fixed_day):
    batch = put_up(book, SHORT)
    then = book.history()[0].recorded_at
    fixed_day.tick(3600)
    put_up(book, PUBLISHED, replaces=batch)
    assert stands(book, batch) == ("as published", None)
    assert stands(book, batch, known_at=then)[0] == "short of it"


def test_discarding_ends_it_and_what_was_made_of_it_keeps_it(book):
    batch = put_up(book, SHORT)
    soup = use(book, "canned green beans", "1 quart jar", "2026-09-20")
    jars = {"item": "canned green beans", "amount": "6 quart jars", "why": "other"}
    book.write("discarded", jars, on="2026-09-21", answers=YES)
    assert f"{batch}:1" not in shelf(book)
    assert stands(book, soup)[0] == "short of it"


# -- run again in time ------------------------------------------------------------------------

WHOLE = [{"item": "canned green beans", "amount": "7 quart jars"}]


def run_anew(book, at, first_at="12:00", on="2026-09-12", **more):
    put_up(book, SHORT, at=first_at)
    again = put_up(book, PUBLISHED, on, at=at, but={"used": WHOLE, **more})
    return stands(book, again)[0]


def test_whole_process_anew_within_two_hours_ends_it(book):
    assert run_anew(book, "14:00") == "as published"


@pytest.mark.parametrize(
    ("at", "first", "more"),
    [
        ("14:01", "12:00", {}),  # too late
        (None, "12:00", {}),  # nobody knows when
        ("13:00", None, {}),
        ("13:00", "12:00", {"minutes": "5"}),  # minutes added to those before
        ("13:00", "12:00", {"method": "cook"}),
        ("13:00", "12:00", {"makes": "bean salad"}),  # another thing made of them
    ],
)
def test_anything_else_does_not(book, at, first, more):
    assert run_anew(book, at, first, **more) in MARKED


def test_next_day_is_too_late(book):
    assert run_anew(book, "13:00", on="2026-09-13") == "short of it"


# -- looked up ----------------------------------------------------------------------------------


def settle(book, batch, on="2026-09-20", **more):
    said = {"batch": batch, "publication": "state bulletin 270, page 12"}
    return book.write("checked", said, on=on, answers=YES, **more)


def test_looking_up_settles_what_is_open(book):
    batch = put_up(book, OPEN)
    settle(book, batch[:8])
    assert stands(book, batch) == (
        "looked up", "looked up, 2026-09-12 (on 2026-09-20, in state bulletin 270, page 12)"
    )  # fmt: skip
    assert stands(book, batch, as_of="2026-09-19")[0] == "not recorded"  # not looked up by then
    soup = use(book, "canned green beans", "1 quart jar", "2026-09-25")
    assert stands(book, soup) == (None, None)


def test_looking_up_is_of_what_was_written_then(book):
    batch = put_up(book, OPEN)
    settle(book, batch)
    put_up(book, OPEN, replaces=batch, but={"minutes": "26"})
    standing, said = stands(book, batch)
    assert standing == "not recorded"
    assert said.endswith("(looked up on 2026-09-20, and corrected since)")
    settle(book, batch, on="2026-09-21")
    assert stands(book, batch)[0] == "looked up"


def test_struck_looking_up_settles_nothing(book):
    batch = put_up(book, OPEN)
    book.strike(settle(book, batch).event.id, "wrong page")
    assert stands(book, batch)[0] == "not recorded"


def test_graver_by_what_came_to_light_since_says_so(book):
    batch = put_up(book, OPEN)
    settle(book, batch)
    book.write("gauge_tested", gauge="dial", reads="+3 psi", on="2026-10-01")
    standing, said = stands(book, batch)
    assert standing == "short of it"
    assert said.endswith("(looked up on 2026-09-20, and stands graver by today's tables)")


@pytest.mark.parametrize(
    ("body", "problem"),
    [
        (SHORT, "graver than to check yourself"),
        (AGAINST, "graver than to check yourself"),
        (PUBLISHED, "there is nothing to settle"),
    ],
)
def test_anything_but_open_cannot_be_looked_up(book, body, problem):
    batch = put_up(book, body)
    end = book.log.position()
    with pytest.raises(InputError, match=problem) as caught:
        settle(book, batch)
    assert caught.value.field == "batch"
    assert book.log.position() == end


def test_open_batch_made_of_grave_jars_cannot_be_looked_up(book):
    put_up(book, AGAINST)
    again = put_up(book, OPEN, "2026-09-14", but={"makes": "green beans anew", "used": WHOLE})
    with pytest.raises(InputError, match="graver"):
        settle(book, again)


@pytest.mark.parametrize(
    "batch", ["ffffffff", "no such thing", "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"]
)
def test_unknown_batch_is_refused_by_its_field(book, batch):
    put_up(book, OPEN)
    with pytest.raises(InputError) as caught:
        settle(book, batch)
    assert caught.value.field == "batch"


def test_what_is_no_batch_or_struck_is_refused(book):
    plum = book.write("harvested", item="plum", amount="3 lb", on="2026-09-01").event.id
    batch = put_up(book, OPEN)
    book.strike(batch, "never was")
    for one, problem in ((plum, "not a batch"), (batch, "taken back")):
        with pytest.raises(InputError, match=problem):
            settle(book, one)


def test_import_takes_it_and_reports_that_it_settles_nothing(book):
    batch = put_up(book, SHORT)
    body = {"batch": batch, "publication": "a page of the web"}
    done = book.import_events(iter([(1, 1, {"kind": "checked", "on": "2026-09-20", "body": body})]))
    assert done.written == 1
    assert [note for note in done.notes if "is not settled by it" in note]
    assert stands(book, batch)[0] == "short of it"


# -- where it is shown ----------------------------------------------------------------------------


def test_marked_lots_have_no_day_and_no_period_of_quality(book, yes):
    keeps = {
        "item": "canned green beans",
        "sort": "food",
        "measure": "volume",
        "keeps": {"shelf": "12 months"},
    }
    book.write("item_described", keeps, on="2026-09-01")
    bad, good = put_up(book, SHORT), put_up(book, PUBLISHED)
    rows = shelf(book)
    assert rows[f"{good}:1"]["use_by"] == "2027-09-12"
    assert rows[f"{good}:1"]["best_quality"]
    for name in ("use_by", "days_left", "best_quality", "best_quality_from", "eat_first"):
        assert rows[f"{bad}:1"][name] is None
    assert next(iter(rows)) == f"{bad}:1"  # the danger first
    items = {r["item"]: r for r in book.show("shelf", items=True).records()}
    assert items["canned green beans"]["standing"] == "short of it"
    assert items["canned green beans"]["standing_text"].startswith(
        "1 of 2 lots; the gravest: short of it"
    )
    assert book.show("as-published", keeping=True).records()[0]["standing"] == "nothing published"
    assert "CAUTION" in book.show("shelf").cautions[0].text
    assert book.why(f"shelf/{bad}:1", "standing").value == "short of it"


def test_unsealed_jars_have_the_published_week(book):
    batch = put_up(book, but={"made": [{**QUARTS, "unsealed": 2}]})
    row = shelf(book, as_of="2026-09-15")[f"{batch}:1f"]
    assert (row["kept"], row["use_by"], row["days_left"]) == ("fridge", "2026-09-19", 4)
    assert row["standing_text"] == "did not seal: in the fridge, to be eaten by 2026-09-19"
    past = shelf(book, as_of="2026-09-20")[f"{batch}:1f"]
    assert past["days_left"] == -1
    assert past["standing_text"].startswith("did not seal, and past its time in the fridge")
    keeps = {
        "item": "canned green beans",
        "sort": "food",
        "measure": "volume",
        "keeps": {"fridge": "3 days"},
    }
    book.write("item_described", keeps, on="2026-09-01")
    assert shelf(book, as_of="2026-09-13")[f"{batch}:1f"]["use_by"] == "2026-09-15"  # the stricter
    keeps["keeps"] = {"fridge": "3 weeks"}
    book.write("item_described", keeps, on="2026-09-01")
    assert shelf(book, as_of="2026-09-13")[f"{batch}:1f"]["use_by"] == "2026-09-19"
