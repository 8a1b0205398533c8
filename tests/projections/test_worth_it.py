"""Was it worth it: each thing once, the same as jar-cost and the garden's seasons, and open to the end.

Longer than its kin, as its books and helpers serve every case.
"""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, ListLog, row_of, state_of
from hypothesis import HealthCheck, given, settings
from strategies import books, random_book

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.shared.arithmetic import recompute
from ledger.questions.worth_it.earned import Earned
from ledger.questions.worth_it.gather import LINES, Lots
from ledger.questions.worth_it.postings import NOTES, postings
from ledger.questions.worth_it.span import span_of
from ledger.replay import Replay

ASK = PROJECTIONS["worth-it"]
VARIANTS = ({}, {"durables": True}, {"prices": True})
MONEY = ("money_in", "money_out", "worth", "cost", "net", "for_other_seasons")


def ask(state, **options):
    return ASK.build(state, **options).to_dict()


def near(value):
    """A cent in a thousand: amounts are kept in whole milligrams and microlitres."""
    return pytest.approx(value, rel=1e-4, abs=1e-4)


def by_line(answer):
    return {record["line"]: record for record in answer["records"]}


def close(mine, theirs):
    return math.isclose(mine or 0.0, theirs or 0.0, rel_tol=1e-9, abs_tol=1e-6)


def seasons_of(state):
    """Return every season of a book's events, and one of none."""
    days = state.moment.on[state.moment.rank >= 0]
    found = sorted(set(state.costs.garden.season.of(days).tolist())) if days.size else []
    return [year for year in found if year > 0]


# -- on paper ---------------------------------------------------------------------------------


def write(book, kind, on, **body):
    return book.write(kind, body, on=on)


@pytest.fixture
def season(book, yes, fixed_day):
    """One small season, every line of it."""
    write(book, "setting_changed", "2026-01-01", name="labour_rate", value="12 per hour")
    write(book, "item_described", "2026-01-01", item="egg", sort="food", measure="count")
    write(
        book,
        "item_described",
        "2026-01-01",
        item="layer feed",
        sort="garden input",
        measure="mass",
        feeds="egg",
    )
    write(book, "bought", "2026-01-02", item="kettle", amount="1", paid="40", years="20")
    write(book, "bought", "2026-01-02", item="quart jar", amount="10", paid="20", uses="10")
    write(book, "bought", "2026-01-02", item="lid", amount="20", paid="4")
    book.write(
        "bought",
        {"item": "tomato food", "amount": "5 lb", "paid": "30", "for_crop": "tomato"},
        on="2026-05-01",
        answers=yes,
    )
    write(book, "bought", "2026-05-01", item="layer feed", amount="50 lb", paid="18")
    write(book, "price_seen", "2026-05-01", item="tomato", amount="1 lb", price="2")
    write(book, "price_seen", "2026-05-01", item="egg", amount="12", price="3")
    write(book, "price_seen", "2026-05-01", item="tomato sauce", amount="1 qt", price="5")
    write(book, "bought", "2026-05-02", item="salt", amount="2 lb", paid="2")
    work = [{"person": "Ada", "minutes": "120"}]
    write(book, "harvested", "2026-08-01", lines=[{"item": "tomato", "amount": "30 lb"}], work=work)
    write(book, "harvested", "2026-08-01", lines=[{"item": "egg", "amount": "24"}])
    write(
        book,
        "received",
        "2026-08-01",
        how="gift",
        lines=[{"item": "plum", "amount": "4 lb", "value": "6"}],
    )
    body = {
        "makes": "tomato sauce", "method": "boiling water",
        "used": [{"item": "tomato", "amount": "20 lb"}, {"item": "salt", "amount": "1 lb"}, {"item": "plum", "amount": "1 lb"}],
        "made": [{"jars": 5, "jar": "quart jar"}], "equipment": ["kettle"],
        "work": [{"person": "Ada", "minutes": "60"}],
    }  # fmt: skip
    book.write("put_up", body, on="2026-08-02", answers=yes)
    write(
        book,
        "given_away",
        "2026-08-03",
        how="sold",
        got="5",
        lines=[{"item": "tomato", "amount": "2 lb"}],
    )
    write(
        book,
        "given_away",
        "2026-08-03",
        how="gift",
        lines=[{"item": "tomato sauce", "amount": "1 qt"}],
    )
    write(
        book, "discarded", "2026-08-04", why="spoiled", lines=[{"item": "tomato", "amount": "3 lb"}]
    )
    return book  # fmt: skip


