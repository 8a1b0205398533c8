"""Forms: every field of every kind has a box and can be typed, and what is typed is answered at once."""

from __future__ import annotations

import pytest
from dash import no_update
from form_tools import UUID_A, accept_all, boxes, digest, every_box, send, with_stock
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from page_tools import text_of, walk

from dashboard.ask import words_of
from dashboard.drawing import ask_of
from dashboard.forms.batch import beside_batch
from dashboard.forms.boxes import box_id
from dashboard.forms.callbacks import emptied, outcome_shown
from dashboard.forms.form import form_of
from dashboard.forms.reading import Typed
from dashboard.forms.specs import COMMON, FORMS
from dashboard.forms.understanding import understood
from ledger import Answers
from ledger.kinds import KINDS

OPEN = {
    "makes": "canned green beans", "method": "pressure", "minutes": "25", "psi": "11", "gauge": "dial",
    "used": [{"item": "green bean", "amount": "14 lb"}], "made": [{"jars": 7, "jar": "quart jar"}],
}  # fmt: skip
"""A batch that says too little to be judged."""


@pytest.fixture
def stocked(book, fixed_day):
    return with_stock(book)


# -- every field has a box ---------------------------------------------------------------

TYPED = {
    "harvested": [boxes(
        lines=["31 lb 8 oz plum", "2 lb bean"], bed=["orchard", ""], variety=["Opal"], plants=["3"], trimmed=["2 lb"],
        kept=["cellar"], work=["Ada 90", "Bo 1.5 h"], note="after rain")],
    "bought": [
        boxes(lines=["10 lb sugar", "12 quart jar"], paid=["7.90", "18"], uses=["", "20"], years=["", "10"],
              kept=["shelf", ""], shop="corner shop", receipt_total="30.15", other=["magazine 4.25"], note="on sale"),
        boxes(lines=["20 lb compost"], for_crop=["tomato"], paid=["4"])],
    "put_up": [
        boxes(makes="plum butter", method="boiling water", used=["16 lb plum", "3 lb sugar"], made=["11 half-pint jars", "1 cup fridge"],
              labels=["41-51"], unsealed=["1"], lids="lid", minutes="10", gauge="dial", psi="11", headspace="1/4 in",
              acid=["lemon juice 1 tbsp per jar"], pack="hot", schedule="", altitude="2600 ft", loads="2",
              fuel=["electricity 2.4 kWh"], equipment=["canner"], work=["Ada 90"], went="4", note="a little thin"),
        boxes(recipe="plum jam", times="1.5", made=["4 half-pint jars"], schedule="own")],
    "eaten": [boxes(ate=["1 lb plum", "4 oz sugar"], dish="plum toast", people="6", guests="2", left=["1 qt stew fridge 0.25"],
                    liked="5", note="all gone")],
    "practised": [boxes(skill="grafting", people=["Ada", "Bo"], minutes="45", went="3", note="two took")],
    "counted": [boxes(lines=["0 lb sugar", "28 lb plum"], when="end", missing="lost", home_made=["plum"], note="top shelf")],
    "planted": [boxes(crop="tomato", variety="Brenna Red", bed="south bed", plants="12", area="40 sq ft", row="25 ft",
                      how="set out", seed="12 tomato seedling", work=["Ada 30"], note="windy")],
    "received": [boxes(lines=["4 lb quince"], how="gift", value=["5.00"], kept=["fridge"], note="ripe", **{"from": "the neighbours"})],
    "given_away": [boxes(lines=["2 lb plum"], how="sold", to="the neighbours", got="12.00", note="for jam")],
    "discarded": [boxes(lines=["1 lb plum"], why="spoiled", note="wasps")],
    "price_seen": [boxes(line="18 oz store plum spread", price="3.40", shop="corner shop", note="on the board")],
    "recipe_written": [boxes(recipe="plum jam", makes="plum jam", uses=["3 lb plum", "2 lb sugar"], yields="4 half-pint jars",
                             method="boiling water", schedule="", steps=["Stone them", "Boil"], note="sweet", **{"from": "grandmother"}),
                       boxes(recipe="plum pulp", makes="plum pulp", uses=["3 lb plum"], yields="1 qt", schedule="own")],
    "target_set": [boxes(line="24 half-pint jars plum butter", per="year", by="2027-03-01"),
                   boxes(skill="grafting", times="4", note="before spring")],
    "item_described": [
        boxes(item="garlic", sort="food", measure="mass", food="11215", kcal_per_100g="149", g_per=["clove 5", "head 45"], pieces_per=["bulb 1"],
              g_per_ml="0.6", shop_equivalent="store garlic", keeps=["cellar 6 months", "fridge 4 weeks"], also=["ail"], note="hardneck"),
        boxes(item="stone crock", sort="jar", holds="1 qt", uses="20"),
        boxes(item="canner", sort="equipment", years="10"),
        boxes(item="layer mash", sort="supply", feeds="egg")],
    "setting_changed": [boxes(name="altitude", value="2600 ft", note="from the map")],
    "gauge_tested": [boxes(gauge="dial", reads="+2 psi", by="extension office", note="needle bent")],
    "person_described": [boxes(person="Ada", sex="female", age="39", activity="moderate", state="nursing", since="2026-06-01",
                               weight="62 kg", height="1.65 m", table="here"),
                         boxes(person="Bo", sex="male", born="1984-04-12")],
    "frost_seen": [boxes(frost="last of spring", seen="2026-05-10", note="black beans")],
    "flock_counted": [boxes(hens="6", flock="brown hens", hatched="2025-04-10", lays="egg", note="one is broody")],
    "seed_checked": [boxes(crop="carrot", variety="Short Sweet", year="2025", seeds="400", days="65", sown="20", sprouted="13", note="slow")],
    "meter_read": [boxes(meter="freezer", reads="412.6 kWh", note="on the plug"),
                   boxes(meter="stove", reads="1203.4 kWh", before="1201 kWh", batch=UUID_A)],
    "checked": [boxes(batch=UUID_A, publication="bulletin 270", says="25 minutes", note="page 12")],
}  # fmt: skip


