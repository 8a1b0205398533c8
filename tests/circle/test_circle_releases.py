"""What the class is told: by arithmetic done here a second time, with each rule met and each refusal made."""

from __future__ import annotations

import csv
import io
import json
import re
import statistics

import pytest
from circle_tools import BEFORE, DAYS, call_of, figures_drawn, write_season

from ledger import Book
from ledger.circle import Circle
from ledger.circle.beside import own_figures
from ledger.circle.merge import merged_zones
from ledger.circle.page import page_of
from ledger.circle.reckon import figures_of
from ledger.circle.release import Release
from ledger.circle.releases import log_of
from ledger.circle.told import told_of
from ledger.circle.yardsticks import yardstick
from ledger.errors import InputError


@pytest.fixture
def group(tmp_path):
    """Return a function that begins a group of a call with so many cards."""

    def go(many, **more):
        made = Circle.begin(tmp_path / f"g{many}", call_of(before=BEFORE, **more))
        made.drawn = made.cards(many)
        return made

    return go


def cell(release, figure, **group):
    return next(c for c in release.cells if c["figure"] == figure and group.items() <= c["group"].items())  # fmt: skip


def fixed(circle, rng, **values):
    """Return figures of one household, some of them given."""
    more = {"no_process": 0, "not_recorded": 0} if "judged" in values else {}
    return {**figures_drawn(circle.call, rng), **more, **values}


def test_quartiles_are_those_of_the_sheets(group, hand_in, rng):
    """Against `statistics.quantiles` (inclusive: the same definition), rounded by hand."""
    circle = group(41)
    costs = [rng.randint(100, 900) for _ in circle.drawn]
    hand_in(circle, circle.drawn, lambda at: fixed(circle, rng, p1_cost=costs[at], p1_jars=5))
    found = cell(circle.tell(), "cost")
    low, middle, high = statistics.quantiles(costs, n=4, method="inclusive")
    assert [found[k] for k in ("low", "middle", "high")] == [round(v / 10) * 10 for v in (low, middle, high)]  # fmt: skip
    assert (found["n"], found["withheld"]) == (40, None)
    half = 1.645 * 1.253 * (found["high"] - found["low"]) / 1.349 / 40**0.5
    assert abs(found["middle_to"] - found["middle"] - half) <= 5


def test_shares_are_each_households_own(group, hand_in, rng):
    circle = group(21)
    hand_in(
        circle, circle.drawn, lambda at: fixed(circle, rng, batches=20, judged=20, short=at % 3)
    )
    found = cell(circle.tell(), "short_share")
    assert (found["low"], found["middle"], found["high"]) == (0, 50, 100)


def test_sum_is_to_the_nearest_ten_and_of_those_with_jars(group, hand_in, rng):
    circle = group(30)
    jars = [3 + at if at < 13 else 0 for at in range(30)]
    hand_in(circle, circle.drawn, lambda at: fixed(circle, rng, p1_jars=jars[at]))
    found = cell(circle.tell(), "jars")
    assert (found["n"], found["middle"], found["sum"]) == (10, None, round(sum(jars) / 10) * 10)
    assert found["withheld"] == "fewer than 20: no quartiles"


@pytest.mark.parametrize(
    ("short", "why"),
    [([40, *[1] * 12], "one household is over half"), ([3] * 9, "fewer than 10 have any"), ([2] * 12, None)],
)  # fmt: skip
def test_sum_that_tells_of_one_household_is_withheld(group, hand_in, rng, short, why):
    circle = group(30)
    values = short + [0] * (30 - len(short))
    hand_in(circle, circle.drawn, lambda at: fixed(circle, rng, batches=60, judged=60, short=values[at]))  # fmt: skip
    found = cell(circle.tell(), "short")
    assert found["withheld"] == why
    assert (found["sum"] is None) == (why is not None)


def test_sum_whose_rest_tells_of_one_household_is_withheld(group, hand_in, rng):
    """All batches but one household's are short: the difference of both sums would be its own."""
    circle = group(30)
    hand_in(circle, circle.drawn, lambda at: fixed(circle, rng, batches=50 if at == 0 else 4, judged=4, short=0 if at == 0 else 4))  # fmt: skip
    told = circle.tell()
    assert cell(told, "batches")["sum"] is not None
    assert (cell(told, "short")["sum"], cell(told, "short")["withheld"]) == (
        None,
        "what is left beside it would be told as well",
    )


def test_nine_households_share_nothing_and_nine_sheets_no_release(group, hand_in, rng):
    circle = group(25)
    hand_in(circle, circle.drawn[:9])
    with pytest.raises(InputError, match="9 are held"):
        circle.tell()
    hand_in(circle, circle.drawn[9:], lambda at: fixed(circle, rng, p1_jars=0))
    found = cell(circle.tell(), "cost")
    assert {found[name] for name in ("n", "low", "middle", "high", "sum")} == {None}
    assert found["withheld"] == "fewer than 10"


@pytest.mark.parametrize(
    ("counts", "pieces"),
    [
        ({"4": 12, "5": 11}, [("4",), ("5", "6")]),  # 6 has none: it hides with the smallest
        ({"4": 5, "5": 5, "6": 40}, [("4", "5"), ("6",)]),
        ({"4": 1, "5": 2, "6": 3}, [("4", "5", "6")]),
        ({"4": 10, "5": 10, "6": 10}, [("4",), ("5",), ("6",)]),
    ],
)
def test_small_zones_are_put_together(counts, pieces):
    assert merged_zones(counts, ["4", "5", "6"]) == pieces


