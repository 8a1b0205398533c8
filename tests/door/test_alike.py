"""Entries of one shape are written as the door would write each: the same log, the same refusals."""

from __future__ import annotations

import json
import uuid

import pytest
from freezegun import freeze_time
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from ledger import Answers, Book
from ledger.door import alike, importing

AMOUNTS = (
    "2 lb", "3 lb 4 oz", "31 lb 8 oz", "1.5 kg", "1,5 kg", "250 g", "1 cup", "2 1/2 cups", "4 qt", "0.1 ml", "3",
    "12", "2 dozen", "3 heads", "2 quart jars", "1 half-pint", "0", "0 lb", "20000 kg", "99999999 kg", "a lot", "2 bunches",
    "120000", "1e3 lb", "1000 kWh", "2 c", "0.0000001 mg",
)  # fmt: skip
ITEMS = (
    "plum",
    "Plum",
    "plums",
    "egg",
    "prune",
    "salt",
    "sald",
    "quart jar",
    "!",
    "to\0mato",
    "50 % cream",
)
DAYS = (
    "2026-01-05",
    "2026-03-01",
    "2026-08-31",
    "2026-09-01",
    "2026-09-03",
    "2031-01-01",
    "1890-01-01",
    "soon",
)
PRICES = ("3.40", "3", "0.5", "3.4000001", "1.23456", "-1", "dear", " 2.00 ", 3, True, None)  # fmt: skip
IDS = [str(uuid.UUID(int=n, version=4)) for n in range(1, 9)]
LISTS = {
    "harvested": "lines",
    "eaten": "ate",
    "given_away": "lines",
    "counted": "lines",
    "discarded": "lines",
}
MORE = {
    "harvested": {"bed": "south"}, "eaten": {"people": 4}, "given_away": {"how": "gift"}, "counted": {},
    "discarded": {"why": "mouldy"},
}  # fmt: skip


@st.composite
def entries(draw):
    """An entry as people type it, of few words, so that many are alike; some are wrong."""
    often = draw(st.integers(0, 9))
    item, amount = draw(st.sampled_from(ITEMS)), draw(st.sampled_from(AMOUNTS))
    if often < 6:  # what is alike mostly
        item, amount = draw(st.sampled_from(ITEMS[:4])), draw(st.sampled_from(AMOUNTS[:9]))
    kind = draw(st.sampled_from([*LISTS, "bought", "bought", "received", "price_seen"]))
    line = {"item": item, "amount": amount}
    if kind in ("bought", "received", "price_seen"):
        name = {"bought": "paid", "received": "value"}.get(kind, "price")
        line[name] = draw(st.sampled_from(PRICES[:3] if often < 6 else PRICES))
        body = line | draw(st.sampled_from([{}, {"shop": "corner shop"}, {"from": "Ada"}]))
    else:
        lines = [line]
        if often == 7:
            lines.append({"item": "egg", "amount": draw(st.sampled_from(AMOUNTS)), "lot": "x:1"})
        elif often % 2:
            lines.append({"item": "egg", "amount": draw(st.sampled_from(AMOUNTS[:9]))})
        body = {LISTS[kind]: lines, **MORE[kind]}
        if often == 5 and len(lines) == 1:
            body = {**line, **MORE[kind]}
    event = {
        "kind": kind,
        "on": draw(st.sampled_from(DAYS[:4] if often < 8 else DAYS)),
        "body": body,
    }
    event |= draw(
        st.sampled_from([{}, {}, {"by": "Ada"}, {"by": " "}, {"at": "08:30"}, {"at": "8"}])
    )
    if draw(st.integers(0, 5)) == 0:
        event["id"] = draw(st.sampled_from([*IDS, "no id"]))
    return event


