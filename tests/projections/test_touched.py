"""What touches what: equal to a plain search, and what a phone call needs."""

from __future__ import annotations

import random

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jars_in_danger import AGAINST, BEANS, PUBLISHED, YES, put_up
from strategies import books

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.shared.common import LISTED_FROM

pytestmark = pytest.mark.usefixtures("fixed_day")
BUILD = PROJECTIONS["touched"].build


def plain_search(state, lots, events, *, back=False):
    """Return lots and batches reached, by looking at every allocation again and again."""
    kinds = ("seed", "used", "fuel", "lids", "ate", "lines", "missing")
    steps = []  # what leads to what: a lot to a lot, with the event between
    draw, from_, _ = state.allocations
    for d, lot in zip(draw.tolist(), from_.tolist(), strict=True):
        ev, role = int(state.draws["ev"][d]), kinds[int(state.draws["role"][d])]
        for other in range(state.lots["ev"].size):
            if int(state.lots["ev"][other]) != ev or int(state.lots["suffix"][other]) > 1:
                continue
            if int(state.lots["origin"][other]) != 6:
                continue
            closes = role == "lids" and int(state.lots["n"][other]) == int(state.draws["line"][d])
            if role in ("used", "ate") or closes:
                steps.append((lot, other))
    reached = set(lots)
    for ev in events:
        made = [
            x
            for x in range(state.lots["ev"].size)
            if int(state.lots["ev"][x]) == ev and int(state.lots["suffix"][x]) <= 1
        ]
        if back:
            reached |= {a for a, b in steps if b in made and kinds_of(state, a, ev)}
        else:
            reached |= set(made)
    grew = True
    while grew:
        grew = False
        for a, b in steps:
            this, that = (b, a) if back else (a, b)
            if this in reached and that not in reached:
                reached.add(that)
                grew = True
    return reached


def kinds_of(state, lot, ev):
    """Return whether an event used a lot as food."""
    draw, from_, _ = state.allocations
    return any(
        one == lot and int(state.draws["ev"][d]) == ev and int(state.draws["role"][d]) in (1, 4)
        for d, one in zip(draw.tolist(), from_.tolist(), strict=True)
    )


def rows_of_plain_search(state, reached):
    """Return (what, lot, event, whole units) of what became of lots."""
    out = set()
    left = {lot: int(state.left[lot]) for lot in reached}
    for lot, whole in left.items():
        least = LISTED_FROM[state.facts.measure[int(state.lots["item"][lot])]]
        if whole >= least:
            out.add(("there", state.lot_id(lot), state.entry_id(state.lots["ev"][lot]), whole))
    from ledger.questions.goes import goes

    words, sums = goes(state), {}
    draw, from_, amount = state.allocations
    for d, lot, some in zip(draw.tolist(), from_.tolist(), amount.tolist(), strict=True):
        if lot in reached and words[d] in ("given", "eaten", "discarded", "lost"):
            key = words[d], state.lot_id(lot), state.entry_id(state.draws["ev"][d])
            sums[key] = sums.get(key, 0) + some
    return out | {(*key, some) for key, some in sums.items()}


def rows_of(answer):
    return {
        (r["what"], r["lot"], r["event"], round(r["amount"] * 1000))
        for r in answer.records()
        if r["what"] != "batch"
    }


@given(books(max_size=30), st.integers(0, 999))
@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
def test_forward_is_what_a_plain_search_finds(events, seed):
    state = state_of(events)
    rng = random.Random(seed)
    count = state.lots["ev"].size
    if not count:
        return
    lot = rng.randrange(count)
    if state.lots["suffix"][lot] <= 1:
        answer = BUILD(state, lot=state.lot_id(lot))
        assert rows_of(answer) == rows_of_plain_search(state, plain_search(state, {lot}, ()))
    item = int(state.lots["item"][rng.randrange(count)])
    of = state.facts.item_of[state.lots["item"]]
    mine = {one for one in range(count) if of[one] == state.facts.item_of[item]}
    answer = BUILD(state, item=state.facts.names[item])
    assert rows_of(answer) == rows_of_plain_search(state, plain_search(state, mine, ()))


@given(books(max_size=30), st.integers(0, 999))
@settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck))
def test_backward_is_what_a_plain_search_finds(events, seed):
    state = state_of(events)
    made = [x for x in range(state.lots["ev"].size) if int(state.lots["origin"][x]) == 6]
    if not made:
        return
    lot = random.Random(seed).choice(made)
    reached = plain_search(state, {lot}, (), back=True)
    raw = {state.lot_id(x) for x in reached if int(state.lots["origin"][x]) != 6}
    answer = BUILD(state, lot=state.lot_id(lot), back=True)
    assert {r["lot"] for r in answer.records() if r["what"] != "batch"} == raw
    batches = {
        state.entry_id(state.lots["ev"][x]) for x in reached if int(state.lots["origin"][x]) == 6
    }
    puts = {state.entry_id(ev) for ev in state.events("put_up")}
    assert {r["batch"] for r in answer.records() if r["what"] == "batch"} == batches & puts


