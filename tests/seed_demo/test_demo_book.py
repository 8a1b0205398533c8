from __future__ import annotations

import datetime as dt
import re
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from freezegun import freeze_time

import seed_demo
from ledger import Book
from ledger.amounts import parse_amount


@pytest.fixture(scope="module")
def day(until: dt.date) -> dt.date:
    return until - dt.timedelta(days=1)


@pytest.fixture(scope="module")
def sauce(demo_book: Any, day: dt.date) -> pd.DataFrame:
    frame = demo_book.show("jar-cost", as_of=day, item="tomato sauce").frame
    return frame[frame["kept"] == "shelf"]


def test_book_takes_every_line(demo_book: Any, told: list[dict[str, Any]]) -> None:
    assert demo_book.log.count() == len(told)


def test_amounts_and_chain_hold(demo_book: Any) -> None:
    assert demo_book.check().is_whole


def test_progress_is_told(tmp_path: Any, until: dt.date) -> None:
    seen: list[int] = []
    with Book.open(tmp_path / "book.sqlite") as book, freeze_time("2026-11-01 12:00"):
        done = seed_demo.build(book, until, progress=seen.append)
    assert seen == sorted(seen)
    assert seen
    assert (done.bad_count, done.described) == (0, 0)
    # what came from jars that are not as published is reported, and nothing else is
    assert all("from a jar that stands so: " in note for note in done.notes)


@pytest.mark.parametrize("now", ["2026-10-31 11:00", "2026-10-30 20:00"])
def test_builds_before_the_day_is_over_in_greenwich(
    tmp_path: Any, until: dt.date, now: str
) -> None:
    with Book.open(tmp_path / "book.sqlite") as book, freeze_time(now):
        assert seed_demo.build(book, until).bad_count == 0


def test_home_sauce_costs_below_the_shop_but_in_a_bad_year(sauce: pd.DataFrame) -> None:
    home, shop = sauce["cost_per_quart"].astype(float), sauce["shop_price_per_quart"].astype(float)
    good = sauce["on"].astype(str).str[:4] != "2025"
    assert home[good].between(1.5, 5).all()
    assert (home < shop)[good].all()
    assert home.between(1.5, 8).all()
    assert shop.between(3.5, 6).all()


def test_a_bad_season_makes_sauce_dear(sauce: pd.DataFrame) -> None:
    year = sauce["on"].astype(str).str[:4]
    cost = sauce["cost_per_quart"].astype(float).groupby(year).mean()
    assert cost["2025"] > 1.2 * cost["2026"]  # the same recipe in both


def test_sauce_by_the_bulletin_takes_more_tomatoes(sauce: pd.DataFrame) -> None:
    first = sauce[sauce["on"].astype(str).str[:4] == "2024"]
    cost = first["cost_per_quart"].astype(float).tolist()
    assert len(cost) > 3
    assert max(cost[:3]) < min(cost[3:])  # the house's three, then the bulletin's


def test_little_is_unpriced(demo_book: Any, day: dt.date) -> None:
    frame = demo_book.show("jar-cost", as_of=day).frame
    assert frame["at_least"].mean() < 0.02


def test_shelf_is_a_households(demo_book: Any, day: dt.date) -> None:
    frame = demo_book.show("shelf", as_of=day).frame
    jars = frame["jars_left"].astype(float).sum()
    assert 60 < jars < 300
    assert len(frame) < 150
    kept = frame.set_index("item")["left.text"]
    assert {"tomato sauce", "plum butter", "apple sauce", "flour", "egg"} <= set(kept.index)


@pytest.fixture(scope="module")
def published(demo_book: Any, day: dt.date) -> pd.DataFrame:
    return demo_book.show("as-published", as_of=day).frame


def test_the_short_batch_is_found(published: pd.DataFrame) -> None:
    short = published[published["standing"] == "short of it"]
    assert list(short["item"]) == ["canned green bean"]
    [finding] = [one for one in short.iloc[0]["findings"] if one["kind"] == "short of it"]
    # snap beans, raw pack, quarts: 25 minutes; pints: 20 (published schedule, guide 4)
    assert (finding["field"], str(finding["published"]), str(finding["done"])) == (
        "minutes",
        "25",
        "20",
    )


