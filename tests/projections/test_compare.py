"""The same question at two dates: causes that add up exactly, and published variances."""

from __future__ import annotations

import math
import random
from decimal import Decimal
from functools import cache

import pytest
from books import state_of
from hypothesis import given
from hypothesis import strategies as st
from questions.proving import leaves
from strategies import random_book
from test_why import check

from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.projections.base import Answer, Column, Compared, cells_of
from ledger.questions.compared.against import Against
from ledger.questions.compared.compare import compare as compared
from ledger.questions.compared.gather import Things
from ledger.questions.compared.why import why_against

COLUMNS = (
    Column("why", "", "", ""), Column("thing", "", "", ""), Column("g", "", "g", ""),
    Column("ml", "", "ml", ""), Column("money", "", "money", ""), Column("assumptions", "", "", ""),
)  # fmt: skip
HOW = Compared("thing", ("g", "ml"), "money", "What it cost")
CAUSES = ("from_price", "from_amount", "from_mix", "not_split")


def answer(*rows):
    records = [
        {"thing": thing, "g": g, "ml": ml, "money": money, "assumptions": []}
        for thing, g, ml, money in rows
    ]
    return Answer("made up", "2026-01-01", None, "USD", COLUMNS, cells_of(COLUMNS, records))


def compare(now, then, how):
    return compared(Things(now, then, how))


def exact(record, *names):
    """Add figures up as the decimals that they print as."""
    return sum((Decimal(str(record[name] or 0.0)) for name in names), Decimal(0))


def only(found):
    (record,) = found.to_dict()["records"]
    return record


# -- OpenStax, Principles of Accounting vol. 2 (2019), section 8.2 -----------------------


@pytest.mark.parametrize(
    ("paid", "standard", "variance"), [("6.00", "7.00", -20), ("9.00", "7.00", 40)]
)
def test_published_price_variance(paid, standard, variance):
    """20 lb at another price than the standard 7.00: 20 favourable, 40 unfavourable."""
    now = answer(("candy", 20.0, None, 20 * float(paid)))
    then = answer(("candy", 20.0, None, 20 * float(standard)))
    found = only(compare(now, then, HOW))
    assert [found[name] for name in CAUSES] == [variance, 0, 0, 0]


@pytest.mark.parametrize(("used", "variance"), [(0.20, -0.35), (0.50, 1.75)])
def test_published_quantity_variance(used, variance):
    """0.25 lb is the standard, at 7.00: 0.35 favourable, 1.75 unfavourable."""
    now, then = answer(("candy", used, None, used * 7)), answer(("candy", 0.25, None, 0.25 * 7))
    found = only(compare(now, then, HOW))
    assert [found[name] for name in CAUSES] == [0, variance, 0, 0]


@pytest.mark.parametrize(
    ("paid", "standard", "variance"), [("6.00", "7.00", -20), ("9.00", "7.00", 40)]
)
def test_published_price_variance_through_a_book(book, yes, paid, standard, variance):
    for year, price in ((2025, standard), (2026, paid)):
        book.write("price_seen", item="plum", amount="1 lb", price=price, on=f"{year}-08-01")
        book.write("harvested", item="plum", amount="20 lb", on=f"{year}-08-02", answers=yes)
    found = only(book.show("season", season=2026, against=2025, as_of="2026-12-31"))
    assert found["from_price"] == pytest.approx(variance, abs=1e-4)
    assert found["from_amount"] == found["from_mix"] == 0


@pytest.mark.parametrize(("used", "variance"), [("0.20", -0.35), ("0.50", 1.75)])
def test_published_quantity_variance_through_a_book(book, yes, used, variance):
    book.write("price_seen", item="plum", amount="1 lb", price="7.00", on="2025-08-01", answers=yes)
    book.write("harvested", item="plum", amount="0.25 lb", on="2025-08-02", answers=yes)
    book.write("harvested", item="plum", amount=f"{used} lb", on="2026-08-02", answers=yes)
    found = only(book.show("season", season=2026, against=2025, as_of="2026-12-31"))
    assert found["from_amount"] == pytest.approx(variance, abs=1e-4)
    assert found["from_price"] == found["from_mix"] == 0


# -- causes add up, whatever the answers -------------------------------------------------

money = st.floats(-100, 100)


@st.composite
def a_row(draw):
    """Something with a price up to 100, or a value and no amount, or an amount and no value."""
    g, ml = (draw(st.one_of(st.none(), st.just(0.0), st.floats(0.01, 1e4))) for _ in range(2))
    amount = g if g is not None else ml
    value = draw(st.one_of(st.none(), money))
    return (draw(st.sampled_from("abcd")), g, ml, value and value * (amount or 1.0))


