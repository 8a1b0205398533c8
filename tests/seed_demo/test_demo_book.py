from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
import pytest

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
    with Book.open(tmp_path / "book.sqlite") as book:
        done = seed_demo.build(book, until, progress=seen.append)
    assert seen == sorted(seen)
    assert seen
    assert (done.bad_count, done.described) == (0, 0)


def test_home_sauce_costs_below_the_shop(sauce: pd.DataFrame) -> None:
    home, shop = sauce["cost_per_quart"].astype(float), sauce["shop_price_per_quart"].astype(float)
    assert home.between(1.5, 5).all()
    assert home.mean() < shop.mean()
    assert shop.between(3.5, 6).all()


def test_a_bad_season_makes_sauce_dear(sauce: pd.DataFrame) -> None:
    year = sauce["on"].astype(str).str[:4]
    cost = sauce["cost_per_quart"].astype(float).groupby(year).mean()
    assert cost["2025"] > 1.2 * cost[["2024", "2026"]].max()


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


def test_few_draws_were_never_bought(demo_book: Any, day: dt.date) -> None:
    lots = demo_book.state(as_of=day).lots
    unrecorded = [
        int(whole) for mark, whole in zip(lots["suffix"], lots["whole"], strict=True) if mark == 2
    ]
    listed = [whole for whole in unrecorded if whole >= 1000]  # a gram: less is only rounding
    assert 3 <= len(listed) <= 12
