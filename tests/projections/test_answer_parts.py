"""Parts of an answer: some rows and one column are those of the whole."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from ledger.projections import Answer, Column

COLUMNS = tuple(Column(name, name, "", "") for name in ("item", "cost.all_in", "cost.lids", "jars"))
CELLS = st.one_of(st.none(), st.floats(allow_infinity=False), st.integers(), st.text(max_size=3))


def answer_of(rows):
    cells = {c.name: [row[i] for row in rows] for i, c in enumerate(COLUMNS)}
    return Answer("shelf", "2026-11-01", None, "USD", COLUMNS, cells)


@given(st.lists(st.tuples(CELLS, CELLS, CELLS, CELLS), max_size=6), st.data())
def test_some_rows_are_those_of_all(rows, data):
    at = data.draw(st.lists(st.integers(0, len(rows) - 1), max_size=4)) if rows else []
    whole = answer_of(rows)
    assert answer_of(rows).rows(at) == [whole.rows()[i] for i in at]
    assert answer_of(rows).records(at) == [whole.records()[i] for i in at]
    for column in COLUMNS:
        assert list(answer_of(rows).column(column.name)) == [
            row[column.name] for row in whole.rows()
        ]


def test_what_is_not_known_is_none_in_every_part():
    one = answer_of([("plum", math.nan, 2.0, None), ("apple", 1.0, math.nan, 3)])
    assert one.column("cost.all_in") == [None, 1.0]
    assert one.records([1]) == [{"item": "apple", "cost": {"all_in": 1.0, "lids": None}, "jars": 3}]
    assert one.rows(range(1)) == [
        {"item": "plum", "cost.all_in": None, "cost.lids": 2.0, "jars": None}
    ]


def test_who_turns_the_list_of_records_round_turns_no_other():
    one = answer_of([("plum", 1.0, 2.0, 3), ("apple", 1.0, 2.0, 3)])
    one.records().reverse()
    assert [record["item"] for record in one.records()] == ["plum", "apple"]