def test_every_line_by_hand(season):
    lines = by_line(season.show("worth-it").to_dict())
    # 30 lb at 2.00, of which 20 lb went into jars; a third of 30.00 stays with what did not
    assert lines["garden"]["worth"] == near(60 - 40)
    assert lines["garden"]["cost"] == near(30 - 20)
    assert lines["garden"]["money_out"] == 30
    assert lines["garden"]["hours"] == 2
    assert lines["garden"]["labour"] == near(24)
    assert lines["animals"]["worth"] == near(6)
    assert lines["animals"]["cost"] == near(18)
    # 6.00 of plums, of which a quarter went on at its value and is borne there
    assert (lines["received"]["worth"], lines["received"]["cost"]) == (near(6), 0)
    # 5 quarts at 5.00; tomatoes 20.00, salt 1.00, plums 1.50, lids 1.00, jars 5 x 0.20, kettle 2.00
    assert lines["preserving"]["worth"] == near(25)
    assert lines["preserving"]["cost"] == near(20 + 1 + 1.5 + 1 + 1 + 2)
    assert lines["preserving"]["money_out"] == near(40 + 20 + 4 + 1)
    assert lines["preserving"]["hours"] == 1
    assert lines["preserving"]["net_per_hour"] == near(25 - 26.5)
    assert lines["sold"]["money_in"] == 5
    assert lines["sold"]["net"] == near(5 - 4)
    assert lines["given away"]["worth"] == near(-5)
    assert lines["lost"]["worth"] == near(-6)
    total = lines["total"]
    # nobody ate the last five pounds of tomatoes, and a ripe one keeps two weeks
    assert lines["kept too long"]["worth"] == near(-10)
    assert total["worth"] == near(20 + 6 + 6 + 25 - 4 - 5 - 6 - 10)
    assert total["cost"] == near(10 + 18 + 26.5)
    assert total["net_per_hour"] == near((5 + 32 - 54.5) / 3)
    assert total["after_labour"] == near(-17.5 - 36)


def test_what_was_paid_is_cost_and_what_other_seasons_have_of_it(season):
    """Money out = cost + kit not worn yet + lids there; what was given is worth and no money."""
    total = by_line(season.show("worth-it").to_dict())["total"]
    kit_left = 40 - 2 + 20 - 1 + 4 * 15 / 20
    assert total["for_other_seasons"] == near(kit_left - 1.5)
    assert total["money_out"] == near(total["cost"] - 1.5 + kit_left)


def test_preserving_is_jar_cost_without_own_time(season):
    lines = by_line(season.show("worth-it").to_dict())
    jars = season.show("jar-cost").to_dict()["totals"]
    assert lines["preserving"]["cost"] + lines["preserving"]["labour"] == near(jars["cost"])
    saved = lines["preserving"]["net"] - lines["preserving"]["labour"]
    assert saved == near(jars["saved"])


def test_garden_and_animals_are_the_season_s_inputs(season):
    lines = by_line(season.show("worth-it").to_dict())
    crops = season.show("season", season="2026").to_dict()["records"]
    onward = 20.0  # what the batch bore of them
    assert lines["garden"]["cost"] + lines["animals"]["cost"] + onward == near(
        sum(crop["inputs"] for crop in crops)
    )
    assert lines["garden"]["worth"] + lines["animals"]["worth"] + 40 == near(
        sum(crop["shop_value"] for crop in crops)
    )


def test_the_day_asked_is_respected(season):
    lines = by_line(season.show("worth-it", as_of="2026-08-01").to_dict())
    assert "preserving" in lines  # the kit is bought
    assert lines["preserving"]["worth"] == 0
    assert lines["garden"]["worth"] == near(60)
    assert "sold" not in lines
    early = season.show("worth-it", season="2025").to_dict()
    assert early["records"] == []
    assert "2025" in early["totals"]["missing"][0]


