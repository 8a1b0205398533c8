"""Forms: what is refused or asked about stands at its box, and nothing is written."""

from __future__ import annotations

import pytest
from form_tools import UUID_A, boxes, digest, send, with_stock
from page_tools import text_of, walk

from dashboard.ask import words_of
from dashboard.callbacks import strike_said
from dashboard.drawing import ask_of
from dashboard.forms.callbacks import outcome_shown
from dashboard.forms.reading import Typed
from dashboard.forms.writing import key_of, write_form


@pytest.fixture
def stocked(book, fixed_day):
    return with_stock(book)


JAM = {"makes": "jam", "method": "cook", "used": "3 lb plum", "made": "3 pint jars fridge"}

REFUSED = [
    ("harvested", boxes(lines="-3 lb plum"), ("lines", 0)),
    ("harvested", boxes(lines="0 lb plum"), ("lines", 0)),
    ("harvested", boxes(lines="3 cups and 2 heads plum"), ("lines", 0)),
    ("harvested", boxes(lines="plum"), ("lines", 0)),
    ("harvested", boxes(lines="31 lb"), ("lines", 0)),
    ("harvested", boxes(), ("lines", 0)),
    ("harvested", boxes(lines=["3 lb plum", "", "-2 lb plum"]), ("lines", 2)),
    ("harvested", boxes(lines=["3 lb plum", "", "0 lb plum"]), ("lines", 2)),
    ("harvested", boxes(lines="3 lb plum", trimmed="4 lb"), ("trimmed", 0)),
    ("harvested", boxes(lines="3 lb plum", trimmed="some"), ("trimmed", 0)),
    ("harvested", boxes(lines="3 lb plum", plants="many"), ("plants", 0)),
    ("harvested", boxes(lines="3 lb plum", plants="-1"), ("plants", 0)),
    ("harvested", boxes(lines="3 lb plum", kept="attic"), ("kept", 0)),
    ("harvested", boxes(lines="3 lb plum", work="Ada"), ("work", 0)),
    ("harvested", boxes(lines="3 lb " + "x" * 1_000_000), ("lines", 0)),
    ("harvested", boxes(lines="9" * 5000 + " lb plum"), ("lines", 0)),
    ("bought", boxes(lines="3 lb sugar", paid="cheap"), ("paid", 0)),
    ("bought", boxes(lines="3 lb sugar", paid="-1"), ("paid", 0)),
    ("bought", boxes(lines="3 lb sugar", paid="1.234567"), ("paid", 0)),
    ("bought", boxes(lines=["3 lb sugar", "", "1 lb sugar"], paid=["2", "", "dear"]), ("paid", 2)),
    ("bought", boxes(lines="3 lb sugar", uses="often"), ("uses", 0)),
    ("put_up", boxes(makes="jam", method="cook", used="3 lb plum"), ("made", 0)),
    ("put_up", boxes(method="cook", used="3 lb plum", made="3 pint jars"), ("makes", 0)),
    ("put_up", boxes(makes="jam", used="3 lb plum", made="3 pint jars"), ("method", 0)),
    ("put_up", boxes(makes="jam", method="cook", made="3 pint jars fridge"), ("used", 0)),
    ("put_up", boxes(**{**JAM, "made": "0 pint jars"}), ("made", 0)),
    ("put_up", boxes(**{**JAM, "made": "3 crocks"}), ("made", 0)),
    ("put_up", boxes(**{**JAM, "made": "shelf"}), ("made", 0)),
    ("put_up", boxes(**JAM, unsealed="4"), ("unsealed", 0)),
    ("put_up", boxes(**JAM, unsealed="x"), ("unsealed", 0)),
    ("put_up", boxes(**JAM, labels="x"), ("labels", 0)),
    ("put_up", boxes(**JAM, labels="41-51"), ("labels", 0)),
    ("put_up", boxes(**{**JAM, "method": "microwave"}), ("method", 0)),
    ("put_up", boxes(**JAM, minutes="ten"), ("minutes", 0)),
    ("put_up", boxes(**JAM, went="9"), ("went", 0)),
    ("put_up", boxes(**JAM, acid="some lemon"), ("acid", 0)),
    ("put_up", boxes(**JAM, altitude="high"), ("altitude", 0)),
    ("put_up", boxes(**JAM, headspace="a bit"), ("headspace", 0)),
    ("put_up", boxes(recipe="no such recipe", made="3 pint jars"), ("recipe", 0)),
    ("eaten", boxes(ate="1 lb plum", guests="2"), ("guests", 0)),
    ("eaten", boxes(ate="1 lb plum", people="2", guests="3"), ("guests", 0)),
    ("eaten", boxes(ate="1 lb plum", people="two"), ("people", 0)),
    ("eaten", boxes(ate="1 lb plum", left="1 lb cake"), ("left", 0)),
    ("eaten", boxes(ate="1 lb plum", left=["1 lb cake 0.7", "1 lb pie 0.6"]), ("left", 0)),
    ("eaten", boxes(), ("ate", 0)),
    ("practised", boxes(people="Ada"), ("skill", 0)),
    ("practised", boxes(skill="grafting", went="0"), ("went", 0)),
    ("planted", boxes(bed="orchard"), ("crop", 0)),
    ("planted", boxes(crop="tomato", area="large"), ("area", 0)),
    ("received", boxes(lines="1 lb quince", how="theft"), ("how", 0)),
    ("received", boxes(lines="1 lb quince"), ("how", 0)),
    ("discarded", boxes(lines="1 lb plum", why="dropped"), ("why", 0)),
    ("counted", boxes(lines="-1 lb plum"), ("lines", 0)),
    ("price_seen", boxes(line="1 lb plum"), ("price", 0)),
    ("price_seen", boxes(price="3"), ("line", 0)),
    ("price_seen", boxes(line="1 lb plum", price="cheap"), ("price", 0)),
    ("recipe_written", boxes(recipe="jam", makes="jam", uses="plum", yields="1 qt"), ("uses", 0)),
    ("recipe_written", boxes(recipe="jam", makes="jam", yields="1 qt"), ("uses", 0)),
    ("target_set", boxes(line="3 lb plum", skill="grafting"), ("line", 0)),
    ("target_set", boxes(skill="grafting"), ("times", 0)),
    ("target_set", boxes(line="3 lb plum", by="some day"), ("by", 0)),
    ("item_described", boxes(item="garlic", sort="food", food="99999"), ("food", 0)),
    ("item_described", boxes(item="garlic", sort="food", keeps="fridge a while"), ("keeps", 0)),
    ("item_described", boxes(item="garlic", sort="food", keeps="attic 3 days"), ("keeps", 0)),
    ("item_described", boxes(item="garlic", sort="food", g_per="5"), ("g_per", 0)),
    ("item_described", boxes(item="plum", sort="food", pieces_per="12"), ("pieces_per", 0)),
    ("item_described", boxes(item="crock", sort="jar", holds="3 lb"), ("holds", 0)),
    ("item_described", boxes(item="crock", sort="jar", holds="1 qt", uses="x"), ("uses", 0)),
    ("setting_changed", boxes(name="altitude", value="high"), ("value", 0)),
    ("setting_changed", boxes(name="time_zone", value="Mars/Base"), ("value", 0)),
    ("setting_changed", boxes(name="colour", value="blue"), ("name", 0)),
    ("setting_changed", boxes(name="altitude"), ("value", 0)),
]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "said", "where"), REFUSED, ids=[f"{k}-{w[0]}-{n}" for n, (k, _, w) in enumerate(REFUSED)]
)  # fmt: skip
def test_refusal_stands_at_its_box_and_nothing_is_written(stocked, kind, said, where):
    before = digest(stocked.book)
    outcome = send(stocked, kind, said)
    assert digest(stocked.book) == before
    assert outcome.written is None
    assert outcome.doubt is None, outcome.doubt
    assert list(outcome.errors) == [where], outcome
    text = outcome.errors[where]
    assert len(text) > 10
    assert "Traceback" not in text
    assert len(text) < 600
    shown = text_of(outcome_shown(ask_of(stocked, "/write"), outcome))
    assert "Nothing was written down" in shown


