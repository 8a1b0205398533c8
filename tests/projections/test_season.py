"""What a season gave: plots, last season, the rest to come, money, targets, weeks."""

from __future__ import annotations

import pytest

from ledger.errors import InputError, NotFound
from ledger.questions.garden.past import counterparts
from ledger.questions.garden.plots import Plot, settle

LB, FT = 453.59237, 0.3048


@pytest.fixture
def garden(book, yes):
    """Two seasons of tomatoes that change beds, plums of an old tree, onions nobody planted."""

    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    plant = {"crop": "tomato", "variety": "Red Egg", "row": "20 ft", "area": "40 sq ft"}
    work = [{"person": "Ada", "minutes": "90"}]
    write("planted", "2024-03-01", crop="plum", plants=2, bed="orchard")
    write("planted", "2025-05-10", **plant, bed="south bed", plants=10)
    write("bought", "2025-05-10", item="tomato", amount="1 lb", paid="2.00")
    for day, pounds in (("2025-08-05", 10), ("2025-08-19", 20), ("2025-09-16", 5)):
        write("harvested", day, item="tomato", amount=f"{pounds} lb", bed="south bed")
    write("discarded", "2025-12-01", why="too old", item="tomato", amount="36 lb")
    write("bought", "2026-04-01", lines=[
        {"item": "stakes", "amount": "10", "paid": "9.00", "for_crop": "tomato"}])  # fmt: skip
    write("item_described", "2026-04-01", item="stakes", sort="garden input")
    write("planted", "2026-05-12", **plant, bed="long bed", plants=12, work=work)
    write("harvested", "2026-08-04", item="tomato", amount="12 lb", trimmed="2 lb", work=work)
    write("harvested", "2026-08-20", item="tomato", amount="18 lb", variety="red  egg")
    write("harvested", "2026-09-02", item="plum", amount="30 lb", bed="orchard")
    write("harvested", "2026-09-03", item="onion", amount="3 lb")
    write("eaten", "2026-08-05", ate=[{"item": "tomato", "amount": "3 lb"}])
    write("given_away", "2026-08-21", how="gift", item="tomato", amount="4 lb")
    write("discarded", "2026-08-22", why="spoiled", item="tomato", amount="1 lb")
    used = [{"item": "tomato", "amount": "12 lb"}]
    made = [{"amount": "9 lb", "kept": "freezer"}]
    write("put_up", "2026-08-23", makes="tomato sauce", method="freeze", used=used, made=made)
    write("target_set", "2026-01-02", item="tomato", amount="40 lb", per="year")
    return book


def records(book, **options):
    return book.show("season", **{"as_of": "2026-08-31", **options}).to_dict()["records"]


def one(book, crop="tomato", **options):
    found = [r for r in records(book, **options) if r["crop"] == crop]
    assert len(found) == 1, [(r["variety"], r["bed"]) for r in found]
    (found,) = found
    return found


def test_record_has_the_fields_that_scripts_rely_on(garden):
    fields = {
        "crop", "variety", "bed", "plants", "area_m2", "row_m", "picked_g", "trimmed_g",
        "per_plant_g", "per_m2_g", "first_on", "last_on", "inputs", "shop_value", "net", "hours",
        "net_per_hour", "where_it_went", "last_season_g", "published_low_g", "published_high_g",
        "published_from", "why", "assumptions",
    }  # fmt: skip
    found = one(garden)
    assert fields <= set(found)
    fates = {"eaten fresh", "put up", "given", "lost", "on hand"}
    assert fates <= set(found["where_it_went"])


def test_pickings_without_bed_go_to_the_one_planting_that_fits(garden):
    found = one(garden)
    assert (found["variety"], found["bed"], found["plants"]) == ("Red Egg", "long bed", 12)
    assert found["picked_g"] == pytest.approx(30 * LB, rel=1e-6)
    assert found["trimmed_g"] == pytest.approx(2 * LB, rel=1e-6)
    assert found["per_plant_g"] == pytest.approx(30 * LB / 12, rel=1e-6)
    assert found["per_m2_g"] == pytest.approx(30 * LB / (40 * FT**2), rel=1e-6)
    assert found["per_row_m_g"] == pytest.approx(30 * LB / (20 * FT), rel=1e-6)
    assert (found["first_on"], found["last_on"]) == ("2026-08-04", "2026-08-20")