rows = st.lists(a_row(), max_size=8)


@given(rows, rows)
def test_causes_add_up_exactly(before, after):
    found = compare(answer(*after), answer(*before), HOW).to_dict()
    for record in found["records"]:
        assert exact(record, *CAUSES) == exact(record, "difference")
        now, then = exact(record, "value_now"), exact(record, "value_then")
        assert now - then == exact(record, "difference")
    for name in (*CAUSES, "difference", "value_now", "value_then"):
        every = sum((exact(r, name) for r in found["records"]), Decimal(0))
        assert every == exact(found["totals"], name), name


def test_sums_beyond_what_a_number_shows_come_close():
    then = answer(("c", None, 0.2, 865748.9795070856))
    now = answer(("c", None, 865748.9795070856, 865748.9795070856))
    record = only(compare(now, then, HOW))
    assert sum(record[name] for name in CAUSES) == pytest.approx(0, abs=1e-3)


@given(rows)
def test_nothing_changed_has_no_cause(before):
    for record in compare(answer(*before), answer(*before), HOW).to_dict()["records"]:
        assert not any(record[name] for name in (*CAUSES, "difference"))


@given(rows, rows)
def test_other_way_round_is_the_opposite(before, after):
    there = compare(answer(*after), answer(*before), HOW).totals["difference"]
    back = compare(answer(*before), answer(*after), HOW).totals["difference"]
    assert there == -back


def test_amounts_of_one_unit_are_split_together():
    then = answer(("plum", 10.0, None, 20.0), ("pear", 10.0, None, 40.0), ("jam", None, 5.0, 10.0))
    now = answer(("plum", 5.0, None, 10.0), ("pear", 15.0, None, 60.0), ("jam", None, 10.0, 20.0))
    found = {r["what"]: r for r in compare(now, then, HOW).to_dict()["records"]}
    assert (found["plum"]["unit"], found["jam"]["unit"]) == ("g", "ml")
    assert [found["plum"][c] for c in CAUSES] == [0, 0, -10, 0]
    assert [found["pear"][c] for c in CAUSES] == [0, 0, 20, 0]
    assert [found["jam"][c] for c in CAUSES] == [0, 10, 0, 0]


def test_what_has_no_amount_is_shown_unsplit():
    found = compare(answer(("a", None, None, 5.0)), answer(("a", 2.0, None, 3.0)), HOW)
    record = only(found)
    assert (record["not_split"], record["from_price"], record["unit"]) == (2, None, None)
    assert "not split +2.00" in found.totals["in_words"][0]


def test_what_has_no_value_is_left_out_by_name():
    found = compare(answer(("a", 1.0, None, None), ("b", 1.0, None, 2.0)), answer(), HOW)
    assert only(found)["what"] == "b"
    assert found.totals["missing"] == ["No value is known of a, left out: a price would give one."]


def test_empty_answers_have_a_sentence():
    found = compare(answer(), answer(), HOW)
    assert found.frame.empty
    assert "nothing to compare" in found.totals["in_words"][0]


# -- through a book ---------------------------------------------------------------------


@pytest.fixture
def garden(book, yes):
    def write(kind, on, **body):
        book.write(kind, body, on=on, answers=yes)

    for year, price, plums in ((2024, "2.00", 10), (2025, "2.50", 12), (2026, "3.00", 9)):
        write("price_seen", f"{year}-07-01", item="plum", amount="1 lb", price=price)
        write("harvested", f"{year}-08-01", item="plum", amount=f"{plums} lb", bed=f"bed {year}")
        write("harvested", f"{year}-09-20", item="plum", amount="2 lb")
        write("eaten", f"{year}-09-25", ate=[{"item": "plum", "amount": "4 lb"}])
        used = [{"item": "plum", "amount": "5 lb"}]
        made = [{"amount": "4 lb", "kept": "freezer"}]
        write("put_up", f"{year}-09-30", makes="frozen plum", method="freeze", used=used, made=made)
    return book


def test_season_against_another(garden):
    found = garden.show("season", season=2025, against=2024, as_of="2026-12-01")
    record = only(found)
    assert record["what"] == "plum"
    assert (found.totals["then"], found.totals["now"]) == ("2024", "2025")
    assert record["value_then"] == pytest.approx(24, rel=1e-6)
    assert record["value_now"] == pytest.approx(35, rel=1e-6)
    assert record["from_price"] == pytest.approx(7, rel=1e-5)
    assert record["from_amount"] == pytest.approx(4, rel=1e-5)
    assert record["from_mix"] == 0


