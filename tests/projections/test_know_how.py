"""Skills noted and done: who, how often, how they stand, targets, sheets and curves.

Longer than its kin, as its books and helpers serve every case.
"""

from __future__ import annotations

import json
import math
import random

import pytest
from books import FAR, ListLog, answer_of, state_of
from strategies import random_book

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.shared.arithmetic import recompute
from ledger.replay import Replay

FIELDS = {
    "skill", "person", "times", "times_this_year", "first_on", "last_on", "days_since", "rhythm_days",
    "standing", "went_lately", "minutes_lately", "learning_rate", "only_one_can", "why", "assumptions",
}  # fmt: skip
NUMBERS = [
    "times", "times_this_year", "days_since", "rhythm_days", "went_lately", "went_before",
    "minutes_lately", "minutes_before", "minutes_per_unit_lately", "minutes_per_unit_before",
    "learning_rate", "learning_rate_low", "learning_rate_high", "learning_repetitions",
    "target_times", "target_done",
]  # fmt: skip
TODAY = "2026-11-01"


@pytest.fixture
def write(book, yes):
    def one(kind, on, by=None, **body):
        return book.write(kind, body, on=on, answers=yes, **({"by": by} if by else {}))

    return one


@pytest.fixture
def show(book):
    def ask(as_of=TODAY, known_at=None, **options):
        return book.show("know-how", as_of=as_of, known_at=known_at, **options).to_dict()

    return ask


def one(answer, skill, person=None):
    (found,) = [r for r in answer["records"] if (r["skill"], r["person"]) == (skill, person)]
    return found


def jam(write, on, minutes="60", jars=6, jar="half-pint jar", **more):
    used = [{"item": "strawberry", "amount": "4 lb"}]
    made = [{"jars": jars, "jar": jar, "kept": "shelf"}]
    work = [] if minutes is None else [{"person": "Ada", "minutes": minutes}]
    body = {"makes": "jam", "method": "boiling water", "used": used, "made": made, "work": work}
    return write("put_up", on, **(body | more))


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    if not node.parts:
        assert node.how in ("as written", "sum")
    for part in node.parts:
        check(part)


# -- who practised what ---------------------------------------------------------------------


def test_note_counts_for_each_person_and_once_for_all(write, show):
    write("practised", "2026-03-01", skill="grafting", people=["Ada", "Ben"], minutes="40", went=4)
    write("practised", "2026-03-08", skill="Grafting ", people=["ada"], minutes="20", went=2)
    answer = show()
    together, ada, ben = (one(answer, "grafting", who) for who in (None, "Ada", "Ben"))
    assert set(together) >= FIELDS
    assert [r["times"] for r in (together, ada, ben)] == [2, 2, 1]
    assert (together["first_on"], together["last_on"]) == ("2026-03-01", "2026-03-08")
    assert (ada["went_lately"], ada["minutes_lately"]) == (3.0, 30.0)
    assert (together["days_since"], together["rhythm_days"]) == (238, 7.0)
    assert together["only_one_can"] is False
    json.dumps(answer)


def test_batch_practises_its_method_and_what_it_makes(write, show):
    write("harvested", "2026-06-20", item="strawberry", amount="9 lb")
    work = [{"person": "Ada", "minutes": "50"}, {"person": "Ben", "minutes": "25"}]
    jam(write, "2026-06-21", work=work, went=5)
    answer = show()
    assert {r["skill"] for r in answer["records"]} == {"boiling water", "jam", "growing strawberry"}
    for skill in ("boiling water", "jam"):
        assert one(answer, skill)["minutes_lately"] == 75
        assert one(answer, skill, "Ben")["minutes_lately"] == 25
        assert one(answer, skill, "Ada")["went_lately"] == 5


