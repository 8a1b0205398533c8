"""our-table on cases worked on paper: guests, needs, feed, ratios, periods, and what is not known."""

from __future__ import annotations

import pytest
from books import state_of
from oracle.tape import Tape, line, lines
from our_table_tools import KG, OUR_TABLE, ask, by_key

from ledger.errors import InputError, NotFound

# -- on paper ---------------------------------------------------------------------------------


@pytest.fixture
def garden():
    """10 kg of own tomato (200 kcal a kilogram), worth 3.00 a kilogram; bread bought."""
    tape = Tape()
    tape.item("tomato", kcal_per_100g="20")
    tape.item("bread", kcal_per_100g="250")
    tape("harvested", "2026-08-01", lines(("tomato", 10 * KG), bed="south bed"))
    tape("bought", "2026-08-01", {**lines(("bread", 4 * KG), paid="8"), "shop": "corner shop"})
    tape("price_seen", "2026-08-01", line("tomato", KG, price="3"))
    return tape


def test_guests_and_leftovers_are_taken_off(garden):
    left = [{"item": "stew", "amount": "1 kg", "whole": KG, "n": 1, "kept": "fridge", "share": "0.25"}]  # fmt: skip
    garden("eaten", "2026-08-02", {"ate": [line("tomato", 4 * KG), line("bread", 2 * KG, 2)], "people": 6, "guests": 2, "left": left})  # fmt: skip
    records = by_key(
        ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31")
    )
    # 4 of 6 people, three quarters of the dish: half of what was on the table
    assert records["2026-08-01/2026-08-31", "weight", "grown"]["amount"] == pytest.approx(2000)
    assert records["2026-08-01/2026-08-31", "energy", "bought"]["amount"] == pytest.approx(2500)
    assert records["2026-08-01/2026-08-31", "value", "grown"]["share_of_eaten"] == pytest.approx(6 / 8)  # fmt: skip
    paths = ask(state_of(garden.events, "2026-08-31"), paths=True)["records"]
    ways = {(one["source"], one["through"], one["to"]): one["grams"] for one in paths}
    assert ways["south bed", "fresh", "guests"] == pytest.approx(1000)
    assert ways["south bed", "stew", "on hand"] == pytest.approx(1000)
    assert ways["corner shop", "fresh", "on hand"] == pytest.approx(2000)


def test_what_a_count_found_eaten_is_eaten(garden):
    garden("counted", "2026-08-31", {"lines": [line("tomato", 7 * KG)], "missing": "eaten"})
    (record,) = [r for r in ask(state_of(garden.events, "2026-08-31"))["records"] if r["basis"] == "weight" and r["origin"] == "grown"]  # fmt: skip
    assert record["amount"] == pytest.approx(3000)