def test_nothing_changed_gives_the_same_bytes_and_no_event(group, hand_in):
    circle = group(40)
    hand_in(circle, circle.drawn[:30])
    first = circle.tell().to_bytes()
    assert Circle(circle.folder).tell().to_bytes() == first
    with log_of(circle.folder) as log:
        assert log.count() == 1


@pytest.mark.parametrize("many", [1, 9])
def test_a_few_changes_are_no_release(group, hand_in, many):
    circle = group(50)
    hand_in(circle, circle.drawn[:30])
    circle.tell()
    hand_in(circle, circle.drawn[30 : 30 + many])
    with pytest.raises(InputError, match=rf"sheets: {many} sheets? changed since the last release"):
        circle.tell()
    hand_in(circle, circle.drawn[30 + many : 40])
    assert circle.tell().head["households"] == 40


def test_changes_and_withdrawals_count_as_joining_does(group, hand_in, tmp_path):
    from ledger.circle.sheet import Withdrawal

    circle = group(50)
    hand_in(circle, circle.drawn[:30])
    circle.tell()
    hand_in(circle, circle.drawn[:6], made_on="2026-12-01")
    (tmp_path / "w").write_bytes(b"\n".join(Withdrawal.make(circle.call, c).to_bytes() for c in circle.drawn[3:9]))  # fmt: skip
    assert circle.gather([tmp_path / "w"]).withdrawn == 6
    assert circle.changed() == 9
    with pytest.raises(InputError, match="9 sheets changed"):
        circle.tell()


def test_release_holds_no_row_and_nobody(group, hand_in):
    """Of every sheet: no number, seal or card, and no full row of its figures, in release, page, CSV and log."""
    circle = group(25)
    hand_in(circle, circle.drawn)
    sheets = [json.loads(text) for text in circle.sheets()]
    told = circle.tell()
    shown = [told.to_bytes(), told.to_csv(), page_of(told).encode(), (circle.folder / "log.sqlite").read_bytes()]  # fmt: skip
    for sheet, card in zip(sheets, circle.drawn, strict=True):
        row = json.dumps(sheet["figures"], separators=(",", ":")).encode()
        for part in (sheet["member"].encode(), sheet["check"].encode(), card.encode(), row):
            assert not [1 for raw in shown if part in raw]


def test_release_is_read_back_and_csv_holds_the_same(group, hand_in, tmp_path):
    circle = group(25)
    hand_in(circle, circle.drawn)
    told = circle.tell()
    path = tmp_path / "r.json"
    path.write_bytes(told.to_bytes())
    assert Release.read(path) == told
    rows = list(csv.DictReader(io.StringIO(told.to_csv().decode())))
    assert [row["figure"] for row in rows] == [one["figure"] for one in told.cells]
    assert [row["middle"] for row in rows] == ["" if c["middle"] is None else str(c["middle"]) for c in told.cells]  # fmt: skip
    path.write_bytes(told.to_bytes().replace(b"croftbook release 1", b"croftbook release 2"))
    with pytest.raises(InputError, match="later format"):
        Release.read(path)


def test_ask_says_what_is_told_and_in_which_order(group, hand_in):
    circle = group(25, ask=["waste", "cost"])
    hand_in(circle, circle.drawn)
    assert [one["figure"] for one in circle.tell().cells] == ["waste", "cost"]
    assert len(told_of(call_of())) > 12
    assert "12 figures at most" in Circle.advice(call_of(), 30)
    assert Circle.advice(call_of(ask=["waste"]), 30) == Circle.advice(call_of(), 100) == ""


def test_page_holds_all_it_needs_and_every_figure(group, hand_in):
    circle = group(25)
    hand_in(circle, circle.drawn)
    told = circle.tell()
    page = page_of(told)
    assert not re.search(r"<script|https?:|src=|@import|url\(", page)
    for one in told.cells:
        if one["figure"] == "cost":
            assert f"{one['middle'] / 100:.2f} USD" in page
    assert "25 households or more" in page
    assert "National Gardening Association" in page
    assert "no proof of a course" in page


def test_yardsticks_have_their_sources():
    published = yardstick("yield", {"crop": "tomato"})
    assert re.search(r"published [\d,]+ to [\d,]+ \(.*(Purdue|Extension|USDA)", published)
    assert "2,441" in published  # half a pound (226.796 g) a square foot (0.09290304 m2)
    assert round(0.5 * 453.59237 / 0.09290304) == 2441
    assert "common practice, no source" in yardstick("unsealed_share", {})
    assert all("from memory" in yardstick(name, {}) for name in ("old_share", "waste", "learning"))


def test_household_sees_itself_on_its_own_machine_alone(group, hand_in, tmp_path, fixed_day):
    circle = group(25)
    hand_in(circle, circle.drawn)
    told = circle.tell()
    with Book.open(tmp_path / "b.sqlite") as book:
        write_season(book)
        own = own_figures(told, circle.call, figures_of(book, circle.call), "5")
    assert own["cost", "plum butter (boiling water)"] == 356
    assert any(name == "yield" and value == 2500 for (name, _), value in own.items())
    page = page_of(told, own)
    assert "yours: 3.56 USD" in page
    assert "yours" not in page_of(told)
    with pytest.raises(InputError, match="belongs to another call"):
        own_figures(told, call_of(), {}, "5")


def test_days_of_the_call_stand_in_the_release(group, hand_in):
    circle = group(12)
    hand_in(circle, circle.drawn)
    head = circle.tell().head
    assert (head["from"], head["to"]) == DAYS
    assert (head["households"], head["for"], head["epsilon"]) == (10, "the class", None)
