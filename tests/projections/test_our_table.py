"""our-table: shares of what was eaten, against the plain engine and on cases worked on paper.

Longer than its kin, as its books and helpers serve every case.
"""

from __future__ import annotations

import datetime as dt
import math
import random

import pytest
from books import FAR, ListLog, row_of, state_of
from hypothesis import HealthCheck, given, settings
from oracle import ORIGINS, reckon
from oracle.table import BASES, Table
from oracle.tape import Tape, line, lines
from strategies import books, random_book

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.shared.arithmetic import recompute
from ledger.replay import Replay

KG = 1_000_000  # mg
OUR_TABLE = PROJECTIONS["our-table"]
SLOW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def ask(state, **options):
    return OUR_TABLE.build(state, **options).to_dict()


def by_key(answer):
    return {(r["period"], r["basis"], r["origin"]): r for r in answer["records"]}


def close(mine, theirs):
    return math.isclose(float(mine or 0), float(theirs), rel_tol=1e-9, abs_tol=1e-9)


def day(text):
    return dt.date.fromisoformat(text)


def agrees(events, first, last, as_of=None):
    """Hold one period of the answer to the plain engine."""
    table = Table(reckon(events, as_of))
    amounts, adjusted = table.eaten(day(first), day(last))
    answer = ask(state_of(events, as_of or FAR), from_=first, to=last)
    records = by_key(answer)
    for basis in BASES:
        total = sum(amounts[basis].values())
        for origin in ORIGINS:
            record = records.get((f"{first}/{last}", basis, origin), {})
            value = amounts[basis][origin]
            assert close(record.get("amount"), value), (basis, origin)
            if total and value:
                assert close(record["share_of_eaten"], value / total)
        grown = records.get((f"{first}/{last}", basis, "grown"), {})
        if adjusted is None:
            assert grown["feed_adjusted_share"] is None
        elif total and grown.get("amount") is not None:
            assert close(grown["feed_adjusted_share"], adjusted[basis] / total)


# -- against the plain engine ---------------------------------------------------------------