def test_what_a_count_called_home_made_stays_grown_through_a_batch(garden):
    """It was of no origin, so that a jar of it weighed nothing, while its value counted as found."""
    garden.item("plum", kcal_per_100g="46")
    garden("price_seen", "2026-08-01", line("plum", KG, price="3"))
    garden("counted", "2026-08-02", {"lines": [line("plum", 2 * KG)], "home_made": ["plum"]})
    made = {"makes": "jam", "method": "cook", "made": [{"n": 1, "whole": 2 * KG}]}
    garden("put_up", "2026-08-03", {**made, "used": [line("plum", 2 * KG)]})
    garden("eaten", "2026-08-04", {"ate": [line("jam", KG)]})
    records = by_key(ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31"))  # fmt: skip
    for basis, amount in (("weight", 1000.0), ("energy", 460.0), ("value", 3.0)):
        assert records["2026-08-01/2026-08-31", basis, "grown"]["amount"] == pytest.approx(amount)
        assert OUR_TABLE.why(state_of(garden.events, "2026-08-31"), f"2026-08-01/2026-08-31/{basis}/grown", "amount", deep=9).value == pytest.approx(amount)  # fmt: skip


def test_the_need_is_people_times_kcal_times_days(garden):
    garden("setting_changed", "2026-01-01", {"name": "people", "value": "2"})
    garden("setting_changed", "2026-08-11", {"name": "people", "value": "3"})
    garden("setting_changed", "2026-01-01", {"name": "kcal_per_person_day", "value": "2000"})
    garden("eaten", "2026-08-05", {"ate": [line("bread", 2 * KG)]})
    answer = ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31")
    need = 10 * 2 * 2000 + 21 * 3 * 2000
    assert answer["totals"]["need_kcal"] == need
    records = by_key(answer)
    assert records["2026-08-01/2026-08-31", "energy", "bought"]["share_of_need"] == pytest.approx(5000 / need)  # fmt: skip
    assert records["2026-08-01/2026-08-31", "weight", "bought"]["share_of_need"] is None


def test_a_need_not_set_is_null_and_the_answer_says_what_supplies_it(garden):
    garden("eaten", "2026-08-05", {"ate": [line("bread", KG)]})
    answer = ask(state_of(garden.events, "2026-08-31"))
    assert {one["share_of_need"] for one in answer["records"]} == {None}
    assert any("kcal_per_person_day" in one for one in answer["totals"]["missing"])


def with_hens(garden, feed):
    """Eggs of 50 g and 70 kcal, laid this season; what the hens were given is in `feed`."""
    garden.item("egg", measure="count", kcal_per_100g="140", g_per={"piece": "50"})
    garden.item("hen feed", sort="garden input", feeds="egg")
    garden("harvested", "2026-08-02", lines(("egg", 20_000)))
    for kind, body in feed:
        garden(kind, "2026-08-02", body)
    garden("eaten", "2026-08-03", {"ate": [line("egg", 10_000), line("tomato", KG, 2)]})
    return by_key(ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31"))


def test_eggs_count_as_far_as_the_feed_was_grown(garden):
    scraps = {"lines": [line("tomato", KG)], "why": "fed to animals"}
    records = with_hens(garden, [("bought", lines(("hen feed", 3 * KG), paid="3")), ("discarded", scraps)])  # fmt: skip
    grown = records["2026-08-01/2026-08-31", "energy", "grown"]
    assert grown["share_of_eaten"] == 1.0
    # 700 kcal of egg, a quarter of it by the tomatoes, beside 200 kcal of tomato
    assert grown["feed_adjusted_share"] == pytest.approx((700 / 4 + 200) / 900)


def test_feed_nobody_wrote_down_leaves_the_adjusted_share_open(garden):
    records = with_hens(garden, [])
    grown = records["2026-08-01/2026-08-31", "energy", "grown"]
    assert grown["feed_adjusted_share"] is None
    assert "feed:2026" in grown["assumptions"]


def test_the_two_ratios_are_named_apart(garden):
    garden("eaten", "2026-08-05", {"ate": [line("tomato", 2 * KG), line("bread", KG, 2)]})
    garden("given_away", "2026-08-06", {**lines(("tomato", 5 * KG)), "how": "gift"})
    totals = ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31")["totals"]  # fmt: skip
    assert totals["eaten_based"]["weight"] == pytest.approx(2 / 3)
    # grown 10, came in 4, given 5, on hand 3 + 3 more than before: 3 used at home
    assert totals["production_based"]["weight"] == pytest.approx(10 / 3)
    assert totals["accounts"]["weight"]["stock_change"] == pytest.approx(6000)


def test_a_ratio_of_things_without_a_price_is_open_and_named(garden):
    garden.item("melon")
    garden("harvested", "2026-07-01", lines(("melon", KG)))
    garden("eaten", "2026-07-05", {"ate": [line("melon", KG)]})
    totals = ask(state_of(garden.events, "2026-07-31"), from_="2026-07-01", to="2026-07-31")["totals"]  # fmt: skip
    assert totals["eaten_based"] == {"energy": None, "weight": 1.0, "value": None}
    assert totals["production_based"] == {"energy": None, "weight": 1.0, "value": None}
    assert totals["accounts"]["value"]["grown"] is None
    assert any("No shop price of melon" in one for one in totals["missing"])


def test_each_month_has_its_ratios(garden):
    garden("eaten", "2026-08-05", {"ate": [line("tomato", 2 * KG), line("bread", KG, 2)]})
    garden("eaten", "2026-09-05", {"ate": [line("tomato", KG), line("bread", 2 * KG, 2)]})
    totals = ask(state_of(garden.events, "2026-09-30"), by="month")["totals"]
    august, september = totals["periods"]
    assert august["eaten_based"]["weight"] == pytest.approx(2 / 3)
    assert september["eaten_based"]["weight"] == pytest.approx(1 / 3)
    # nothing came in in September: 3 kg less is there, and 3 kg was used
    assert september["production_based"]["weight"] == 0.0
    assert totals["eaten_based"]["weight"] == pytest.approx(1 / 2)


def test_nothing_used_at_home_leaves_the_ratio_open(garden):
    totals = ask(state_of(garden.events, "2026-08-31"), from_="2026-08-01", to="2026-08-31")["totals"]  # fmt: skip
    assert set(totals["production_based"].values()) == {None}


# -- what is not known ------------------------------------------------------------------------


def test_no_prices_leave_values_open_and_named():
    tape = Tape()
    tape.item("melon", measure="count")
    tape("harvested", "2026-08-01", lines(("melon", 5000)))
    tape("eaten", "2026-08-02", {"ate": [line("melon", 2000)]})
    answer = ask(state_of(tape.events, "2026-08-31"))
    grown = [one for one in answer["records"] if one["origin"] == "grown"]
    assert [one["amount"] for one in grown] == [None, None, None]
    assert all(one["at_least"] and one["share_of_eaten"] is None for one in grown)
    assert {one["id"] for one in answer["assumptions"]} == {"no weight:melon", "no price:melon"}


def test_no_kcal_and_a_price_of_nothing_are_figures():
    tape = Tape()
    tape.item("water", kcal_per_100g="0")
    tape("bought", "2026-08-01", lines(("water", KG), paid="0"))
    tape("eaten", "2026-08-02", {"ate": [line("water", KG)]})
    records = [one for one in ask(state_of(tape.events, "2026-08-31"))["records"] if one["origin"] == "bought"]  # fmt: skip
    assert [(one["basis"], one["amount"], one["share_of_eaten"]) for one in records] == [
        ("energy", 0.0, None),
        ("weight", 1000.0, 1.0),
        ("value", 0.0, None),
    ]
    assert not any(one["at_least"] for one in records)


# -- every figure opens ---------------------------------------------------------------------


def leaves(node):
    return [leaf for part in node.parts for leaf in leaves(part)] if node.parts else [node]


def test_a_figure_opens_to_the_events_that_it_comes_from(garden):
    garden("eaten", "2026-08-05", {"ate": [line("tomato", KG)]})
    state = state_of(garden.events, "2026-12-31")
    node = OUR_TABLE.why(state, "2026-01-01/2026-12-31/weight/grown", "amount")
    assert node.label == "grown, eaten 2026-01-01 to 2026-12-31"
    dish = OUR_TABLE.why(state, "2026-01-01/2026-12-31/weight/grown/tomato")
    assert (dish.label, dish.value) == ("tomato on the table", 1000.0)
    (month,) = dish.parts
    assert month.address == "our-table/2026-08-01/2026-08-31/weight/grown/tomato"
    named = {leaf.event.split(" ", 1)[0] for leaf in leaves(OUR_TABLE.why(state, month.address.partition("/")[2], deep=9)) if leaf.event}  # fmt: skip
    assert named == {"e3", "e6"}


@pytest.mark.parametrize(
    "key",
    [
        "2026-01-01/2026-12-31/weight/moon",
        "2026-01-01/weight/grown",
        "soon/later/weight/grown",
        "x",
        "paths/2026-01-01/2026-12-31/grown/bed/fresh/moon",
        "paths/1",
    ],
)
def test_an_unknown_address_is_refused_by_name(garden, key):
    state = state_of(garden.events)
    with pytest.raises(NotFound, match="address"):
        OUR_TABLE.why(state, key, None)


def test_an_unknown_figure_is_refused_by_name(garden):
    state = state_of(garden.events)
    with pytest.raises(NotFound, match="share_of_eaten"):
        OUR_TABLE.why(state, "2026-01-01/2026-12-31/weight/grown", "colour")


# -- edges ------------------------------------------------------------------------------------


def test_an_empty_book_answers_with_a_sentence():
    for options in ({}, {"by": "month"}, {"paths": True}, {"from_": "2026-01-01"}):
        answer = ask(state_of([], "2026-08-31"), **options)
        assert answer["records"] == []
        assert "Nothing eaten is written down" in answer["totals"]["missing"][0]


def test_a_book_of_forty_years_answers_month_by_month():
    tape = Tape()
    tape.item("bread", kcal_per_100g="250")
    for year in range(1986, 2026):
        for month in (1, 7):
            tape("bought", f"{year}-{month:02d}-01", lines(("bread", KG), paid="2"))
            tape("eaten", f"{year}-{month:02d}-15", {"ate": [line("bread", KG)]})
    for number, event in enumerate(tape.events):
        event["recorded_at"] = f"2026-01-01T{number // 60:02d}:{number % 60:02d}:00Z"
    state = state_of(tape.events, "2026-01-01")
    months = {one["period"] for one in ask(state, by="month")["records"]}
    assert len(months) == 80
    assert len({one["period"] for one in ask(state, by="year")["records"]}) == 40


def test_periods_reversed_are_refused(garden):
    with pytest.raises(InputError, match="earlier day") as refused:
        ask(state_of(garden.events), from_="2026-09-01", to="2026-08-01")
    assert refused.value.field == "to"


@pytest.mark.parametrize(
    ("options", "field"),
    [
        ({"from_": "soon"}, "from"),
        ({"to": "2026-02-30"}, "to"),
        ({"by": "moon"}, "by"),
        ({"basis": "taste"}, "basis"),
    ],
)
def test_bad_options_are_refused_by_name(garden, options, field):
    with pytest.raises(InputError) as refused:
        ask(state_of(garden.events), **options)
    assert refused.value.field == field


def test_a_time_to_come_is_said_to_be_so(garden):
    answer = ask(state_of(garden.events, "2026-08-31"), from_="2027-01-01")
    assert answer["records"] == []
    assert "after 2026-08-31" in answer["totals"]["missing"][0]


def test_days_to_come_are_no_part_of_the_need(garden):
    garden("setting_changed", "2026-01-01", {"name": "people", "value": "1"})
    garden("setting_changed", "2026-01-01", {"name": "kcal_per_person_day", "value": "2000"})
    garden("eaten", "2026-08-05", {"ate": [line("bread", KG)]})
    answer = ask(state_of(garden.events, "2026-08-10"), from_="2026-08-01", to="2026-12-31")
    assert answer["totals"]["need_kcal"] == 10 * 2000
    assert answer["records"][0]["period"] == "2026-08-01/2026-08-10"