@pytest.fixture
def kitchen(book):
    """Beans bought and canned badly; soup of them; eaten, given, discarded, and some still there."""
    buy = {"item": "green bean", "amount": "30 lb", "paid": "40", "shop": "market stall"}
    bought = book.write("bought", buy, on="2026-09-10", answers=YES).event.id
    batch = put_up(
        book,
        AGAINST,
        but={
            "made": [
                {"jars": 7, "jar": "quart jar", "kept": "shelf", "labels": {"from": 41, "to": 47}}
            ]
        },
    )
    soup = book.write("put_up", {
        "makes": "bean soup", "method": "cook", "used": [{"item": "canned green beans", "amount": "1 quart jar"}],
        "made": [{"amount": "2 qt", "kept": "freezer"}]}, on="2026-09-20", answers=YES).event.id  # fmt: skip
    meal = book.write("eaten", {"ate": [{"item": "bean soup", "amount": "1 qt"}], "people": 6, "guests": 2},
                      on="2026-09-21", by="Ada", answers=YES).event.id  # fmt: skip
    book.write("given_away", {"how": "gift", "to": "the neighbours", "lines": [
        {"item": "canned green beans", "amount": "2 quart jars"}]}, on="2026-09-22", answers=YES)  # fmt: skip
    book.write(
        "discarded",
        item="canned green beans",
        amount="1 quart jar",
        why="spoiled",
        on="2026-09-23",
        answers=YES,
    )
    return book, {"purchase": bought, "batch": batch, "soup": soup, "meal": meal}


@pytest.mark.parametrize(
    "asked",
    [{"purchase": "purchase"}, {"batch": "batch"}, {"item": "green bean"}, {"lot": "42"}, {"schedule": ""}],
    ids=lambda one: next(iter(one)),
)  # fmt: skip
def test_phone_call_has_who_got_some_and_who_ate(kitchen, asked):
    book, ids = kitchen
    ((name, said),) = asked.items()
    if name == "schedule":
        put_up(book, PUBLISHED)
        said = "snap_beans-raw-quart-dial-1"
        answer = book.show("touched", schedule=said)
        assert answer.totals["batches"] == 1
        return
    answer = book.show("touched", **{name: ids.get(said, said)})
    rows = answer.records()
    (given_away,) = [r for r in rows if r["what"] == "given"]
    assert (given_away["who"], given_away["jars"], given_away["how"]) == (
        "the neighbours",
        2.0,
        "gift",
    )
    (eaten,) = [r for r in rows if r["what"] == "eaten"]
    assert (eaten["who"], eaten["people"], eaten["guests"], eaten["by"]) == (
        "6 people, 2 of them guests",
        6,
        2,
        "Ada",
    )
    assert eaten["batch"] == ids["soup"]
    there = {r["item"]: r for r in rows if r["what"] == "there"}
    assert there["canned green beans"]["jars"] == 3.0
    assert there["bean soup"]["standing"] == "against every published process"
    came = {ids["soup"]} if name == "lot" else {ids["batch"], ids["soup"]}
    assert {r["batch"] for r in rows if r["what"] == "batch"} == came
    assert answer.totals["given_to"] == ["the neighbours"]
    assert "call emergency services" in answer.assumptions[0].text


def test_backward_from_a_meal(kitchen):
    book, ids = kitchen
    rows = book.show("touched", meal=ids["meal"], back=True).records()
    (bought,) = [r for r in rows if r["what"] == "bought"]
    assert (bought["item"], bought["who"], bought["event"]) == (
        "green bean",
        "market stall",
        ids["purchase"],
    )
    assert {r["batch"] for r in rows if r["what"] == "batch"} == {ids["batch"], ids["soup"]}
    for row in rows:
        assert book.why(row["why"]).event


def test_jar_or_canner_leads_to_the_batches_that_used_it(kitchen):
    book, ids = kitchen
    assert set(book.show("touched", item="quart jar").frame["batch"].dropna()) == {
        ids["batch"],
        ids["soup"],
    }


@pytest.mark.parametrize(
    ("asked", "field", "error"),
    [
        ({}, "item", InputError),
        ({"item": "green bean", "lot": "42"}, "item", InputError),
        ({"item": "plutonium"}, "item", NotFound),
        ({"lot": "no such"}, "lot", NotFound),
        ({"batch": "ffffffff"}, "batch", NotFound),
        ({"batch": "x"}, "batch", NotFound),
        ({"purchase": "batch"}, "purchase", InputError),
        ({"batch": "purchase"}, "batch", InputError),
        ({"meal": "purchase"}, "meal", InputError),
        ({"gauge": "green bean"}, "gauge", NotFound),
        ({"schedule": "moon phases"}, "schedule", NotFound),
    ],
)
def test_what_is_not_there_is_refused_by_its_field(kitchen, asked, field, error):
    book, ids = kitchen
    with pytest.raises(error) as caught:
        book.show("touched", **{name: ids.get(said, said) for name, said in asked.items()})
    assert caught.value.field == field
    assert caught.value.wanted


def test_gauge_leads_to_its_loads_since_the_last_right_test(book):
    put_up(book, on="2026-05-01")
    since = put_up(book, on="2026-07-01", but={"used": [BEANS]})
    book.write("gauge_tested", gauge="dial", reads="0", on="2026-06-01")
    assert set(book.show("touched", gauge="dial").frame["batch"]) == {since}


def test_nothing_is_touched_in_an_empty_answer(book):
    book.write("harvested", item="plum", amount="3 lb", on="2026-09-01")
    book.write("eaten", ate=[{"item": "plum", "amount": "3 lb"}], on="2026-09-02")
    answer = book.show("touched", item="plum").to_dict()
    assert [r["what"] for r in answer["records"]] == ["eaten"]
    assert answer["records"][0]["who"] is None
