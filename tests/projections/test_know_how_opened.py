"""Know-how at two dates, corrected and grown, and every figure opened."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, ListLog, answer_of, state_of
from know_how_tools import TODAY, asker, check, jam, one, writer
from strategies import random_book

from ledger.errors import NotFound
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

NUMBERS = [
    "times", "times_this_year", "days_since", "rhythm_days", "went_lately", "went_before",
    "minutes_lately", "minutes_before", "minutes_per_unit_lately", "minutes_per_unit_before",
    "learning_rate", "learning_rate_low", "learning_rate_high", "learning_repetitions",
    "target_times", "target_done",
]  # fmt: skip


@pytest.fixture
def write(book, yes):
    return writer(book, yes)


@pytest.fixture
def show(book):
    return asker(book)


def test_as_of_and_strikes(book, write, show):
    write("practised", "2026-03-01", skill="knitting", people=["Ada"])
    later = write("practised", "2026-05-01", skill="knitting", people=["Ben"])
    assert one(show(as_of="2026-04-01"), "knitting")["times"] == 1
    book.strike(later.event.id, "it was Ada's sister")
    assert {r["person"] for r in show()["records"]} == {None, "Ada"}


def test_correction_moves_a_practice(book, write, show, yes):
    first = write("practised", "2026-03-01", skill="knitting", people=["Ada"])
    body = {"skill": "mending", "people": ["Ben"]}
    book.write("practised", body, on="2026-03-02", replaces=first.event.id, answers=yes)
    assert {(r["skill"], r["person"]) for r in show()["records"]} == {
        ("mending", None),
        ("mending", "Ben"),
    }


def test_growing_event_by_event_is_the_same_as_at_once():
    events = random_book(random.Random(5), 60)
    log = ListLog([])
    replay = Replay(log)
    for start in range(0, len(events), 7):
        log.rows += ListLog(events[start : start + 7]).rows
        replay.refresh()
        replay.state(as_of=FAR)
    grown = PROJECTIONS["know-how"].build(replay.state(as_of=FAR)).to_dict()
    assert grown == answer_of(state_of(events), "know-how")


def test_what_was_known_is_a_prefix():
    events = random_book(random.Random(6), 60)
    known = events[39]["recorded_at"]
    count = sum(event["recorded_at"] <= known for event in events)
    then = answer_of(state_of(events, known_at=known), "know-how")
    assert then["records"] == answer_of(state_of(events[:count]), "know-how")["records"]


@pytest.mark.parametrize("seed", range(8))
def test_every_figure_is_what_its_tree_gives(seed):
    state = state_of(random_book(random.Random(seed), 80), FAR)
    why = PROJECTIONS["know-how"].why
    answer = answer_of(state, "know-how")
    assert len({r["why"] for r in answer["records"]}) == len(answer["records"])
    for record in answer["records"]:
        key = record["why"].partition("/")[2]
        assert why(state, key).value == record["standing"]
        for figure in NUMBERS:
            if record[figure] is not None:
                node = why(state, key, figure)
                assert math.isclose(node.value, record[figure], rel_tol=1e-9), figure
                check(node)


def test_curve_sheet_and_target_open_too(book, write, show):
    for n in range(1, 7):
        jam(write, f"2026-06-0{n}", str(70 - n * n))
    write("target_set", "2026-01-01", skill="jam", times=2, per="person year")
    for options in ({"curve": "jam"}, {"curve": "jam", "person": "Ada"}, {"year_sheet": "2026"}):
        answer = show(**options)
        shape = next(iter(options))
        columns = [c for c in PROJECTIONS["know-how"].variants[shape] if c.unit not in ("", "day")]
        for record in answer["records"]:
            for column in columns:
                if column.name == "repetition" or record[column.name] is None:
                    continue
                node = book.why(record["why"], column.name, as_of=TODAY)
                assert math.isclose(node.value, record[column.name], rel_tol=1e-9), column.name
                check(node)
    for figure in ("learning_rate_low", "learning_rate", "target_done", "target_met"):
        check(book.why("know-how/jam", figure, as_of=TODAY)) if "met" not in figure else None
    assert book.why("know-how/jam", "target_met", as_of=TODAY).value == "met"


@pytest.mark.parametrize(
    "key", ["", "jam/Ada/Ben", "@curve/jam", "@curve/jam/9", "@x/jam", "jam/Zed", "tea"]
)
def test_unknown_address_is_refused(book, write, key):
    jam(write, "2026-06-01")
    with pytest.raises(NotFound):
        book.why(f"know-how/{key}", as_of=TODAY)
    with pytest.raises(NotFound, match="is not a figure"):
        book.why("know-how/jam", "colour", as_of=TODAY)


def test_awkward_names_have_addresses(book, write, show):
    for name in ("@odd/skill 100%+", "räuchern, kalt", "2026"):
        write("practised", "2026-03-01", skill=name, people=["A/B", "C D"])
    for record in show()["records"]:
        assert book.why(record["why"], "times", as_of=TODAY).value == record["times"]
