"""Season: weeks, beds to scale, where it went, net and per hour, against another season, as projected."""

from __future__ import annotations

import math

import pytest
from page_tools import walk

LB = 453.59237


@pytest.fixture
def garden(book, yes, fixed_day):
    """Two seasons of tomatoes that change beds, plums of an old tree, onions nobody planted."""

    def write(kind, on, **body):
        book.write(kind, body, on=on, answers=yes)

    work = [{"person": "Ada", "minutes": "90"}]
    plant = {"crop": "tomato", "row": "20 ft", "area": "40 sq ft"}
    write("planted", "2024-03-01", crop="plum", plants=2, bed="orchard")
    write("bought", "2025-05-10", item="tomato", amount="1 lb", paid="2.00")
    write("planted", "2025-05-10", **plant, bed="south bed", plants=10)
    for day, pounds in (("2025-08-05", 10), ("2025-08-19", 20), ("2025-09-16", 5)):
        write("harvested", day, item="tomato", amount=f"{pounds} lb", bed="south bed")
    write("discarded", "2025-12-01", why="too old", item="tomato", amount="36 lb")
    write("planted", "2026-05-12", **plant, bed="long bed", plants=12, work=work)
    write("planted", "2026-05-13", crop="<i>kale</i>", bed="long bed", area="10 sq ft", plants=5)
    write("harvested", "2026-08-04", item="tomato", amount="12 lb", trimmed="2 lb", work=work)
    write("harvested", "2026-08-20", item="tomato", amount="18 lb")
    write("harvested", "2026-09-02", item="<i>kale</i>", amount="3 lb")
    write("harvested", "2026-09-02", item="plum", amount="30 lb", bed="orchard")
    write("harvested", "2026-09-03", item="onion", amount="3 lb")
    write("given_away", "2026-08-21", how="gift", item="tomato", amount="4 lb")
    return book


def pounds(values):
    return grams([value * LB if value is not None else None for value in values])


def grams(values):
    return [None if value is None or math.isnan(value) else round(value) for value in values]


def test_empty_book_says_what_would_be_here(page):
    drawn = page("/season")
    assert "Nothing has been picked yet" in drawn.text
    assert [link.href for link in drawn.of("Link")] == ["/write?kind=harvested"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("harvested", {"item": "plum", "amount": "9 lb"}),
        ("harvested", {"item": "cabbage", "amount": "3 heads"}),
        ("planted", {"crop": "tomato", "plants": 3, "bed": "south bed"}),
    ],
)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_one_entry_fills_a_page(book, page, yes, fixed_day, kind, body, scheme):
    book.write(kind, body, on="2026-10-30", answers=yes)
    drawn = page("/season", scheme=scheme)
    assert "not right" not in drawn.text
    assert body.get("item", body.get("crop")) in drawn.text


def test_seasons_to_choose_are_those_of_the_book(garden, page):
    def chosen(search):
        return next(
            one for one in walk(page("/season", search).parts)
            if getattr(one, "id", None) == {"choice": "season"}
        )  # fmt: skip

    assert [one["value"] for one in chosen("").data] == ["2026", "2025", "2024"]
    assert chosen("").value == chosen("?season=1066").value == "2026"
    assert chosen("?season=2025").value == "2025"


def test_weeks_of_a_crop_are_the_projections(garden, page):
    drawn = page("/season", "?crop=tomato")
    frame = garden.show("season", season="2026", crop="tomato", weeks=True).frame
    week = {trace.name: trace for trace in drawn.picture("season-week").data}
    assert pounds(week["2026"].y) == grams(frame["picked_g"])
    assert pounds(week["2025"].y) == grams(frame["last_season_g"])
    total = {trace.name: trace for trace in drawn.picture("season-so-far").data}
    assert pounds(total["2026"].y) == grams(frame["picked_so_far_g"])
    assert pounds(total["2025"].y) == grams(frame["last_season_so_far_g"])
    low, high = (
        t for t in drawn.picture("season-so-far").data if t.name == "published for the whole season"
    )
    assert pounds(low.y) == grams(frame["published_low_g"])
    assert pounds(high.y) == grams(frame["published_high_g"])


def test_pictures_speak_the_households_measures(garden, page, yes):
    garden.write("setting_changed", {"name": "measures", "value": "metric"}, on="2026-10-01", answers=yes)  # fmt: skip
    drawn = page("/season", "?crop=tomato")
    week = {trace.name: trace for trace in drawn.picture("season-week").data}
    frame = garden.show("season", season="2026", crop="tomato", weeks=True).frame
    assert [y * 1000 for y in week["2026"].y] == pytest.approx(
        frame["picked_g"].astype(float).tolist(), nan_ok=True
    )
    assert "per m²" in drawn.text


def test_overview_has_every_crop_picked(garden, page):
    strip, line = page("/season").picture("season-weeks").data
    assert set(strip.y) == {"tomato", "plum", "onion", "<i>kale</i>"}
    assert {crop for crop in line.y if crop} == {"tomato"}


