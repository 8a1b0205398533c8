"""Batches of a book beside the tables, questions before a batch, and a stopped freezer."""

from __future__ import annotations

import json

import pytest
from books import state_of

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.published import KINDS, STANDINGS

FIELDS = {"minutes", "psi", "headspace_in", "acid"}


def beans(minutes, **more):
    return {
        "makes": "canned green bean", "method": "pressure",
        "used": [{"item": "green bean", "amount": "10 lb"}],
        "made": [{"jars": 5, "jar": "quart jar", "kept": "shelf"}],
        "minutes": minutes, "psi": "12", "headspace": "1 in", "pack": "raw", "loads": 1,
    } | more  # fmt: skip


@pytest.fixture
def kitchen(book, yes):
    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    write("setting_changed", "2026-01-01", name="altitude", value="2600 ft")
    write("setting_changed", "2026-01-01", name="gauge", value="dial")
    write("harvested", "2026-08-01", item="green bean", amount="40 lb")
    write("put_up", "2026-08-02", **beans("25"))
    write("put_up", "2026-08-03", **beans("20"))
    frozen = [{"amount": "9 lb", "kept": "freezer"}]
    used = [{"item": "green bean", "amount": "10 lb"}]
    write(
        "put_up", "2026-08-04", makes="frozen green bean", method="freeze", used=used, made=frozen
    )
    return book


def records(book, **options):
    return book.show("as-published", as_of="2026-08-10", **options).to_dict()["records"]


def test_record_has_the_fields_that_scripts_rely_on(kitchen):
    (first, *_) = records(kitchen)
    assert {
        "batch",
        "product",
        "schedule",
        "published",
        "done",
        "findings",
        "source",
        "why",
    } <= set(first)
    assert set(first["published"]) == set(first["done"]) == FIELDS
    assert {f["kind"] for f in first["findings"]} <= set(KINDS)
    assert {"field", "published", "done", "kind", "text"} == set(first["findings"][0])
    json.dumps(first)


def test_time_of_the_smaller_jar_is_found_in_a_book(kitchen):
    good, short = records(kitchen, item="canned green bean")
    assert good["standing"] == "as published"
    assert good["schedule"] == "snap_beans-raw-quart-dial-1"
    (found,) = [f for f in short["findings"] if f["kind"] == "short of it"]
    assert (found["field"], found["published"], found["done"]) == ("minutes", 25, 20)
    assert short["published"]["psi"] == short["done"]["psi"] == 12
    assert short["advice"]


def test_settings_are_named_as_assumptions(kitchen):
    answer = kitchen.show("as-published", as_of="2026-08-10").to_dict()
    texts = {a["id"]: a for a in answer["assumptions"]}
    assert "2600 ft" in texts["altitude-set"]["text"]
    assert texts["altitude-set"]["events"]
    assert "caution" in texts


def test_question_gives_one_printed_process(kitchen):
    (one,) = records(kitchen, product="green beans", jar="quart jar", pack="hot", method="pressure")
    assert one["published"] == {"minutes": 25, "psi": 12, "headspace_in": 1, "acid": None}
    assert one["done"] == dict.fromkeys(FIELDS)
    higher = records(
        kitchen,
        product="green beans",
        jar="quart jar",
        pack="hot",
        altitude="7000 ft",
        gauge="weighted",
    )
    assert [r["published"]["psi"] for r in higher] == [15]


def test_question_without_a_process_says_so(kitchen):
    (one,) = records(kitchen, product="green beans", jar="1 l jar")
    assert one["findings"][0]["kind"] == "no published process"
    (made_up,) = records(kitchen, product="plum butter")
    assert "for comparison only" in made_up["text"]


@pytest.mark.parametrize(
    ("options", "field"),
    [
        ({"jar": "quart jar"}, "product"),
        ({"product": "green beans", "altitude": "high"}, "altitude"),
        ({"freezer_off": "a while"}, "freezer_off"),
    ],
)
def test_bad_question_is_refused_by_name(kitchen, options, field):
    with pytest.raises(InputError) as caught:
        records(kitchen, **options)
    assert caught.value.field == field