@pytest.mark.parametrize(
    "day", ["", "1899-12-31", "2026-02-30", "tomorrowish", "2026-9-2", "x" * 5000]
)
def test_impossible_day_is_refused_beside_it(stocked, day):
    before = digest(stocked.book)
    outcome = send(stocked, "harvested", boxes(lines="3 lb plum"), day=day)
    assert digest(stocked.book) == before
    assert list(outcome.errors) == [("day", 0)]


def test_a_day_to_come_is_asked_beside_the_day_and_written_when_meant(stocked):
    before = digest(stocked.book)
    outcome = send(stocked, "harvested", boxes(lines="3 lb plum"), day="2031-01-05")
    assert digest(stocked.book) == before
    assert (outcome.doubt.code, list(outcome.errors)) == ("future", [("day", 0)])
    assert "2031" in outcome.errors["day", 0]
    typed = Typed("harvested", day="2031-01-05", boxes=boxes(lines="3 lb plum"))
    words = words_of(stocked)
    assert (
        write_form(stocked, words, typed, [key_of(outcome.doubt)]).written.event.on == "2031-01-05"
    )


def test_a_sign_of_spoilage_is_asked_in_red_before_the_meal_is_written(stocked):
    before = digest(stocked.book)
    typed = Typed("eaten", day="today", boxes=boxes(ate="1 lb plum", note="mould under the lid"))
    outcome = write_form(stocked, words_of(stocked), typed)
    assert digest(stocked.book) == before
    shown = outcome_shown(ask_of(stocked, "/write"), outcome)
    assert (shown.className, shown.role) == ("danger", "alert")
    assert "poison centre" in text_of(shown)
    assert write_form(stocked, words_of(stocked), typed, [key_of(outcome.doubt)]).written