def test_house_sauce_has_no_published_process(published: pd.DataFrame) -> None:
    standing = list(published[published["item"] == "tomato sauce"]["standing"])
    assert standing[:3] == ["no published process"] * 3
    assert standing[3:].count("as published") == len(standing) - 4  # of one the pressure is missing
    assert standing[3:].count("not recorded") == 1


def test_most_batches_are_done_as_published(published: pd.DataFrame) -> None:
    counts = published["standing"].value_counts()
    # the household writes vinegar without its strength, which leaves each such batch to be checked
    pickles = published["item"] == "dill pickle"
    assert set(published[pickles]["standing"]) == {"to check yourself"}
    assert counts["as published"] > 0.65 * (~pickles).sum()
    assert 3 <= counts["no published process"] <= 8
    # What no field holds (temperature, days, size of the freezer) is asked for, and stands in notes.
    asked = published[published["standing"] == "not recorded"]
    assert len(asked) <= 18
    assert asked["item"].isin(["canned green bean", "tomato sauce"]).sum() == 2


@pytest.fixture(scope="module")
def table(demo_book: Any, day: dt.date) -> Any:
    return demo_book.show("our-table", as_of=day)


def test_most_of_the_need_is_written_down(table: Any) -> None:
    assert 0.8 <= table.totals["of_need"]["all eaten"] <= 0.95


def test_own_share_is_a_large_gardens(table: Any) -> None:
    assert 0.1 <= table.totals["eaten_based"]["energy"] <= 0.25
    assert 0.2 <= table.totals["eaten_based"]["weight"] <= 0.45


def test_few_per_cent_are_thrown_away(told: list[dict[str, Any]], table: Any) -> None:
    # A few per cent by weight is common practice of a house with hens and a heap, no source.
    lines = [line for e in told if e["kind"] == "discarded" for line in e["body"]["lines"]]
    amounts = [parse_amount(re.sub(" jars?$", "", line["amount"])) for line in lines]
    # Milligrams, and microlitres of things that weigh about as much as water.
    grams = sum(float(one.exact) / 1000 for one in amounts if one.measure in ("mass", "volume"))
    assert 0.01 <= grams / table.totals["eaten"]["weight"] <= 0.05


def test_counts_find_and_miss(demo_book: Any, day: dt.date) -> None:
    lots = demo_book.state(as_of=day).lots
    found = [
        int(whole) for mark, whole in zip(lots["suffix"], lots["whole"], strict=True) if mark == 3
    ]
    assert len(found) == 4  # the opening stock of three things, and a forgotten bag


def test_empty_jars_are_filled_again(
    demo_book: Any, told: list[dict[str, Any]], day: dt.date
) -> None:
    bought = sum(
        int(line["amount"])
        for event in told
        if event["kind"] == "bought"
        for line in event["body"]["lines"]
        if line["item"].endswith(" jar")
    )
    filled = demo_book.show("jar-cost", as_of=day).frame["jars"].dropna().sum()
    assert filled > 1.5 * bought


def test_few_draws_were_never_bought(demo_book: Any, day: dt.date) -> None:
    lots = demo_book.state(as_of=day).lots
    names = demo_book.state(as_of=day).facts.names
    unrecorded = [
        names[int(item)]
        for mark, item in zip(lots["suffix"], lots["item"], strict=True)
        if mark == 2
    ]
    assert sorted(unrecorded) == ["cinnamon", "coffee", "coffee"]


def test_the_readme_prints_what_the_sample_says(demo_book, until):
    """The lines of the README are those of the sample until the day that it names."""
    text = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert f"demo --no-serve --until {until}` begins" in text
    lines = re.findall(r"^    (2024-\S+) tomato sauce +(\S+) +(.+)$", text, re.MULTILINE)
    assert len(lines) == 2
    day = until - dt.timedelta(days=1)
    frame = demo_book.show("jar-cost", as_of=day, item="tomato sauce").frame
    columns = ["cost.all_in", "cost_per_jar", "cost_per_quart", "shop_price_per_quart", "saved"]
    for (on, jars, money), (_, row) in zip(lines, frame.iterrows(), strict=False):
        assert (row["on"], row["jars"] or "-") == (on, int(jars) if jars != "-" else "-")
        assert money.split() == ["-" if row[c] is None else f"{row[c]:.2f}" for c in columns]