def test_sowing_and_picking_practise_growing_that_crop(write, show):
    write("planted", "2026-04-01", by="Cy", crop="carrot", how="sown")
    lines = [{"item": "carrot", "amount": "2 lb"}, {"item": "carrot", "amount": "1 lb"}]
    write("harvested", "2026-07-20", by="Cy", lines=[*lines, {"item": "pea", "amount": "1 lb"}])
    write("harvested", "2026-07-21", item="carrot", amount="1 lb")
    answer = show()
    assert one(answer, "growing carrot")["times"] == 3
    assert one(answer, "growing carrot", "Cy")["times"] == 2  # two lines of one entry are one time
    assert one(answer, "growing pea", "Cy")["minutes_lately"] is None


def test_work_goes_before_who_wrote_it_down(write, show):
    work = [{"person": "Ben", "minutes": "30"}]
    write("harvested", "2026-07-20", by="Ada", item="pea", amount="1 lb", work=work)
    assert {r["person"] for r in show()["records"]} == {None, "Ben"}


def test_nobody_named_counts_for_the_household_only(write, show):
    write("harvested", "2026-07-20", item="pea", amount="1 lb")
    answer = show()
    (only,) = answer["records"]
    assert (only["person"], only["only_one_can"], only["held_by"]) == (None, None, [])
    assert "unnamed" in only["assumptions"]


def test_held_by_one_person_only(write, show):
    write("practised", "2026-10-01", skill="scything", people=["Ada"])
    write("practised", "2026-10-01", skill="knitting", people=["Ada", "Ben"])
    answer = show()
    assert one(answer, "scything")["only_one_can"] is True
    assert one(answer, "scything", "Ada")["only_one_can"] is True
    assert one(answer, "knitting")["held_by"] == ["Ada", "Ben"]
    assert "Held by one person only: Ada scything." in answer["totals"]["in_words"]


def test_another_name_of_a_crop_is_the_same_skill(write, show):
    write(
        "item_described",
        "2026-01-01",
        item="courgette",
        sort="food",
        measure="mass",
        also=["zucchini"],
    )
    write("harvested", "2026-07-20", by="Ada", item="courgette", amount="1 lb")
    write("practised", "2026-07-21", skill="Growing zucchini", people=["Ada"])
    assert one(show(), "growing courgette")["times"] == 2
    assert len(show(skill="growing zucchini")["records"]) == 2


# -- how it stands --------------------------------------------------------------------------


def test_nobody_makes_jam_in_february(write, show):
    for day in ("2026-06-21", "2026-06-28"):
        write("harvested", day, item="strawberry", amount="9 lb")
        jam(write, day)
    found = one(show(as_of="2027-02-10"), "jam")
    assert (found["standing"], found["seasonal"]) == ("in hand", True)
    assert one(show(as_of="2027-09-01"), "jam")["standing"] == "going rusty"
    assert one(show(as_of="2028-09-01"), "jam")["standing"] == "out of practice"


def test_what_is_not_of_a_season_is_kept_by_good_practice(write, show):
    for n in range(1, 6):
        write("practised", f"2026-01-{n * 5:02d}", skill="whittling", people=["Ada"])
    found = one(show(as_of="2026-02-24"), "whittling")
    assert (found["standing"], round(found["keeps_days"])) == ("in hand", 69)
    assert found["because"] == "went well 5 times, which keeps 69 days; the last 30 days ago"
    assert one(show(as_of="2026-04-05"), "whittling")["standing"] == "going rusty"
    assert one(show(as_of="2026-12-01"), "whittling")["standing"] == "out of practice"
    write("practised", "2026-02-25", skill="whittling", people=["Ada"], went=1)
    found = one(show(as_of="2026-02-25"), "whittling")
    assert (found["standing"], found["days_since"]) == ("going rusty", 0)
    assert found["because"].endswith("; the last try failed")


def test_lately_is_the_latest_three(write, show):
    for n, went in enumerate((1, 2, 3, 4, 5), start=1):
        write("practised", f"2026-10-0{n}", skill="whittling", people=["Ada"], went=went)
    found = one(show(), "whittling")
    assert (found["went_lately"], found["went_before"]) == (4.0, 1.5)


