"""Next season on a page: sliders ask, and beds, plants, chances and weeks are the projection's."""

from __future__ import annotations

import io

import pandas as pd
import pytest
from page_tools import draw, figures_open, text_of

from dashboard.pages._wanted import wants_of
from dashboard.parts.saying import days_said

PATH = "/next-season"
DAY = "2026-12-01"


@pytest.fixture
def garden(book, yes):
    """Two seasons of tomatoes and beans in two beds, sauce of the second, a target of 14 jars."""

    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    for year, pounds in ((2025, 40), (2026, 90)):
        south, north = ("south bed", "north bed")[:: 1 if year == 2025 else -1]
        write("planted", f"{year}-05-10", crop="tomato", plants=20, area="80 sq ft", bed=south)
        write("planted", f"{year}-05-12", crop="green bean", plants=40, area="20 sq ft", bed=north)
        write("harvested", f"{year}-08-01", item="tomato", amount=f"{pounds} lb")
        write("harvested", f"{year}-08-03", item="green bean", amount="10 lb")
    write("received", "2026-08-03", how="gift", item="quart jar", amount="20")
    write(
        "put_up", "2026-08-04", makes="tomato sauce", method="pressure",
        work=[{"person": "Ada", "minutes": "70"}], used=[{"item": "tomato", "amount": "40 lb"}],
        made=[{"jars": 8, "jar": "quart jar"}],
    )  # fmt: skip
    write("eaten", "2026-08-20", ate=[{"item": "tomato", "amount": "6 lb"}])
    write("eaten", "2026-09-20", ate=[{"item": "green bean", "amount": "4 lb"}])
    write("target_set", "2026-01-02", item="tomato sauce", amount="14 quart jars", per="year")
    return book


def page(book, as_of=DAY, **query):
    return draw(book, PATH, query, as_of=as_of)


def shown(drawn):
    """Return the figures of the crops by field and crop."""
    return {(field, why.split("/")[1]): text for text, why, field in drawn.figures()}


def test_every_figure_opens_to_what_it_says(garden):
    assert figures_open(page(garden)) > 10
    assert figures_open(page(garden, **{"want:tomato sauce": "30", "rotate": "yes"})) > 10


def test_slider_stands_at_what_is_wanted_and_writes_nothing(garden):
    drawn = page(garden)
    slider = drawn.choice("want:tomato sauce")
    assert (slider.value, slider.min, slider.max) == (14, 0, 28)
    assert slider.to_plotly_json()["props"]["data-drawn"] == "14"
    assert "14 quart jars" in drawn.text
    assert "(target)" in drawn.text
    assert "Back to what is wanted" not in drawn.text
    assert garden.log.position() == page(garden).ask.data.position()


def test_moved_slider_asks_as_the_command_does(garden):
    drawn = page(garden, **{"want:tomato sauce": "60"})
    asked = garden.show("next-season", as_of=DAY, want="tomato sauce=60 quart jars")
    (row,) = (r for r in asked.records() if r["crop"] == "tomato")
    assert row["needed"] in shown(drawn)["needed_g.likely", "tomato"]
    plants = shown(drawn)["plants.likely", "tomato"]
    assert f"{row['plants']['likely']:,.0f}" in plants
    assert plants != shown(page(garden))["plants.likely", "tomato"]
    slider = drawn.choice("want:tomato sauce")
    assert (slider.value, slider.max) == (60, 60)
    assert "60 quart jars" in drawn.text
    assert "(asked; else 14)" in drawn.text
    (back,) = (one for one in drawn.all("Link") if "Back to" in text_of(one))
    assert back.href == PATH


def test_aim_and_rotation_stand_in_the_address(garden):
    drawn = page(garden, rotate="yes", **{"for": "value"})
    assert drawn.choice("rotate").value == "yes"
    assert drawn.choice("for").value == "value"
    asked = garden.show("next-season", as_of=DAY, rotate=True, **{"for": "value"})
    for line in asked.totals["in_words"]:
        assert line in drawn.text
    assert any(why.endswith("for=value/rotate") for _, why, _ in drawn.figures())


def test_csv_is_asked_as_the_page(garden):
    files = page(garden, rotate="yes", **{"want:tomato sauce": "60"}).csv()
    asked = {"want": "tomato sauce=60 quart jars", "rotate": True}
    crops = garden.show("next-season", as_of=DAY, **asked).frame
    weeks = garden.show("next-season", as_of=DAY, preserving=True, **asked).frame
    read = [pd.read_csv(io.StringIO(text)) for href, text in files if "o.want" in href]
    assert [len(one) for one in read] == [len(crops), len(weeks)]
    assert read[0]["needed_g.likely"].tolist() == pytest.approx(crops["needed_g.likely"].tolist())
    assert read[1]["jars"].tolist() == weeks["jars"].tolist()


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("want:no such thing", "4", "no such thing"),
        ("want:tomato sauce", "plenty", "plenty"),
        ("want:tomato sauce", "nan", "nan"),
        ("want:tomato sauce", "-5", "-5"),
    ],
)
def test_address_that_cannot_be_reckoned_with_is_told_and_the_plain_plan_drawn(garden, key, text, says):  # fmt: skip
    drawn = page(garden, **{key: text})
    (told,) = (one for one in drawn.all("P") if getattr(one, "role", None) == "alert")
    assert says in text_of(told)
    assert shown(drawn) == shown(page(garden))


