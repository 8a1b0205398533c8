"""Every figure opens to its arithmetic: each node is recomputed from its parts."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, answer_of, state_of
from questions.recomputed import recompute
from strategies import random_book

from ledger.errors import NotFound
from ledger.projections import PROJECTIONS

FIGURES = {
    "jar-cost": [
        "jars", "volume_ml", "mass_g", "cost.all_in", "cost.out_of_pocket", "cost.bought_ingredients", "cost.garden",
        "cost.given", "cost.lids", "cost.jar_wear", "cost.fuel", "cost.equipment", "cost.labour", "cost_per_jar",
        "cost_per_good_jar", "cost_per_quart", "cost_per_liter", "out_of_pocket_per_quart", "labour_hours",
        "shop_price_per_quart", "saved_per_quart", "saved",
    ],
    "shelf": ["left.whole", "share_left", "cost_left", "days_left", "jars_left", "origin.grown", "origin.bought"],
    "know-how": [
        "times", "times_this_year", "days_since", "rhythm_days", "went_lately", "minutes_lately", "minutes_before",
        "minutes_per_unit_lately", "minutes_per_unit_before", "learning_rate", "learning_rate_low", "learning_rate_high",
    ],
    "our-table": ["amount", "share_of_eaten", "share_of_need", "feed_adjusted_share"],
    "next-season": [
        "jars_wanted", "fresh_wanted_g", "needed_g.low", "needed_g.likely", "needed_g.high", "yield_g.likely",
        "plants.likely", "plants.nine_in_ten", "area_m2", "short_g", "chance_short",
    ],
}  # fmt: skip


def check(node, depth=0):
    """Recompute a node and all below it."""
    assert depth < 60
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    if not node.parts:
        assert node.how in ("as written", "sum")
    for part in node.parts:
        check(part, depth + 1)


def get(record, name):
    for part in name.split("."):
        record = record[part]
    return record


@pytest.mark.parametrize("name", ["jar-cost", "shelf", "our-table", "know-how", "next-season"])
@pytest.mark.parametrize("seed", range(12))
def test_every_figure_is_what_its_tree_gives(name, seed):
    state = state_of(random_book(random.Random(seed), 60), FAR)
    why = PROJECTIONS[name].why
    for record in answer_of(state, name)["records"][:12]:
        key = record["why"].partition("/")[2]
        for figure in FIGURES[name]:
            shown = get(record, figure)
            if shown is None:
                continue
            node = why(state, key, figure)
            assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-9), figure
            check(node)


def test_leaves_name_events_in_a_readable_line():
    state = state_of(random_book(random.Random(3), 60), FAR)
    records = answer_of(state, "jar-cost")["records"]
    leaves = []

    def walk(node):
        if not node.parts:
            leaves.append(node)
        for part in node.parts:
            walk(part)

    for record in records:
        walk(PROJECTIONS["jar-cost"].why(state, record["why"].partition("/")[2], "cost.all_in"))
    assert any(leaf.event and len(leaf.event.split(" ", 1)[0]) == 36 for leaf in leaves)


@pytest.mark.parametrize(("key", "field"), [("nothing:1", None), ("nothing:1", "cost_per_jar")])
def test_unknown_address_is_refused_by_name(key, field):
    state = state_of(random_book(random.Random(3), 30), FAR)
    with pytest.raises(NotFound):
        PROJECTIONS["jar-cost"].why(state, key, field)