def test_running_season_is_compared_to_the_same_day(garden):
    found = garden.show("season", against="2025", as_of="2026-09-01")
    assert found.totals["then"] == "to 2025-09-01"
    assert only(found)["value_then"] == pytest.approx(30, rel=1e-6)


def test_season_against_a_day_is_the_season_of_that_day(garden):
    found = garden.show("season", against="2025-12-31", as_of="2026-12-31")
    assert only(found)["value_then"] == pytest.approx(35, rel=1e-6)


@pytest.mark.parametrize("name", ["jar-cost", "shelf", "our-table", "worth-it"])
def test_other_questions_against_a_day(garden, name):
    found = garden.show(name, against="2025-12-31", as_of="2026-12-31")
    assert not found.frame.empty
    for record in found.to_dict()["records"]:
        assert exact(record, *CAUSES) == exact(record, "difference")


def test_our_table_of_a_period_goes_back_as_long(garden):
    found = garden.show(
        "our-table", as_of="2026-12-31", against="2025-12-31", **{"from": "2026-01-01"}
    )
    assert found.totals["then"] == "2025-01-01 to 2025-12-31"
    record = next(r for r in found.to_dict()["records"] if r["what"] == "grown")
    assert record["value_then"] == pytest.approx(4 * 2.5, rel=1e-6)
    assert record["value_now"] == pytest.approx(4 * 3, rel=1e-6)


@pytest.mark.parametrize(
    ("name", "against", "options"),
    [
        ("jar-cost", "2025", {}), ("season", "soon", {}), ("season", "0000", {}), ("season", "2025-13-01", {}),
        ("season", "2025", {"weeks": True}), ("as-published", "2025-12-31", {}),
    ],
)  # fmt: skip
def test_bad_dates_and_questions_are_refused(garden, name, against, options):
    with pytest.raises(InputError) as caught:
        garden.show(name, against=against, as_of="2026-12-31", **options)
    assert caught.value.field == "against"


@pytest.mark.parametrize(("key", "field"), [("pear", None), ("plum", "colour")])
def test_unknown_figure_is_refused(garden, key, field):
    with pytest.raises(NotFound):
        garden.why(f"season/against:2024,season:2025/{key}", field, as_of="2026-12-01")
    with pytest.raises(NotFound):
        garden.why("season/against:2024,colour:red/plum", as_of="2026-12-01")


def test_empty_book_has_nothing_to_compare(book):
    for name in ("season", "jar-cost", "shelf", "our-table"):
        assert book.show(name, against="2025-12-31", as_of="2026-12-31").frame.empty


def test_every_figure_of_a_book_opens(garden):
    for record in garden.show("season", against=2025, as_of="2026-12-01").to_dict()["records"]:
        node = garden.why(record["why"], "from_price", as_of="2026-12-01")
        assert math.isclose(node.value, record["from_price"], rel_tol=1e-9)


def test_a_line_of_then_opens_as_of_then(garden):
    """More was picked since: the line's address says of which day it is, and what it opens too."""
    record = only(garden.show("season", against="2025-08-15", as_of="2026-12-01"))
    (line,) = garden.why(record["why"], "value_then", as_of="2026-12-01").parts
    assert line.address.startswith("on:2025-08-15/season/2025/plum")
    there = garden.why(line.address, line.figure, as_of="2026-12-01")
    assert there.value == pytest.approx(12 * 2.5, rel=1e-6)
    assert line.value == pytest.approx(there.value, abs=1e-6)
    net = garden.why(line.address, "net", as_of="2026-12-01")
    addresses = [leaf.address for leaf in leaves(net) if leaf.address]
    assert all(one.startswith("on:2025-08-15/") for one in addresses)


@pytest.mark.parametrize(("name", "seed"), [(n, s) for n in ("season", "shelf", "jar-cost", "our-table", "worth-it") for s in range(2)])  # fmt: skip
def test_every_figure_is_what_its_tree_gives(name, seed):
    events = random_book(random.Random(seed), 60)
    day = max(event["on"] for event in events)
    early = sorted(event["on"] for event in events)[len(events) // 2]

    @cache
    def state_on(as_of):
        return state_of(events, as_of)

    projection = PROJECTIONS[name]
    against = Against(projection, state_on, day, early, {})
    for record in against.answer().to_dict()["records"]:
        key = record["why"].partition("/")[2]
        for figure in ("value_then", "value_now", "difference", "price_now", *CAUSES):
            if record[figure] is None:
                continue
            node = why_against(projection, state_on, day, key, figure)
            assert math.isclose(node.value, record[figure], rel_tol=1e-6, abs_tol=1e-6), figure
            check(node)
