"""Answers against printed process tables, typed by hand (see `data_processes`), at every band."""

from __future__ import annotations

from fractions import Fraction

import data_processes as printed
import pytest

from ledger.published import lines_of, load_schedules, published_for

JARS = {"P": ("pint",), "Q": ("quart",), "P/Q": ("pint", "quart")}
PACKS = {"both": ("hot", "raw"), "hot": ("hot",), "raw": ("raw",)}
BANDS = {
    "boiling": ((0, 640, 1000), (1001, 2500, 3000), (3001, 5280, 6000), (6001, 7000, 11000)),
    "dial": ((0, 1000, 2000), (2001, 2600, 4000), (4001, 5280, 6000), (6001, 7000, 8000)),
    "weighted": ((0, 640, 1000), (1001, 5280, 9000)),
}


def rows(tables):
    for (source, product), text in tables.items():
        for line in text.strip().splitlines():
            pack, jar, *figures = line.split()
            yield source, product, pack, jar, figures


def boiling_cells():
    for source, product, pack, jar, figures in rows(printed.BOILING):
        minutes = figures if len(figures) == 4 else [figures[0], figures[1], figures[1], figures[2]]
        for one_pack in PACKS[pack]:
            for one_jar in JARS.get(jar, (jar,)):
                for band, figure in zip(BANDS["boiling"], minutes, strict=True):
                    yield product, one_pack, one_jar, band, int(figure), source


def pressure_cells(tables, gauge):
    for source, product, pack, jar, (minutes, *figures) in rows(tables):
        for one_pack in PACKS[pack]:
            for one_jar in JARS.get(jar, (jar,)):
                for band, psi in zip(BANDS[gauge], figures, strict=True):
                    yield product, one_pack, one_jar, band, int(minutes), psi, source


BOILING = list(boiling_cells())
DIAL = list(pressure_cells(printed.DIAL, "dial"))
WEIGHTED = list(pressure_cells(printed.WEIGHTED, "weighted"))


def answers(product, method, pack, jar, altitude, gauge=None):
    lines = [s for s in lines_of(product, method) if (s.pack, s.jar) == (pack, jar)]
    return {(p.minutes, p.psi) for p in published_for(lines, altitude, gauge)}


@pytest.mark.parametrize(("product", "pack", "jar", "band", "minutes", "source"), BOILING)
def test_boiling_water_as_printed(product, pack, jar, band, minutes, source):
    for altitude in band:
        found = {
            (p, None)
            for p, psi in answers(product, "boiling water", pack, jar, altitude)
            if psi is None
        }
        assert found == {(minutes, None)}, (source, altitude)


@pytest.mark.parametrize(("product", "pack", "jar", "band", "minutes", "psi", "source"), DIAL)
def test_dial_gauge_as_printed(product, pack, jar, band, minutes, psi, source):
    for altitude in band:
        found = answers(product, "pressure", pack, jar, altitude, "dial")
        assert (minutes, int(psi)) in found, (source, altitude)


@pytest.mark.parametrize(("product", "pack", "jar", "band", "minutes", "psi", "source"), WEIGHTED)
def test_weighted_gauge_as_printed(product, pack, jar, band, minutes, psi, source):
    for altitude in band:
        found = answers(product, "pressure", pack, jar, altitude, "weighted")
        if psi == "NR":
            assert all(m != minutes for m, _ in found), (source, altitude)
        else:
            assert (minutes, int(psi)) in found, (source, altitude)


@pytest.mark.parametrize(("gauge", "cells"), [("dial", DIAL), ("weighted", WEIGHTED)])
def test_nothing_is_answered_that_is_not_printed(gauge, cells):
    wanted = {}
    for product, pack, jar, band, minutes, psi, _ in cells:
        here = wanted.setdefault((product, pack, jar, band[1]), set())
        if psi != "NR":
            here.add((minutes, int(psi)))
    for (product, pack, jar, altitude), pairs in wanted.items():
        assert answers(product, "pressure", pack, jar, altitude, gauge) == pairs


def test_more_than_two_hundred_cells_cover_everything():
    assert len(BOILING) + len(DIAL) + len(WEIGHTED) > 200
    typed = {(p, "boiling water", None, pack, jar) for p, pack, jar, *_ in BOILING}
    typed |= {(p, "pressure", "dial", pack, jar) for p, pack, jar, *_ in DIAL}
    typed |= {(p, "pressure", "weighted", pack, jar) for p, pack, jar, *_ in WEIGHTED}
    held = {(s.product, s.method, s.gauge, s.pack, s.jar) for s in load_schedules()}
    assert typed <= held
    first = {product for product, *_ in typed}
    assert {one for one in held if one[0] in first} == typed


@pytest.mark.parametrize(("product", "inches"), printed.HEADSPACE.items())
def test_headspace_as_printed(product, inches):
    assert {s.headspace_in for s in lines_of(product)} == {Fraction(inches)}


@pytest.mark.parametrize("jar", ["pint", "quart"])
def test_acid_for_tomatoes_as_printed(jar):
    lemon, citric, vinegar = printed.ACID[jar]
    for line in load_schedules():
        if line.acids and line.jar == jar and line.product.startswith("tomato"):
            shown = {acid: f"{amount} {unit}" for acid, amount, unit in line.acids}
            assert shown == {"lemon juice": lemon, "citric acid": citric, "vinegar 5%": vinegar}
    assert sum(bool(s.acids) and s.jar == jar for s in load_schedules()) > 30


def test_worked_example_of_the_bulletin():
    """Guide 1's example: peaches, hot pack, quarts, at 2,500 ft: 30 minutes; dial: 10 at 7 lb."""
    assert answers("peaches", "boiling water", "hot", "quart", 2500) == {(30, None)}
    assert answers("peaches", "pressure", "hot", "quart", 2500, "dial") == {(10, 7)}
    assert answers("peaches", "pressure", "hot", "quart", 2500, "weighted") == {(10, 10)}
