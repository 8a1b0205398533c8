"""For any product, jar, gauge and altitude the answer is one printed pair; never a mixture."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from ledger.published import BatchDone, JarsDone, judge, lines_of, load_schedules, published_for
from ledger.reference._read import rows
from ledger.reference.schedules import products

PRODUCTS = st.sampled_from(sorted(products()))
JARS = st.sampled_from(["half-pint", "pint", "1.5-pint", "quart", "half-gallon"])
ALTITUDES = st.one_of(
    st.integers(0, 12000).map(Fraction),
    st.fractions(0, 12000, max_denominator=4),
    st.sampled_from([1000, 1001, 2000, 2001, 3000, 3001, 4000, 4001, 6000, 6001, 8000, 8001]).map(
        Fraction
    ),
)
GAUGES = st.sampled_from(["dial", "weighted", None])


def printed_pairs(product, jar):
    """Return every (minutes, psi) that the packaged table prints, read anew, column by column."""
    out = set()
    for row in rows("schedules"):
        if row["product"] != product or row["jar_size"].replace("_", "-") != jar:
            continue
        for name, value in row.items():
            if not value:
                continue
            if name.startswith("bw_minutes"):
                out.add((int(value), None))
            elif "psi" in name:
                out.add((int(row["minutes"]), int(value)))
    return out


@given(PRODUCTS, JARS, GAUGES, ALTITUDES)
def test_answer_is_one_printed_pair(product, jar, gauge, altitude):
    lines = [s for s in lines_of(product) if s.jar == jar]
    for one in published_for(lines, altitude, gauge):
        assert (one.minutes, one.psi) in printed_pairs(product, jar)
        assert one.low_ft - 1 < altitude
        assert one.high_ft is None or altitude <= one.high_ft
        assert gauge is None or one.schedule.gauge in (None, gauge)


@st.composite
def batches(draw):
    line = draw(st.sampled_from(load_schedules()))
    minutes = draw(st.one_of(st.none(), st.integers(0, 130).map(Fraction)))
    psi = draw(st.one_of(st.none(), st.integers(0, 20).map(Fraction)))
    return BatchDone(
        products()[line.product].names[0],
        line.method,
        (JarsDone(f"{line.jar} jar", 5),),
        minutes=minutes,
        psi=psi,
        gauge=draw(GAUGES) if line.method == "pressure" else None,
        headspace_in=draw(st.one_of(st.none(), st.just(line.headspace_in))),
        pack=draw(st.sampled_from(["hot", "raw", None])),
        altitude_ft=draw(st.one_of(st.none(), ALTITUDES)),
        schedule=line.id,
    )


@given(batches())
def test_shown_figures_are_of_one_line(batch):
    found = judge(batch)
    if found.published["minutes"] is not None and found.schedule is not None:
        line = next(s for s in load_schedules() if s.id == found.schedule)
        pair = (found.published["minutes"], found.published["psi"])
        assert batch.altitude_ft is None or pair in {(c.minutes, c.psi) for c in line.cells}
        assert line.confirmed or found.standing != "as published"


@given(batches(), st.integers(1, 30), st.integers(0, 5))
def test_more_time_or_pressure_never_makes_it_short(batch, more, harder):
    from dataclasses import replace

    reached = ("as published", "beyond it")
    if judge(batch).standing not in reached or batch.minutes is None:
        return
    psi = None if batch.psi is None else batch.psi + harder
    assert judge(replace(batch, minutes=batch.minutes + more, psi=psi)).standing in reached


@given(batches())
def test_as_published_reaches_a_whole_printed_option(batch):
    found = judge(batch)
    if found.standing not in ("as published", "beyond it"):
        return
    lines = [s for s in lines_of(found.products[0], batch.method) if s.pack == batch.pack]
    lines = [s for s in lines if f"{s.jar} jar" == batch.jars[0].jar]
    whole = published_for(lines, batch.altitude_ft, batch.gauge)
    assert any(
        one.confirmed and batch.minutes >= one.minutes and (one.psi is None or batch.psi >= one.psi)
        for one in whole
    )
