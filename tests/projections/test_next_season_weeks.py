"""Putting up week by week, figures that open, and what any question must bear."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, ListLog, row_of, state_of
from hypothesis import HealthCheck, given, settings
from projections.growing import planted, records, totals
from strategies import books, random_book
from test_why import check, get

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

LB, FT2 = 453.59237, 0.3048**2
NEXT = PROJECTIONS["next-season"]


@pytest.fixture
def garden(book, yes):
    return planted(book, yes)


# -- putting up ---------------------------------------------------------------------------------


def test_preserving_adds_up_to_the_year(garden):
    weeks = records(garden, preserving=True)
    assert {w["item"] for w in weeks} == {"tomato sauce"}
    assert sum(w["jars"] for w in weeks) == 14
    assert sum(w["batches"] for w in weeks) == 4  # of four jars, the last of two
    assert sum(w["loads"] for w in weeks) == 4
    assert sum(w["raw_g"] for w in weeks) == pytest.approx(14 * 5 / 0.9 * LB, rel=1e-5)
    assert sum(w["hours"] for w in weeks) == pytest.approx(
        14 / 4 * 2, rel=1e-5
    )  # 70 and 50 minutes
    assert all(w["week"] == "2027-07-26" for w in weeks)  # the Monday before 1 August


def test_jars_and_lids_run_down_week_by_week(garden, yes):
    garden.write("bought", lines=[{"item": "quart jar", "amount": "10", "paid": "9"}, {"item": "lid", "amount": "12", "paid": "3"}],
                 on="2026-08-01", answers=yes)  # fmt: skip
    (week,) = records(garden, preserving=True)
    assert (week["jars_there"], week["jars_to_get"]) == (10, 4)
    assert (week["lids_there"], week["lids_to_get"]) == (4, 10)  # eight lids went on the sauce
    found = totals(garden, preserving=True)
    assert found["jars"]["quart jar"] == {"wanted": 14, "empty": 2, "full now": 8, "to get": 4}
    assert any("tested process" in text for text in found["in_words"])


def test_batches_wait_for_the_harvest(garden, yes):
    for day in ("2026-08-08", "2026-08-15", "2026-08-22"):
        garden.write("harvested", item="tomato", amount="30 lb", on=day, answers=yes)
    weeks = [w["week"] for w in records(garden, preserving=True)]
    assert weeks == sorted(weeks)
    assert len(weeks) > 1


def test_unpicked_crop_has_no_week(book, yes):
    book.write("planted", crop="cucumber", plants=10, area="40 sq ft", on="2026-05-01", answers=yes)
    book.write("recipe_written", recipe="pickle", makes="dill pickle", yields="8 pint jars", method="boiling water",
               uses=[{"item": "cucumber", "amount": "8 lb"}], on="2026-05-01", answers=yes)  # fmt: skip
    (week,) = records(book, preserving=True, want="dill pickle=8 pint jars")
    assert (week["week"], week["hours"], week["jars"]) == (None, None, 8)
    missing = totals(book, preserving=True, want="dill pickle=8 pint jars")["missing"]
    assert any("When cucumber is picked" in text for text in missing)


# -- opening figures ----------------------------------------------------------------------------


def open_all(state, **options):
    answer = NEXT.build(state, **options)
    for record in answer.to_dict()["records"]:
        key = record["why"].partition("/")[2]
        for column in answer.columns:
            shown = get(record, column.name) if column.unit not in ("", "day", "seasons") else None
            if shown is None:
                continue
            node = NEXT.why(state, key, column.name)
            assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-6), column.name
            check(node)


ASKED = [
    {},
    {"preserving": True},
    {
        "rotate": True,
        "for": "energy",
        "want": "tomato sauce=90 quart jars",
        "beds": "south bed=9 m2",
    },
    {"preserving": True, "want": ["tomato sauce=3 quart jars", "tomato=200 lb"]},
]


@pytest.mark.parametrize("options", ASKED)
def test_every_figure_opens_with_what_was_asked(garden, options):
    open_all(garden.state("2026-12-01"), **options)


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("preserving", [False, True])
def test_every_figure_of_random_books_opens(seed, preserving):
    open_all(state_of(random_book(random.Random(seed), 80), FAR), preserving=preserving)


@pytest.mark.parametrize(
    "address",
    [
        "next-season/unicorn",
        "next-season/tomato/nonsense",
        "next-season/week=2027-01-04/tomato sauce",
        "next-season/week=",
    ],
)
def test_unknown_address_is_refused(garden, address):
    with pytest.raises(NotFound):
        garden.why(address, as_of="2026-12-01")


@pytest.mark.parametrize(
    "address", ["next-season/tomato", "next-season/week=2027-07-26/tomato sauce"]
)
def test_unknown_figure_is_refused(garden, address):
    with pytest.raises(NotFound, match="It has"):
        garden.why(address, "colour", as_of="2026-12-01")


# -- what any question must bear ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ({"want": "tomato"}, "no name and amount"),
        ({"want": "tomatoo sauce=3 quart jars"}, "Did you mean 'tomato sauce'"),
        ({"want": "tomato sauce=3 lb"}, "kept by volume"),
        ({"want": "tomato sauce=-3 quart jars"}, "amount"),
        ({"beds": "south bed=wide"}, "40 sq ft"),
        ({"beds": "south bed=-4 sq ft"}, "beds"),
        ({"for": "fun"}, "targets, value, energy"),
    ],
)
def test_bad_options_are_refused(garden, options, says):
    with pytest.raises(InputError, match=says):
        records(garden, **options)


@pytest.mark.parametrize("preserving", [False, True])
def test_empty_book_says_what_is_missing(book, preserving):
    answer = book.show("next-season", as_of="2026-12-01", preserving=preserving)
    assert answer.records() == []
    assert answer.totals["missing"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("planted", {"crop": "tomato", "plants": 10}),
        ("harvested", {"item": "tomato", "amount": "3 lb"}),
        ("harvested", {"item": "cabbage head", "amount": "3"}),
        ("eaten", {"ate": [{"item": "tomato", "amount": "1 lb"}]}),
        ("target_set", {"item": "tomato sauce", "amount": "9 quart jars", "per": "year"}),
    ],
)
def test_one_event_is_answered(book, yes, kind, body):
    book.write(kind, body, on="2026-06-01", answers=yes)
    for preserving in (False, True):
        answer = book.show("next-season", as_of="2026-12-01", preserving=preserving)
        assert answer.totals["missing"]


def test_nothing_before_its_day_nor_before_it_was_known(garden):
    assert records(garden, as_of="2025-01-01") == []
    assert garden.show("next-season", as_of="2026-12-01", known_at="2020-01-01").records() == []


def test_season_planned_is_the_one_to_plant(garden):
    assert totals(garden, as_of="2026-12-01")["season"] == 2027
    assert totals(garden, as_of="2027-02-01")["season"] == 2027
    assert totals(garden, as_of="2026-06-01")["season"] == 2027


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(books())
def test_growing_book_answers_as_a_fresh_one(events):
    log = ListLog(events)
    half, log.rows = log.rows, log.rows[: len(log.rows) // 2]
    replay = Replay(log)
    replay.refresh()
    NEXT.build(replay.state(as_of=FAR, known_at=None))
    log.rows = [row_of(event) for event in events] or half
    replay.refresh()
    for options in ({}, {"preserving": True}):
        grown = NEXT.build(replay.state(as_of=FAR, known_at=None), **options).to_dict()
        assert grown == NEXT.build(state_of(events), **options).to_dict()


def test_twice_the_wants_is_twice_the_need(garden):
    wants = [f"tomato sauce={n} quart jars;tomato=0;green bean={n} lb" for n in (10, 20)]
    once, twice = (
        {r["crop"]: r["needed_g"]["likely"] for r in records(garden, want=w)} for w in wants
    )
    assert twice == pytest.approx({crop: 2 * grams for crop, grams in once.items()})


def test_totals_say_what_is_wanted_so_that_it_can_be_asked_otherwise(garden):
    wanted = totals(garden)["wanted"]
    assert wanted["tomato sauce"] == {
        "number": pytest.approx(14), "unit": "quart jar", "source": "target", "sort": "made",
    }  # fmt: skip
    assert wanted["green bean"]["number"] == pytest.approx(4)
    likely = {r["crop"]: r["needed_g"]["likely"] for r in records(garden)}
    for item, lever in wanted.items():
        for row in records(garden, want=f"{item}={lever['number']!r} {lever['unit']}"):
            assert row["needed_g"]["likely"] == pytest.approx(likely[row["crop"]], rel=1e-6)


def test_ground_of_the_crops_in_a_bed_and_ground_left_make_the_bed(garden):
    beds = totals(garden)["beds"]
    assert set(beds) == {"south bed", "north bed"}
    for bed in beds.values():
        assert sum(bed["crops_m2"].values()) + bed["free_m2"] == pytest.approx(bed["area_m2"])
        assert set(bed["crops_m2"]) == set(bed["crops"])
