"""What a household reads on its own machine is said in German, too: every label, meaning, amount and promise."""

from __future__ import annotations

import pytest
from circle_tools import BEFORE, call_of

from dashboard.words import Words
from ledger.circle.figures import CHANGES, CROP, HOUSEHOLD, PRODUCT
from ledger.circle.merge import DOMINATED, FEW, FEW_HAVE_ANY, LEFTOVER, NO_QUARTILES
from ledger.circle.told import BY_NAME
from ledger.circle.words import CONSENT, amount_said, asked_lines, figure_said, withheld_said
from ledger.messages import sentence

DE = Words("de", "metric", "EUR")
FIGURES = (*HOUSEHOLD, *CHANGES, *PRODUCT, *CROP)
TEXTS = [
    *(sentence(one) for one in CONSENT), *asked_lines(call_of(before=BEFORE)), *(one.label for one in FIGURES), *(one.meaning for one in FIGURES),
    *(one.label for one in BY_NAME.values()), *(withheld_said(one) for one in (DOMINATED, FEW, FEW_HAVE_ANY, LEFTOVER, NO_QUARTILES)),
]  # fmt: skip


@pytest.mark.parametrize("text", TEXTS)
def test_text_has_its_german(text):
    assert DE.said(text) != text


@pytest.mark.parametrize("unit", sorted({one.unit for one in FIGURES} - {"count"}))
def test_amount_has_its_german(unit):
    for value in (143, -3):
        text = amount_said(unit, value, "EUR")
        assert DE.said(text) != text, text


def test_a_figure_at_its_limit_says_so_in_german():
    call = call_of(before=BEFORE)
    name, figure = next((n, f) for n, f in call.figures.items() if f.unit == "hours")
    assert DE.said(figure_said(call, name, figure.high)) == "2.000 Stunden oder mehr"