# -- targets --------------------------------------------------------------------------------


def test_wanted_and_never_tried(write, show):
    write("target_set", "2026-01-01", skill="cheese making", times=2, per="year")
    answer = show()
    (found,) = answer["records"]
    assert (found["standing"], found["times"], found["last_on"]) == ("never tried", 0, None)
    assert (found["target_times"], found["target_done"], found["target_met"]) == (2, 0, False)
    assert found["rhythm_days"] is found["days_since"] is None


@pytest.mark.parametrize(
    ("target", "done", "met"),
    [
        ({"times": 2, "per": "year"}, 2, True),
        ({"times": 3, "per": "year"}, 2, False),
        ({"times": 1, "per": "week"}, 1, True),
        ({"times": 2, "per": "week"}, 1, False),
        ({"times": 1, "per": "person year"}, 2, False),  # for each of three at the table
        ({"times": 3}, 3, True),
        ({"times": 2, "by": "2026-10-20"}, 1, False),
    ],
)
def test_target_is_met_by_what_counts_for_it(write, show, target, done, met):
    write("setting_changed", "2025-01-01", name="people", value="3")
    for day in ("2025-05-01", "2026-05-01", "2026-10-28"):
        write("practised", day, skill="grafting", people=["Ada"])
    write("target_set", "2026-01-01", skill="Grafting", **target)
    found = one(show(), "grafting")
    assert (found["target_done"], found["target_met"]) == (done, met)
    assert one(show(), "grafting", "Ada")["target_met"] is None


def test_newest_target_holds_until_it_is_struck(book, write, show):
    write("target_set", "2026-01-01", skill="grafting", times=5, per="year")
    newer = write("target_set", "2026-02-01", skill="grafting", times=1, per="year")
    write("practised", "2026-03-01", skill="grafting", people=["Ada"])
    assert one(show(), "grafting")["target_met"] is True
    book.strike(newer.event.id, "five it is")
    assert one(show(), "grafting")["target_met"] is False


def test_target_under_another_name_is_asked_about(write, show):
    jam(write, "2026-06-21")
    write("target_set", "2026-01-01", skill="boiling water canning", times=1, per="year")
    answer = show()
    assert one(answer, "boiling water canning")["standing"] == "never tried"
    assert "'boiling water' was" in answer["totals"]["missing"][0]


# -- the curve ------------------------------------------------------------------------------


def test_curve_takes_five_batches(write, show):
    for n, minutes in enumerate(("60", "48", "42.1", "38.4"), start=1):
        jam(write, f"2026-06-0{n}", minutes)
    assert one(show(), "jam")["learning_rate"] is None
    assert "4 of at least 5" in show(curve="jam")["totals"]["missing"][0]
    jam(write, "2026-06-05", "35.7")
    found = one(show(), "jam")
    assert found["learning_rate"] == pytest.approx(0.8, abs=0.001)  # 60 x n^log2(0.8)
    assert found["learning_rate_low"] <= found["learning_rate"] <= found["learning_rate_high"]
    assert (found["unit"], found["learning_repetitions"]) == ("jar", 5)
    assert found["minutes_per_unit_lately"] == pytest.approx((42.1 + 38.4 + 35.7) / 18)


def test_batch_without_work_is_a_repetition_and_no_point(write, show):
    for n in range(1, 8):
        jam(write, f"2026-06-0{n}", None if n == 3 else str(round(60 * n**-0.25, 3)))
    found = one(show(), "jam")
    assert found["learning_repetitions"] == 6
    assert found["learning_rate"] == pytest.approx(2**-0.25, abs=1e-3)
    points = show(curve="jam")["records"]
    assert [p["repetition"] for p in points] == list(range(1, 8))
    assert points[2]["minutes_per_unit"] is None
    assert points[2]["fitted_low"] <= points[2]["fitted_likely"] <= points[2]["fitted_high"]


def test_jars_of_several_sizes_are_not_set_side_by_side(write, show):
    jam(write, "2026-06-01", jar="pint jar")
    jam(write, "2026-06-02")
    assert one(show(), "jam")["unit"] in ("quart", "lb")


