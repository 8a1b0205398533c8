"""Food that its name alone puts under oil or fat: judging rule 9, after Oklahoma State (2 to 4 days in the fridge)."""

from __future__ import annotations

import pytest

from ledger.published import batch_as_typed, caution_before


def caution(makes, method="cook", kept="fridge", **more):
    made = [{"jars": 2, "jar": "half-pint jar", "kept": kept}]
    return caution_before(batch_as_typed({"makes": makes, "method": method, "made": made, **more}))


@pytest.mark.parametrize(
    "makes",
    [
        "rosemary oil", "garlic oil", "infused garlic oil", "herb oil", "chili oil", "oil with herbs",
        "duck confit", "Entenconfit", "basil pesto", "feta in olive oil", "Kräuteröl", "Knoblauchöl", "rillettes",
    ],
)  # fmt: skip
@pytest.mark.parametrize("kept", ["fridge", "shelf", "cellar"])
def test_it_is_cautioned_wherever_it_stands(makes, kept):
    assert "under oil or fat" in caution(makes, kept=kept)


@pytest.mark.parametrize(
    "makes", ["olive oil", "walnut oil", "sunflower oil", "plum jam", "fish oil"]
)
def test_pressed_oil_in_the_fridge_is_none_of_it(makes):
    assert caution(makes) is None


def test_frozen_pesto_is_the_published_way():
    assert caution("basil pesto", "freeze", "freezer") is None


def test_a_note_of_fat_over_it_is_read():
    assert "under oil or fat" in caution("beef", note="covered with lard")
    assert caution("beef", note="browned in lard") is None
