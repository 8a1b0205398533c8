"""Stocking up on a page: what is asked stands in boxes and the address; figures are the projection's."""

from __future__ import annotations

import io

import pandas as pd
import pytest
from page_tools import draw, figures_open, text_of, walk

PATH = "/stocking-up"
DAY = "2026-11-01"


@pytest.fixture
def pantry(book, yes):
    """Flour and rice, bought and used every week for three months; salt that nobody used."""

    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    for month in (8, 9, 10):
        write(
            "bought", f"2026-{month:02}-01", item="flour", amount="10 lb", paid="6.00", shop="mill"
        )
        write("bought", f"2026-{month:02}-01", item="rice", amount="5 lb", paid="5.50", shop="mill")
        for day in (5, 12, 19, 26):
            write("eaten", f"2026-{month:02}-{day:02}", ate=[
                {"item": "flour", "amount": "2 lb"}, {"item": "rice", "amount": "1.2 lb"},
            ])  # fmt: skip
    write("target_set", "2026-08-01", item="salt", amount="2 lb")
    write("bought", "2026-08-01", item="salt", amount="1 lb", paid="0.80")
    return book


def lines(drawn, kind):
    """Return the rows of a list by their class."""
    return [one for one in drawn.all("Li") if getattr(one, "className", "") == kind]


def page(book, as_of=DAY, **query):
    return draw(book, PATH, query, as_of=as_of)


def test_every_figure_opens_to_what_it_says(pantry):
    assert figures_open(page(pantry)) > 10
    asked = {"budget": "10", "trips": "3", "price_rise": "25", "shortage": "9"}
    assert figures_open(page(pantry, **asked)) > 20


def test_boxes_carry_what_the_address_asks(pantry):
    drawn = page(pantry, budget="10", shortage="8")
    assert drawn.choice("budget").value == "10"
    assert drawn.choice("shortage").value == "8"
    assert drawn.choice("trips").value == ""
    assert all(drawn.choice(name).error is None for name in ("budget", "trips", "weeks"))


def test_plan_is_the_projections_trip_by_trip(pantry):
    drawn = page(pantry, budget="10", trips="3", weeks="12")
    asked = pantry.show("stocking-up", as_of=DAY, budget="10", trips="3", weeks="12")
    assert any(trip["packs"] for trip in asked.totals["trips"])
    table = next(one for one in drawn.all("Table") if "Trip 1" in text_of(one))
    rows = [text_of(row) for row in table.children[2].children]
    assert len(rows) == 3
    for row, trip in zip(rows, asked.totals["trips"], strict=True):
        assert f"${trip['cost']:,.2f}" in row
        for item, n in trip["packs"].items():
            assert (item if n == 1 else f"{n} × {item}") in row
    assert f"${asked.totals['cost']:,.2f}" in drawn.text


def test_without_a_budget_it_says_what_to_lay_in(pantry):
    drawn = page(pantry, weeks="12")
    frame = pantry.show("stocking-up", as_of=DAY, weeks="12").frame
    wanted = frame[frame["packs_wanted"].astype(float) > 0]
    assert len(wanted)
    for _, row in wanted.iterrows():
        said = f"{int(row['packs_wanted'])} × {row['pack.text']}"
        (line,) = (
            one for one in lines(drawn, "buy") if text_of(one).lower().startswith(row["item"])
        )
        assert said in text_of(line)
        assert f"${row['cost']:,.2f}" in text_of(line)
    assert "The plan, trip by trip" not in drawn.text


def test_price_rise_and_shortage_are_told(pantry):
    drawn = page(pantry, price_rise="25", shortage="9")
    totals = pantry.show("stocking-up", as_of=DAY, price_rise="25", shortage="9").totals
    assert f"${totals['rise_cost']:,.2f}" in drawn.text
    assert ", ".join(totals["uncovered"]) in drawn.text
    assert "A price rise, and weeks without a shop" in drawn.text
    assert "A price rise, and weeks without a shop" not in page(pantry).text


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("budget", "a lot"),
        ("trips", "2.5"),
        ("trips", "0"),
        ("weeks", "-1"),
        ("price_rise", "nan"),
        ("shortage", "1e9"),
        ("budget", "<script>"),
    ],
)
def test_what_cannot_be_read_is_said_at_its_box_and_the_rest_answers(pantry, name, text):
    other = "shortage" if name != "shortage" else "budget"
    drawn = page(pantry, **{name: text, other: "8"})
    assert text in drawn.choice(name).error
    assert drawn.choice(name).value == text
    assert drawn.choice(other).error is None
    assert drawn.figures() == page(pantry, **{other: "8"}).figures()


def test_comma_is_read_where_the_language_writes_one(pantry, yes):
    pantry.write(
        "setting_changed", {"name": "language", "value": "de"}, on="2026-10-30", answers=yes
    )
    drawn = page(pantry, budget="12,50")
    assert drawn.choice("budget").error is None
    assert any("budget=12.5" in why for _, why, _ in drawn.figures())


def test_csv_is_asked_as_the_page(pantry):
    files = page(pantry, budget="10", trips="3").csv()
    frame = pantry.show("stocking-up", as_of=DAY, budget="10", trips="3").frame
    read = [pd.read_csv(io.StringIO(text)) for href, text in files if "o.budget=10" in href]
    assert len(read) == 1
    assert read[0]["packs_planned"].fillna(-1).tolist() == frame["packs_planned"].fillna(-1).tolist()  # fmt: skip


def test_picture_shows_what_lasts_shortest_first(pantry):
    frame = pantry.show("stocking-up", as_of=DAY).frame
    known = frame[frame["weeks"].notna()].sort_values("weeks")
    drawn = page(pantry)
    bars = lines(drawn, "left2")
    assert [text_of(one).split()[0].lower() for one in bars] == known["item"].tolist()
    full = known["target_weeks"].astype(float).max()
    for bar, (_, row) in zip(bars, known.iterrows(), strict=True):
        assert drawn.ask.words.weeks(row["weeks"]) in text_of(bar)
        (track,) = (
            one for one in walk(bar) if str(getattr(one, "className", "")).startswith("track")
        )
        assert track.children.style["width"] == f"{100 * min(1, row['weeks'] / full):.0f}%"
        assert ("soon" in track.className) == (row["weeks"] < 0.5 * row["target_weeks"])


def test_empty_book_says_what_would_be_here(book):
    drawn = draw(book, PATH)
    assert "how many weeks of each staple" in drawn.text
    assert any(one.href == "/write?kind=bought" for one in drawn.all("Link"))


def test_one_purchase_is_no_staple_yet(book, yes):
    book.write("bought", {"item": "flour", "amount": "5 lb", "paid": "4"}, on="2026-10-01", answers=yes)  # fmt: skip
    drawn = page(book)
    assert "not right" not in drawn.text
    assert "bought twice and used" in drawn.text


def test_moment_before_anything_was_written_is_empty(pantry):
    assert "how many weeks of each staple" in page(pantry, as_of="2020-01-01").text


def test_staple_that_nobody_uses_has_no_weeks_but_a_row(pantry):
    drawn = page(pantry)
    assert not [one for one in lines(drawn, "left2") if text_of(one).startswith("Salt")]
    table = drawn.all("Table")[-1]
    (row,) = (one for one in table.children[2].children if text_of(one).startswith("salt"))
    assert "–" in text_of(row)