def test_every_kind_has_a_form_but_the_strike():
    assert set(FORMS) == set(KINDS) - {"struck"}
    assert set(TYPED) == set(FORMS)
    assert set(COMMON) < set(FORMS)


@pytest.mark.parametrize("kind", sorted(FORMS))
def test_every_field_of_a_kind_has_a_box(stocked, kind):
    names = {name for name, _ in every_box(stocked, kind)} - {"day"}
    form = FORMS[kind]
    fields = {field.name for field in form.fields} - {"lot"}  # which is typed as "... from lot X"
    if form.as_line:
        fields = fields - {"item", "amount"} | {form.as_line}
    elif "item" not in fields and KINDS[kind].line is not None:
        fields |= {"lines"}
    assert names == fields
    labels = [one.label for one in walk(form_of(ask_of(stocked, "/write"), kind)) if getattr(one, "label", None)]  # fmt: skip
    assert len(labels) > 1
    assert not [one for one in labels if not str(one).strip()]


@pytest.mark.parametrize("kind", sorted(FORMS))
def test_every_field_of_a_kind_can_be_typed(stocked, kind):
    if kind == "put_up":
        for said in TYPED["recipe_written"]:
            assert send(stocked, "recipe_written", said).written
    if kind in ("checked", "meter_read"):
        stocked.book.write("put_up", OPEN, id=UUID_A, on="2026-09-02", answers=Answers(yes=True))
    stored, typed = set(), set()
    for said in TYPED[kind]:
        outcome = accept_all(lambda yes, said=said: send(stocked, kind, said, accepted=yes))
        assert outcome.written is not None, outcome
        for part in [outcome.written.body, *_parts(outcome.written.body)]:
            stored |= set(part)
        typed |= {name for (name, _), text in said.items() if text}
    names = {name for name, _ in every_box(stocked, kind)} - {"day"}
    assert typed == names  # the table above types into each of them
    gone = {"line": {"item", "amount"}, "recipe": {"recipe"}}
    for name in typed:
        assert gone.get(name, {name}) <= stored, (name, stored)


def _parts(body):
    for value in body.values():
        if isinstance(value, list):
            yield from (one for one in value if isinstance(one, dict))


