"""What to lay in: use from the household's own draws, the budget kept, nothing that would spoil."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from books import FAR, replay_of, state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.recomputed import recompute
from strategies import books, random_book

from ledger.errors import InputError, NotFound
from ledger.methods.stocking import Staple, extra_packs
from ledger.projections import PROJECTIONS

ASK = PROJECTIONS["stocking-up"]
LB = 453_592.37
ALL = {"budget": 20, "trips": 3, "weeks": 8, "price_rise": 30, "shortage": 8}


def ask(state, **options):
    return ASK.build(state, **options).to_dict()


def by_item(answer):
    return {record["item"]: record for record in answer["records"]}


def near(value):
    return pytest.approx(value, rel=1e-5)


@pytest.fixture
def pantry(book, yes, fixed_day):
    """Ten weeks up to 1 November 2026: 20 lb flour used of 26, milk each week, yeast that keeps five."""
    book.write(
        "item_described",
        {"item": "milk", "sort": "food", "measure": "volume", "keeps": {"fridge": "7 days"}},
        on="2026-08-01",
    )
    book.write(
        "item_described",
        {"item": "yeast", "sort": "food", "measure": "count", "keeps": {"shelf": "5 weeks"}},
        on="2026-08-01",
    )
    book.write("bought", {"shop": "corner shop", "lines": [
        {"item": "flour", "amount": "10 lb", "paid": "9.00", "kept": "shelf"},
        {"item": "yeast", "amount": "8", "paid": "8.00", "kept": "shelf"},
        {"item": "milk", "amount": "1 gal", "paid": "4.00", "kept": "fridge"},
    ]}, on="2026-08-24")  # fmt: skip
    book.write(
        "bought",
        {"shop": "mill", "item": "flour", "amount": "16 lb", "paid": "12.80", "kept": "shelf"},
        on="2026-09-07",
    )
    book.write("bought", {"lines": [
        {"item": "yeast", "amount": "4", "paid": "4.40", "kept": "shelf"},
        {"item": "milk", "amount": "1 gal", "paid": "4.20", "kept": "fridge"},
    ]}, on="2026-10-29")  # fmt: skip
    for day in ("2026-09-01", "2026-10-01", "2026-10-30"):
        ate = [
            {"item": "flour", "amount": "5 lb"},
            {"item": "yeast", "amount": "3"},
            {"item": "milk", "amount": "1 qt"},
        ]
        book.write("eaten", {"ate": ate}, on=day, answers=yes)
    book.write(
        "eaten", {"ate": [{"item": "flour", "amount": "5 lb"}]}, on="2026-10-31", answers=yes
    )
    return book


def test_weeks_and_packs_by_hand(pantry):
    found = by_item(pantry.show("stocking-up", weeks=8).to_dict())
    flour = found["flour"]
    # 20 lb in ten weeks, and after four meals nobody is sure: a little over 2 lb a week
    a_week = flour["per_week"]["whole"]
    assert 2 * LB < a_week < 2.5 * LB
    shelf = {r["item"]: r for r in pantry.show("shelf", items=True).records()}
    assert a_week == near(1000 * shelf["flour"]["used_per_week"]["likely"])
    assert flour["left"]["text"] == "6 lb"
    assert (flour["weeks"], flour["target_weeks"]) == (near(6 * LB / a_week), near(8))
    # 0.80 a pound at the mill against 0.90
    assert (flour["pack"]["text"], flour["price"], flour["shop"]) == ("16 lb", 12.80, "mill")
    assert flour["price_per_week"] == near(0.80 * a_week / LB)
    assert (flour["packs_wanted"], flour["packs_kept_out"]) == (1, 0)  # about 12 lb short
    assert flour["by_trip"] is None
    assert flour["packs_planned"] is None
    assert flour["cost"] == near(12.80)
    yeast = found["yeast"]
    # 12 came, 9 were used in ten weeks: 3 there; five weeks take 5 or 6, so not even one pack of 4
    assert 900 < yeast["per_week"]["whole"] < 1200
    assert yeast["keeps_weeks"] == 5
    assert yeast["packs_wanted"] + yeast["packs_kept_out"] == 1
    assert (yeast["packs_wanted"], yeast["price"]) == (0, 8.00)


def test_a_pack_bought_and_the_first_price_ever_are_of_the_last_year(pantry, fixed_day):
    """An older sale price does not count while newer ones are known."""
    pantry.write(
        "price_seen", {"item": "flour", "amount": "50 lb", "price": "1.00"}, on="2020-01-01"
    )
    assert by_item(pantry.show("stocking-up").to_dict())["flour"]["price"] == 12.80


def test_the_plan_keeps_to_the_budget(pantry):
    answer = pantry.show("stocking-up", budget=13, trips=2, weeks=30).to_dict()
    flour = by_item(answer)["flour"]
    assert flour["by_trip"] == [1, 1]
    assert flour["packs_short"] == flour["packs_wanted"] - 2
    assert all(trip["cost"] <= 13 for trip in answer["totals"]["trips"])
    assert answer["totals"]["cost"] == near(sum(trip["cost"] for trip in answer["totals"]["trips"]))
    assert any("Trip 1: 1 flour" in word for word in answer["totals"]["in_words"])


def test_what_spoils_in_the_house_does_not_count(pantry):
    milk = by_item(pantry.show("stocking-up").to_dict())["milk"]
    # of 2 gallons less 3 quarts, what is dated 31 August is past; the new gallon outlives a week's use
    assert milk["late"]["whole"] > 0
    assert milk["weeks"] == near(
        (milk["left"]["whole"] - milk["late"]["whole"]) / milk["per_week"]["whole"]
    )
    assert milk["packs_wanted"] == 0
    assert milk["packs_kept_out"] > 0


def test_a_price_rise_and_a_shortage(pantry):
    answer = pantry.show("stocking-up", price_rise="30", shortage="8 ").to_dict()
    flour = by_item(answer)["flour"]
    # what a year takes, of which 6 lb are there, at 0.80, 30 per cent
    to_buy = 52 * flour["per_week"]["whole"] / LB - 6
    assert flour["rise_cost"] == near(to_buy * 0.80 * 0.30)
    assert flour["uncovered_weeks"] == near(8 - flour["weeks"])
    assert flour["rise_cost_after_plan"] is None
    assert "flour" in answer["totals"]["uncovered"]
    planned = by_item(pantry.show("stocking-up", price_rise=30, shortage=8, budget=20).to_dict())[
        "flour"
    ]
    assert planned["target_weeks"] == near(8)  # the weeks of the shortage
    assert planned["rise_cost_after_plan"] == near((to_buy - 16) * 0.80 * 0.30)
    assert planned["uncovered_weeks_after_plan"] == 0


@pytest.mark.parametrize(
    ("target", "pounds"),
    [
        ({"amount": "20 lb"}, 20),
        ({"amount": "365 lb", "per": "year"}, 28),
        ({"amount": "3 lb", "per": "week"}, 12),
        ({"amount": "73 lb", "per": "person year"}, 28),
        ({"amount": "50 lb", "per": "year", "by": "2026-12-01"}, 50),
    ],
)
def test_the_household_s_own_target(pantry, target, pounds):
    """Four weeks of what is wanted a year, a week or by five people; all of what has a day or no period."""
    pantry.write("setting_changed", {"name": "people", "value": "5"}, on="2026-01-01")
    pantry.write("target_set", {"item": "flour", **target}, on="2026-10-01")
    flour = by_item(pantry.show("stocking-up").to_dict())["flour"]
    assert flour["target"]["whole"] / 453_592.37 == near(pounds)
    assert flour["target_from"].startswith(target["amount"])


def test_a_target_without_people_says_what_is_missing(pantry):
    pantry.write(
        "target_set", {"item": "flour", "amount": "73 lb", "per": "person year"}, on="2026-10-01"
    )
    answer = pantry.show("stocking-up", budget=10).to_dict()
    flour = by_item(answer)["flour"]
    assert (flour["target_weeks"], flour["packs_wanted"]) == (None, None)
    assert any("people" in one for one in answer["totals"]["missing"])


def test_a_target_of_what_was_never_used(book, fixed_day):
    book.write("bought", {"item": "candle", "amount": "4", "paid": "4"}, on="2026-10-01")
    book.write("target_set", {"item": "candle", "amount": "12"}, on="2026-10-01")
    answer = book.show("stocking-up", **ALL).to_dict()
    candle = answer["records"][0]
    assert (candle["weeks"], candle["packs_wanted"], candle["target"]["text"]) == (None, None, "12")
    assert "No use of candle" in answer["totals"]["missing"][0]


def test_own_food_is_no_staple(book, yes, fixed_day):
    for day in ("2026-09-01", "2026-10-01"):
        book.write("bought", {"item": "plum", "amount": "1 lb", "paid": "2"}, on=day)
    book.write("harvested", {"item": "plum", "amount": "20 lb"}, on="2026-09-02")
    book.write("eaten", {"ate": [{"item": "plum", "amount": "2 lb"}]}, on="2026-10-02", answers=yes)
    assert book.show("stocking-up").to_dict()["records"] == []


def test_a_price_of_nothing_is_passed_over(pantry):
    pantry.write("price_seen", {"item": "flour", "amount": "1 lb", "price": "0"}, on="2026-10-30")
    assert by_item(pantry.show("stocking-up", **ALL).to_dict())["flour"]["price"] == 12.80


# -- any book ----------------------------------------------------------------------------------


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(books(max_size=50), st.integers(0, 30), st.integers(1, 6), st.integers(0, 60))
def test_any_book_keeps_to_its_budget_and_its_dates(events, budget, trips, weeks):
    last = max((event["on"] for event in events), default="2026-01-01")
    state = state_of(events, last)
    answer = ask(state, budget=budget, trips=trips, weeks=weeks, price_rise=30, shortage=8)
    for trip in answer["totals"].get("trips", []):
        assert trip["cost"] <= budget + 1e-9
    held_of = {
        record["item"]: record["left"]["whole"] - record["late"]["whole"]
        for record in answer["records"]
    }
    for record in answer["records"]:
        planned, keeps = record["packs_planned"], record["keeps_weeks"]
        if planned and keeps is not None:
            held = held_of[record["item"]] + planned * record["pack"]["whole"]
            assert held <= keeps * record["per_week"]["whole"] * (1 + 1e-6) + 1
        for value in record.values():
            assert not (isinstance(value, float) and not math.isfinite(value))


def staple_of(record):
    """Return a record as the method takes it, from the columns alone."""
    keeps = record["keeps_weeks"]
    return Staple(
        record["item"],
        held=record["left"]["whole"] - record["late"]["whole"],
        per_week=record["per_week"]["whole"],
        target_weeks=record["target_weeks"],
        pack=record["pack"]["whole"],
        price=record["price"],
        keeps_weeks=math.inf if keeps is None else keeps,
    )


@pytest.mark.parametrize("seed", range(6))
def test_the_packs_and_risks_are_those_of_the_method(seed):
    """The formulas of the figures against a plain reckoning."""
    events = random_book(random.Random(seed), 80)
    state = state_of(events, max(event["on"] for event in events))
    for record in ask(state, **ALL)["records"]:
        if record["cost"] is None:
            continue
        now = staple_of(record)
        after = replace(now, held=now.held + record["packs_planned"] * now.pack)
        assert record["packs_wanted"] == now.packs_wanted()
        for name, one in (("", now), ("_after_plan", after)):
            # 30 % more for what a year takes beyond what is held; weeks of the eight that it does not last
            bought = max(0.0, one.per_week * 52 - one.held)
            assert record[f"rise_cost{name}"] == near(bought * one.price / one.pack * 0.3)
            assert record[f"uncovered_weeks{name}"] == near(max(0.0, 8 - one.held / one.per_week))


@pytest.mark.parametrize("seed", range(6))
def test_the_plan_is_that_of_the_method(seed):
    events = random_book(random.Random(seed), 80)
    state = state_of(events, max(event["on"] for event in events))
    answer = ask(state, budget=15, trips=3, weeks=12)
    staples = [staple_of(record) for record in answer["records"] if record["cost"] is not None]
    plan = extra_packs(staples, trips=3, budget=15)
    assert [trip["packs"] for trip in answer["totals"]["trips"]] == [t.packs for t in plan.trips]


@pytest.mark.parametrize("seed", range(6))
def test_growing_event_by_event_gives_the_same_answer(seed):
    events = random_book(random.Random(seed), 50)
    day = max(event["on"] for event in events)
    replay = replay_of(events, day)
    assert ask(replay.state(as_of=day), **ALL) == ask(state_of(events, day), **ALL)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_known_then_is_the_answer_of_then(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    day = max(event["on"] for event in events)
    prefix = [event for event in events if event["recorded_at"] <= cut]
    then, now = ask(state_of(events, day, cut), **ALL), ask(state_of(prefix, day), **ALL)
    assert {**then, "known_at": None} == now


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    for part in node.parts:
        check(part)


def get(record, name):
    for part in name.split("."):
        record = record[part]
    return record


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("options", [{}, ALL], ids=("plain", "all"))
def test_every_figure_is_what_its_tree_gives(seed, options):
    events = random_book(random.Random(seed), 80)
    state = state_of(events, max(event["on"] for event in events))
    answer = ASK.build(state, **options)
    names = [c.name for c in answer.columns if c.unit not in ("", "day")]
    for record in answer.to_dict()["records"][:10]:
        for name in names:
            shown = get(record, name)
            if shown is not None:
                node = ASK.why(state, record["why"].partition("/")[2], name)
                assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-9), name
                check(node)


def test_an_address_keeps_the_options_asked(pantry):
    record = by_item(pantry.show("stocking-up", **{**ALL, "budget": "13.50"}).to_dict())["flour"]
    assert (
        record["why"]
        == "stocking-up/flour/weeks=8/trips=3/budget=13.5/price-rise=30.0/shortage=8.0"
    )
    assert pantry.why(record["why"], "rise_cost").value == near(record["rise_cost"])
    flour = by_item(pantry.show("stocking-up").to_dict())["flour"]
    assert pantry.why("stocking-up/flour").value == near(flour["weeks"])


# -- bad input ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("budget", "much"), ("budget", "-1"), ("trips", "0"), ("trips", "2.5"), ("trips", "1000"),
        ("weeks", "-3"), ("weeks", "nan"), ("price_rise", "x%"), ("shortage", "inf"), ("shortage", ""),
    ],
)  # fmt: skip
def test_an_option_that_is_no_number_is_refused_by_name(book, option, value):
    with pytest.raises(InputError, match=option.replace("_", "-")):
        book.show("stocking-up", **{option: value})


def test_per_cent_may_be_written(pantry):
    one, other = (by_item(pantry.show("stocking-up", price_rise=p).to_dict()) for p in ("30%", 30))
    assert one["flour"]["rise_cost"] == other["flour"]["rise_cost"]


@pytest.mark.parametrize(
    "address", ["stocking-up/nothing", "stocking-up/flour/trips=4/budget=much"]
)
def test_an_unknown_address_is_refused(book, address):
    with pytest.raises((NotFound, InputError)):
        book.why(address)


def test_an_unknown_figure_or_item_is_refused_by_name(pantry):
    with pytest.raises(NotFound, match="figure"):
        pantry.why("stocking-up/flour", "colour")
    with pytest.raises(NotFound, match="no item"):
        pantry.show("stocking-up", item="nothing")


def test_an_empty_book_answers_with_a_sentence(book):
    answer = book.show("stocking-up", **ALL).to_dict()
    assert answer["records"] == []
    assert "No staples yet" in answer["totals"]["missing"][0]


@pytest.mark.parametrize("as_of", ["2026-08-24", "2026-08-25", "1990-01-01", "2066-01-01"])
def test_any_day_may_be_asked(pantry, as_of):
    """The first days have no whole week, and forty years on nothing was used in the last one."""
    assert isinstance(pantry.show("stocking-up", as_of=as_of, **ALL).to_dict()["records"], list)


def test_state_far_ahead_has_no_staples_in_use():
    assert ask(state_of(random_book(random.Random(1), 40), FAR), **ALL)["name"] == "stocking-up"