def test_frozen_by_the_pound_or_kilogram(write, show):
    used = [{"item": "pea", "amount": "10 lb"}]
    work = [{"person": "Ada", "minutes": "30"}]
    body = {"makes": "frozen pea", "method": "freeze", "used": used, "work": work}
    write("put_up", "2026-07-01", made=[{"amount": "5 lb", "kept": "freezer"}], **body)
    found = one(show(), "frozen pea")
    assert (found["unit"], found["minutes_per_unit_lately"]) == ("lb", pytest.approx(6.0))
    write("setting_changed", "2026-01-01", name="measures", value="metric")
    assert one(show(), "frozen pea")["unit"] == "kg"


def test_method_of_several_things_has_no_curve(write, show):
    for n in range(1, 6):
        jam(write, f"2026-06-0{n}")
        jam(write, f"2026-07-0{n}", makes="jelly")
    assert one(show(), "jam")["learning_rate"] == pytest.approx(1)
    assert one(show(), "boiling water")["learning_rate"] is None
    assert "ask for one of them" in show(skill="boiling water")["totals"]["missing"][0]


def test_one_skill_says_who_fades_and_how_fast_it_goes(write, show):
    for n in range(1, 7):
        jam(write, f"2026-10-0{n}", str(60 + n % 2))
    write("practised", "2024-10-01", skill="jam", people=["Ben"])
    words = show(skill="jam")["totals"]["in_words"]
    assert "Out of practice in it: Ben." in words
    assert any(text.startswith("Neither quicker nor slower") for text in words)
    assert show(skill="jam")["totals"]["missing"] == []


# -- the year sheet, options, bad input ------------------------------------------------------


def test_year_sheet_counts_by_month(write, show):
    for day in ("2025-12-31", "2026-01-01", "2026-03-05", "2026-03-31"):
        write("practised", day, skill="knitting", people=["Ada"])
    write("practised", "2025-05-05", skill="scything", people=["Ben"])
    answer = show(year_sheet="2026")
    (found,) = answer["records"]
    assert (found["m01"], found["m02"], found["m03"], found["m12"]) == (1, 0, 2, None)
    assert found["times"] == 3
    assert "scything" in answer["totals"]["in_words"][0]
    assert show(year_sheet=2025, person="ben")["records"][0]["m05"] == 1
    assert set(answer["units"]) <= {c.name for c in PROJECTIONS["know-how"].variants["year_sheet"]}


@pytest.mark.parametrize(
    ("options", "error"),
    [
        ({"person": "Zed"}, NotFound),
        ({"skill": "juggling"}, NotFound),
        ({"curve": "juggling"}, NotFound),
        ({"year_sheet": "26"}, InputError),
    ],
)
def test_bad_question_is_refused_by_name(write, show, options, error):
    with pytest.raises(error) as caught:
        show(**options)
    assert caught.value.field == next(iter(options)).replace("curve", "skill").replace("_", " ")
    write("practised", "2026-03-01", skill="knitting", people=["Ada"])
    with pytest.raises(error, match=r"Ada|Take one|in full"):
        show(**options)


def test_near_miss_of_a_skill_is_offered(write, show):
    write("practised", "2026-03-01", skill="knife sharpening", people=["Ada"])
    with pytest.raises(NotFound, match="Did you mean 'knife sharpening'"):
        show(skill="knife sharpenin")


def test_empty_book_and_one_event_book(write, show):
    assert show()["records"] == []
    assert show()["totals"]["in_words"] == ["Nothing practised is written down yet."]
    assert show(year_sheet="2026")["records"] == []
    write("practised", TODAY, skill="knitting", people=["Ada"])
    found = one(show(), "knitting", "Ada")
    assert (found["standing"], found["days_since"], found["rhythm_days"]) == ("in hand", 0, None)


# -- the two clocks, corrections, and why ------------------------------------------------------


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
