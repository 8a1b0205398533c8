"""Skills noted and done: who, how often, how they stand, targets; the year sheet, options, bad input."""

from __future__ import annotations

import json

import pytest
from know_how_tools import TODAY, asker, jam, one, writer

from ledger.errors import InputError, NotFound
from ledger.messages import worded
from ledger.projections import PROJECTIONS

FIELDS = {
    "skill", "person", "times", "times_this_year", "first_on", "last_on", "days_since", "rhythm_days",
    "standing", "went_lately", "minutes_lately", "learning_rate", "only_one_can", "why", "assumptions",
}  # fmt: skip


@pytest.fixture
def write(book, yes):
    return writer(book, yes)


@pytest.fixture
def show(book):
    return asker(book)


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


def test_a_method_is_named_and_found_in_the_language(write, show):
    write("harvested", "2026-06-20", item="strawberry", amount="9 lb")
    jam(write, "2026-06-21", work=[{"person": "Ada", "minutes": "50"}])
    found = {row["skill"] for row in show(skill="Wasserbad")["records"]}
    assert found == {"boiling water"}
    assert {worded(one, "de") for one in found} == {"Wasserbad"}


def test_eggs_of_hens_and_honey_are_grown_by_nobody(write, show):
    write("harvested", "2026-06-20", item="egg", amount="9")
    write("harvested", "2026-06-20", item="honey", amount="5 lb")
    write("harvested", "2026-06-20", item="strawberry", amount="9 lb")
    assert {r["skill"] for r in show()["records"]} == {"growing strawberry"}


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
