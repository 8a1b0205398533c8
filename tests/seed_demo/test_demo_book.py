from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
import pytest
from freezegun import freeze_time

import seed_demo
from ledger import Book


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


@pytest.mark.parametrize("now", ["2026-10-31 11:00", "2026-10-30 20:00"])
def test_builds_before_the_day_is_over_in_greenwich(
    tmp_path: Any, until: dt.date, now: str
) -> None:
    with Book.open(tmp_path / "book.sqlite") as book, freeze_time(now):
        assert seed_demo.build(book, until).bad_count == 0


def test_home_sauce_costs_below_the_shop(sauce: pd.DataFrame) -> None:
    home, shop = sauce["cost_per_quart"].astype(float), sauce["shop_price_per_quart"].astype(float)
    assert home.between(1.5, 5).all()
    assert home.mean() < shop.mean()
    assert shop.between(3.5, 6).all()


def test_a_bad_season_makes_sauce_dear(sauce: pd.DataFrame) -> None:
    year = sauce["on"].astype(str).str[:4]
    cost = sauce["cost_per_quart"].astype(float).groupby(year).mean()
    assert cost["2025"] > 1.2 * cost["2024"]  # the same recipe in both


def test_sauce_by_the_bulletin_takes_more_tomatoes(sauce: pd.DataFrame) -> None:
    year = sauce["on"].astype(str).str[:4]
    cost = sauce["cost_per_quart"].astype(float).groupby(year).mean()
    assert cost["2024"] < cost["2026"] < sauce["shop_price_per_quart"].astype(float).min()


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
    sauce = published[published["item"] == "tomato sauce"]
    standing = sauce.groupby(sauce["on"].astype(str).str[:4])["standing"].agg(set)
    assert standing.to_dict() == {
        "2024": {"no published process"},
        "2025": {"no published process"},
        "2026": {"as published"},
    }


def test_counts_find_and_miss(demo_book: Any, day: dt.date) -> None:
    lots = demo_book.state(as_of=day).lots
    assert (lots["suffix"] == 3).any()  # found: the opening stock, and a forgotten bag


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
    unrecorded = [
        int(whole) for mark, whole in zip(lots["suffix"], lots["whole"], strict=True) if mark == 2
    ]
    listed = [whole for whole in unrecorded if whole >= 1000]  # a gram: less is only rounding
    assert 3 <= len(listed) <= 12