def test_without_a_rate_own_time_is_not_known(book, fixed_day):
    write(book, "harvested", "2026-08-01", lines=[{"item": "plum", "amount": "3 lb"}])
    answer = book.show("worth-it").to_dict()
    garden = by_line(answer)["garden"]
    assert (garden["hours"], garden["labour"], garden["net_per_hour"]) == (None, None, None)
    assert garden["at_least"]
    assert garden["unpriced"] == ["plum"]
    assert garden["bounds"]["worth"] == garden["bounds"]["net"] == "≥"
    assert "--work" in answer["totals"]["missing"][0]


def test_batches_in_batches_count_once(book, yes, fixed_day):
    """Stock worth 4.00 goes into soup worth 10.00: 10.00 in all, and the cost of both once."""
    write(book, "price_seen", "2026-01-01", item="stock", amount="1 qt", price="4")
    write(book, "price_seen", "2026-01-01", item="soup", amount="1 qt", price="10")
    write(book, "bought", "2026-01-01", item="bones", amount="2 lb", paid="3")
    for makes, uses, amount, day in (("stock", "bones", "2 lb", 2), ("soup", "stock", "1 qt", 3)):
        body = {
            "makes": makes,
            "method": "cook",
            "used": [{"item": uses, "amount": amount}],
            "made": [{"amount": "1 qt"}],
        }
        book.write("put_up", body, on=f"2026-01-0{day}", answers=yes)
    cooking = by_line(book.show("worth-it").to_dict())["cooking"]
    assert (cooking["worth"], cooking["cost"]) == (near(10), near(3))
    frame = book.show("jar-cost").frame
    assert frame["cost.all_in"].sum() == near(6)  # each batch by itself


def test_leftovers_used_up_were_eaten_already(book, yes, fixed_day):
    write(book, "harvested", "2026-01-01", lines=[{"item": "potato", "amount": "4 lb"}])
    book.write(
        "bought",
        {"item": "seed potato", "amount": "1 lb", "paid": "4", "for_crop": "potato"},
        on="2026-01-01",
        answers=yes,
    )
    left = [{"item": "mash", "amount": "1 lb", "kept": "fridge", "share": "0.5"}]
    book.write(
        "eaten",
        {"ate": [{"item": "potato", "amount": "2 lb"}], "left": left},
        on="2026-01-02",
        answers=yes,
    )
    body = {
        "makes": "cakes",
        "method": "cook",
        "used": [{"item": "mash", "amount": "1 lb"}],
        "made": [{"amount": "1 lb"}],
    }
    book.write("put_up", body, on="2026-01-03", answers=yes)
    lines = by_line(book.show("worth-it").to_dict())
    assert lines["cooking"]["cost"] == near(0)
    assert lines["total"]["cost"] == near(lines["garden"]["cost"])


def test_bought_and_sold_again(book, fixed_day):
    write(book, "bought", "2026-01-01", item="honey", amount="10 lb", paid="50")
    write(
        book,
        "given_away",
        "2026-01-02",
        how="sold",
        got="40",
        lines=[{"item": "honey", "amount": "4 lb"}],
    )
    sold = by_line(book.show("worth-it").to_dict())["sold"]
    assert (sold["money_in"], sold["cost"], sold["net"]) == (40, near(20), near(20))


# -- durables and prices -----------------------------------------------------------------------


def test_durables_share_the_gain_by_wear(season):
    found = {r["item"]: r for r in season.show("worth-it", durables=True).to_dict()["records"]}
    # gain of the batch before wear: 25.00 - 26.50 + 3.00, shared 2 : 1
    assert found["kettle"]["earned"] == near(1.5 * 2 / 3)
    assert found["quart jar"]["earned"] == near(1.5 * 1 / 3)
    assert found["kettle"]["charged"] == near(2)
    assert found["quart jar"]["uses"] == 5
    assert found["kettle"]["paid_back_on"] is None
    # bought in January, ten of twelve months ago counting the first in full
    assert found["kettle"]["worn_by_age"] == near(40 / 20 * 11 / 12)