def test_stopped_freezer_tells_of_each_lot(kitchen):
    (one,) = records(kitchen, freezer_off="30 h")
    assert one["item"] == "frozen green bean"
    assert one["findings"][0]["published"].startswith("vegetables")


def test_standing_opens_to_the_event_and_the_printed_line(kitchen):
    _, short = records(kitchen, item="canned green bean")
    tree = kitchen.why(short["why"], as_of="2026-08-10")
    assert tree.value == "short of it"
    assert any(part.event for part in tree.parts)
    minutes = kitchen.why(short["why"], "published.minutes", as_of="2026-08-10")
    assert (minutes.value, minutes.unit) == (25, "minutes")
    assert "snap_beans-raw-quart-dial-1" in minutes.label
    assert kitchen.why(short["why"], "done.minutes", as_of="2026-08-10").event


@pytest.mark.parametrize(("key", "field"), [("nothing", None), (None, "colour")])
def test_unknown_figure_is_refused(kitchen, key, field):
    key = key or records(kitchen)[0]["batch"]
    with pytest.raises(NotFound):
        kitchen.why(f"as-published/{key}", field, as_of="2026-08-10")


def test_correction_changes_the_answer(kitchen, yes):
    _, short = records(kitchen, item="canned green bean")
    kitchen.write("put_up", beans("25"), on="2026-08-03", replaces=short["batch"], answers=yes)
    assert [r["standing"] for r in records(kitchen, item="canned green bean")] == [
        "as published"
    ] * 2


def test_empty_book_has_no_batches(book):
    answer = book.show("as-published", as_of="2026-08-10").to_dict()
    assert answer["records"] == []
    assert answer["totals"] == {"standing": "no batches"}


def test_every_random_book_is_answered():
    import random

    from books import FAR
    from strategies import random_book

    for seed in range(6):
        state = state_of(random_book(random.Random(seed), 60), FAR)
        answer = PROJECTIONS["as-published"].build(state).to_dict()
        assert all(r["standing"] in STANDINGS for r in answer["records"])


def test_keeping_of_each_lot_with_its_source(kitchen):
    found = records(kitchen, keeping=True)
    by_item = {r["item"]: r for r in reversed(found)}
    marked = [r for r in found if r["item"] == "canned green bean"][1]
    assert marked["standing"] == "nothing published"  # the batch fell short of it
    assert by_item["canned green bean"]["standing"] == "12 months"
    assert by_item["frozen green bean"]["standing"] == "12 to 18 months"
    assert by_item["canned green bean"]["source"]
    assert by_item["green bean"]["findings"][0]["kind"] == "no published process"


def test_unsealed_jars_have_their_advice(kitchen, yes):
    body = beans("25", made=[{"jars": 5, "jar": "quart jar", "kept": "shelf", "unsealed": 1}])
    kitchen.write("put_up", body, on="2026-08-05", answers=yes)
    last = records(kitchen, item="canned green bean")[-1]
    assert last["standing"] == "as published"
    assert any("Within 24 hours" in text for text in last["advice"])


def test_cautions_are_shown_before_the_first_batch_only(book, kitchen):
    from ledger.questions.as_published.records import first_caution

    assert first_caution(kitchen.state(as_of="2026-08-01"))
    assert first_caution(kitchen.state(as_of="2026-08-10")) is None


def test_slips_are_asked_about_as_a_batch_is_written(kitchen):
    from ledger.questions.as_published.records import doubts_before

    state = kitchen.state(as_of="2026-08-10")
    lines = [{"item": "green bean", "amount": "10 lb", "whole": 4535924}]
    body = beans("25", used=lines, made=[{"jars": 50, "jar": "quart jar"}])
    codes = {d.code for d in doubts_before(state, body, state.as_of_day)}
    assert codes == {"yield", "load"}
    assert doubts_before(state, beans("25", used=lines), state.as_of_day) == []
