"""Answers against more printed process tables and recipes, typed by hand (`data_processes_more`)."""

from __future__ import annotations

import re
from fractions import Fraction

import data_processes_more as printed
import pytest

from ledger.published import lines_of, load_schedules, published_for
from ledger.reference.bounds import bounds_of

JARS = {
    "H": ("half-pint",), "P": ("pint",), "Q": ("quart",), "P/Q": ("pint", "quart"),
    "H/P": ("half-pint", "pint"),
}  # fmt: skip
PACKS = {"both": ("hot", "raw"), "hot": ("hot",), "raw": ("raw",), "any": (None,)}
#: lowest and highest altitude of each printed band, in feet
BANDS = {
    "boiling": ((0, 1000), (1001, 3000), (3001, 6000), (6001, 11000)),
    "dial": ((0, 2000), (2001, 4000), (4001, 6000), (6001, 8000)),
    "weighted": ((0, 1000), (1001, 9000)),
}


def cells(tables, gauge):
    """Yield every printed cell: product, pack, jar, altitudes, minutes, psi, source."""
    for (source, product), text in tables.items():
        for line in text.strip().splitlines():
            pack, jar, *figures = line.split()
            if gauge == "boiling":
                minutes = [*figures[:2], *figures[-2:]] if len(figures) == 3 else figures
                pairs = [(int(one), None) for one in minutes]
            else:
                pairs = [(int(figures[0]), int(psi)) for psi in figures[1:]]
            for band, pair in zip(BANDS[gauge], pairs, strict=True):
                for one_pack in PACKS[pack]:
                    for one_jar in JARS[jar]:
                        yield product, one_pack, one_jar, band, pair, source


BOILING = list(cells(printed.BOILING, "boiling"))
DIAL = list(cells(printed.DIAL, "dial"))
WEIGHTED = list(cells(printed.WEIGHTED, "weighted"))


def answers(product, method, pack, jar, altitude, gauge=None):
    lines = [
        one
        for one in lines_of(product, method)
        if one.jar == jar and (pack is None or one.pack == pack)
    ]
    return {
        (one.minutes, one.psi)
        for one in published_for(lines, altitude, gauge)
        if (one.psi is None) == (gauge is None)
    }


@pytest.mark.parametrize(("product", "pack", "jar", "band", "pair", "source"), BOILING)
def test_boiling_water_as_printed(product, pack, jar, band, pair, source):
    for altitude in band:
        assert answers(product, "boiling water", pack, jar, altitude) == {pair}, source


@pytest.mark.parametrize(("product", "pack", "jar", "band", "pair", "source"), DIAL)
def test_dial_gauge_as_printed(product, pack, jar, band, pair, source):
    for altitude in band:
        assert answers(product, "pressure", pack, jar, altitude, "dial") == {pair}, source


@pytest.mark.parametrize(("product", "pack", "jar", "band", "pair", "source"), WEIGHTED)
def test_weighted_gauge_as_printed(product, pack, jar, band, pair, source):
    for altitude in band:
        assert answers(product, "pressure", pack, jar, altitude, "weighted") == {pair}, source


def lines(text):
    return [line.split(maxsplit=3) for line in text.strip().splitlines()]


@pytest.mark.parametrize(("product", "pack", "jar", "inches"), lines(printed.HEADSPACE))
def test_headspace_as_printed(product, pack, jar, inches):
    found = {
        one.headspace_in
        for one in load_schedules()
        if one.product == product
        and one.jar in JARS[jar]
        and one.pack in {*PACKS[pack], "unstated"}
    }
    assert found == {Fraction(inches)}


@pytest.mark.parametrize(("product", "jar", "acid", "amount"), lines(printed.JAR_ACID))
def test_acid_of_a_jar_as_printed(product, jar, acid, amount):
    number, unit = amount.split()
    found = [
        (Fraction(figure), measure)
        for one in load_schedules()
        if one.product == product and one.jar in JARS[jar]
        for name, figure, measure in one.acids
        if acid in name
    ]
    assert set(found) == {(Fraction(number), unit)}


def recipe_parts():
    for (source, product), text in printed.RECIPES.items():
        basis, *parts = (part.strip() for part in text.split(";"))
        for part in parts:
            yield product, basis, part, source


@pytest.mark.parametrize(("product", "basis", "part", "source"), list(recipe_parts()))
def test_recipe_bounds_as_printed(product, basis, part, source):
    """A bound may be stricter than the page, never looser."""
    amount, unit, main = _amount(basis)
    sign, text = part.split(" ", 1)
    figure, measure, food = _amount(text)
    wanted = {">=": "at_least", "<=": "at_most"}[sign]
    found = [
        one
        for one in bounds_of(product)
        if one.bound == wanted and food in " ".join(one.names) and one.basis_part == main
    ]
    assert found, (source, "no such bound")
    for one in found:
        assert (one.basis, one.basis_unit) == (amount, unit), source
        assert one.unit.split()[0] == measure
        assert (one.amount >= figure) if sign == ">=" else (one.amount <= figure), source


def _amount(text):
    found = re.fullmatch(r"(\d+)?(?: ?(\d+/\d+))? (lb|cup|clove) (.+)", text)
    return sum(Fraction(one) for one in found.groups()[:2] if one), found[3], found[4]


def test_enough_cells_are_typed_by_hand():
    typed = len(BOILING) + len(DIAL) + len(WEIGHTED) + len(list(recipe_parts()))
    typed += len(lines(printed.HEADSPACE)) + len(lines(printed.JAR_ACID))
    assert typed >= 150
