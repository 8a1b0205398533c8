"""What a season gave, of any garden: sums hold, figures open, grown and scaled alike, forty years."""

from __future__ import annotations

import math
import random

import pytest
from books import state_of
from strategies import garden_book
from test_why import check, get

from ledger.projections import PROJECTIONS

SEASON = PROJECTIONS["season"]


def all_answers(state, **options):
    from ledger.questions.garden.field import Field

    for season in Field(state).seasons():
        yield SEASON.build(state, season=season, **options).to_dict()


@pytest.mark.parametrize("seed", range(14))
def test_every_figure_is_what_its_tree_gives(seed):
    state = state_of(garden_book(seed), "2100-01-01" if seed % 2 else "2026-07-20")
    for weeks in (False, True):
        for answer in all_answers(state, weeks=weeks):
            for record in answer["records"]:
                for figure in _figures(weeks):
                    shown = get(record, figure)
                    node = SEASON.why(state, record["why"].partition("/")[2], figure)
                    if shown is None:
                        assert node.value is None, figure
                        continue
                    assert math.isclose(node.value, shown, rel_tol=1e-9, abs_tol=1e-9), figure
                    check(node)


def _figures(weeks):
    columns = SEASON.variants["weeks"] if weeks else SEASON.columns
    words = ("in_words.", "first_on", "last_on", "provisional")
    return [c.name for c in columns if c.unit not in ("", "day") and not c.name.startswith(words)]


@pytest.mark.parametrize("seed", range(14))
def test_sums_hold_over_beds_and_seasons(seed):
    state = state_of(garden_book(seed), "2100-01-01")
    every = [r for answer in all_answers(state) for r in answer["records"]]
    whole = [r for answer in all_answers(state, by="crop") for r in answer["records"]]
    for r in every:
        if r["picked_g"] is not None:
            kept = r["picked_g"] - r["trimmed_g"]
            assert sum(r["where_it_went"].values()) == pytest.approx(kept, rel=1e-9, abs=1e-9)
    for name in ("picked_g", "inputs", "shop_value", "hours"):
        mine, crops = (sum(r[name] or 0.0 for r in rs) for rs in (every, whole))
        assert mine == pytest.approx(crops, rel=1e-9), name
    spread = sum(p.money for p in state.costs.garden.parts if p.season is not None)
    assert sum(r["inputs"] for r in every) == pytest.approx(spread, rel=1e-9, abs=1e-9)
    last = {(r["season"] - 1, r["crop"]): r["last_season_g"] for r in whole}
    for r in whole:
        if r["picked_g"] and (r["season"], r["crop"]) in last:
            assert last[r["season"], r["crop"]] == pytest.approx(r["picked_g"], rel=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_same_answer_whether_read_at_once_or_grown(seed):
    events = garden_book(seed)
    at_once, grown = (state_of(events, "2026-10-01", chunk=n) for n in (500, 1))
    for one_answer, other in zip(all_answers(at_once), all_answers(grown), strict=True):
        assert one_answer == other


@pytest.mark.parametrize("seed", range(4))
def test_scaling_all_amounts_scales_amounts_and_leaves_ratios(seed):
    events = garden_book(seed)
    for event in events:
        for part in event["body"].get("lines", []):
            part.pop("per", None)
    double = [_doubled(event) for event in events]
    pairs = zip(all_answers(state_of(events)), all_answers(state_of(double)), strict=True)
    for one_answer, other in pairs:
        for a, b in zip(one_answer["records"], other["records"], strict=True):
            for name in ("picked_g", "trimmed_g", "last_season_g", "per_plant_g"):
                assert (a[name] is None) == (b[name] is None)
                assert (b[name] or 0) == pytest.approx(2 * (a[name] or 0), rel=1e-6)
            assert a["plants"] == b["plants"]


def _doubled(event):
    if event["kind"] != "harvested":
        return event
    lines = [
        {k: v * 2 if k in ("whole", "trimmed_whole", "times") else v for k, v in line.items()}
        for line in event["body"]["lines"]
    ]
    return {**event, "body": {**event["body"], "lines": lines}}


def test_forty_years_of_one_bed():
    events, rng = [], random.Random(5)
    for year in range(1986, 2026):
        for month, kind, body in (
            (5, "planted", {"crop": "tomato", "bed": f"bed {year % 4}", "plants": 10 + year % 3}),
            (8, "harvested", {"lines": [{
                "item": "tomato", "amount": "1 lb", "n": 1, "whole": rng.randint(1, 10**7), "basis": "exact"}]}),
        ):  # fmt: skip
            number = len(events) + 1
            events.append({
                "seq": number, "id": f"00000000-0000-4000-8000-{number:012d}", "kind": kind,
                "on": f"{year}-{month:02d}-10", "recorded_at": "2026-01-01T00:00:00Z", "body": body,
            })  # fmt: skip
    state = state_of(events, "2025-06-01")
    (record,) = SEASON.build(state).to_dict()["records"]
    assert record["plants"] == 10
    to_come = record["still_to_come_g"]
    assert 0 < to_come["low"] < to_come["likely"] < to_come["high"]
