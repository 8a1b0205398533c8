"""Worth it on a page: a season's money, what lasts, and prices over the years, as the projection has them."""

from __future__ import annotations

import io

import pandas as pd
import pytest
from page_tools import draw, figures_open, text_of, walk

PATH = "/worth-it"
DAY = "2026-11-01"


@pytest.fixture
def years(book, yes):
    """Plums picked, put up in bought jars and partly sold in 2025 and 2026; shop prices seen."""

    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    write("bought", "2025-05-01", item="half-pint jar", amount="24", paid="18.00")
    write("item_described", "2025-05-01", item="kettle", sort="equipment")
    write("bought", "2025-05-01", item="kettle", amount="1", paid="40.00")
    for year, price in ((2025, "5.20"), (2026, "5.60")):
        write(
            "price_seen", f"{year}-07-01", item="plum", amount="2 lb", price="4.00", shop="market"
        )
        write(
            "price_seen",
            f"{year}-07-01",
            item="plum butter",
            amount="1 pt",
            price=price,
            shop="market",
        )
        write(
            "harvested",
            f"{year}-08-01",
            item="plum",
            amount="30 lb",
            work=[{"person": "Ada", "minutes": "60"}],
        )
        write("bought", f"{year}-08-02", item="sugar", amount="4 lb", paid="3.20")
        write("bought", f"{year}-08-02", item="lid", amount="12", paid="4.00")
        write(
            "put_up", f"{year}-08-03", makes="plum butter", method="boiling water",
            work=[{"person": "Ada", "minutes": "150"}], equipment=["kettle"],
            used=[{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "2 lb"}],
            made=[{"jars": 11, "jar": "half-pint jar"}],
        )  # fmt: skip
        write("given_away", f"{year}-08-20", how="sold", item="plum", amount="4 lb", got="6.00")
    return book


def page(book, as_of=DAY, **query):
    return draw(book, PATH, query, as_of=as_of)


def total(book, season):
    return book.show("worth-it", as_of=DAY, season=season).records()[-1]


def test_every_figure_opens_to_what_it_says(years):
    assert figures_open(page(years)) > 20
    assert figures_open(page(years, season="2025", item="garden/plum")) > 20


@pytest.mark.parametrize("season", ["2025", "2026"])
def test_stats_are_the_total_of_the_season(years, season):
    drawn, row = page(years, season=season), total(years, season)
    shown = {field: text for text, address, field in drawn.figures() if address == row["why"]}
    for name in ("net_per_hour", "money_in", "money_out"):
        assert f"${row[name]:,.2f}" in shown[name]
    answer = next(one for one in drawn.all("P") if getattr(one, "className", "") == "answer")
    assert drawn.ask.words.round_money(abs(row["net"])) in text_of(answer)
    assert text_of(answer).startswith("Yes" if row["net"] >= 0 else "No")
    assert (season, True) in drawn.chosen("season")


def test_running_season_is_chosen_first_and_said_to_run(years):
    drawn = page(years)
    assert drawn.chosen("season") == [("2026", True), ("2025", False)]
    assert "still runs" in drawn.text
    assert "still runs" not in page(years, season="2025").text


def test_season_that_is_none_falls_back_to_the_running_one(years):
    for odd in ("1066", "soon", "<b>"):
        assert ("2026", True) in page(years, season=odd).chosen("season")


def test_new_season_with_nothing_in_it_shows_the_last_one(years):
    drawn = page(years, as_of="2027-02-01")
    assert ("2026", True) in drawn.chosen("season")
    empty = page(years, as_of="2027-02-01", season="2027")
    assert "Nothing was written down in season 2027" in empty.text


def test_bars_are_the_lines_of_the_season(years):
    *rows, total = years.show("worth-it", as_of=DAY, season="2026").records()
    drawn = page(years)
    seen = drawn.drawing("season")
    gains = [row["net"] for row in rows if row["net"] > 0]
    wide = [width for _, width, _ in seen.bars("f-leaf")]
    assert [w / max(wide) for w in wide] == pytest.approx([g / max(gains) for g in gains], abs=0.01)
    assert drawn.ask.words.round_money(total["net"]) in seen.labels
    for row in rows:
        if row["net"]:
            assert drawn.ask.words.whole(row["net"]) in seen.labels
    shown = {(address, field): text for text, address, field in drawn.fold("The numbers").figures()}
    for row in rows:
        for name in ("net", "cost", "money_in"):
            assert f"${abs(row[name]):,.2f}" in shown[row["why"], name].replace("-", "")


