"""Was it worth it, of any book: its sums reconcile, each figure is what its tree gives, time changes nothing."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, replay_of, state_of
from hypothesis import HealthCheck, given, settings
from strategies import books, random_book
from worth_it_tools import VARIANTS, check, close

from ledger.projections import PROJECTIONS
from ledger.questions.worth_it.earned import Earned
from ledger.questions.worth_it.gather import Lots
from ledger.questions.worth_it.postings import NOTES, postings
from ledger.questions.worth_it.span import span_of

ASK = PROJECTIONS["worth-it"]
MONEY = ("money_in", "money_out", "worth", "cost", "net", "for_other_seasons")


def ask(state, **options):
    return ASK.build(state, **options).to_dict()


def seasons_of(state):
    """Return every season of a book's events, and one of none."""
    days = state.moment.on[state.moment.rank >= 0]
    found = sorted(set(state.costs.garden.season.of(days).tolist())) if days.size else []
    return [year for year in found if year > 0]


@pytest.mark.parametrize("seed", range(25))
def test_each_season_reconciles(seed):
    state = state_of(random_book(random.Random(seed), 80), FAR)
    lots, garden = Lots(state), state.costs.garden
    made = 0.0
    for year in seasons_of(state):
        answer = ask(state, season=year)
        records = answer["records"]
        for name in (*MONEY, "hours", "labour"):
            parts = sum(r[name] or 0.0 for r in records[:-1])
            assert not records or close(records[-1][name], parts), name
        span = span_of(state, year)
        posted = postings(state, lots, span.first, span.last, year)
        cost = posted.of(None, "cost")
        inputs = posted.value[cost][posted.note[cost] == NOTES.index("garden inputs")].sum()
        parts = sum(p.money for p in garden.parts if p.season == year)
        if any(state.costs.garden.season_of == year):
            assert close(inputs, parts)
        made += posted.value[cost][posted.note[cost] == NOTES.index("came in or made")].sum()
    jars = PROJECTIONS["jar-cost"].build(state).to_dict()
    every = sum(r["cost"]["all_in"] - r["cost"]["labour"] for r in jars["records"])
    if min((year for year in seasons_of(state)), default=1) > 0:
        assert close(made, every)


@pytest.mark.parametrize("seed", range(12))
def test_durables_share_out_all_that_was_gained(seed):
    state = state_of(random_book(random.Random(seed), 80), FAR)
    uses, shares = Earned(state), {}
    of = zip(uses.ev.tolist(), uses.gain.values.tolist(), uses.share.values.tolist(), strict=True)
    for ev, gain, share in of:
        key = (ev, round(gain, 6))
        shares[key] = shares.get(key, 0.0) + share
    for total in shares.values():
        assert total == pytest.approx(round(total), abs=1e-9)
    found = ask(state, durables=True)["records"]
    kit = sum(r["charged"] for r in found if r["sort"] != "garden input")
    own = sum(part.money.sum() for part in state.costs.own.parts if part.component in (4, 6))
    assert close(kit, own)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(books(max_size=50))
def test_any_book_has_an_answer(events):
    state = state_of(events, FAR)
    for year in seasons_of(state)[:3]:
        for options in VARIANTS:
            answer = ask(state, season=year, **options)
            for record in answer["records"]:
                for value in record.values():
                    assert not (isinstance(value, float) and not math.isfinite(value))


@pytest.mark.parametrize("seed", range(6))
def test_growing_event_by_event_gives_the_same_answer(seed):
    events = random_book(random.Random(seed), 50)
    replay = replay_of(events)
    grown, fresh = replay.state(as_of=FAR), state_of(events, FAR)
    for options in VARIANTS:
        for year in (None, *seasons_of(fresh)):
            assert ask(grown, season=year, **options) == ask(fresh, season=year, **options)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_known_then_is_the_answer_of_then(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    prefix = [event for event in events if event["recorded_at"] <= cut]
    for options in VARIANTS:
        then, now = ask(state_of(events, FAR, cut), **options), ask(state_of(prefix), **options)
        assert {**then, "known_at": None} == now


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("options", VARIANTS, ids=("lines", "durables", "prices"))
def test_every_figure_is_what_its_tree_gives(seed, options):
    state = state_of(random_book(random.Random(seed), 70), FAR)
    for year in seasons_of(state)[-2:]:
        answer = ASK.build(state, season=year, **options)
        names = [c.name for c in answer.columns if c.unit not in ("", "day", "yes or no")]
        for record in answer.to_dict()["records"][:12]:
            for name in names:
                if record[name] is not None:
                    node = ASK.why(state, record["why"].partition("/")[2], name)
                    assert close(node.value, record[name]), name
                    check(node)
