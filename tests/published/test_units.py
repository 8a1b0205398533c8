"""Unit factors as published, typed from the sources; C1: UCUM 2.2 (2024), C3: NIST SP 811 (2008),
C5: AS 1325 and kitchen practice, C6: US EIA units and calculators."""

from fractions import Fraction as F

import pytest

from ledger.amounts import canonical, parse_amount, parse_measure, unit_factor

# (as people write it, published factor, published base unit, source)
FACTORS = [
    ("cubic inch", "16.387064", "ml", "C1"),
    ("gallon", "3785.411784", "ml", "C1"),
    ("quart", "946.352946", "ml", "C1"),
    ("pint", "473.176473", "ml", "C1"),
    ("cup", "236.5882365", "ml", "C1"),
    ("gill", "118.29411825", "ml", "C1"),
    ("fl oz", "29.5735295625", "ml", "C1"),
    ("tbsp", "14.78676478125", "ml", "C1"),
    ("tsp", "4.92892159375", "ml", "C1"),
    ("fluid dram", "3.6966911953125", "ml", "C1"),
    ("bushel", "35239.07016688", "ml", "C1"),
    ("peck", "8809.76754172", "ml", "C1"),
    ("dry quart", "1101.220942715", "ml", "C1"),
    ("dry pint", "550.6104713575", "ml", "C1"),
    ("bbl", "158987.294928", "ml", "C1"),
    ("cubic foot", "28316.846592", "ml", "C1"),
    ("imperial gallon", "4546.09", "ml", "C1"),
    ("uk quart", "1136.5225", "ml", "C1"),
    ("uk pint", "568.26125", "ml", "C1"),
    ("uk gill", "142.0653125", "ml", "C1"),
    ("uk fl oz", "28.4130625", "ml", "C1"),
    ("uk peck", "9092.18", "ml", "C1"),
    ("uk bushel", "36368.72", "ml", "C1"),
    ("metric cup", "250", "ml", "C5"),
    ("metric tbsp", "15", "ml", "C5"),
    ("au tbsp", "20", "ml", "C5"),
    ("metric tsp", "5", "ml", "C5"),
    ("japan cup", "200", "ml", "C5"),
    ("liter", "1000", "ml", "C1"),
    ("ml", "1", "ml", "C1"),
    ("grain", "0.06479891", "g", "C1"),
    ("dram", "1.7718451953125", "g", "C1"),
    ("oz", "28.349523125", "g", "C1"),
    ("lb", "453.59237", "g", "C1"),
    ("stone", "6350.29318", "g", "C1"),
    ("cwt", "45359.237", "g", "C1"),
    ("uk cwt", "50802.34544", "g", "C1"),
    ("ton", "907184.74", "g", "C1"),
    ("uk ton", "1016046.9088", "g", "C1"),
    ("kg", "1000", "g", "C1"),
    ("joule", "1", "J", "C1"),
    ("kWh", "3600000", "J", "C1"),
    ("BTU", "1055.05585262", "J", "C1"),
    ("btu th", "1054.35", "J", "C1"),
    ("kcal", "4184", "J", "C1"),
    ("kcal it", "4186.8", "J", "C1"),
    ("therm", "105505585.262", "J", "C6"),
]
PER_BASE = {"ml": 1000, "g": 1000, "J": 1}


@pytest.mark.parametrize(("spelled", "factor", "base", "source"), FACTORS)
def test_factor_is_the_published_one_exactly(spelled, factor, base, source):
    unit = canonical(spelled)
    assert unit_factor(unit)[1] == F(factor) * PER_BASE[base], source


# Lengths and areas, in cm and m2 as printed (C1; acre C3).
@pytest.mark.parametrize(
    ("text", "wanted", "metres"),
    [
        ("1 in", "length", F("2.54") / 100),
        ("1 ft", "length", F("30.48") / 100),
        ("1 sq ft", "area", F("0.09290304")),
        ("1 sq yd", "area", F("0.83612736")),
        ("1 acre", "area", F("4046.8564224")),
    ],
)
def test_lengths_and_areas_are_exact(text, wanted, metres):
    assert parse_measure(text, wanted) == metres


# The label measures of 21 CFR 101.9(b)(5)(viii) are not kitchen measures: the bare words must not
# mean them (cup 240 ml, tablespoon 15, teaspoon 5, fluid ounce 30 ml, ounce 28 g; C2), nor SR28's
# rounded pound of 453.6 g (A2).
@pytest.mark.parametrize(
    ("spelled", "label_value"),
    [("cup", 240), ("tbsp", 15), ("tsp", 5), ("fl oz", 30), ("oz", 28), ("lb", F("453.6"))],
)
def test_bare_words_do_not_mean_label_measures(spelled, label_value):
    assert unit_factor(canonical(spelled))[1] != F(label_value) * 1000


# Heat contents of US EIA (C6): a rounded kWh of 3,412 BTU, a therm of 100,000 BTU, 3.9683 BTU per
# food calorie; ours must round to what is printed.
@pytest.mark.parametrize(
    ("unit", "btu", "digits"), [("kWh", 3412, 0), ("therm", 100000, 0), ("kcal", 3.9657, 4)]
)
def test_heat_contents_agree_with_printed_digits(unit, btu, digits):
    ratio = unit_factor(unit)[1] / unit_factor("BTU")[1]
    assert round(float(ratio), digits) == pytest.approx(btu, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        # 4 pecks and 32 dry quarts are a bushel (B9, University of Illinois Extension, 2009)
        ("4 pecks", 35239070),
        ("32 dry quarts", 35239070),
        # 20 imperial fluid ounces are a pint, 16 US ones (C1)
        ("20 uk fl oz", 568261),
        ("16 fl oz", 473176),
        # 7,000 grains, 16 ounces, 256 drams are a pound (C1)
        ("7000 grains", 453592),
        ("16 oz", 453592),
        ("256 drams", 453592),
        ("2000 lb", 907184740),
    ],
)
def test_whole_units_round_once(text, whole):
    assert parse_amount(text).whole == whole