CHANGES = (
    {"kind": "setting_changed", "on": "2026-02-01", "body": {"name": "language", "value": "de"}},
    {"kind": "setting_changed", "on": "2026-01-01", "body": {"name": "measures", "value": "metric"}},
    {"kind": "item_described", "on": "2026-01-01", "body": {"item": "prune", "also": ["plum"]}},
    {"kind": "item_described", "on": "2026-01-01", "body": {"item": "egg", "sort": "food", "g_per": {"piece": "60"}}},
    {"kind": "item_described", "on": "2026-01-01", "id": IDS[0], "body": {"item": "Plum", "sort": "food", "measure": "volume"}},
    {"kind": "struck", "on": "2026-09-01", "body": {"id": IDS[0], "why": "a slip"}},
    {"kind": "harvested", "on": "2026-08-02", "replaces": IDS[1], "body": {"item": "egg", "amount": "3"}},
)  # fmt: skip


def imported(path, lines, *, keep_good, as_text):
    """Return what an import made: rows but for ids that were made up, and all that it said."""
    given = {line["id"] for line in lines if "id" in line}
    raw = [json.dumps(line).encode() if as_text else line for line in lines]
    with freeze_time("2026-09-01 12:00"), Book.open(path) as book:
        done = book.import_events(
            ((n, 0, one) for n, one in enumerate(raw, 1)),
            answers=Answers(yes={"absurd", "future"}), keep_good=keep_good,
        )  # fmt: skip
        rows = [row for chunk in book.log.read() for row in chunk]
        whole = not book.faults()
    told = {row[1]: f"made up {row[0]}" for row in rows if row[1] not in given}
    return [
        (told.get(row[1], row[1]), *row[2:11]) for row in rows
    ], (done.written, done.known, done.described, done.bad, done.bad_count, done.has_counts, done.opens), whole  # fmt: skip


def both(tmp_path_factory, lines, *, keep_good, as_text, ahead=1_000, at_once=1_000):
    folder = tmp_path_factory.mktemp("alike")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(alike.Alike, "take", lambda self, event: False)
        plain = imported(folder / "plain.db", lines, keep_good=keep_good, as_text=False)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(importing, "_PREVIEWED", 0)
        patch.setattr(importing, "_AHEAD", ahead)
        patch.setattr(alike, "_AT_ONCE", at_once)
        quick = imported(folder / "quick.db", lines, keep_good=keep_good, as_text=as_text)
    return plain, quick


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    st.lists(st.one_of(entries(), entries(), entries(), st.sampled_from(CHANGES)), min_size=5, max_size=60),
    st.booleans(), st.booleans(), st.sampled_from([1, 3, 1_000]), st.sampled_from([1, 4, 1_000]),
)  # fmt: skip
@example([{"kind": "eaten", "on": "2026-01-05", "body": {"ate": [{"item": "50 % cream", "amount": "1 cup"}]}}] * 3, True, True, 2, 2)  # fmt: skip
def test_alike_or_not_the_log_is_the_same(
    tmp_path_factory, lines, keep_good, as_text, ahead, at_once
):
    lines = [line for line in lines if "\0" not in json.dumps(line) or not as_text]
    plain, quick = both(
        tmp_path_factory, lines, keep_good=keep_good, as_text=as_text, ahead=ahead, at_once=at_once
    )
    assert quick == plain
    assert quick[2]


def test_what_is_alike_does_not_go_through_the_door(tmp_path, monkeypatch):
    lines = [
        {"kind": "bought", "on": "2026-01-05", "body": {"item": "plum", "amount": f"{n} lb", "paid": f"{n}.40"}}
        for n in range(1, 200)
    ]  # fmt: skip
    asked = []
    door = importing.write
    monkeypatch.setattr(importing, "write", lambda *a: asked.append(a[2]) or door(*a))
    rows, done, whole = imported(tmp_path / "book.db", lines, keep_good=False, as_text=True)
    assert (done[0], whole, len(rows)) == (199, True, 200)
    assert len(asked) < 30
    bodies = [json.loads(row[9]) for row in rows if row[1] == "bought"]
    assert [one["lines"][0]["paid"] for one in bodies] == [f"{n}.40" for n in range(1, 200)]


def test_ids_are_random_uuids():
    made = alike._fresh_ids()
    several = {next(made) for _ in range(600)}
    assert len(several) == 600
    assert {(uuid.UUID(one).version, uuid.UUID(one).variant) for one in several} == {
        (4, uuid.RFC_4122)
    }
    assert all(str(uuid.UUID(one)) == one for one in several)