def test_a_durable_that_served_nothing_is_not_known(book, fixed_day):
    write(
        book,
        "item_described",
        "2026-01-01",
        item="chest freezer",
        sort="equipment",
        measure="count",
    )
    write(book, "bought", "2026-01-01", item="chest freezer", amount="1", paid="300")
    answer = book.show("worth-it", durables=True).to_dict()
    freezer = answer["records"][0]
    assert (freezer["earned"], freezer["payback_years"], freezer["expected_on"]) == (
        None,
        None,
        None,
    )
    assert freezer["life_years"] == 10
    assert "--equipment" in answer["totals"]["missing"][0]


def test_prices_by_item_and_change(season, yes):
    write(season, "price_seen", "2026-10-01", item="tomato", amount="1 lb", price="2.20")
    found = {r["item"]: r for r in season.show("worth-it", prices=True).to_dict()["records"]}
    assert found["tomato"]["home_per_unit"] == near(1.0)
    assert found["tomato"]["shop_per_unit"] == near(2.0)
    assert found["tomato"]["saved"] == near(30)
    assert found["egg"]["per"] == "dozen"
    assert found["egg"]["home_per_unit"] == near(9)
    sauce = found["tomato sauce"]
    assert sauce["home_per_unit"] == near((26.5 + 12) / 5)
    assert sauce["home_before_labour_per_unit"] == near(26.5 / 5)
    assert sauce["equipment"] == 40
    assert sauce["break_even_jars"] is None  # a jar costs 7.30 without the kettle, 5.00 at the shop
    assert sauce["break_even_jars_before_labour"] == near(40 / (5 - 24.5 / 5))
    assert sauce["home_change"] is None


def test_change_since_the_season_before(book, fixed_day):
    for year, price in ((2025, "2"), (2026, "3")):
        write(book, "price_seen", f"{year}-05-01", item="plum", amount="1 lb", price=price)
        write(book, "harvested", f"{year}-08-01", lines=[{"item": "plum", "amount": "10 lb"}])
    found = book.show("worth-it", prices=True).to_dict()["records"]
    assert [r["season"] for r in found] == ["2026", "2025"]
    assert found[0]["shop_change"] == near(0.5)
    assert found[0]["home_change"] is None  # it cost nothing in both
    only = book.show("worth-it", prices=True, season="2026").to_dict()["records"]
    assert [r["season"] for r in only] == ["2026"]
    assert only[0]["shop_change"] == near(0.5)


# -- any book ----------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(25))
def test_each_season_reconciles(seed):
    state = state_of(random_book(random.Random(seed), 80), FAR)
    lots, garden = Lots(state), state.costs.garden
    made = 0.0
    for year in seasons_of(state):
        answer = ask(state, season=year)
        records = answer["records"]
        for name in (*MONEY, "hours", "labour"):
            parts = sum(r[name] or 0.0 for r in records[:-1])
            assert not records or close(records[-1][name], parts), name
        span = span_of(state, year)
        posted = postings(state, lots, span.first, span.last, year)
        cost = posted.of(None, "cost")
        inputs = posted.value[cost][posted.note[cost] == NOTES.index("garden inputs")].sum()
        parts = sum(p.money for p in garden.parts if p.season == year)
        if any(state.costs.garden.season_of == year):
            assert close(inputs, parts)
        made += posted.value[cost][posted.note[cost] == NOTES.index("came in or made")].sum()
    jars = PROJECTIONS["jar-cost"].build(state).to_dict()
    every = sum(r["cost"]["all_in"] - r["cost"]["labour"] for r in jars["records"])
    if min((year for year in seasons_of(state)), default=1) > 0:
        assert close(made, every)