@pytest.mark.parametrize(
    ("kind", "said", "code"),
    [
        ("harvested", boxes(lines="3 smidgen plum"), "unit"),
        ("harvested", boxes(lines="11 t plum"), "absurd"),
        ("harvested", boxes(lines="1 lb plumm"), "near-miss"),
        ("eaten", boxes(ate=f"1 lb plum from lot {UUID_A}:1"), "lot"),
        ("eaten", boxes(ate="1 lb plum from lot nolabel"), "lot"),
        ("put_up", boxes(makes="plum leather", method="dry", used="2 lb plum", made="3 lb"), "mass-balance"),
        ("put_up", boxes(makes="jam", method="cook", used="20 lb plum", made="11 1/2 pint jars fridge"), "jar-fraction"),
    ],
)  # fmt: skip
def test_doubt_is_asked_above_the_button_and_taken_with_yes(stocked, kind, said, code):
    before = digest(stocked.book)
    outcome = send(stocked, kind, said)
    assert digest(stocked.book) == before
    assert outcome.written is None
    assert outcome.doubt.code == code
    shown = outcome_shown(ask_of(stocked, "/write"), outcome)
    accepts = [one.id for one in walk(shown) if isinstance(getattr(one, "id", None), dict)]
    key = key_of(outcome.doubt)
    no = [{"accept": f"no:{key}"}] if code == "near-miss" else []
    assert accepts == [{"accept": key}, *no]
    assert outcome.doubt.question in text_of(shown)
    assert send(stocked, kind, said, accepted=[key]).written is not None


def test_name_like_another_can_be_something_new(stocked):
    said = boxes(lines="1 lb plumb")
    key = key_of(send(stocked, "harvested", said).doubt)
    written = send(stocked, "harvested", said, accepted=[f"no:{key}"]).written
    assert written.body["lines"][0]["item"] == "plumb"


def test_answer_to_one_line_is_none_to_another(stocked):
    said = boxes(lines=["1 lb plumm", "12 t plum"])
    first = send(stocked, "harvested", said).doubt
    second = send(stocked, "harvested", said, accepted=[key_of(first)]).doubt
    assert (first.code, second.code) == ("near-miss", "absurd")
    both = boxes(lines=["1 lb plumm", "1 lb suggar"])
    first = send(stocked, "harvested", both).doubt
    assert "plumm" in first.question
    second = send(stocked, "harvested", both, accepted=[key_of(first)]).doubt
    assert "suggar" in second.question
    yes = [key_of(first), key_of(second)]
    lines = send(stocked, "harvested", both, accepted=yes).written.body["lines"]
    assert [one["item"] for one in lines] == ["plum", "sugar"]


def test_day_to_come_is_asked_about(stocked):
    said = boxes(lines="3 lb plum")
    outcome = send(stocked, "harvested", said, day="2026-11-03")
    assert outcome.doubt.code == "future"
    yes = [key_of(outcome.doubt)]
    assert send(stocked, "harvested", said, day="2026-11-03", accepted=yes).written


def test_count_below_what_named_lots_prove_is_asked_about(stocked):
    lot = stocked.show("shelf").frame.set_index("item").loc["plum", "lot"]
    assert send(stocked, "eaten", boxes(ate=f"20 lb plum from lot {lot}"), day="2026-09-10").written
    outcome = send(stocked, "counted", boxes(lines="5 lb plum"), day="2026-09-05")
    assert outcome.doubt.code == "count-contradicted"


def test_correction_of_another_kind_or_of_nothing_is_refused_above(stocked):
    sugar = stocked.book.history(kind="bought")[0].id
    before = digest(stocked.book)
    for replaces in (sugar, UUID_A, "zzz"):
        outcome = send(stocked, "harvested", boxes(lines="3 lb plum"), replaces=replaces)
        assert outcome.written is None
        assert outcome.errors == {}
        assert len(outcome.trouble) > 10
    assert digest(stocked.book) == before


@pytest.mark.parametrize(("bad", "says"), [("\x00", "NUL"), ("\ud800", "broken character")])
def test_characters_that_cannot_be_kept_are_refused_above(stocked, bad, says):
    before = digest(stocked.book)
    for said in (boxes(lines=f"3 lb qui{bad}nce"), boxes(lines="3 lb plum", bed=bad)):
        outcome = send(stocked, "harvested", said)
        assert outcome.written is None
        assert says in (outcome.trouble or str(outcome.errors))
    assert digest(stocked.book) == before


def test_kind_that_has_no_form_is_refused_above(stocked):
    for kind in ("sown", "struck", ""):
        outcome = write_form(
            stocked, words_of(stocked), Typed(kind, boxes=boxes(lines="1 lb plum"))
        )
        assert outcome.written is None
        assert outcome.trouble


def test_striking_what_is_struck_or_not_there_is_said(stocked):
    ask = ask_of(stocked, "/history")
    plum = stocked.book.history(kind="harvested")[0].id
    before = digest(stocked.book)
    assert "Say why" in text_of(strike_said(ask, plum, "  "))
    assert "no entry" in text_of(strike_said(ask, UUID_A, "gone"))
    assert "is not an id" in text_of(strike_said(ask, "../../", "gone"))
    assert digest(stocked.book) == before
    assert text_of(strike_said(ask, plum, "twice")) == ask.words("history.struck")
    struck = digest(stocked.book)
    assert "already" in text_of(strike_said(ask, plum, "again"))
    assert digest(stocked.book) == struck
