"""Colours: enough contrast with the paper, and apart from each other for people who see fewer.

Contrast and relative luminance: Web Content Accessibility Guidelines 2.2 (W3C Recommendation), success
criteria 1.4.3 (4.5 to 1 for text) and 1.4.11 (3 to 1 for graphical objects), and its glossary's formulas.
Colour blindness: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for
Simulation of Color Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (6),
2009, pp. 1291-1298: their published matrices for severity 1.0, applied to linear RGB.
Distance: CIE 1976 L*a*b*, Euclidean (ISO/CIE 11664-4:2019), white point D65; sRGB by IEC 61966-2-1:1999.
"""

from __future__ import annotations

import itertools
import re
from pathlib import Path

import numpy as np
import pytest

from dashboard import look, static, theme
from dashboard.pages._label_stock import STOCKS
from dashboard.theme import INK, ORIGIN_COLOURS, PAPER, QUIET, SERIES, component_colour

SCHEMES = ("light", "dark")
SEEN_BY = {
    "everybody else": np.eye(3),
    "protanopia": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deuteranopia": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritanopia": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}  # fmt: skip
XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
WHITE = XYZ.sum(axis=1)
"""D65, as the sRGB white gives it."""
APART = 10.0
"""Distance between neighbours: about four just noticeable differences of 2.3 (M. Mahy, L. Van Eycken and
A. Oosterlinck, "Evaluation of uniform color spaces developed after the adoption of CIELAB and CIELUV",
Color Research and Application 19, 1994). That a stack needs four is our own choice."""


def linear(colour):
    srgb = np.array([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    return np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)


def luminance(colour):
    return float(linear(colour) @ [0.2126, 0.7152, 0.0722])


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def lab(colour, seen):
    t = (XYZ @ np.clip(seen @ linear(colour), 0, 1)) / WHITE
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def distance(one, other, seen):
    return float(np.linalg.norm(lab(one, seen) - lab(other, seen)))


def test_formulas_give_their_published_values():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2: from 1 to 21
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # W3C's note on 1.4.3
    assert lab("#ffffff", np.eye(3)) == pytest.approx([100, 0, 0], abs=1e-6)
    for seen in SEEN_BY.values():  # grey stays grey: each row of a matrix sums to one
        assert seen.sum(axis=1) == pytest.approx([1, 1, 1], abs=2e-6)
    red, green = "#ff0000", "#00a000"
    assert distance(red, green, SEEN_BY["deuteranopia"]) < distance(red, green, np.eye(3)) / 2


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("n", range(8))
def test_series_stand_out_from_the_paper(scheme, n):
    assert contrast(SERIES[scheme][n], PAPER[scheme]) >= 3


@pytest.mark.parametrize("scheme", SCHEMES)
def test_text_can_be_read(scheme):
    assert contrast(INK[scheme], PAPER[scheme]) >= 7
    assert contrast(QUIET[scheme], PAPER[scheme]) >= 4.5


def stacks(scheme):
    """Return the colours that lie beside each other in a picture, by what the picture shows."""
    series = SERIES[scheme]
    parts = [component_colour(name, scheme) for name in theme._COMPONENTS]
    return {
        "what a jar cost": parts,
        "where food came from": [ORIGIN_COLOURS[scheme][name] for name in theme._ORIGINS],
        "series in their order": list(series),
        "what became of a harvest": [series[i] for i in (1, 0, 3, 4, 5, 2)],
        "age of jars": [series[i] for i in (1, 2, 4)],
        "money in and out": [series[i] for i in (1, 2, 0)],
        "this season, last, earlier": [series[i] for i in (1, 0, 7)],
        "well and not": [series[i] for i in (1, 4)],
    }


@pytest.mark.parametrize("seen", SEEN_BY)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_neighbours_in_a_stack_are_told_apart(scheme, seen):
    near = {
        (what, one, other): round(distance(one, other, SEEN_BY[seen]), 1)
        for what, colours in stacks(scheme).items()
        for one, other in itertools.pairwise(colours)
        if distance(one, other, SEEN_BY[seen]) < APART
    }
    assert near == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_no_two_series_are_the_same_to_anybody(scheme):
    """A stack may leave one out: whatever then lies side by side still differs, if less."""
    for seen in SEEN_BY.values():
        for one, other in itertools.combinations(SERIES[scheme], 2):
            assert distance(one, other, seen) > 2.3


def test_style_sheet_has_the_same_colours():
    """One palette: the pages' style sheet names the theme's paper and ink."""
    made = look.sheet()
    for scheme, colours in theme.TOKENS.items():
        assert all(f"--{name}:{colour};" in made for name, colour in colours.items()), scheme
    css = (Path(static.ASSETS) / "croft.css").read_text("utf-8")
    named = set(re.findall(r"var\(--([\w-]+)", css))
    measures = {name.removeprefix("--") for one in STOCKS.values() for name in one.style}
    tokens = set(theme.TOKENS["light"])  # a red card gives some of them colours of its own
    own = (
        set(re.findall(r"--([\w-]+):", css)) - tokens | measures
    )  # a sheet of labels gives its own
    assert named - own == named & tokens  # none that nobody gives a colour
    assert set(theme.TOKENS["light"]) == set(theme.TOKENS["dark"])
    assert re.findall(r"url\(\s*['\"]?https?:", css + made) == []


@pytest.mark.parametrize("scheme", SCHEMES)
def test_tokens_keep_their_contrast(scheme):
    """Text at 4.5 to 1 and what is pressed or counted at 3 to 1, on the paper that it stands on."""
    token = theme.TOKENS[scheme]
    for text in ("ink", "quiet", "leaf", "damson", "straw-ink", "frost"):
        assert contrast(token[text], token["paper"]) >= 4.5, text
        assert contrast(token[text], token["sheet"]) >= 4.5, text
    for text, ground in (("on-leaf", "leaf"), ("on-danger", "danger"), ("on-mark", "danger-mark")):
        assert contrast(token[text], token[ground]) >= 4.5, text
    for shape in ("edge", "a1", "a2", "a4", "a5", "danger-mark"):
        assert contrast(token[shape], token["paper"]) >= 3, shape