def test_money_and_hours(garden):
    found = one(garden)
    assert found["inputs"] == pytest.approx(9)
    assert found["shop_value"] == pytest.approx(28 * 2.00, rel=1e-6)
    assert found["net"] == pytest.approx(56 - 9, rel=1e-6)
    assert found["hours"] == pytest.approx(3)
    assert found["net_per_hour"] == pytest.approx(47 / 3, rel=1e-6)
    assert found["provisional"]
    assert "provisional" in found["assumptions"]


def test_inputs_of_what_has_no_price_are_said_to_be_apart(book, yes):
    book.write("harvested", {"item": "egg", "amount": "10"}, on="2026-08-01", answers=yes)
    book.write("harvested", {"item": "tomato", "amount": "10 lb"}, on="2026-08-01", answers=yes)
    book.write("price_seen", {"item": "tomato", "amount": "1 lb", "price": "2"}, on="2026-08-01")
    line = {"item": "layer feed", "amount": "50 lb", "paid": "18.99", "for_crop": "egg"}
    book.write("bought", lines=[line], on="2026-07-01", answers=yes)
    said = book.show("season", season="2026", as_of="2026-12-31").totals["in_words"]
    assert any("Inputs 18.99, of which 18.99 went to what has no shop price" in one for one in said)


def test_where_it_went_adds_up_to_what_was_kept(garden):
    went = one(garden)["where_it_went"]
    pounds = {fate: round(grams / LB, 5) for fate, grams in went.items()}
    assert pounds == {
        "eaten fresh": 3, "put up": 12, "given": 4, "lost": 1, "sown": 0, "on hand": 8,
    }  # fmt: skip


def test_last_season_is_found_in_another_bed(garden):
    found = one(garden)
    assert found["last_season_g"] == pytest.approx(35 * LB, rel=1e-6)
    assert found["last_season_to_date_g"] == pytest.approx(30 * LB, rel=1e-6)
    assert found["last_season_in"] == "south bed"


def test_rest_of_the_season_is_scaled_to_the_plants(garden):
    to_come = one(garden)["still_to_come_g"]
    assert set(to_come) == {"low", "likely", "high"}
    assert to_come["low"] == to_come["high"] == pytest.approx(5 * LB * 12 / 10, rel=1e-6)
    assert one(garden, as_of="2027-02-01", season=2026)["still_to_come_g"]["high"] == 0
    assert one(garden, crop="onion", as_of="2026-10-01")["still_to_come_g"]["likely"] is None


def test_season_before_the_book_began_is_not_a_season_to_go_by(book, yes):
    for day in ("2025-09-01", "2026-07-01"):
        book.write("harvested", item="tomato", amount="5 lb", on=day, answers=yes)
    assert one(book, as_of="2026-07-01")["still_to_come_g"]["low"] is None
    assert one(book, as_of="2026-09-01")["still_to_come_g"]["low"] == 0
    assert "book-begins" in one(book)["assumptions"]


def test_target_counts_what_is_left_after_trimming(garden):
    found = one(garden)
    assert found["target_g"] == pytest.approx(40 * LB, rel=1e-6)
    assert found["short_of_target_g"] == pytest.approx(12 * LB, rel=1e-6)
    assert one(garden, crop="plum", as_of="2026-10-01")["target_g"] is None


def test_target_by_the_week_and_by_person(garden, yes):
    garden.write("target_set", item="plum", amount="1 lb", per="week", on="2026-01-03", answers=yes)
    plum = one(garden, crop="plum", as_of="2026-10-01")
    assert plum["target_g"] == pytest.approx(365 / 7 * LB, rel=1e-6)
    garden.write(
        "target_set", item="onion", amount="4 lb", per="person year", on="2026-01-03", answers=yes
    )
    answer = garden.show("season", as_of="2026-10-01")
    assert any("per person" in text for text in answer.totals["missing"])
    garden.write("setting_changed", name="people", value="6", on="2026-01-01", answers=yes)
    onion = one(garden, crop="onion", as_of="2026-10-01")
    assert onion["target_g"] == pytest.approx(24 * LB, rel=1e-6)