@pytest.mark.parametrize("seed", range(40))
def test_amounts_are_those_of_the_plain_engine(seed):
    events = random_book(random.Random(seed), 90)
    days = sorted(e["on"] for e in events)
    agrees(events, days[0], days[-1])
    agrees(events, days[len(days) // 3], days[len(days) // 2])
    agrees(events, days[0], days[len(days) // 2], days[len(days) // 2])


@SLOW
@given(books(max_size=60))
def test_any_book_agrees_and_its_shares_add_to_one(events):
    days = sorted(e["on"] for e in events) or ["2026-01-01"]
    agrees(events, days[0], days[-1])
    state = state_of(events, days[-1])
    for answer in (ask(state), ask(state, by="month"), ask(state, by="year")):
        sums = {}
        for record in answer["records"]:
            if record["share_of_eaten"] is not None:
                key = record["period"], record["basis"]
                sums[key] = sums.get(key, 0.0) + record["share_of_eaten"]
        assert all(math.isclose(one, 1.0, rel_tol=1e-9) for one in sums.values())


@pytest.mark.parametrize("seed", range(10))
def test_months_and_years_add_up_to_the_whole(seed):
    events = random_book(random.Random(seed), 90)
    state = state_of(events, max(e["on"] for e in events))
    whole = by_key(ask(state))
    for by in ("month", "year"):
        sums = {}
        for record in ask(state, by=by)["records"]:
            key = record["basis"], record["origin"]
            sums[key] = sums.get(key, 0.0) + (record["amount"] or 0.0)
        for (_, basis, origin), record in whole.items():
            assert close(record["amount"], sums.get((basis, origin), 0.0))


@pytest.mark.parametrize("seed", range(20))
def test_paths_hold_all_that_came_in_and_the_table_s_part_is_what_was_eaten(seed):
    events = random_book(random.Random(seed), 90)
    days = sorted(e["on"] for e in events)
    first, last = days[len(days) // 4], days[3 * len(days) // 4]
    state = state_of(events)
    paths = ask(state, from_=first, to=last, paths=True)
    for name in ("grams", "kcal"):
        total = paths["totals"][name]
        assert close(total["there_before"] + total["came_in"], total["paths"])
    eaten = by_key(ask(state, from_=first, to=last))
    for basis, name in (("weight", "grams"), ("energy", "kcal"), ("value", "value")):
        for origin in ORIGINS:
            record = eaten.get((f"{first}/{last}", basis, origin), {"amount": 0.0})
            way = sum(
                one[name] or 0.0
                for one in paths["records"]
                if one["to"] == "table" and one["origin"] == origin
            )
            assert close(record["amount"], way), (basis, origin)


@pytest.mark.parametrize("seed", range(8))
def test_growing_event_by_event_gives_the_same_answer(seed):
    events = random_book(random.Random(seed), 50)
    log = ListLog([])
    replay = Replay(log)
    for event in events:
        log.rows.append(row_of(event))
        replay.refresh()
        replay.state(as_of=FAR)
    for options in ({}, {"by": "year"}, {"paths": True}):
        assert ask(replay.state(as_of=FAR), **options) == ask(state_of(events), **options)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_known_then_is_the_answer_of_then(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    prefix = [event for event in events if event["recorded_at"] <= cut]
    then, now = ask(state_of(events, FAR, cut)), ask(state_of(prefix))
    assert {**then, "known_at": None} == now


# -- every figure opens ---------------------------------------------------------------------


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    if not node.parts:
        assert node.how in ("as written", "sum")
    for part in node.parts:
        check(part)


def leaves(node):
    return [leaf for part in node.parts for leaf in leaves(part)] if node.parts else [node]


@pytest.mark.parametrize("seed", range(8))
def test_every_figure_is_what_its_tree_gives(seed):
    state = state_of(random_book(random.Random(seed), 90), "2030-01-01")
    for options in ({}, {"by": "year"}, {"paths": True}):
        for record in ask(state, **options)["records"][:24]:
            key = record["why"].removeprefix("our-table/")
            for field, shown in record.items():
                if isinstance(shown, float):
                    node = OUR_TABLE.why(state, key, field)
                    assert math.isclose(node.value, shown, rel_tol=1e-9, abs_tol=1e-9), field
                    check(node)


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


# -- edges ------------------------------------------------------------------------------------


def test_an_empty_book_answers_with_a_sentence():
    for options in ({}, {"by": "month"}, {"paths": True}, {"from_": "2026-01-01"}):
        answer = ask(state_of([], "2026-08-31"), **options)
        assert answer["records"] == []
        assert "Nothing eaten is written down" in answer["totals"]["missing"][0]


@pytest.mark.parametrize("seed", range(30))
def test_books_of_one_event_answer(seed):
    events = [e for e in random_book(random.Random(seed), 40) if e["replaces"] is None]
    event = {**random.Random(seed).choice(events), "seq": 1}
    if event["kind"] == "struck":
        return
    state = state_of([event])
    for options in ({}, {"by": "month"}, {"by": "year"}, {"paths": True}):
        assert isinstance(ask(state, **options)["records"], list)


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


@pytest.mark.parametrize("seed", range(6))
def test_scaling_all_amounts_scales_amounts_and_leaves_shares(seed):
    """Everything ten times as much: amounts ten times as much, shares as they were."""
    tape, big = Tape(), Tape()
    rng = random.Random(seed)
    for book, times in ((tape, 1), (big, 10)):
        rng.seed(seed)
        book.item("plum", kcal_per_100g="46")
        book.item("sugar", kcal_per_100g="387")
        book.item("jam", kcal_per_100g="250")
        book("price_seen", "2026-08-01", line("plum", KG, price="3"))
        for _ in range(6):
            a, b, c = (rng.randint(1, 9) * KG * times for _ in range(3))
            book("harvested", "2026-08-01", lines(("plum", a)))
            book("bought", "2026-08-01", lines(("sugar", b), paid=str(2 * times)))
            made = {"makes": "jam", "method": "cook", "made": [{"n": 1, "whole": a + b}]}
            book("put_up", "2026-08-02", {**made, "used": [line("plum", a), line("sugar", b, 2)]})
            book("eaten", "2026-08-03", {"ate": [line("jam", c)]})
    once, tenfold = (by_key(ask(state_of(one.events, "2026-08-31"))) for one in (tape, big))
    assert set(once) == set(tenfold)
    for key, record in once.items():
        assert close(tenfold[key]["amount"], record["amount"] * 10)
        assert close(tenfold[key]["share_of_eaten"], record["share_of_eaten"])