def test_wants_are_written_with_their_unit():
    levers = {"jam": {"number": 9.0, "unit": "pint jar"}, "kale": {"number": 3.0, "unit": "lb"}}
    query = {"want:jam": "1", "want:kale": "2.5", "rotate": "yes"}
    assert wants_of(query, levers) == ["jam=1 pint jar", "kale=2.5 lb"]
    assert wants_of({"want:jam": "0"}, levers) == ["jam=0"]
    assert wants_of({"want:jam": "8 quart jars"}, levers) == ["jam=8 quart jars"]


def test_beds_are_as_long_as_their_ground(garden):
    totals = garden.show("next-season", as_of=DAY).totals
    seen = page(garden).drawing("beds")
    long = [width for _, width, _ in seen.bars("f-soil s-soil")]
    areas = sorted((one["area_m2"] for one in totals["beds"].values()), reverse=True)
    assert [w / long[0] for w in long] == pytest.approx([a / areas[0] for a in areas], abs=0.01)
    assert set(totals["beds"]) <= set(seen.labels)
    assert any(label.startswith("was ") for label in seen.labels)


def test_weeks_are_as_tall_as_their_hours(garden):
    kept = garden.show("next-season", as_of=DAY, preserving=True)
    drawn = page(garden)
    seen = drawn.drawing("weeks")
    by_week = kept.frame["hours"].astype(float).groupby(kept.frame["week"]).sum()
    tall = [height for _, _, height in seen.bars("f-leaf")]
    assert [t / max(tall) for t in tall] == pytest.approx(
        (by_week / by_week.max()).tolist(), abs=0.02
    )
    assert by_week.sum() == pytest.approx(kept.totals["hours"])
    for line in kept.totals["in_words"]:
        for piece in line.split("`")[::2]:  # a command is a link of its own
            assert days_said(drawn.ask, piece.strip()) in drawn.text
    assert "published, tested process" in drawn.text


def test_empty_book_says_what_would_be_here(book):
    drawn = draw(book, PATH)
    assert "what to grow next" in drawn.text
    assert any(one.href == "/write?kind=harvested" for one in drawn.all("Link"))
    assert drawn.all("Graph") == []


def test_one_event_is_no_plan_yet_but_no_failure(book, yes):
    book.write("harvested", {"item": "plum", "amount": "3 lb"}, on="2026-08-01", answers=yes)
    drawn = page(book)
    assert "not right" not in drawn.text
    assert "plum" in drawn.text


def test_moment_before_anything_was_written_is_empty(garden):
    assert "what to grow next" in page(garden, as_of="2020-01-01").text


def test_metric_household_reads_square_metres_and_kilograms(garden, yes):
    garden.write("setting_changed", {"name": "measures", "value": "metric"}, on=DAY, answers=yes)
    drawn = page(garden)
    assert "m²" in drawn.text
    assert "sq ft" not in drawn.text
    assert drawn.choice("want:green bean").value == 2
    assert "2 kg" in drawn.text


def test_names_with_markup_show_as_text(garden, yes):
    garden.write("planted", {"crop": "<b>kale</b>", "plants": 9, "bed": "<i>bed</i>", "area": "9 sq ft"}, on="2026-05-01", answers=yes)  # fmt: skip
    garden.write("harvested", {"item": "<b>kale</b>", "amount": "9 lb"}, on="2026-08-01", answers=yes)  # fmt: skip
    drawn = page(garden)
    assert "<b>kale</b>" in drawn.text
    assert not any(hasattr(one, "dangerously_allow_html") for one in drawn.all("Markdown"))


def test_one_jar_more_is_one_tap_and_the_beds_follow(garden):
    drawn = page(garden)
    (more,) = (
        one for one in drawn.all("A")
        if one.to_plotly_json()["props"].get("aria-label") == "One jar of tomato sauce more"
    )  # fmt: skip
    assert more.href == f"{PATH}?want%3Atomato+sauce=15"
    after = page(garden, **{"want:tomato sauce": "15"})
    assert shown(after)["plants.likely", "tomato"] != shown(drawn)["plants.likely", "tomato"]
