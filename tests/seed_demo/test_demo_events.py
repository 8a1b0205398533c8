from __future__ import annotations

import datetime as dt
import json
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from freezegun import freeze_time

import seed_demo
from ledger.kinds import KINDS, check_typed
from seed_demo.household import CHILDREN, ELDERS, PARENTS, SETTINGS
from seed_demo.plan import window
from seed_demo.winter import SETTINGS as OF_WINTER

Events = list[dict[str, Any]]
ROOT = Path(__file__).resolve().parents[2]


def of(told: Events, kind: str) -> Events:
    return [event for event in told if event["kind"] == kind]


def test_three_years_of_events(told: Events, until: dt.date) -> None:
    first, last = window(until)
    days = [dt.date.fromisoformat(event["on"]) for event in told]
    assert 2000 <= len(told) <= 4000
    assert (first, last) == (dt.date(2023, 11, 1), dt.date(2026, 10, 31))
    assert min(days) == first
    assert last - dt.timedelta(days=3) <= max(days) <= last


def test_same_seed_tells_the_same(told: Events, until: dt.date) -> None:
    assert list(seed_demo.events(until, 7)) == told
    assert list(seed_demo.events(until, 8)) != told


@pytest.mark.parametrize(
    ("until", "seed"),
    [("2024-02-29", 7), ("2025-03-01", 1), ("2026-06-15", 2), ("2026-09-03", 3), ("2027-01-01", 4)],
)
def test_any_end_and_seed_tells_enough(until: str, seed: int) -> None:
    events = list(seed_demo.events(dt.date.fromisoformat(until), seed))
    assert 2000 <= len(events) <= 4000
    assert {event["kind"] for event in events} == set(KINDS)


def test_default_end_is_today() -> None:
    with freeze_time("2026-11-01 12:00"):
        assert next(seed_demo.events())["on"] == "2023-11-01"


def test_ids_are_unique(told: Events) -> None:
    assert len({event["id"] for event in told}) == len(told)


def test_every_kind_is_told(told: Events) -> None:
    assert {event["kind"] for event in told} == set(KINDS)


def test_every_body_is_well_typed(told: Events) -> None:
    for event in told:
        check_typed(KINDS[event["kind"]], event["body"])


def test_writing_days_never_go_back(told: Events) -> None:
    written = [event["recorded_at"] for event in told]
    assert written == sorted(written)
    assert all(event["recorded_at"][:10] >= event["on"] for event in told)


def test_household_sets_what_it_lives_by(told: Events) -> None:
    settings = {e["body"]["name"] for e in of(told, "setting_changed")}
    assert settings == {*SETTINGS, *OF_WINTER}
    assert SETTINGS["altitude"] == "2600 ft"


def test_three_generations_practise(told: Events) -> None:
    people = {one for event in of(told, "practised") for one in event["body"]["people"]}
    assert all(people & set(generation) for generation in (ELDERS, PARENTS, CHILDREN))


def test_lines_print_as_json(told: Events, until: dt.date) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "seed_demo", "--until", until.isoformat()],
        cwd=ROOT, capture_output=True, text=True, check=True, encoding="utf-8",
    )  # fmt: skip
    assert [json.loads(line) for line in done.stdout.splitlines()] == told


def test_items_are_described_first(told: Events) -> None:
    described = {event["body"]["item"] for event in of(told, "item_described")}
    used = Counter()
    for event in told:
        for name in ("lines", "used", "ate", "left"):
            used.update(line["item"] for line in event["body"].get(name, ()))
    assert set(used) <= described
    assert len(of(told, "item_described")) == len(described)