@pytest.mark.parametrize("seed", range(12))
def test_durables_share_out_all_that_was_gained(seed):
    state = state_of(random_book(random.Random(seed), 80), FAR)
    uses = [use for several in Earned(state).uses.values() for use in several]
    shares = {}
    for use in uses:
        key = (use.ev, use.day, round(use.gain, 6))
        shares[key] = shares.get(key, 0.0) + use.share
    for total in shares.values():
        assert total == pytest.approx(round(total), abs=1e-9)
    found = ask(state, durables=True)["records"]
    kit = sum(r["charged"] for r in found if r["sort"] != "garden input")
    own = sum(part.money.sum() for part in state.costs.own.parts if part.component in (4, 6))
    assert close(kit, own)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(books(max_size=50))
def test_any_book_has_an_answer(events):
    state = state_of(events, FAR)
    for year in seasons_of(state)[:3]:
        for options in VARIANTS:
            answer = ask(state, season=year, **options)
            for record in answer["records"]:
                for value in record.values():
                    assert not (isinstance(value, float) and not math.isfinite(value))


@pytest.mark.parametrize("seed", range(6))
def test_growing_event_by_event_gives_the_same_answer(seed):
    events = random_book(random.Random(seed), 50)
    log = ListLog([])
    replay = Replay(log)
    for event in events:
        log.rows.append(row_of(event))
        replay.refresh()
        replay.state(as_of=FAR)
    grown, fresh = replay.state(as_of=FAR), state_of(events, FAR)
    for options in VARIANTS:
        for year in (None, *seasons_of(fresh)):
            assert ask(grown, season=year, **options) == ask(fresh, season=year, **options)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_known_then_is_the_answer_of_then(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    prefix = [event for event in events if event["recorded_at"] <= cut]
    for options in VARIANTS:
        then, now = ask(state_of(events, FAR, cut), **options), ask(state_of(prefix), **options)
        assert {**then, "known_at": None} == now


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    for part in node.parts:
        check(part)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("options", VARIANTS, ids=("lines", "durables", "prices"))
def test_every_figure_is_what_its_tree_gives(seed, options):
    state = state_of(random_book(random.Random(seed), 70), FAR)
    for year in seasons_of(state)[-2:]:
        answer = ASK.build(state, season=year, **options)
        names = [c.name for c in answer.columns if c.unit not in ("", "day", "yes or no")]
        for record in answer.to_dict()["records"][:12]:
            for name in names:
                if record[name] is not None:
                    node = ASK.why(state, record["why"].partition("/")[2], name)
                    assert close(node.value, record[name]), name
                    check(node)


def test_a_long_line_names_the_address_of_each_item(season):
    for day in range(1, 29):
        for item in ("bean", "pea"):
            write(
                season, "harvested", f"2026-06-{day:02d}", lines=[{"item": item, "amount": "1 lb"}]
            )
    write(season, "price_seen", "2026-06-01", item="bean", amount="1 lb", price="2")
    node = season.why("worth-it/2026/garden", "worth")
    folded = []

    def walk(one):
        folded.append((one.address, one.figure))
        for part in one.parts:
            walk(part)

    walk(node)
    assert ("worth-it/2026/garden/bean", "worth") in folded
    item = season.why("worth-it/2026/garden/bean", "worth")
    assert item.value == pytest.approx(56)
    check(item)


# -- bad input ---------------------------------------------------------------------------------


@pytest.mark.parametrize("given_season", ["last", "", "20x6", "-1", "99999"])
def test_a_season_that_is_no_year_is_refused(book, given_season):
    with pytest.raises(InputError, match="year"):
        book.show("worth-it", season=given_season)


def test_two_variants_at_once_are_refused(book):
    with pytest.raises(InputError, match="apart"):
        book.show("worth-it", durables=True, prices=True)


@pytest.mark.parametrize(
    "address",
    [
        "worth-it/2026/nothing",
        "worth-it/x/garden",
        "worth-it/2026/garden",
        "worth-it/durable/nothing",
        "worth-it/2026/garden/nothing",
        "worth-it/2026/preserving/nothing",
    ],
)
def test_an_unknown_address_is_refused_by_name(book, address):
    with pytest.raises(NotFound):
        book.why(address)


@pytest.mark.parametrize(
    "address",
    ["worth-it/2026/garden", "worth-it/durable/kettle", "worth-it/2026/preserving/tomato sauce"],
)
def test_an_unknown_figure_is_refused_by_name(season, address):
    with pytest.raises(NotFound, match="figure"):
        season.why(address, "colour")


@pytest.mark.parametrize("options", VARIANTS, ids=("lines", "durables", "prices"))
def test_an_empty_book_answers_with_a_sentence(book, options):
    answer = book.show("worth-it", **options).to_dict()
    assert answer["records"] == []
    assert answer["totals"]["missing"]


@pytest.mark.parametrize(
    "kind", ["harvested", "bought", "received", "price_seen", "discarded", "given_away", "counted"]
)
def test_a_book_of_one_event(book, kind, fixed_day):
    body = {"item": "plum", "amount": "3 lb"}
    body |= {"bought": {"paid": "0"}, "received": {"how": "gift"}, "price_seen": {"price": "0"},
             "discarded": {"why": "spoiled"}, "given_away": {"how": "sold", "got": "2"}}.get(kind, {})  # fmt: skip
    book.write(kind, body, on="2026-08-01")
    for options in VARIANTS:
        for record in book.show("worth-it", **options).to_dict()["records"]:
            assert "why" in record


def test_a_price_of_nothing_is_a_figure(book, fixed_day):
    write(book, "price_seen", "2026-01-01", item="plum", amount="1 lb", price="0")
    write(book, "harvested", "2026-08-01", lines=[{"item": "plum", "amount": "3 lb"}])
    garden = by_line(book.show("worth-it").to_dict())["garden"]
    assert (garden["worth"], garden["at_least"]) == (0, False)


def test_a_book_of_forty_years(book, yes, fixed_day):
    write(book, "price_seen", "1986-01-01", item="plum butter", amount="1 qt", price="5")
    write(book, "bought", "1986-01-01", item="kettle", amount="1", paid="60", years="40")
    for year in range(1986, 2026):
        write(book, "harvested", f"{year}-08-01", lines=[{"item": "plum", "amount": "5 lb"}])
        body = {"makes": "plum butter", "method": "boiling water", "used": [{"item": "plum", "amount": "5 lb"}],
                "made": [{"amount": "1 qt"}], "equipment": ["kettle"]}  # fmt: skip
        book.write("put_up", body, on=f"{year}-08-02", answers=yes)
    kettle = book.show("worth-it", durables=True).to_dict()["records"][0]
    assert kettle["earned"] == pytest.approx(40 * 5)
    assert kettle["charged"] == pytest.approx(60)
    assert kettle["lasts_until"] == "2026-01-01"
    # 5.00 a year: in its twelfth August
    assert kettle["paid_back_on"] == "1997-08-02"
    assert kettle["payback_years"] == near(11 + 214 / 365)
    assert len(book.show("worth-it", prices=True).to_dict()["records"]) == 80


def test_the_lines_are_in_their_order(season):
    order = [r["line"] for r in season.show("worth-it").to_dict()["records"]]
    assert order == [line for line in (*LINES, "total") if line in order]


# -- what nobody ate, and what lasts with interest ----------------------------------------------


@pytest.fixture
def glut(book, yes, fixed_day):
    """Forty pounds of summer squash: ten eaten, ten to the hens, five on the heap, the rest left."""
    write(book, "item_described", "2026-01-01", item="egg", sort="food", measure="count")
    write(
        book, "item_described", "2026-01-01", item="summer squash", sort="food", measure="mass",
        kcal_per_100g="20",
    )  # fmt: skip
    write(
        book, "item_described", "2026-01-01", item="layer feed", sort="garden input",
        measure="mass", feeds="egg",
    )  # fmt: skip
    write(book, "bought", "2026-05-01", item="layer feed", amount="10 kg", paid="29")
    write(book, "price_seen", "2026-05-01", item="summer squash", amount="1 kg", price="3")
    squash = [{"item": "summer squash", "amount": "40 kg"}]
    write(book, "harvested", "2026-07-01", lines=squash)
    write(book, "eaten", "2026-07-02", ate=[{"item": "summer squash", "amount": "10 kg"}])
    for why, amount in (("fed to animals", "10 kg"), ("composted", "5 kg")):
        lines = [{"item": "summer squash", "amount": amount}]
        write(book, "discarded", "2026-07-03", why=why, lines=lines)
    return book


def test_a_glut_is_worth_the_feed_that_it_spared(glut):
    lines = by_line(glut.show("worth-it", as_of="2026-07-05").to_dict())
    # 10 kg at 20 kcal per 100 g is 2,000 kcal; feed has 2,900 kcal a kg at 2.90: 2.00
    assert lines["garden"]["worth"] == near(120)
    assert lines["lost"]["worth"] == near(-45 + 2)
    assert lines["animals"]["cost"] == near(2)  # no egg was written down, so no feed counts yet
    assert "fed-for-feed" in lines["lost"]["assumptions"]
    assert lines["total"]["net"] == near(120 - 45)  # what one line gains another bears


def test_what_nobody_ate_is_worth_nothing_once_its_keeping_is_over(glut):
    """USDA Handbook 66 (1954): summer squash half a week to a week."""
    before = by_line(glut.show("worth-it", as_of="2026-07-08").to_dict())
    assert "kept too long" not in before
    after = by_line(glut.show("worth-it", as_of="2026-07-09").to_dict())
    assert after["kept too long"]["worth"] == near(-15 * 3)
    assert after["garden"] == {**before["garden"]}
    season = glut.show("season", as_of="2026-07-09").to_dict()["records"][-1]
    assert (season["kept_too_long"], season["glut"]) == (near(45), near(30 - 2 + 15))
    assert season["net"] == near(120 - 45 - 43)


def test_a_count_and_the_households_word_keep_it_longer(glut):
    lines = [{"item": "summer squash", "amount": "15 kg"}]
    write(glut, "counted", "2026-07-08", lines=lines)
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-07-15").to_dict())
    assert "kept too long" in by_line(glut.show("worth-it", as_of="2026-07-16").to_dict())
    write(
        glut, "item_described", "2026-01-01", item="summer squash", sort="food",
        keeps={"shelf": "6 weeks"},
    )  # fmt: skip
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-08-01").to_dict())
    write(glut, "eaten", "2026-08-01", ate=[{"item": "summer squash", "amount": "15 kg"}])
    assert "kept too long" not in by_line(glut.show("worth-it", as_of="2026-10-01").to_dict())


def test_why_opens_what_kept_too_long_and_what_was_fed(glut):
    for line, value in (("kept too long", -45), ("lost", -43)):
        node = glut.why(f"worth-it/2026/{line}", "worth", as_of="2026-09-01")
        assert node.value == near(value)
        assert recompute(node) == near(value)


def test_what_lasts_costs_interest_and_is_paid_off_at_most(book, yes, fixed_day):
    write(book, "item_described", "2020-01-01", item="press", sort="equipment", measure="count")
    write(book, "bought", "2026-01-02", item="press", amount="1", paid="45000", years="5")
    press = book.show("worth-it", durables=True).to_dict()["records"][0]
    assert press["yearly_cost"] == near(9000)
    write(book, "setting_changed", "2026-01-01", name="interest_rate", value="10 % a year")
    press = book.show("worth-it", durables=True).to_dict()["records"][0]
    # (A/P, 10 %, 5) is 0.26380 in the tables of engineering economy
    assert press["yearly_cost"] == pytest.approx(45_000 * 0.26380, abs=0.2)
    node = book.why("worth-it/durable/press", "yearly_cost")
    assert recompute(node) == pytest.approx(press["yearly_cost"])
    assert (press["back_text"], press["gain_per_year"]) == (None, None)


@pytest.mark.parametrize("value", ["-1", "4 per month", "four", "101", ""])
def test_an_interest_rate_that_cannot_be_is_refused(book, value):
    with pytest.raises(InputError) as refused:
        write(book, "setting_changed", "2026-01-01", name="interest_rate", value=value)
    assert "interest_rate" in str(refused.value) or value == ""