def test_rows_left_empty_between_lines_do_not_matter(stocked):
    said = boxes(lines=["", "3 lb plum", "", "1 lb sugar"], bed=["", "orchard", "", "shed"])
    lines = send(stocked, "harvested", said).written.body["lines"]
    assert [(one["item"], one.get("bed")) for one in lines] == [("plum", "orchard"), ("sugar", "shed")]  # fmt: skip


def test_lot_is_named_in_the_line(stocked):
    lot = stocked.show("shelf").frame.set_index("item").loc["plum", "lot"]
    written = send(stocked, "eaten", boxes(ate=[f"2 lb plum from lot {lot}"])).written
    assert written.body["ate"][0]["lot"] == lot


def test_double_tap_writes_once(stocked):
    said = boxes(lines=["3 lb plum"])
    first = send(stocked, "harvested", said, id=UUID_A)
    again = send(stocked, "harvested", said, id=UUID_A)
    assert (first.written.is_new, again.written.is_new) == (True, False)
    words = words_of(stocked)
    ask = ask_of(stocked, "/write")
    assert text_of(outcome_shown(ask, first)).startswith(words("forms.written"))
    assert text_of(outcome_shown(ask, again)).startswith(words("forms.again"))
    changed = send(stocked, "harvested", boxes(lines=["4 lb plum"]), id=UUID_A)
    assert changed.written is None
    assert "other content" in changed.trouble


def test_day_and_writer_are_kept(stocked):
    said = boxes(lines=["3 lb plum"])
    for day, on in (("today", "2026-11-01"), ("yesterday", "2026-10-31"), ("2026-09-02", "2026-09-02"), (None, "2026-11-01")):  # fmt: skip
        event = send(stocked, "harvested", said, day=day, by=" Ada ").written.event
        assert (event.on, event.by) == (on, "Ada")


# -- what is said while one types ----------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("31 lb 8 oz plum", "31 lb 8 oz (14.3 kg) of plum"), ("3 plumm", "new to this book"), ("-3 lb plum", "-3 lb plum"),
        ("0 lb plum", "nothing"), ("plum", "number"), ("31 lb", "names no item"), ("3 smidgen plum", "not a unit"),
    ],
)  # fmt: skip
def test_amount_is_understood_at_once(stocked, text, says):
    assert says in text_of(
        understood(ask_of(stocked, "/write"), "harvested", text, box_id("lines", 0))
    )


def test_a_written_form_keeps_only_another_day():
    ids = [box_id(name, 0) for name in ("makes", "method", "note", "day")]
    left = emptied("put_up", ids, ["plum butter", "cook", "", "2026-09-01"])
    assert left == ["", None, no_update, no_update]


def test_counting_none_is_understood(stocked):
    said = text_of(
        understood(ask_of(stocked, "/write"), "counted", "0 lb plum", box_id("lines", 0))
    )
    assert "of plum" in said


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(max_size=30), st.sampled_from(["lines", "ate", "used", "made", "left", "work", "acid", "fuel", "uses", "seed", "note"]))  # fmt: skip
def test_whatever_is_typed_is_answered(demo, fixed_day, text, field):
    understood(ask_of(demo, "/write"), "put_up", text, box_id(field, 0))
    typed = Typed("put_up", day="today", boxes=boxes(makes="sauce", **{field: text}))
    beside_batch(ask_of(demo, "/write"), typed)


def test_batch_being_typed_says_its_cost_and_writes_nothing(stocked):
    before = digest(stocked.book)
    typed = Typed("put_up", day="2026-09-03", boxes=boxes(makes="plum jam", method="cook", used=["3 lb plum", "1 lb sugar"], made="4 half-pint jars fridge"))  # fmt: skip
    said = text_of(beside_batch(ask_of(stocked, "/write"), typed).takes)
    assert "What it takes" in said
    assert "a half-pint jar, all in" in said
    assert digest(stocked.book) == before
    written = send(stocked, "put_up", typed.boxes).written
    row = stocked.show("jar-cost", batch=written.event.id).records()[0]
    assert words_of(stocked).money(row["cost_per_jar"]) in said
