"""Was it worth it: each line on paper, the same as jar-cost and the garden's seasons; bad input."""

from __future__ import annotations

import pytest
from worth_it_tools import VARIANTS, by_line, check, near, small_season, write

from ledger.errors import InputError, NotFound
from ledger.questions.worth_it.gather import LINES


@pytest.fixture
def season(book, yes, fixed_day):
    """One small season, every line of it."""
    return small_season(book, yes)


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


def test_the_lines_are_in_their_order(season):
    order = [r["line"] for r in season.show("worth-it").to_dict()["records"]]
    assert order == [line for line in (*LINES, "total") if line in order]
