"""No question fails on any book that the door takes, on any day."""

from __future__ import annotations

import datetime as dt
import math
import random

import pytest
from books import FAR, state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from strategies import books, random_book
from strategies.winters import winter_book

from ledger.projections import PROJECTIONS

# each question as it is asked most, and its other shapes where these need no name of the book's own
ASKED = [
    (name, options)
    for name in PROJECTIONS
    for options in (
        {"gauge": "dial"} if name == "touched" else {},
        *({"shelf": [{"items": True}], "next-season": [{"preserving": True}, {"rotate": True}, {"for": "value"}],
           "stocking-up": [{"budget": 20, "price_rise": 30, "shortage": 8}],
           "enough": [{"of": "eaten"}, {"of": "next season", "days": "365"}], "how-long": [{"without": "power,water,shop"}, {"to_add": True}],
           "keeping-life": [{"loss": True}], "power-and-water": [{"freezer": True}], "own-prices": [{"year": "2024", "base": "2023"}],
           "whole-year": [{"limits": True, "chance": "even"}]}.get(name, [])),
    )
]  # fmt: skip


@pytest.mark.parametrize(("name", "options"), ASKED)
@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
@given(events=books(max_size=50), later=st.integers(0, 900))
def test_every_question_answers(name, options, events, later):
    days = [dt.date.fromisoformat(event["on"]) for event in events] or [dt.date(2026, 1, 1)]
    as_of = (max(days) + dt.timedelta(days=later)).isoformat()
    answer = PROJECTIONS[name].build(state_of(events, as_of), **options)
    assert answer.to_dict()["records"] is not None


@pytest.mark.parametrize("seed", [0, 109, *range(7, 11)])
def test_every_question_answers_a_household_of_people_and_animals(seed):
    """Seed 0 feeds animals what was put up; 109 cans what is published for another method alone."""
    events = winter_book(seed)
    state = state_of(events, max(event["on"] for event in events))
    for question in PROJECTIONS.values():
        if question.name != "touched":  # follows what is named
            assert question.build(state).to_dict()["records"] is not None


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(events=books(max_size=60), part=st.floats(0, 1))
def test_next_season_answers_on_any_day_of_a_book(events, part):
    """Also between what was written down, where batches lack what came later."""
    days = sorted(event["on"] for event in events) or ["2026-01-01"]
    as_of = days[int(part * (len(days) - 1))]
    question = PROJECTIONS["next-season"]
    state = state_of(events, as_of)
    for record in question.build(state).records():
        for figure in ("needed_g.likely", "plants.nine_in_ten", "yield_g.likely", "chance_short"):
            question.why(state, record["why"].partition("/")[2], figure)


OPENED = {
    "who-eats": ("energy_kcal", "iron_mg"), "enough": ("days", "supply", "share_of_need", "own_share", "gap", "shop_cost", "bed_m2"),
    "how-long": ("days", "energy_days", "kg"), "first-year": ("quarts", "own_quarts", "lb", "row_ft"),
    "when-to-sow": ("last_sowing_days", "spring_frost_day", "germination", "to_order"),
    "keeping-life": ("survival", "failures", "at_least_days", "published_days", "life_days"),
    "power-and-water": ("kwh", "kwh_per_good_jar", "full_load_saves"), "own-prices": ("change", "laspeyres", "paasche", "fisher"),
    "hens": ("lay", "eggs", "feed_per_dozen_lb", "cost_per_dozen"), "glut": ("kg", "hours"), "whole-year": ("amount", "kg", "money"),
    "work-worth": ("hours", "brought", "brought_per_hour"),
}  # fmt: skip


@pytest.mark.parametrize("name", OPENED)
@pytest.mark.parametrize("seed", range(3))
def test_every_figure_of_the_winter_is_what_its_tree_gives(name, seed):
    state = state_of(
        random_book(random.Random(seed), 60),
        FAR if name in ("who-eats", "keeping-life") else "2026-06-01",
    )
    for record in PROJECTIONS[name].build(state).rows()[:8]:
        for figure in OPENED[name]:
            shown = record[figure]
            if shown is None:
                continue
            node = PROJECTIONS[name].why(state, record["why"].partition("/")[2], figure)
            assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-9), (
                record["why"],
                figure,
            )
            check_tree(node)