def test_old_tree_bears_on_and_says_so(garden):
    plum = one(garden, crop="plum", as_of="2026-10-01")
    assert plum["plants"] == 2
    assert plum["per_plant_g"] == pytest.approx(15 * LB, rel=1e-6)
    assert "standing:plum" in plum["assumptions"]


def test_what_the_book_does_not_say_is_null_and_named(garden):
    onion = one(garden, crop="onion", as_of="2026-10-01")
    for name in ("variety", "bed", "plants", "per_plant_g", "shop_value", "net", "hours"):
        assert onion[name] is None, name
    for name in ("last_season_g", "published_low_g", "published_from", "target_g"):
        assert onion[name] is None, name
    missing = garden.show("season", as_of="2026-10-01").totals["missing"]
    assert any("shop price of onion" in text for text in missing)
    assert any("planting of onion" in text for text in missing)


def test_autumn_garlic_is_of_the_next_season(book, yes):
    def write(kind, on, **body):
        book.write(kind, body, on=on, answers=yes)

    write("planted", "2024-10-10", crop="garlic", plants=40)
    write("harvested", "2025-07-10", item="garlic", amount="4 lb")
    write("planted", "2025-10-10", crop="garlic", plants=44)
    write("harvested", "2026-07-12", item="garlic", amount="5 lb")
    write("planted", "2026-10-10", crop="garlic", plants=50)
    plants = [
        (r["plants"], round(r["picked_g"] / LB, 4))
        for season in (2025, 2026, 2027)
        for r in records(book, season=season, as_of="2026-11-01")
    ]
    assert plants == [(40, 4), (44, 5), (50, 0)]


def test_failed_planting_stays_in_its_season(book, yes):
    for on, kind, body in (
        ("2025-05-10", "planted", {"crop": "tomato", "plants": 10}),
        ("2026-05-10", "planted", {"crop": "tomato", "plants": 8}),
        ("2026-08-10", "harvested", {"item": "tomato", "amount": "9 lb"}),
    ):
        book.write(kind, body, on=on, answers=yes)
    failed = one(book, season=2025)
    assert (failed["plants"], failed["picked_g"], failed["first_on"]) == (10, 0, None)
    assert one(book)["plants"] == 8


def test_seasons_begin_where_the_household_says(garden, yes):
    garden.write(
        "setting_changed", name="season_starts", value="1 October", on="2026-01-01", answers=yes
    )
    answer = garden.show("season", as_of="2026-08-31")
    assert (answer.totals["season"], answer.totals["from"]) == (2025, "2025-10-01")
    assert one(garden, season="2025")["last_season_g"] == pytest.approx(35 * LB, rel=1e-6)


def test_work_on_several_crops_is_shared_by_weight(book, yes):
    lines = [{"item": "bean", "amount": "3 lb"}, {"item": "chard", "amount": "1 lb"}]
    work = [{"person": "Ada", "minutes": "60"}]
    book.write("harvested", {"lines": lines, "work": work}, on="2026-08-01", answers=yes)
    hours = {r["crop"]: r["hours"] for r in records(book)}
    assert hours == {"bean": pytest.approx(0.75), "chard": pytest.approx(0.25)}


def test_item_without_a_weight_is_told_in_its_own_measure(book, yes):
    book.write("harvested", item="gourd", amount="12", on="2026-08-01", answers=yes)
    found = one(book, crop="gourd")
    assert found["picked_g"] is None
    assert found["in_words"]["picked"] == "12"
    assert found["where_it_went"]["on hand"] is None
    missing = book.show("season", as_of="2026-08-31").totals["missing"]
    assert any("weight of gourd" in text for text in missing)


def test_whole_crops(garden):
    whole = one(garden, by="crop")
    assert (whole["variety"], whole["bed"]) == (None, None)
    assert whole["why"] == "season/2026/tomato/all"
    assert whole["picked_g"] == one(garden)["picked_g"]


