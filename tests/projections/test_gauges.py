"""A gauge found off: its loads are judged again at their true pressure.

Iowa State University Extension (about 2015) and University of Missouri Extension (about 2020): adjust
up to 2 psi, replace beyond; a gauge that reads high under-processes; weighted gauges are not tested so.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jars_in_danger import YES, put_up, stands

from ledger.errors import InputError
from ledger.questions.shared.gauges import GaugeTest, recalled

pytestmark = pytest.mark.usefixtures("fixed_day")


def write_test(book, reads, on="2026-10-01", gauge="dial", **more):
    return book.write("gauge_tested", gauge=gauge, reads=reads, on=on, **more)


def psi_of(book, batch):
    (record,) = book.show("as-published", batch=batch).records()
    found = next(
        one
        for one in record["findings"]
        if one["field"] in ("psi", "gauge") and "tested" in one["text"]
    )
    return record["done"]["psi"], found


@pytest.mark.parametrize(
    ("psi", "reads", "true", "standing"),
    [
        ("11", "+1 psi", 10, "short of it"),
        ("11", "+0.5", 10.5, "short of it"),
        ("12", "+1 psi", 11, "as published"),
        ("13", "+2 psi", 11, "as published"),
        ("13", "+2.5 psi", 10.5, "short of it"),
        ("15", "+3 psi", 12, "short of it"),  # beyond 2 psi: as a whole, though 12 would reach 11
        ("80 kPa", "+1 psi", pytest.approx(10.603, abs=1e-3), "short of it"),
    ],
)
def test_load_is_judged_at_its_true_pressure(book, psi, reads, true, standing):
    batch = put_up(book, but={"psi": psi})
    write_test(book, reads)
    assert stands(book, batch)[0] == standing
    done, found = psi_of(book, batch)
    assert done == true
    assert "too high when it was tested on 2026-10-01" in found["text"]
    assert book.why(f"as-published/{batch}", "done.psi").value is not None


@pytest.mark.parametrize("reads", ["-1 psi", "-3", "0", "0 psi"])
def test_right_or_low_makes_nothing_worse(book, reads):
    batch = put_up(book)
    write_test(book, reads)
    assert stands(book, batch)[0] == "as published"


def test_loads_since_the_last_right_test_only(book):
    write_test(book, "0", on="2026-06-01")
    before, since = put_up(book, on="2026-05-20"), put_up(book, on="2026-07-01")
    later = put_up(book, on="2026-10-20")
    write_test(book, "+2 psi", on="2026-10-01")
    assert [stands(book, one)[0] for one in (before, since, later)] == [
        "as published",
        "short of it",
        "short of it",
    ]
    write_test(book, "0", on="2026-10-10")  # replaced
    assert [stands(book, one)[0] for one in (before, since, later)] == [
        "as published",
        "short of it",
        "as published",
    ]


def test_struck_test_is_as_if_never_written(book):
    batch = put_up(book)
    book.strike(write_test(book, "+2 psi").event.id, "another canner")
    assert stands(book, batch)[0] == "as published"


def test_weighted_gauges_are_not_recalled(book):
    weighted = {"gauge": "weighted", "psi": "10"}
    batch = put_up(book, but=weighted)
    write_test(book, "+3 psi")
    assert stands(book, batch)[0] == "as published"
    assert book.show("touched", gauge="dial").frame.empty


def test_gauge_by_name_takes_its_own_loads_and_those_of_nobody_knows_which(book):
    for name in ("big canner", "small canner"):
        book.write(
            "bought", item=name, amount="1", paid="90", years="20", on="2026-01-01", answers=YES
        )
    big, small, none = (
        put_up(book, but=more)
        for more in ({"equipment": ["big canner"]}, {"equipment": ["small canner"]}, {})
    )
    write_test(book, "+2 psi", gauge="big canner")
    assert [stands(book, one)[0] for one in (big, small, none)] == [
        "short of it",
        "as published",
        "short of it",
    ]
    found = set(book.show("touched", gauge="big canner").frame["batch"])
    assert found == {big, none}


@pytest.mark.parametrize(
    ("reads", "kept"),
    [("+2 psi", "+2 psi"), ("+2", "+2 psi"), ("−1.5 psi", "-1.5 psi"), ("2 psi high", "+2 psi"), ("1/2 low", "-0.5 psi"),
     ("+1,5", "+1.5 psi"), ("0", "0 psi"), ("+0 psi", "0 psi")],
)  # fmt: skip
def test_reading_is_kept_signed(book, reads, kept):
    assert write_test(book, reads).body["reads"] == kept


@pytest.mark.parametrize(
    "reads",
    [
        "2 psi",
        "high",
        "+14 kPa",
        "+0.1 bar",
        "+140 mbar",
        "+30 psi",
        "+2 psi low",
        "-1 high",
        "+1/0",
        "+1e3",
        "x" * 100,
    ],
)
def test_reading_that_is_none_is_refused_by_its_field(book, reads):
    with pytest.raises(InputError) as caught:
        write_test(book, reads)
    assert caught.value.field == "reads"
    assert caught.value.wanted
    assert book.log.position() == 0


@pytest.mark.parametrize("gauge", ["weighted", "the weighted one", "canner", "plum"])
def test_gauge_that_is_none_is_refused_by_its_field(book, gauge):
    book.write("harvested", item="plum", amount="3 lb", on="2026-09-01")
    with pytest.raises(InputError) as caught:
        write_test(book, "+1 psi", gauge=gauge)
    assert caught.value.field == "gauge"


DAYS = st.lists(st.tuples(st.integers(0, 30), st.sampled_from([-1, 0, 1, 2, 3])), max_size=6)


@given(DAYS, st.integers(-2, 32))
def test_recall_never_misses_a_load_between_a_right_test_and_a_wrong_one(pairs, day):
    tests = [
        GaugeTest(n, at, "dial", "dial", high)
        for n, (at, high) in enumerate(sorted(pairs, key=lambda p: p[0]))
    ]
    found = recalled(tests, day)
    worst = 0
    for one in tests:  # the rule, word by word
        right_between = any(r.is_right and day < r.day <= one.day and r.ev < one.ev for r in tests)
        if one.high > 0 and one.day >= day and not right_between:
            worst = max(worst, one.high)
    before = [one for one in tests if one.day < day]
    if before and before[-1].high > 0 and not any(t.day == day for t in tests):
        worst = max(worst, before[-1].high)
    assert worst == 0 or (found is not None and found.high >= worst)
    if all(one.is_right for one in tests):
        assert found is None