def test_beds_are_drawn_to_the_scale_of_their_ground(garden, page):
    (tiles,) = page("/season").picture("season-beds").data
    values = dict(zip(tiles.labels, tiles.values, strict=True))
    assert values["tomato"] == pytest.approx(4 * values["<i>kale</i>"])
    parents = dict(zip(tiles.labels, tiles.parents, strict=True))
    assert parents["tomato"] == parents["<i>kale</i>"] == "bed long bed"
    assert "plum (orchard)" in page("/season").section("What the beds gave").text


@pytest.mark.parametrize(("scale", "column"), [("weight", "picked_g"), ("value", "shop_value")])
def test_beds_are_drawn_to_what_they_gave(garden, page, scale, column):
    (tiles,) = page("/season", f"?scale={scale}").picture("season-beds").data
    values = dict(zip(tiles.labels, tiles.values, strict=True))
    for record in garden.show("season", season="2026").records():
        if record[column]:
            assert values[record["crop"]] == pytest.approx(record[column])
        else:
            assert record["crop"] not in values


def test_where_it_went_adds_up_to_what_was_kept(garden, page):
    drawn = page("/season")
    bars = drawn.picture("season-where").data
    crops = dict.fromkeys(bars[0].y, 0.0)
    for bar in bars:
        for crop, value in zip(bar.y, bar.x, strict=True):
            crops[crop] += value
    records = {r["crop"]: r for r in garden.show("season", by="crop").records()}
    for crop, total in crops.items():
        assert total * LB == pytest.approx(records[crop]["kept_g"], rel=1e-4)
    assert "given away 4 lb" in drawn.section("Where it went").text


def test_net_and_per_hour_are_the_projections(garden, page):
    drawn = page("/season").section("Left over inputs, and by the hour")
    record = next(r for r in garden.show("season", by="crop").records() if r["crop"] == "tomato")
    shown = {(address, field): text for text, address, field in drawn.figures()}
    assert shown[record["why"], "net"] == f"Left over inputs:  ${record['net']:.2f}"
    assert shown[record["why"], "net_per_hour"] == f"Net per hour:  ${record['net_per_hour']:.2f}"
    (bars,) = drawn.picture("season-net").data
    assert dict(zip(bars.y, bars.x, strict=True))["tomato"] == pytest.approx(record["net"])


def test_crops_without_a_price_say_what_is_missing(book, page, yes, fixed_day):
    book.write("harvested", {"item": "plum", "amount": "9 lb"}, on="2026-10-01", answers=yes)
    drawn = page("/season")
    assert "No shop price is known of any crop yet" in drawn.text
    assert "No shop price of plum is known" in drawn.text
    assert not drawn.of("Graph", id="picture-season-net")


def test_another_season_is_set_against_it(garden, page):
    drawn = page("/season").section("Against another season")
    answer = garden.show("season", season="2026", against="2025")
    assert answer.totals["in_words"][0] in drawn.text
    shown = {(address, field) for _, address, field in drawn.figures()}
    tomato = next(r for r in answer.records() if r["what"] == "tomato")
    assert (tomato["why"], "difference") in shown


def test_comparison_is_saved_as_csv(garden):
    from dashboard.app import make_app

    client = make_app(garden).server.test_client()
    found = client.get(
        "/files/season.csv?o.season=2026&o.against=2025", base_url="http://127.0.0.1"
    )
    assert found.status_code == 200
    assert found.text.startswith("why,what,")
    wrong = client.get("/files/season.csv?o.against=soon", base_url="http://127.0.0.1")
    assert wrong.status_code == 400
    assert "not a day" in wrong.text


@pytest.mark.parametrize("search", ["", "?season=2025", "?season=2024", "?crop=plum&scale=weight"])
def test_every_figure_opens_to_arithmetic(garden, page, opens, search):
    assert opens(page("/season", search)) > 5


def test_moment_is_obeyed(garden, page, opens):
    drawn = page("/season", as_of="2025-08-10")
    assert "onion" not in drawn.text
    week = drawn.picture("season-week").data
    assert sum(week[-1].y) == pytest.approx(10, rel=1e-4)
    assert opens(drawn) > 3


def test_markup_in_a_crop_is_text(garden, page):
    drawn = page("/season")
    assert "<i>kale</i>" in drawn.text
    assert not [one for one in walk(drawn.parts) if getattr(one, "dangerously_allow_html", False)]


def test_many_crops_are_drawn_in_part_and_said_so(book, page, yes, fixed_day):
    for i in range(30):
        body = {"item": f"crop {i:02d}", "amount": f"{i + 1} lb"}
        book.write("harvested", body, on="2026-09-01", answers=yes)
    drawn = page("/season")
    strip = drawn.picture("season-weeks").data[0]
    assert len(strip.y) == 24
    assert "crop 00" not in strip.y
    assert "The 24 heaviest of 30 crops" in drawn.text


def test_pictures_keep_few_traces(garden, page):
    drawn = page("/season")
    for graph in drawn.of("Graph"):
        assert 0 < len(graph.figure.data) < 30
        assert graph.figure.layout.dragmode is False