def test_weeks_stand_beside_the_same_week_of_last_season(garden):
    weeks = records(garden, weeks=True, crop="tomato")
    by_week = {r["week"]: r for r in weeks}
    assert [r["week"] for r in weeks] == list(range(31, 38))
    assert by_week[31]["picked_g"] == pytest.approx(12 * LB, rel=1e-6)
    assert by_week[31]["last_season_g"] == pytest.approx(10 * LB, rel=1e-6)
    assert by_week[31]["week_on"] == "2026-07-30"
    assert by_week[31]["earlier_high_g"] == pytest.approx(12 * LB, rel=1e-6)
    assert by_week[34]["picked_so_far_g"] == pytest.approx(30 * LB, rel=1e-6)
    assert by_week[37]["picked_g"] is None
    assert by_week[37]["last_season_so_far_g"] == pytest.approx(35 * LB, rel=1e-6)
    assert by_week[31]["published_low_g"] == one(garden)["published_low_g"]


def test_bed_is_asked_for_by_name(garden):
    assert [r["crop"] for r in records(garden, bed="LONG bed")] == ["tomato"]
    assert one(garden, bed="long bed")["last_season_g"] == pytest.approx(35 * LB, rel=1e-6)


@pytest.mark.parametrize(
    ("options", "field"),
    [
        ({"season": "soon"}, "season"), ({"season": "-3"}, "season"), ({"season": "20260"}, "season"),
        ({"crop": "tomatoe"}, "crop"), ({"bed": "moon"}, "bed"), ({"by": "crop", "bed": "long bed"}, "by"),
    ],
)  # fmt: skip
def test_bad_question_is_refused_by_name(garden, options, field):
    with pytest.raises(InputError) as caught:
        records(garden, **options)
    assert caught.value.field == field


def test_empty_book_and_season_without_harvest_have_a_sentence(book, garden):
    answer = garden.show("season", season=1999, as_of="2026-08-31")
    assert answer.frame.empty
    assert "Nothing was planted or picked" in answer.totals["in_words"][0]


def test_empty_book_has_no_records(book):
    assert records(book) == records(book, weeks=True) == []


def test_book_of_one_event(book, yes):
    book.write("planted", {"crop": "tomato"}, on="2026-05-01", answers=yes)
    found = one(book)
    assert (found["picked_g"], found["plants"], found["hours"]) == (0, None, None)
    assert one(book, as_of="2026-05-01")["where_it_went"]["on hand"] == 0
    assert records(book, as_of="2026-04-30") == []
    assert records(book, as_of="9999-12-31") == records(book, as_of="0001-01-01") == []


def test_as_of_and_known_at(garden, fixed_day):
    assert one(garden, as_of="2026-08-10")["picked_g"] == pytest.approx(12 * LB, rel=1e-6)
    before = garden.show("season", as_of="2026-08-31", known_at="2000-01-01")
    assert before.frame.empty


@pytest.mark.parametrize(("key", "field"), [("2026/pear", None), ("x", None), ("", None), ("2026/tomato/red-egg/long-bed", "colour"), ("2026/week-99/tomato", None)])  # fmt: skip
def test_unknown_figure_is_refused(garden, key, field):
    with pytest.raises(NotFound):
        garden.why(f"season/{key}", field, as_of="2026-08-31")


def test_pairs_settle_only_where_one_fits():
    assert settle({(-1, -1), (3, -1), (-1, 4)}) == dict.fromkeys(
        [(-1, -1), (3, -1), (-1, 4)], (3, 4)
    )
    apart = settle({(1, 2), (3, 2), (-1, 2)})
    assert all(a == b for a, b in apart.items())


def test_no_earlier_plot_is_compared_with_twice():
    def plots(season, *names):
        return [Plot(season, 1, v, b, []) for v, b in names]

    now = plots(2026, ("a", "x"), ("a", "y"), ("b", "z"))
    then = plots(2025, ("a", "y"), ("a", "w"), ("c", "z"))
    found = counterparts(now, then)
    assert {at: [p.bed for p in several] for at, several in found.items()} == {
        1: ["y"], 0: ["w"], 2: ["z"],
    }  # fmt: skip