def test_what_lasts_is_drawn_by_the_share_it_earned(years):
    frame = years.show("worth-it", as_of=DAY, durables=True).frame
    known = frame[frame["share_back"].notna()]
    assert len(known)
    (table,) = (one for one in page(years).all("Div") if getattr(one, "className", "") == "pay")
    rows = [one for one in walk(table) if one._type == "Tr"][1:]
    assert len(rows) == len(frame)
    for row, (_, record) in zip(rows, frame.iterrows(), strict=True):
        assert text_of(row).lower().startswith(record["item"])
        bar = next(
            one for one in walk(row) if str(getattr(one, "className", "")).startswith("track")
        )
        share = min(1.0, max(0.0, float(record["share_back"])))
        assert bar.children.style["width"] == f"{100 * share:.0f}%"
        assert bar.className == ("track" if share >= 1 else "track near")
        if isinstance(record["paid_back_on"], str):
            assert "paid off" in text_of(row)
            assert record["paid_back_on"][:4] in text_of(row)


def test_home_and_shop_of_what_is_in_jars_first(years):
    drawn = page(years)
    assert drawn.choice("item").value == "preserving/plum butter"
    frame = years.show("worth-it", as_of=DAY, prices=True).frame
    rows = frame[frame["item"] == "plum butter"].sort_values("season")
    seen = drawn.drawing("prices")
    assert {"2025", "2026", "shop", "home"} <= set(seen.labels)
    assert "home, own time left out" not in seen.labels  # no rate is set, so it is the same line
    shop, home = seen.lines("s-straw"), seen.lines("s-leaf thick")
    prices = [float(v) for v in (*rows["shop_per_unit"], *rows["home_per_unit"])]
    heights = [*shop, *home]
    k = (heights[0] - heights[-1]) / (prices[0] - prices[-1])
    assert heights == pytest.approx([heights[0] + k * (p - prices[0]) for p in prices], abs=0.3)
    assert k < 0  # dearer is higher


def test_own_time_is_a_line_of_its_own_where_it_has_a_rate(years, yes):
    years.write("setting_changed", {"name": "labour_rate", "value": "12.00"}, on="2025-01-01", answers=yes)  # fmt: skip
    seen = page(years).drawing("prices")
    assert {"home", "home, own time left out", "shop"} <= set(seen.labels)
    steps = page(years, time="yes").drawing("season")
    assert "Own time" in steps.labels
    row = years.show("worth-it", as_of=DAY, season="2026").records()[-1]
    assert page(years).ask.words.round_money(row["after_labour"]) in steps.labels


def test_another_item_is_chosen_by_the_address(years):
    drawn = page(years, item="garden/plum")
    assert drawn.choice("item").value == "garden/plum"
    assert "A pound of plum of season 2026 cost" in drawn.text
    assert page(years, item="garden/unknown").choice("item").value == "preserving/plum butter"


def test_csvs_are_asked_as_the_page(years):
    files = dict(page(years, season="2025").csv())
    lines = years.show("worth-it", as_of=DAY, season="2025").frame
    (text,) = (
        text for href, text in files.items() if href.split("?")[1].startswith("o.season=2025&as_of")
    )
    read = pd.read_csv(io.StringIO(text))
    assert read["line"].tolist() == lines["line"].tolist()
    assert read["net"].tolist() == pytest.approx(lines["net"].astype(float).tolist())
    assert any("o.durables=True" in href for href in files)
    assert any("o.prices=True" in href and "o.season=2025" in href for href in files)


def test_season_without_work_has_no_net_an_hour(book, yes):
    book.write("harvested", {"item": "plum", "amount": "3 lb"}, on="2026-08-01", answers=yes)
    drawn = page(book)
    assert "no hours are written down" in drawn.text
    assert "No price of plum is known" not in page(book).text or drawn.drawing("prices") is None


def test_what_has_no_price_leaves_the_answer_open(book, yes):
    book.write("bought", {"item": "plum compost", "amount": "5 lb", "paid": "9.56", "for_crop": "plum"}, on="2026-05-01", answers=yes)  # fmt: skip
    book.write("harvested", {"item": "plum", "amount": "3 lb"}, on="2026-08-01", answers=yes)
    text = " ".join(page(book).text.split())
    assert "Not to tell yet: at most" in text
    assert "as 1 thing has no price known" in text
    assert "No: " not in text


def test_empty_book_says_what_would_be_here(book):
    drawn = draw(book, PATH)
    assert "what a season cost and gave" in drawn.text
    assert any(one.href == "/write?kind=bought" for one in drawn.all("Link"))


def test_one_purchase_of_a_jar_is_shown_as_lasting(book, yes):
    book.write("bought", {"item": "pint jar", "amount": "12", "paid": "14"}, on="2026-05-01", answers=yes)  # fmt: skip
    drawn = page(book)
    assert "not right" not in drawn.text
    assert "pint jar" in drawn.text
    assert "$14.00" in drawn.text


def test_moment_before_anything_was_written_is_empty(years):
    assert "what a season cost and gave" in page(years, as_of="2020-01-01").text
